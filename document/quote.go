package document

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// quotings returns the ways to write a text, the plainest first.
func quotings(text string) []string {
	var ways []string
	printable := strings.IndexFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }) < 0
	if printable && plainSafe(text) {
		ways = append(ways, text)
	}
	if printable {
		ways = append(ways, "'"+strings.ReplaceAll(text, "'", "''")+"'")
	}
	return append(ways, doubleQuoted(text))
}

// plainSafe reports whether YAML reads the text as it stands. Commas and
// brackets within are well between lines and not between braces; Set finds out
// by reading the result back.
func plainSafe(text string) bool {
	first, n := utf8.DecodeRuneInString(text)
	start := unicode.IsLetter(first) || unicode.IsDigit(first)
	if strings.ContainsRune("+-.", first) && n < len(text) {
		next, _ := utf8.DecodeRuneInString(text[n:])
		start = unicode.IsDigit(next)
	}
	return start && !strings.EqualFold(text, "null") && strings.TrimSpace(text) == text && !strings.HasSuffix(text, ":") &&
		!strings.Contains(text, ": ") && !strings.Contains(text, " #")
}

func doubleQuoted(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == '\r':
			b.WriteString(`\r`)
		case unicode.IsPrint(r):
			b.WriteRune(r)
		case r < 0x10000:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			fmt.Fprintf(&b, `\U%08X`, r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
