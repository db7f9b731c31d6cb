package drawing

import (
	"math"
	"slices"
)

// Measure is one dimension: how far it is from one place to another along a row.
type Measure struct {
	From, To float64 // along the row, mm on the sheet, in any order
	Text     string
	// Where its two extension lines begin, across the row.
	FromEdge, ToEdge float64
}

// Rows sets dimensions beside a thing in rows parallel to one another, each in the
// nearest row where neither its line nor its words run into others.
type Rows struct {
	Upright     bool    // the rows run up the sheet, and so do their words
	First       float64 // where the first row lies, across the rows
	Outward     float64 // +1 or -1: from row to row
	Least, Most float64 // the room for words along the rows
	Measures    []Measure
}

// Sizes of dimensions, mm.
const (
	measureText = 2.5
	rowStep     = 6.0
	arrowLong   = 2.4
	arrowHalf   = 0.5
	overRow     = 1.0 // from a line to the words on it
	pastRow     = 1.5 // of an extension line beyond its row
	besideEnd   = 1.5 // from a line's end to words that stand beside it
)

// laid is a measure in its row.
type laid struct {
	from, to         float64
	fromEdge, toEdge float64
	text             string
	a, b             float64 // of the words, along
	within           bool    // they stand between its ends
	row              int
}

func (l *laid) lo() float64 { return math.Min(l.from, l.a) }
func (l *laid) hi() float64 { return math.Max(l.to, l.b) }

// Draw returns the dimensions, and where across the rows they end, with the words
// of the last row.
func (r *Rows) Draw() (items []Item, reach float64) {
	var list []laid
	rows := 0
	for _, m := range r.Measures {
		l := r.lay(m)
		for slices.ContainsFunc(list, func(o laid) bool {
			return o.row == l.row && l.lo() < o.hi()-0.01 && o.lo() < l.hi()-0.01
		}) {
			l.row++
		}
		rows = max(rows, l.row+1)
		list = append(list, l)
	}
	if rows == 0 {
		return nil, r.First
	}
	for i := range list {
		r.slide(list, i)
	}
	var back, lines, words []Item
	ext := map[float64][2]float64{} // by place, from the edge to the row
	var places []float64
	for i := range list {
		l := &list[i]
		at := r.across(l.row)
		lines = append(lines, Line(r.point(l.from, at), r.point(l.to, at), Thin))
		lines = append(lines, r.head(l.from, at, 1, l)...)
		lines = append(lines, r.head(l.to, at, -1, l)...)
		if !l.within { // the line leads to the words
			if l.a >= l.to {
				lines = append(lines, Line(r.point(l.to, at), r.point(l.b, at), Thin))
			} else {
				lines = append(lines, Line(r.point(l.a, at), r.point(l.from, at), Thin))
			}
		}
		t := r.words(l, at)
		if crossed(list, i) {
			b := t.Bounds()
			back = append(back, Rectangle(b, NoPen, Paper))
		}
		words = append(words, t)
		for _, e := range [][2]float64{{l.from, l.fromEdge}, {l.to, l.toEdge}} {
			p, have := ext[e[0]]
			if !have {
				places = append(places, e[0])
				p = [2]float64{e[1], at}
			}
			p[0] = math.Min(r.Outward*p[0], r.Outward*e[1]) * r.Outward
			p[1] = math.Max(r.Outward*p[1], r.Outward*at) * r.Outward
			ext[e[0]] = p
		}
	}
	for _, p := range places {
		e := ext[p]
		items = append(items, Line(r.point(p, e[0]+r.Outward), r.point(p, e[1]+r.Outward*pastRow), Fine))
	}
	items = append(append(append(items, back...), lines...), words...)
	reach = r.across(rows - 1)
	// Words stand over a row, to the left of an upright one.
	if r.Outward < 0 {
		return items, reach - overRow - reachAbove*EmSize(measureText)
	}
	return items, reach + pastRow
}

