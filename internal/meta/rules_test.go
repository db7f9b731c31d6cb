package meta

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// machinePath is a folder of one machine. A web address is none: there the
// slash follows a letter. The pattern is in pieces so as not to find itself.
var machinePath = regexp.MustCompile(`(?:^|[^\w.~)/-])/(?:` + strings.Join([]string{"work", "root", "home", "Users", "farm"}, "|") + `)/`)

// temporaryPath is the folder for temporary files: tests and scripts ask the
// system for it.
var temporaryPath = regexp.MustCompile(`(?:^|[^\w.~)/-])/` + `tmp/`)

// unfinished is the mark of something left undone; explained is one that says
// what is missing.
var (
	unfinished = regexp.MustCompile(`\b(?:TO` + `DO|FIX` + `ME|XX` + `X)\b`)
	explained  = regexp.MustCompile(`\b(?:TO` + `DO|FIX` + `ME|XX` + `X)(?:\([^)]+\))?: \S+(?: \S+){3,}`)
)

func TestNoMachinePaths(t *testing.T) {
	for _, f := range repositoryFiles(t) {
		for i, l := range strings.Split(f.text, "\n") {
			if machinePath.MatchString(l) || !f.test() && temporaryPath.MatchString(l) {
				t.Errorf("%s:%d: a path of one machine: %s", f.path, i+1, l)
			}
		}
	}
}

func TestUnfinishedIsExplained(t *testing.T) {
	for _, f := range repositoryFiles(t) {
		if strings.HasSuffix(f.path, "go.sum") { // check sums can hold any letters
			continue
		}
		for i, l := range strings.Split(f.text, "\n") {
			if unfinished.MatchString(l) && !explained.MatchString(l) {
				t.Errorf("%s:%d: says that something is undone, but not what and why: %s", f.path, i+1, l)
			}
		}
	}
}

// The patterns must find what they should, and nothing else.
func TestPatterns(t *testing.T) {
	slash := "/"
	for _, c := range []struct {
		text string
		path bool
	}{
		{"open(\"" + slash + "work/main/x\")", true},
		{slash + "root/go", true},
		{"in " + slash + "home/ann/x.yaml", true},
		{"https://example.org" + slash + "work/page", false},
		{"at the foot of " + slash + "sheets" + slash + "work" + slash, false},
		{"flow" + slash + "work" + slash + "head", false},
	} {
		if got := machinePath.MatchString(c.text); got != c.path {
			t.Errorf("machinePath on %q = %v", c.text, got)
		}
	}
	mark := "TO" + "DO"
	for _, c := range []struct {
		text       string
		mark, says bool
	}{
		{"// " + mark, true, false},
		{"// " + mark + ": later", true, false},
		{"// " + mark + ": read again once the standard is at hand", true, true},
		{"what " + mark + "S means", false, false},
	} {
		if m, e := unfinished.MatchString(c.text), explained.MatchString(c.text); m != c.mark || e != c.says {
			t.Errorf("on %q: found %v, explained %v", c.text, m, e)
		}
	}
}

// longest is the most lines of a file that is written by hand: what can be read
// at one sitting. Half of it is the aim.
const longest = 500

func TestFileLength(t *testing.T) {
	written := []string{".go", ".ts", ".tsx", ".css", ".html", ".sh", ".ci/run"}
	for _, f := range repositoryFiles(t) {
		byHand := slices.ContainsFunc(written, func(end string) bool { return strings.HasSuffix(f.path, end) })
		if !byHand || f.testdata() || f.generated() || strings.Contains("/"+f.path, "/dist/") {
			continue
		}
		if n := f.lines(); n > longest {
			t.Errorf("%s: %d lines, at most %d: split it by subject", f.path, n, longest)
		}
	}
}
