package document

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"rillwright/finding"
)

// Limits of a file; a real design file is far below each of them. Bytes is
// checked first, the others on tokens before anything is built from them,
// since the YAML parser's time grows with the square of the nesting.
const (
	MaxBytes    = 256 << 10
	maxTokens   = 40_000
	maxDepth    = 32
	maxFindings = 100
)

const byteOrderMark = "\ufeff"

// source is a file's text with LF line ends and no byte order mark.
type source struct {
	file  string
	text  string
	lines []string
}

// newSource checks the bytes themselves; the list tells why they cannot be
// read as text, and the source then serves only to show excerpts.
func newSource(file string, data []byte) (*source, finding.List) {
	s := &source{file: file}
	if len(data) > MaxBytes {
		return s, finding.List{s.whole(
			fmt.Sprintf("the file has %d bytes, more than the %d that can be read", len(data), MaxBytes),
			"is it the right file? a design is seldom larger than 20,000 bytes")}
	}
	text := string(data)
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") {
		return s, finding.List{s.whole("the file is saved as UTF-16", "save it as UTF-8 (plain text) in your editor")}
	}
	text = strings.TrimPrefix(text, byteOrderMark)
	s.text = strings.ReplaceAll(text, "\r\n", "\n")
	s.lines = strings.Split(s.text, "\n")
	if !utf8.ValidString(s.text) {
		return s, finding.List{s.notText()}
	}
	return s, s.oddCharacters()
}

// notText finds the first byte that is not UTF-8.
func (s *source) notText() finding.Finding {
	for i, line := range s.lines {
		if utf8.ValidString(line) {
			continue
		}
		col, at := 1, 0
		for at < len(line) {
			r, n := utf8.DecodeRuneInString(line[at:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			at += n
			col++
		}
		f := s.at(Pos{i + 1, col, 1}, "", "this character is not saved as UTF-8", "save the file as UTF-8 in your editor, or type the character again")
		f.Excerpt = strings.ToValidUTF8(line, "?")
		return f
	}
	return s.whole("the file is not saved as UTF-8", "save it as UTF-8 in your editor")
}

// oddCharacters finds control characters, and tabs outside comments: YAML
// forbids them in the indentation, and elsewhere the parser counts its columns
// wrongly behind them.
func (s *source) oddCharacters() finding.List {
	var list finding.List
	for i, line := range s.lines {
		if plainASCII(line) {
			continue
		}
		col, indent, told := 0, true, false
		for at, r := range line {
			col++
			switch {
			case r == '\t':
				if !told && !beforeComment(line, at) {
					what, do := "a tab stands here", "use a blank"
					if indent {
						what, do = "a tab stands in the indentation", "use blanks, two for each step"
					}
					list = append(list, s.at(Pos{i + 1, col, 1}, "", what, do))
					told = true
				}
			case r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 || r == 0x2028 || r == 0x2029 || r == 0xfeff:
				f := s.at(Pos{i + 1, col, 1}, "", fmt.Sprintf("an invisible character (U+%04X) stands here", r), "delete it and type the place again")
				f.Excerpt = strings.Map(visible, line)
				list = append(list, f)
			}
			if r != ' ' {
				indent = false
			}
			if len(list) >= maxFindings {
				return list
			}
		}
	}
	return list
}

// plainASCII spares most lines the closer look.
func plainASCII(line string) bool {
	for i := range len(line) {
		if line[i] < ' ' || line[i] > '~' {
			return false
		}
	}
	return true
}

// beforeComment reports whether only a comment, or nothing, stands behind at,
// or at is within a comment.
func beforeComment(line string, at int) bool {
	return blankOrComment(line[at:]) || blankOrComment(line) || strings.Contains(line[:at], " #")
}

func blankOrComment(line string) bool {
	t := strings.TrimLeft(line, " \t")
	return t == "" || t[0] == '#'
}

func visible(r rune) rune {
	if r < ' ' && r != '\t' || r == 0x7f {
		return '?'
	}
	return r
}

// at makes a finding at a place.
func (s *source) at(p Pos, field, what, do string) finding.Finding {
	f := finding.Finding{
		Place:    finding.Place{File: s.file, Line: p.Line, Column: p.Column, Width: p.Width},
		Severity: finding.Error, Field: field, What: what, Do: do,
	}
	if p.Line >= 1 && p.Line <= len(s.lines) {
		f.Excerpt = s.lines[p.Line-1]
	}
	return f
}

// whole makes a finding about the file as a whole.
func (s *source) whole(what, do string) finding.Finding { return s.at(Pos{}, "", what, do) }

// line returns line n, counted from 1, or "".
func (s *source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	return s.lines[n-1]
}

// byteColumn turns a column, counted from 1 in characters, into a byte index.
func byteColumn(line string, column int) int {
	at := 0
	for range column - 1 {
		if at >= len(line) {
			break
		}
		_, n := utf8.DecodeRuneInString(line[at:])
		at += n
	}
	return at
}

// snap moves a place over blanks: the parser's column stops short behind a tab.
func (s *source) snap(line, column int) (int, int) {
	rest := s.line(line)
	rest = rest[byteColumn(rest, column):]
	return line, column + len(rest) - len(strings.TrimLeft(rest, " \t"))
}

// Excerpts gives each finding that has none the source line it points to.
func Excerpts(data []byte, list finding.List) {
	lines := strings.Split(strings.TrimPrefix(string(data), byteOrderMark), "\n")
	for i := range list {
		if n := list[i].Place.Line; list[i].Excerpt == "" && n >= 1 && n <= len(lines) {
			list[i].Excerpt = strings.TrimSuffix(lines[n-1], "\r")
		}
	}
}
