package design

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"rillwright/finding"
)

// Format is the version of the file format that this program writes.
const Format = 1

// migration turns the text of a file of one version into that of the next. It
// must keep every line on its number, so that findings about the result point
// to the right line of the file on disk.
type migration struct {
	from  int
	what  string // what changed, for the reader of the finding
	apply func([]byte) ([]byte, error)
}

// migrations lists the steps, one for each version that has been superseded, in
// order. Format 1 is the first, so that there is none yet.
func migrations() []migration { return nil }

// current returns the text in the present format. A file of an older version
// is brought up to date in memory and a note says so; one of a version that is
// not known is refused and ok is false. A file whose version cannot be seen is
// returned as it is, for the decoder to complain of.
func current(file string, data []byte, steps []migration) (now []byte, list finding.List, ok bool) {
	version, at := versionOf(data)
	if at.Line == 0 || version == Format {
		return data, nil, true
	}
	c := checker{file: file}
	oldest := Format
	for _, s := range steps {
		oldest = min(oldest, s.from)
	}
	switch {
	case version > Format:
		c.report(at, "rillwright", fmt.Sprintf("the file is in format %d, and this program reads up to format %d", version, Format), "use a newer rillwright")
	case version < oldest:
		c.report(at, "rillwright", fmt.Sprintf("there is no format %d", version), fmt.Sprintf("write %q", "rillwright: "+strconv.Itoa(Format)))
	}
	if len(c.list) > 0 {
		c.list[0].Excerpt = lineOf(data, at.Line)
		return nil, c.list, false
	}
	now = data
	var changes []string
	for v := version; v < Format; v++ {
		for _, s := range steps {
			if s.from != v {
				continue
			}
			next, err := s.apply(now)
			if err == nil && bytes.Count(next, []byte("\n")) != bytes.Count(now, []byte("\n")) {
				err = fmt.Errorf("the step from format %d moves lines", v)
			}
			if err != nil {
				c.report(at, "rillwright", fmt.Sprintf("the file is in format %d and cannot be brought to format %d: %v", version, Format, err), "write it anew from the starter file")
				c.list[0].Excerpt = lineOf(data, at.Line)
				return nil, c.list, false
			}
			now = next
			changes = append(changes, s.what)
		}
	}
	c.report(at, "rillwright", fmt.Sprintf("the file is in format %d and was read as format %d", version, Format), "what changed: "+strings.Join(changes, "; "))
	c.list[0].Severity = finding.Note
	c.list[0].Excerpt = lineOf(data, at.Line)
	return now, c.list, true
}

// versionOf finds the line "rillwright: 1" without parsing the file, which may
// be of a format that cannot be parsed. The zero Pos means that there is none.
func versionOf(data []byte) (int, Pos) {
	n := 0
	for line := range bytes.SplitSeq(data, []byte("\n")) {
		n++
		rest, ok := strings.CutPrefix(strings.TrimPrefix(string(line), "\ufeff"), "rillwright:")
		if !ok {
			continue
		}
		value := strings.TrimLeft(rest, " ")
		column := len("rillwright:") + len(rest) - len(value) + 1
		if cut := strings.Index(value, " #"); cut >= 0 {
			value = value[:cut]
		}
		value = strings.TrimSpace(value)
		v, err := strconv.Atoi(value)
		if err != nil {
			return 0, Pos{}
		}
		return v, Pos{Line: n, Column: column, Width: len(value)}
	}
	return 0, Pos{}
}

func lineOf(data []byte, n int) string {
	for line := range bytes.SplitSeq(data, []byte("\n")) {
		if n--; n == 0 {
			return strings.TrimPrefix(strings.TrimSuffix(string(line), "\r"), "\ufeff")
		}
	}
	return ""
}
