package sheets

import (
	"strconv"
	"strings"

	"rillwright/answers"
	"rillwright/drawing"
)

// row is a situation in lines.
type row struct {
	sign, do, water []string
	numbers         []string // before the lines of do, "" where a step goes on
	text            float64  // height of capitals of do, mm
}

// Widths of the two columns, mm, and of the numbers in the first.
const (
	rowWide    = pageWidth - 2*cardMargin
	doColumn   = 0.6 * rowWide
	waterWide  = rowWide - doColumn - 2*cardPad
	stepIndent = 9.0
	signRule   = 4.5 // from the sign to what stands below, a line between
	mostSign   = 3   // lines of a sign
)

const goesHead = "Where the water goes"

// situation draws one situation, on a new sheet if this one is full.
func (c *card) situation(s *answers.Situation) {
	r := row{text: c.text, sign: drawing.Wrap(s.Sign, cardSign, rowWide-2*cardPad), water: drawing.Wrap(s.Water, cardSmall, waterWide)}
	if len(r.sign) > mostSign {
		r.sign = append(r.sign[:mostSign-1], drawing.Fit(r.sign[mostSign-1]+" …", cardSign, rowWide-2*cardPad))
	}
	for i, d := range s.Do {
		for k, l := range drawing.Wrap(d, c.text, doColumn-2*cardPad-stepIndent) {
			step := ""
			if k == 0 {
				step = strconv.Itoa(i + 1)
			}
			r.numbers, r.do = append(r.numbers, step), append(r.do, l)
		}
	}
	for c.y+r.height() > c.foot {
		if !c.empty {
			c.begin()
			continue
		}
		var first row
		first, r = r.split(c.foot - c.y)
		c.box(&first)
		c.begin()
	}
	c.box(&r)
}

// goesTop is where the words under "Where the water goes" begin, from that
// heading's top.
const goesTop = lineOf * cardSmall

func (r *row) height() float64 {
	right := 0.0
	if len(r.water) > 0 {
		right = goesTop + tall(len(r.water), cardSmall)
	}
	return 2*cardPad + tall(len(r.sign), cardSign) + signRule + max(tall(len(r.do), r.text), right)
}

// split returns as much of a row as fits in a height, one line at least, and
// the rest.
func (r *row) split(height float64) (first, rest row) {
	first = row{text: r.text, sign: r.sign}
	for n := 1; ; n++ {
		d, w := min(n, len(r.do)), min(n, len(r.water))
		more := row{text: r.text, sign: r.sign, do: r.do[:d], numbers: r.numbers[:d], water: r.water[:w]}
		if n > 1 && (more.height() > height || d == len(r.do) && w == len(r.water)) {
			break
		}
		first = more
	}
	const goesOn = " (continued)"
	wide := rowWide - 2*cardPad
	sign := ""
	if len(r.sign) > 0 {
		sign = r.sign[0]
	}
	if !strings.HasSuffix(sign, goesOn) {
		sign = drawing.Fit(sign, cardSign, wide-drawing.TextWidth(goesOn, cardSign)) + goesOn
	}
	d, w := len(first.do), len(first.water)
	return first, row{text: r.text, sign: []string{sign}, do: r.do[d:], numbers: r.numbers[d:], water: r.water[w:]}
}

// box draws a row.
func (c *card) box(r *row) {
	b := drawing.Box{Left: cardMargin, Top: c.y, Right: pageWidth - cardMargin, Bottom: c.y + r.height()}
	c.write(r.sign, cardSign, b.Left+cardPad, b.Top+cardPad)
	y := b.Top + cardPad + tall(len(r.sign), cardSign) + signRule/2 - 1
	c.sheet().Add(drawing.Rectangle(b, drawing.Thick, drawing.NoFill), drawing.Line(drawing.Point{X: b.Left, Y: y}, drawing.Point{X: b.Right, Y: y}, drawing.Thin))
	y += signRule/2 + 1
	c.write(r.numbers, r.text, b.Left+cardPad, y)
	c.write(r.do, r.text, b.Left+cardPad+stepIndent, y)
	if len(r.water) > 0 {
		x := b.Left + doColumn
		c.sheet().Add(drawing.Line(drawing.Point{X: x, Y: y - signRule/2 - 1}, drawing.Point{X: x, Y: b.Bottom}, drawing.Thin))
		c.word(goesHead, cardSmall, x+cardPad, y+cardSmall)
		c.write(r.water, cardSmall, x+cardPad, y+goesTop)
	}
	c.y = b.Bottom + cardGap
	c.empty = false
}
