package sheets

import (
	"fmt"
	"math"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/enclosure"
)

const plumbingGroup = "Plumbing"

// linesEach is how many lines of plumbing one sheet has room for side by side.
const linesEach = 2

// Plumbing draws supply and drains as a sketch, each line of pipe or hose from
// where it begins to where it ends: true in height where a height is written, and
// along a line true in order alone. Numbers are those of the key that follows it,
// with lengths, what goes into what, falls, valves and the joints to undo.
func Plumbing(s *answers.Survey, p Print) []drawing.Sheet {
	d := newDraft(s.E, p)
	lines := d.plumbing()
	if len(lines) == 0 {
		return nil
	}
	var out []drawing.Sheet
	sheets := (len(lines) + linesEach - 1) / linesEach
	for i := range sheets {
		part := lines[i*linesEach : min((i+1)*linesEach, len(lines))]
		title := "Plumbing"
		if sheets > 1 {
			title = fmt.Sprintf("Plumbing, %d of %d", i+1, sheets)
		}
		out = append(out, d.sketch(s, title, part))
	}
	return append(out, d.plumbingKey(lines)...)
}

// plumb is one line of plumbing, heights in m above the datum.
type plumb struct {
	name, from, to string
	drain          *enclosure.Drain
	run            *enclosure.Run
	start, end     float64
	top            float64 // the highest point of its path
	items          []item
}

// item is one numbered thing of a line.
type item struct {
	number     int
	label      string // beside it on the sketch
	valve      bool
	oneWay     bool
	undo       bool
	inPool     bool    // before the pane
	z          float64 // its height, NaN where only the order is known
	piece      *enclosure.Piece
	key        string // what the key calls it
	goesIn     string
	end        string
	fall, note string
}

// plumbing gathers the lines: the runs in the order of the file, then the drains.
func (d *draft) plumbing() []plumb {
	var out []plumb
	n := 0
	for i := range d.e.Runs {
		r := &d.e.Runs[i]
		l := plumb{name: r.Name, from: r.From.Name, to: r.To.Name, run: r, start: d.l.Z(d.heightOf(r.From)), end: d.l.Z(d.heightOf(r.To))}
		if r.To.Kind == enclosure.AtPool || r.To.Kind == enclosure.AtSump {
			l.end = d.l.Z(r.EndHeight)
		}
		l.top = math.Max(l.start, l.end)
		if !math.IsNaN(r.Crest) {
			l.top = math.Max(l.top, d.l.Z(r.Crest))
		}
		for k := range r.Pieces {
			n++
			l.items = append(l.items, d.pieceItem(n, r.Pieces, k, d.startOf(r), d.endOf(r)))
		}
		if r.To.Kind == enclosure.AtTee { // drawn once, where a line ends in it
			n++
			l.items = append(l.items, item{number: n, label: "tee: " + r.To.Name, key: "tee: " + r.To.Name, z: l.end})
		}
		out = append(out, l)
	}
	for i := range d.e.Drains {
		r := &d.e.Drains[i]
		l := plumb{name: r.Name, from: "pool", to: r.To.Name, drain: r, start: d.l.Z(r.Lip), end: d.l.Z(r.End), top: d.l.Z(r.Lip)}
		n = d.drainItems(&l, n)
		out = append(out, l)
	}
	return out
}

// heightOf is the height of a place, m above the room floor.
func (d *draft) heightOf(p enclosure.Place) float64 {
	switch {
	case p.Kind == enclosure.AtPump && p.Index < len(d.e.Pumps):
		return d.e.Pumps[p.Index].Inlet
	case p.Kind == enclosure.AtTee && p.Index < len(d.e.Tees):
		return d.e.Tees[p.Index].Height
	case p.Kind == enclosure.AtManifold && p.Index < len(d.e.Manifolds):
		return d.e.Manifolds[p.Index].Height
	case p.Kind == enclosure.AtPool:
		return d.e.Pool.Floor
	}
	return d.e.Sump.Bottom
}

// sketchNotes tell how to read the sketch.
const sketchNotes = "Heights are true and count from the datum, the inside bottom of the enclosure. Along a line only the order of its parts is true. Numbers are those of the key. Two bars: undo here. A bow tie: a valve. A triangle: a valve that lets water one way."

// sketch draws some lines side by side.
func (d *draft) sketch(s *answers.Survey, title string, lines []plumb) drawing.Sheet {
	sump := d.l.Z(d.e.Sump.Bottom)
	lo, hi := sump, d.l.Z(d.e.Pool.DamTop)
	for i := range lines {
		lo, hi = math.Min(lo, lines[i].end), math.Max(hi, lines[i].top)
	}
	levels := []level{
		{"bottom of the sump", sump},
		{"rim of the sump", d.l.Z(d.e.Sump.Bottom + d.e.Sump.Height)},
		{"sump, running", d.l.Z(s.Likely.SumpLevel)},
		{"pool, running", d.l.Z(s.Likely.PoolLevel)},
		{"floor of the pool", d.l.Z(d.e.Pool.Floor)},
		{"top of the dam", d.l.Z(d.e.Pool.DamTop)},
	}
	for i := range lines {
		levels = append(levels, lines[i].levels(d)...)
	}
	const right = 68.0
	a := around{left: 16, above: 14, right: right, below: 12}
	high := (hi - lo) * 1.02
	// Upright paper: so narrow that it is drawn no larger on its side.
	b := d.board(plumbingGroup, title, high*0.3, high, a, []string{sketchNotes, d.units()})
	b.frame.Left, b.frame.Right = b.room.Left+a.left, b.room.Right-a.right
	w := &view{draft: d, look: fromFront(), board: b, v0: lo}
	w.lead = true
	b.sheet.Description = sketchNotes
	w.levels(levels)
	q := &sketcher{view: w}
	q.basin(sump, d.e.Sump.Height, d.l.Z(s.Likely.SumpLevel), w.frame.Left, w.frame.Right)
	each := (w.frame.Right - w.frame.Left) / float64(len(lines))
	side := drawing.Rows{Upright: true, First: w.frame.Left - 3, Outward: -1, Least: w.room.Top + 1, Most: w.room.Bottom - 1}
	for i := range lines {
		l := &lines[i]
		x := w.frame.Left + each*float64(i)
		var dim drawing.Measure
		if l.drain != nil {
			dim = q.drain(l, d.l.Z(s.Likely.PoolLevel), x, x+each)
		} else {
			dim = q.run(l, x, x+each)
		}
		if dim.Text != "" {
			side.Measures = append(side.Measures, dim)
		}
	}
	w.rows(side)
	return w.sheet
}

// levels are the heights that belong to a line.
func (l *plumb) levels(d *draft) []level {
	var out []level
	switch {
	case l.drain != nil:
		out = append(out, level{"lip, " + l.name, l.start}, level{"bulkhead, " + l.name, d.l.Z(l.drain.BulkheadAt)}, level{"end, " + l.name, l.end})
	case l.run.To.Kind == enclosure.AtManifold:
		out = append(out, level{l.to, l.end})
	default:
		out = append(out, level{"end, " + l.name, l.end})
	}
	if l.drain == nil && l.run.From.Kind == enclosure.AtPump {
		out = append(out, level{"inlet, " + l.from, l.start})
	} else if l.drain == nil {
		out = append(out, level{"begin, " + l.name, l.start})
	}
	if l.drain == nil && l.top > math.Max(l.start, l.end) {
		out = append(out, level{"crest, " + l.name, l.top})
	}
	return out
}
