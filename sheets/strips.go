package sheets

import (
	"cmp"
	"slices"
	"strconv"

	"rillwright/drawing"
)

// strip is one of several plots that stand one over the other and share the
// axis along their foot.
type strip struct {
	name  string // what its own axis shows, with the unit
	y     axis
	keys  []key
	notes []note
	frame drawing.Box
}

// key names a kind of line.
type key struct {
	name string
	pen  drawing.Pen
}

// note is a level drawn across a strip and named beside it.
type note struct {
	name string
	at   float64 // on the strip's axis
}

// Sizes of strips, mm: from frame to frame, where name and keys stand, and the
// room for figures and for notes beside them.
const (
	stripGap               = 10.0
	stripLeft              = 19.0
	leastNotes, widestNote = 14.0, 44.0
	noteLead               = 3.0
	// The name of the first strip stands higher, over the flags.
	flagHigh = 7.0
)

// stack is a sheet of strips being drawn. Of the chart in it, frame and y are
// those of the strip being drawn.
type stack struct {
	*chart
	strips []strip
}

// newStack begins a sheet with its title and places strips on it, from top to
// bottom, mm.
func newStack(title string, width, height, top, bottom float64, x axis, strips []strip) *stack {
	c := &chart{x: x}
	c.sheet = drawing.Sheet{Title: title, Width: width, Height: height}
	c.word(drawing.Fit(title, large, width-2*margin), large, drawing.Point{X: margin, Y: margin + large}, drawing.Left)
	s := &stack{c, strips}
	notes := leastNotes
	for i := range strips {
		for _, n := range strips[i].notes {
			notes = max(notes, drawing.TextWidth(n.name, small)+noteLead+0.5)
		}
	}
	right := width - margin - min(notes, widestNote)
	tall := (bottom-top+stripGap)/float64(len(strips)) - stripGap
	for i := range strips {
		y := top + float64(i)*(tall+stripGap)
		strips[i].frame = drawing.Box{Left: stripLeft, Top: y, Right: right, Bottom: y + tall}
	}
	return s
}

// scaffold draws grids, axes, names and notes, over what is already filled. The
// name of the axis along the foot has its unit with it.
func (s *stack) scaffold(along string) {
	for i := range s.strips {
		s.enter(i)
		s.axes()
		s.head(i)
		s.note(s.strips[i].notes)
	}
	f := s.frame
	for _, v := range s.x.ticks() {
		s.word(s.x.label(v), small, drawing.Point{X: s.at(v, 0).X, Y: f.Bottom + 5.5}, drawing.Middle)
	}
	s.word(along, small, drawing.Point{X: (f.Left + f.Right) / 2, Y: f.Bottom + 10.8}, drawing.Middle)
}

// enter turns to a strip.
func (s *stack) enter(i int) { s.frame, s.y = s.strips[i].frame, s.strips[i].y }

func (s *stack) axes() {
	f := s.frame
	for _, v := range s.x.ticks() {
		x := s.at(v, 0).X
		s.rule(drawing.Point{X: x, Y: f.Top}, drawing.Point{X: x, Y: f.Bottom})
		s.sheet.Add(drawing.Line(drawing.Point{X: x, Y: f.Bottom}, drawing.Point{X: x, Y: f.Bottom + 1.2}, drawing.Thin))
	}
	for _, v := range s.y.ticks() {
		y := s.at(0, v).Y
		s.rule(drawing.Point{X: f.Left, Y: y}, drawing.Point{X: f.Right, Y: y})
		s.sheet.Add(drawing.Line(drawing.Point{X: f.Left - 1.2, Y: y}, drawing.Point{X: f.Left, Y: y}, drawing.Thin))
		s.word(s.y.label(v), small, drawing.Point{X: f.Left - 2, Y: y + small/2}, drawing.Right)
	}
}

// head writes what a strip shows over its frame, and samples of its lines with
// their names if there are several.
func (s *stack) head(i int) {
	const sample, gap, apart = 9.0, 1.8, 5.0
	p := &s.strips[i]
	x, y := margin, s.frame.Top-2.6
	if i == 0 {
		y -= flagHigh
	}
	name := drawing.Fit(p.name, small, s.sheet.Width/2-margin)
	s.word(name, small, drawing.Point{X: x, Y: y}, drawing.Left)
	if len(p.keys) < 2 {
		return
	}
	x += drawing.TextWidth(name, small) + 2*apart
	for i, k := range p.keys {
		left := (s.sheet.Width - margin - x) / float64(len(p.keys)-i)
		name := drawing.Fit(k.name, small, left-sample-gap-apart)
		s.sheet.Add(drawing.Line(drawing.Point{X: x, Y: y - small/2}, drawing.Point{X: x + sample, Y: y - small/2}, k.pen))
		s.word(name, small, drawing.Point{X: x + sample + gap, Y: y}, drawing.Left)
		x += sample + gap + drawing.TextWidth(name, small) + apart
	}
}

