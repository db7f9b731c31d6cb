package finding

import (
	"fmt"
	"io"
	"strings"
	"unicode"
)

const (
	tabStop    = 4   // columns between tab stops in a printed excerpt
	maxColumns = 100 // of an excerpt; a longer line is cut around the place
	leadIn     = 40  // columns kept before the place when a line is cut
	ellipsis   = "…"
)

// Write prints the findings for people, in the order of the list:
//
//	grotto.yaml:41:11: error: bore "13" has no unit
//	   41 |     bore: 13
//	      |           ^^
//	  do: write 13 mm or 1/2 in
//
// A finding without a place, an excerpt or a remedy is printed without those
// lines. Tabs in an excerpt are spread to stops of four columns, wide characters
// count as two, and control characters are shown as "?", so that the marks stand
// under what they mark and a file cannot take over a terminal. The error is that
// of w.
func Write(w io.Writer, l List) error {
	var b strings.Builder
	for _, f := range l {
		f.print(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (f Finding) print(b *strings.Builder) {
	b.WriteString(f.String())
	b.WriteByte('\n')
	if f.Excerpt != "" && f.Place.Line > 0 {
		text, at, width := f.excerpt()
		fmt.Fprintf(b, "%5d | %s\n", f.Place.Line, text)
		if f.Place.Column > 0 {
			gutter := len(fmt.Sprintf("%5d", f.Place.Line))
			fmt.Fprintf(b, "%*s | %*s%s\n", gutter, "", at, "", strings.Repeat("^", width))
		}
	}
	if f.Do != "" {
		for i, line := range strings.Split(f.Do, "\n") {
			lead := "  do: "
			if i > 0 {
				lead = "      "
			}
			b.WriteString(lead + clean(line) + "\n")
		}
	}
}

// excerpt returns the source line as it is printed and, in columns counted from
// 0, where the marks begin and how wide they are.
func (f Finding) excerpt() (text string, at, width int) {
	var cells []string // what each character is printed as
	var starts []int   // the column at which each begins
	column := 0
	for _, r := range f.Excerpt {
		cell, n := string(r), columns(r)
		switch {
		case r == '\t':
			n = tabStop - column%tabStop
			cell = strings.Repeat(" ", n)
		case hidden(r):
			cell, n = "?", 1
		}
		cells, starts = append(cells, cell), append(starts, column)
		column += n
	}
	starts = append(starts, column)
	start := func(i int) int { return starts[min(i, len(cells))] }

	first := max(f.Place.Column-1, 0)
	after := first + max(f.Place.Width, 1)
	at = start(first)
	width = max(start(after)-at, 1)
	if first >= len(cells) {
		at += first - len(cells) // past the end of the line
	}
	if column <= maxColumns {
		return strings.Join(cells, ""), at, width
	}

	// Cut a long line to a stretch around the place.
	from := 0
	for from < first && from < len(cells) && starts[from] < at-leadIn {
		from++
	}
	to := from
	for to < len(cells) && starts[to+1]-starts[from] <= maxColumns {
		to++
	}
	text = strings.Join(cells[from:to], "")
	width = max(min(width, starts[to]-at), 1)
	at -= starts[from]
	if from > 0 {
		text = ellipsis + text
		at++
	}
	if to < len(cells) {
		text += ellipsis
	}
	return text, at, width
}

// hidden reports whether a character must not reach a terminal as it is:
// controls, line ends and those that turn the direction of writing.
func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Zl, unicode.Zp, unicode.Bidi_Control)
}

// clean replaces hidden characters, so that a message stays on its line.
func clean(s string) string {
	s = strings.ToValidUTF8(s, "?")
	if strings.IndexFunc(s, hidden) < 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case hidden(r):
			return '?'
		}
		return r
	}, s)
}