// lay puts the words of a measure between its ends, or else beside one of them.
func (r *Rows) lay(m Measure) laid {
	l := laid{from: m.From, to: m.To, fromEdge: m.FromEdge, toEdge: m.ToEdge, text: m.Text}
	if l.from > l.to {
		l.from, l.to, l.fromEdge, l.toEdge = l.to, l.from, l.toEdge, l.fromEdge
	}
	w := TextWidth(m.Text, measureText)
	switch {
	case w+1.6 <= l.to-l.from:
		l.within = true
		l.a = (l.from + l.to - w) / 2
	case l.to+besideEnd+w <= r.Most || l.from-besideEnd-w < r.Least:
		l.a = l.to + besideEnd
	default:
		l.a = l.from - besideEnd - w
	}
	l.b = l.a + w
	return l
}

// crossed reports whether an extension line of a row farther out runs through the
// words of a measure.
func crossed(list []laid, i int) bool {
	l := &list[i]
	return slices.ContainsFunc(list, func(o laid) bool {
		if o.row <= l.row {
			return false
		}
		return o.from > l.a-0.5 && o.from < l.b+0.5 || o.to > l.a-0.5 && o.to < l.b+0.5
	})
}

// slide moves words along their line to where no extension line runs through them,
// if there is such a place.
func (r *Rows) slide(list []laid, i int) {
	l := &list[i]
	if !l.within || !crossed(list, i) {
		return
	}
	a, w := l.a, l.b-l.a
	for d := 1.0; d < l.to-l.from; d++ {
		for _, try := range []float64{a - d, a + d} {
			if l.a, l.b = try, try+w; try >= l.from+0.8 && l.b <= l.to-0.8 && !crossed(list, i) {
				return
			}
		}
	}
	l.a, l.b = a, a+w
}

func (r *Rows) across(row int) float64 { return r.First + r.Outward*rowStep*float64(row) }

func (r *Rows) point(along, across float64) Point {
	if r.Upright {
		return Point{across, along}
	}
	return Point{along, across}
}

// head is the arrow at an end of a line; where arrows have no room, a tick.
func (r *Rows) head(at, across, inward float64, l *laid) []Item {
	if l.to-l.from < 3*arrowLong {
		d := arrowLong / 3
		return []Item{Line(r.point(at-d, across+d), r.point(at+d, across-d), Medium)}
	}
	return []Item{&Path{
		Points: []Point{r.point(at, across), r.point(at+inward*arrowLong, across-arrowHalf), r.point(at+inward*arrowLong, across+arrowHalf)},
		Closed: true, Fill: Solid,
	}}
}

func (r *Rows) words(l *laid, across float64) *Text {
	t := &Text{Text: l.text, Height: measureText, At: r.point(l.a, across-overRow)}
	if r.Upright {
		t.At, t.Rotation = r.point(l.b, across-overRow), 90
	}
	return t
}

// Arrow returns a line with an arrow at its tip.
func Arrow(from, tip Point, pen Pen) []Item {
	d := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	if d == 0 {
		return nil
	}
	x, y := (tip.X-from.X)/d, (tip.Y-from.Y)/d
	long, half := arrowLong, arrowHalf
	if pen == Thick || pen == Heavy {
		long, half = 2*long, 3*half
	}
	neck := Point{tip.X - long*x, tip.Y - long*y}
	return []Item{
		Line(from, neck, pen),
		&Path{Points: []Point{tip, {neck.X - half*y, neck.Y + half*x}, {neck.X + half*y, neck.Y - half*x}}, Closed: true, Fill: Solid},
	}
}

// Cross returns two lines that cross square to one another at a point, each of a
// half length.
func Cross(at Point, half float64, pen Pen) []Item {
	return []Item{
		Line(Point{at.X - half, at.Y}, Point{at.X + half, at.Y}, pen),
		Line(Point{at.X, at.Y - half}, Point{at.X, at.Y + half}, pen),
	}
}
