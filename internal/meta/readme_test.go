package meta

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

// commands returns the lines of a Markdown text's fenced blocks that start with
// a word, without the prompt.
func commands(text, word string) []string {
	var out []string
	fenced := false
	for l := range strings.Lines(text) {
		l = strings.TrimSpace(l)
		if strings.HasPrefix(l, "```") {
			fenced = !fenced
			continue
		}
		l = strings.TrimPrefix(l, "$ ")
		if fenced && strings.HasPrefix(l, word) {
			out = append(out, l)
		}
	}
	return out
}

// What the README tells a newcomer to type is what the checks run, word for
// word: its first test command and its first demo command.
func TestReadmeCommandsAreRun(t *testing.T) {
	text := map[string]string{}
	for _, f := range repositoryFiles(t) {
		text[f.path] = f.text
	}
	run, ok := text[".ci/run"]
	if !ok {
		t.Fatal("no .ci/run")
	}
	for _, word := range []string{"go test ", "go run "} {
		cs := commands(text["README.md"], word)
		if len(cs) == 0 {
			t.Errorf("README.md: no command that starts with %q in a fenced block", word)
			continue
		}
		whole := regexp.MustCompile(`(?m)(?:^|[\s"'])` + regexp.QuoteMeta(cs[0]) + `(?:$|["'\s])`)
		if !whole.MatchString(run) {
			t.Errorf(".ci/run does not run README.md's %q", cs[0])
		}
	}
}

func TestCommands(t *testing.T) {
	text := "go test not fenced\n```sh\n$ go test ./...\n  go test -short\ngo run x\n```\ngo test no\n"
	if got := commands(text, "go test "); !slices.Equal(got, []string{"go test ./...", "go test -short"}) {
		t.Errorf("commands = %q", got)
	}
}
