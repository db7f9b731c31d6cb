package catalogue

import (
	"strings"
	"unicode/utf8"

	"rillwright/finding"
)

// lines is a text file whose faults are gathered, each with its place and the
// line it stands on.
type lines struct {
	file string
	text []string
	list finding.List
}

func newLines(file string, data []byte) lines {
	text := strings.TrimPrefix(strings.ToValidUTF8(string(data), "\ufffd"), "\ufeff")
	return lines{file: file, text: strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")}
}

// place returns the place of a byte column, both counted from 1.
func (l *lines) place(line, column, width int) finding.Place {
	p := finding.Place{File: l.file, Line: line, Column: column, Width: width}
	if line >= 1 && line <= len(l.text) {
		s := l.text[line-1]
		p.Column = utf8.RuneCountInString(s[:min(max(column-1, 0), len(s))]) + 1
	}
	return p
}

func (l *lines) report(p finding.Place, field, what, do string) {
	f := finding.Finding{Place: p, Severity: finding.Error, Field: field, What: what, Do: do}
	if p.Line >= 1 && p.Line <= len(l.text) {
		f.Excerpt = l.text[p.Line-1]
	}
	l.list = append(l.list, f)
}
