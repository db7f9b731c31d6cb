package sheets

import (
	"fmt"
	"math"
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
)

// sketcher draws lines of plumbing on a view.
type sketcher struct{ *view }

// Sizes on the sketch, mm.
const (
	balloon     = 2.9  // radius
	balloonStep = 9.4  // from one to the next, room for two lines of words
	basinWide   = 10.0 // of the pool beside a drain
	toBalloon   = 8.0  // from the line to the middle of a balloon
)

// y is where a height above the datum lies on the sheet.
func (q *sketcher) y(z float64) float64 { return q.at(0, z-q.v0).Y }

// basin draws an open box with water in it.
func (q *sketcher) basin(bottom, high, water, left, right float64) {
	b, r := q.y(bottom), q.y(bottom+high)
	if surface := q.y(water); surface < b {
		q.sheet.Add(drawing.Rectangle(drawing.Box{Left: left, Top: surface, Right: right, Bottom: b}, drawing.NoPen, drawing.BandA))
		q.ink(drawing.Line(drawing.Point{X: left, Y: surface}, drawing.Point{X: right, Y: surface}, drawing.Thin))
	}
	q.ink(&drawing.Path{Points: []drawing.Point{{X: left, Y: r}, {X: left, Y: b}, {X: right, Y: b}, {X: right, Y: r}}, Pen: drawing.Medium})
}

// title names a line over its column.
func (q *sketcher) title(l *plumb, left, right float64) {
	words := fmt.Sprintf("%s: %s to %s", l.name, l.from, l.to)
	lines := drawing.Wrap(words, small, right-left-3)
	for i, t := range lines[:min(len(lines), 3)] {
		q.ink(&drawing.Text{Text: t, Height: small, At: drawing.Point{X: left + 1, Y: q.room.Top + 5 + lineOf*small*float64(i)}})
	}
}

// run draws a line of the supply: up from where it begins, over its highest point and
// to where it ends.
func (q *sketcher) run(l *plumb, left, right float64) drawing.Measure {
	q.title(l, left, right)
	x, end := left+8, right-8
	start, top, foot := q.y(l.start), q.y(l.top), q.y(l.end)
	q.ink(&drawing.Path{Points: []drawing.Point{{X: x, Y: start}, {X: x, Y: top}, {X: end, Y: top}}, Pen: drawing.Thick})
	if foot > top+0.5 {
		q.ink(drawing.Line(drawing.Point{X: end, Y: top}, drawing.Point{X: end, Y: foot}, drawing.Thick))
	}
	switch l.run.From.Kind {
	case enclosure.AtPump:
		q.ink(&drawing.Circle{Centre: drawing.Point{X: x, Y: start}, Radius: 3, Pen: drawing.Thick, Fill: drawing.Paper})
		q.sheet.Add(&drawing.Path{Points: []drawing.Point{{X: x - 1.6, Y: start + 1.2}, {X: x + 1.6, Y: start + 1.2}, {X: x, Y: start - 2}}, Closed: true, Fill: drawing.Solid})
	default:
		q.sheet.Add(&drawing.Circle{Centre: drawing.Point{X: x, Y: start}, Radius: 1, Fill: drawing.Solid})
	}
	if l.run.To.Kind == enclosure.AtManifold { // a bar with outlets
		q.ink(drawing.Line(drawing.Point{X: end - 18, Y: foot}, drawing.Point{X: end + 6, Y: foot}, drawing.Heavy))
		for k := range 7 {
			u := end - 16 + 3.3*float64(k)
			q.sheet.Add(drawing.Line(drawing.Point{X: u, Y: foot}, drawing.Point{X: u, Y: foot + 2}, drawing.Medium))
		}
	} else {
		q.sheet.Add(&drawing.Circle{Centre: drawing.Point{X: end, Y: foot}, Radius: 1, Fill: drawing.Solid})
	}
	// Going up, or down where the line falls.
	q.string(l.items, x, start-5, top+3, right, math.Max(top, foot)+balloonStep)
	m := drawing.Measure{From: start, To: foot, FromEdge: q.frame.Left, ToEdge: q.frame.Left}
	if rise := l.end - l.start; rise >= 0 {
		m.Text = q.size(rise) + " rise"
	} else {
		m.Text = q.size(-rise) + " fall"
	}
	return m
}

// drain draws a drain: from its lip in the pool through the pane and down.
func (q *sketcher) drain(l *plumb, water, left, right float64) drawing.Measure {
	q.title(l, left, right)
	e := q.e
	floor := q.l.Z(e.Pool.Floor)
	q.basin(floor, e.Pool.DamTop-e.Pool.Floor, water, left+1, left+basinWide)
	x := left + basinWide + 3
	lip, out, end := q.y(l.start), q.y(q.l.Z(l.drain.BulkheadAt)), q.y(l.end)
	stand := left + basinWide/2
	q.ink(&drawing.Path{Points: []drawing.Point{{X: stand, Y: lip}, {X: stand, Y: out}, {X: x, Y: out}, {X: x, Y: end}}, Pen: drawing.Thick})
	q.ink(drawing.Line(drawing.Point{X: left + basinWide, Y: out - 3}, drawing.Point{X: left + basinWide, Y: out + 3}, drawing.Heavy))
	q.sheet.Add(&drawing.Circle{Centre: drawing.Point{X: x, Y: end}, Radius: 1, Fill: drawing.Solid})
	q.string(l.items, x, lip, end-3, right, lip+4)
	m := drawing.Measure{From: out, To: end, FromEdge: q.frame.Left, ToEdge: q.frame.Left, Text: q.size(math.Abs(q.l.Z(l.drain.BulkheadAt)-l.end)) + " drop"}
	return m
}