// note draws levels across the frame and their names to the right of it.
func (s *stack) note(notes []note) {
	if len(notes) == 0 {
		return
	}
	notes = slices.Clone(notes)
	slices.SortStableFunc(notes, func(a, b note) int { return cmp.Compare(b.at, a.at) }) // from the top down
	want, sizes := make([]float64, len(notes)), make([]float64, len(notes))
	for i, n := range notes {
		want[i], sizes[i] = s.at(0, n.at).Y, leading-0.6
	}
	for i, y := range spread(want, sizes, s.frame.Top, s.frame.Bottom) {
		from, to := s.frame.Right, s.sheet.Width-margin
		s.sheet.Add(
			drawing.Line(drawing.Point{X: s.frame.Left, Y: want[i]}, drawing.Point{X: from, Y: want[i]}, drawing.Dashed),
			drawing.Line(drawing.Point{X: from, Y: want[i]}, drawing.Point{X: from + 2.2, Y: y}, drawing.Thin),
		)
		s.word(drawing.Fit(notes[i].name, small, to-from-noteLead), small, drawing.Point{X: from + noteLead, Y: y + small/2}, drawing.Left)
	}
}

// numbers draws flags with numbers from 1. Places that run into one share a
// flag.
func (s *stack) numbers(at []float64) {
	const together = 1.0 // mm
	var want []float64
	var names []string
	for i := 0; i < len(at); {
		x, k := s.at(at[i], 0).X, i+1
		for k < len(at) && s.at(at[k], 0).X-x < together {
			k++
		}
		name := strconv.Itoa(i + 1)
		if k > i+1 {
			name += "-" + strconv.Itoa(k)
		}
		want, names = append(want, at[i]), append(names, name)
		i = k
	}
	s.flags(want, names)
}

// flags draws names over the first strip, each led to its place along the axis,
// where a line goes down through all strips.
func (s *stack) flags(at []float64, names []string) {
	top := s.strips[0].frame
	want, sizes := make([]float64, len(at)), make([]float64, len(at))
	lo, hi := top.Left, top.Right
	for i, v := range at {
		want[i], sizes[i] = s.at(v, 0).X, drawing.TextWidth(names[i], small)+2.5
	}
	if n := len(at); n > 0 { // the outer names may reach as far as the sheet's margins
		lo = max(lo, margin+sizes[0]/2)
		hi = min(hi, s.sheet.Width-margin-sizes[n-1]/2)
	}
	for i, x := range spread(want, sizes, lo, hi) {
		s.sheet.Add(drawing.Line(drawing.Point{X: x, Y: top.Top - flagHigh + 2.8}, drawing.Point{X: want[i], Y: top.Top}, drawing.Fine))
		for _, p := range s.strips {
			s.sheet.Add(drawing.Line(drawing.Point{X: want[i], Y: p.frame.Top}, drawing.Point{X: want[i], Y: p.frame.Bottom}, drawing.Fine))
		}
		s.word(names[i], small, drawing.Point{X: x, Y: top.Top - flagHigh + 2.2}, drawing.Middle)
	}
}

// spread moves the middles of things as little as it can (in the sum of squares)
// so that the things, of some sizes, do not overlap, and keeps the middles from
// lo to hi. They come in rising order. Where the room is too small for all, they
// overlap alike. Method: pool adjacent violators (Ayer & others 1955, from
// memory).
func spread(want, sizes []float64, lo, hi float64) []float64 {
	n := len(want)
	if n == 0 {
		return nil
	}
	after := make([]float64, n) // distance from the first thing, packed
	for i := 1; i < n; i++ {
		after[i] = after[i-1] + (sizes[i-1]+sizes[i])/2
	}
	if all := after[n-1]; all > hi-lo {
		for i := range after {
			after[i] *= (hi - lo) / all
		}
	}
	type pool struct {
		mean float64
		n    int
	}
	var pools []pool
	for i, w := range want {
		p := pool{w - after[i], 1}
		for len(pools) > 0 && pools[len(pools)-1].mean >= p.mean {
			q := pools[len(pools)-1]
			pools = pools[:len(pools)-1]
			p = pool{(p.mean*float64(p.n) + q.mean*float64(q.n)) / float64(p.n+q.n), p.n + q.n}
		}
		pools = append(pools, p)
	}
	out := make([]float64, 0, n)
	for _, p := range pools {
		at := min(max(p.mean, lo), hi-after[n-1])
		for range p.n {
			out = append(out, at+after[len(out)])
		}
	}
	return out
}
