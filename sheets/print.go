package sheets

import (
	"math"
	"strconv"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
)

// Print is what all sheets of one set share.
type Print struct {
	Paper drawing.Format
	Date  string // as it shall stand on the sheets, "" for none
	Mark  string // tells which state of the design file they were drawn from
}

// draft is an enclosure about to be drawn.
type draft struct {
	e *enclosure.Enclosure
	l *layout.Layout
	p Print
}

func newDraft(e *enclosure.Enclosure, p Print) *draft {
	if p.Paper.Width == 0 {
		p.Paper = drawing.A4()
	}
	return &draft{e: e, l: layout.Of(e), p: p}
}

func (d *draft) block(sheet, scale string) drawing.TitleBlock {
	return drawing.TitleBlock{Name: d.e.Name, Sheet: sheet, Scale: scale, Date: d.p.Date, Mark: d.p.Mark}
}

// mm is a length on paper at full size.
func mm(v float64) float64 { return v * 1000 }

// size shows a length as it is marked on a drawing: mm without the unit, or inches
// and sixteenths.
func (d *draft) size(v float64) string {
	if d.e.Units == quantity.US {
		return quantity.Sixteenths(v / 0.0254)
	}
	v = math.Round(v*1e4) / 10
	if v == 0 {
		v = 0 // no minus on nothing
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// sized is size with its unit.
func (d *draft) sized(v float64) string {
	if d.e.Units == quantity.US {
		return d.size(v) + " in"
	}
	return d.size(v) + " mm"
}

// units says what the figures of a drawing are in.
func (d *draft) units() string {
	if d.e.Units == quantity.US {
		return "Sizes in inches, to the nearest sixteenth."
	}
	return "Sizes in mm."
}

// scale returns the largest usual scale at which a size (m) fits into a room (mm):
// mm on paper for each m, and its name.
func (d *draft) scale(wide, high, roomWide, roomHigh float64) (k float64, name string) {
	steps := []float64{1, 2, 2.5, 3, 4, 5, 6, 7.5, 8, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 200}
	if d.e.Units == quantity.US { // 3 in to the foot, 1 1/2 in, 1 in and so on
		steps = []float64{1, 2, 3, 4, 6, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96, 192}
	}
	for _, s := range steps {
		k, name = 1000/s, "1:"+strconv.FormatFloat(s, 'f', -1, 64)
		if wide*k <= roomWide && high*k <= roomHigh {
			break
		}
	}
	return k, name
}

// prose writes lines from a top downwards and returns where they end.
func prose(s *drawing.Sheet, lines []string, height, left, top float64) float64 {
	for i, l := range lines {
		if l != "" {
			s.Add(&drawing.Text{Text: l, Height: height, At: drawing.Point{X: left, Y: top + height + float64(i)*height*lineOf}})
		}
	}
	return top + tall(len(lines), height)
}

// wrapped breaks paragraphs into lines of a width.
func wrapped(height, width float64, paragraphs ...string) []string {
	var out []string
	for _, p := range paragraphs {
		out = append(out, drawing.Wrap(p, height, width)...)
	}
	return out
}
