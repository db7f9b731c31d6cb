package drawing

import (
	"math"
	"strings"
	"sync"

	"codeberg.org/go-fonts/dejavu/dejavusans"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// FontFamily is the typeface that texts are measured in. Most others that may
// stand in for it are narrower, so that what fits in it fits in them.
const FontFamily = "DejaVu Sans"

// Proportions of the typeface as shares of its em: height of capitals (1493 of
// 2048 units), and the reach above and below the baseline of what is printed.
const (
	capHeight   = 1493.0 / 2048
	reachAbove  = 0.94
	reachBelow  = 0.24
	missingRune = 0.75 // width of a character that the typeface lacks
)

// EmSize returns the size that file formats call the font's, mm, for a height
// of capitals.
func EmSize(height float64) float64 { return height / capHeight }

// typeface is parsed once; it never changes.
//
//nolint:gochecknoglobals // a constant that takes a while to read
var typeface = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(dejavusans.TTF) })

// TextWidth returns the width of a line of text, mm, with capitals of the given
// height, as the sum of the characters' advances. Kerning, which some programs
// apply, makes it narrower by a per cent or so.
func TextWidth(text string, height float64) float64 {
	const units = 2048
	f, err := typeface()
	var b sfnt.Buffer
	sum := 0.0
	for _, r := range text {
		w := missingRune
		if err == nil {
			if g, err := f.GlyphIndex(&b, r); err == nil && g != 0 {
				if a, err := f.GlyphAdvance(&b, g, fixed.I(units), font.HintingNone); err == nil {
					w = float64(a) / 64 / units
				}
			}
		}
		sum += w
	}
	return sum * EmSize(height)
}

// Corners returns the four corners of the space that a text takes, from the
// top left as read, clockwise.
func (t *Text) Corners() [4]Point {
	w, em := TextWidth(t.Text, t.Height), EmSize(t.Height)
	left := 0.0
	switch t.Anchor {
	case Middle:
		left = -w / 2
	case Right:
		left = -w
	}
	sin, cos := math.Sincos(t.Rotation * math.Pi / 180)
	turn := func(x, y float64) Point {
		return Point{t.At.X + x*cos + y*sin, t.At.Y - x*sin + y*cos}
	}
	return [4]Point{
		turn(left, -reachAbove*em), turn(left+w, -reachAbove*em), turn(left+w, reachBelow*em), turn(left, reachBelow*em),
	}
}

// Bounds implements Item.
func (t *Text) Bounds() Box {
	c := t.Corners()
	return BoundsOf(c[:])
}

// Wrap breaks a text at its spaces into lines no wider than width, mm. A word
// that is wider stands alone, cut short.
func Wrap(text string, height, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && TextWidth(longer, height) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
		if line == word {
			line = Fit(word, height, width)
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Fit returns a text cut to a width, mm, with an ellipsis where something was
// left out.
func Fit(text string, height, width float64) string {
	if TextWidth(text, height) <= width {
		return text
	}
	const ellipsis = "…"
	r := []rune(text)
	for len(r) > 0 && TextWidth(string(r)+ellipsis, height) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + ellipsis
}