// string hangs the items of a line beside it, in order from one height on the sheet
// to another, balloons to the right and below a place, where there is room there. More than there is room for share balloons.
func (q *sketcher) string(items []item, x, from, to, right, below float64) {
	if len(items) == 0 {
		return
	}
	lo, hi := q.room.Top+16, q.room.Bottom-balloon-2
	lo = math.Max(lo, below)
	if need := balloonStep * float64(min(len(items), 8)); hi-lo < need {
		lo = hi - need
	}
	each := 1
	for (len(items)+each-1)/each > int((hi-lo)/balloonStep)+1 {
		each++
	}
	var groups [][]item
	for i := 0; i < len(items); i += each {
		groups = append(groups, items[i:min(i+each, len(items))])
	}
	want, sizes := make([]float64, len(groups)), make([]float64, len(groups))
	for i, g := range groups {
		want[i], sizes[i] = from+(to-from)*(float64(i)+0.5)/float64(len(groups)), balloonStep
		if z := g[0].z; each == 1 && !math.IsNaN(z) {
			want[i] = q.y(z)
		}
	}
	node := append([]float64(nil), want...)
	down := to > from
	if !down { // spread wants them from the top
		reverse(want)
	}
	at := spread(want, sizes, lo, hi)
	if !down {
		reverse(at)
	}
	for i, g := range groups {
		on := x
		if g[0].inPool {
			on = x - basinWide/2 - 3
		}
		q.item(g, drawing.Point{X: on, Y: node[i]}, drawing.Point{X: x + toBalloon, Y: at[i]}, right)
	}
}

func reverse(v []float64) {
	for i, k := 0, len(v)-1; i < k; i, k = i+1, k-1 {
		v[i], v[k] = v[k], v[i]
	}
}

// item draws one item, or some that share a balloon, and what it says beside it.
func (q *sketcher) item(g []item, on, at drawing.Point, right float64) {
	first, last := &g[0], &g[len(g)-1]
	q.sheet.Add(drawing.Line(on, drawing.Point{X: at.X - balloon, Y: at.Y}, drawing.Fine))
	switch {
	case first.undo:
		q.sheet.Add(drawing.Line(drawing.Point{X: on.X - 2.5, Y: on.Y - 0.8}, drawing.Point{X: on.X + 2.5, Y: on.Y - 0.8}, drawing.Thick),
			drawing.Line(drawing.Point{X: on.X - 2.5, Y: on.Y + 0.8}, drawing.Point{X: on.X + 2.5, Y: on.Y + 0.8}, drawing.Thick))
	case first.oneWay:
		q.sheet.Add(&drawing.Path{Points: []drawing.Point{{X: on.X - 2, Y: on.Y + 1.7}, {X: on.X + 2, Y: on.Y + 1.7}, {X: on.X, Y: on.Y - 1.7}}, Closed: true, Pen: drawing.Medium, Fill: drawing.Paper})
	case first.valve:
		q.sheet.Add(&drawing.Path{Points: []drawing.Point{{X: on.X - 2, Y: on.Y - 2}, {X: on.X + 2, Y: on.Y - 2}, {X: on.X - 2, Y: on.Y + 2}, {X: on.X + 2, Y: on.Y + 2}}, Closed: true, Pen: drawing.Medium, Fill: drawing.Paper})
	default:
		q.sheet.Add(&drawing.Circle{Centre: on, Radius: 0.8, Fill: drawing.Solid})
	}
	q.ink(&drawing.Circle{Centre: at, Radius: balloon, Pen: drawing.Thin, Fill: drawing.Paper})
	number := fmt.Sprint(first.number)
	q.ink(&drawing.Text{Text: number, Height: small, At: drawing.Point{X: at.X, Y: at.Y + small/2}, Anchor: drawing.Middle})
	say := first.label
	if len(g) > 1 {
		say = fmt.Sprintf("to %d: see the key", last.number)
	}
	x := at.X + balloon + 1.2
	wide := right - x - 1
	lines := drawing.Wrap(say, small, wide)
	if len(lines) > 2 {
		rest := say[len(lines[0]):]
		lines = []string{lines[0], drawing.Fit(strings.TrimSpace(rest), small, wide)}
	}
	y := at.Y + small/2 - lineOf*small*float64(len(lines)-1)/2
	for i, t := range lines {
		q.ink(&drawing.Text{Text: t, Height: small, At: drawing.Point{X: x, Y: y + lineOf*small*float64(i)}})
	}
}
