package document

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/token"
)

// extent tells where a scalar ends in the source: line, and column just behind
// its last character. ok is false if the text at the place is not the scalar.
// For a block text (| or >) it is the end of its header.
func (s *source) extent(line, column int, tk *token.Token) (endLine, endColumn int, ok bool) {
	switch tk.Type {
	case token.DoubleQuoteType:
		return s.quoteEnd(line, column, '"')
	case token.SingleQuoteType:
		return s.quoteEnd(line, column, '\'')
	case token.LiteralType, token.FoldedType:
		n := utf8.RuneCountInString(strings.TrimSpace(tk.Value))
		return line, column + n, n > 0
	}
	return s.plainEnd(line, column, tk.Value)
}

// quoteEnd finds the closing quote of a quoted text.
func (s *source) quoteEnd(line, column int, quote rune) (int, int, bool) {
	text := []rune(s.line(line))
	if column > len(text) || text[column-1] != quote {
		return line, column, false
	}
	at := column // index behind the opening quote
	for line <= len(s.lines) {
		for at < len(text) {
			switch {
			case quote == '"' && text[at] == '\\':
				at++
			case text[at] == quote && quote == '\'' && at+1 < len(text) && text[at+1] == quote:
				at++
			case text[at] == quote:
				return line, at + 2, true
			}
			at++
		}
		line++
		text, at = []rune(s.line(line)), 0
	}
	return line, column, false
}

// plainEnd follows an unquoted value through the source. Line ends within it
// have been folded into blanks, so blanks are skipped on both sides.
func (s *source) plainEnd(line, column int, value string) (int, int, bool) {
	rest := s.line(line)
	rest = rest[byteColumn(rest, column):]
	if !strings.Contains(value, "\n") && strings.HasPrefix(rest, value) {
		return line, column + utf8.RuneCountInString(value), true
	}
	want := []rune(value)
	text := []rune(s.line(line))
	at := column - 1
	endLine, endColumn := line, column
	for _, r := range want {
		if unicode.IsSpace(r) {
			continue
		}
		for at >= len(text) || text[at] == ' ' || text[at] == '\t' {
			if at < len(text) {
				at++
				continue
			}
			line++
			if line > len(s.lines) {
				return endLine, endColumn, false
			}
			text, at = []rune(s.line(line)), 0
		}
		if text[at] != r {
			return endLine, endColumn, false
		}
		at++
		endLine, endColumn = line, at+1
	}
	return endLine, endColumn, endColumn > column || endLine > line || len(want) == 0
}

// place returns where a token stands, and how many characters to underline on
// its first line.
func (s *source) place(tk *token.Token) Pos {
	if tk == nil || tk.Position == nil {
		return Pos{}
	}
	line, column := s.snap(tk.Position.Line, tk.Position.Column)
	if tk.Type == token.ImplicitNullType {
		return Pos{line, column, 1}
	}
	endLine, endColumn, ok := s.extent(line, column, tk)
	rest := utf8.RuneCountInString(strings.TrimRight(s.line(line), " \t")) + 1 - column
	switch {
	case ok && endLine == line:
		return Pos{line, column, max(endColumn-column, 1)}
	case ok:
		return Pos{line, column, max(rest, 1)}
	}
	return Pos{line, column, 1}
}
