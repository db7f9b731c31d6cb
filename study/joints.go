package study

import (
	"math"
	"slices"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure/plate"
)

// Pull says which way the water loads a bed of sealant.
type Pull uint8

// The ways. A bed that one pane shears and the other pulls is Both.
const (
	Sheared Pull = iota
	Pulled
	Both
)

func (p Pull) String() string { return [...]string{"sheared", "pulled", "sheared and pulled"}[p] }

// Joint is one sealed joint, or several alike: the edge of a pane on another pane,
// or a brace on a pane. Its bed is as wide as the glass is thick whose edge is
// bonded.
type Joint struct {
	Name   string // "dam, bottom"
	Count  int    // how many alike
	Length float64
	Bite   quantity.Band[float64] // m
	Of     string                 // whose edge is bonded
	Unsure bool                   // the sizes do not say whose edge it is: the thinner was taken
	Pull   Pull
	Old    bool // of the shop tank: it was there before
	Leans  bool // the water presses the pane on a stop: the sealant only seals
	DamEnd bool // an end of the dam, whose free edge turns in it
	// Running is the peak line load (N/m) with glass as likely, Brim with the pool
	// full and glass thin, as likely and thick. Where both panes load one bed, the
	// two peaks are taken at one place, at right angles: more than any place bears.
	Running float64
	Brim    [3]float64
	Loaded  bool // the pool's water is on it
	Slope   [3]float64
	Fillets [2]float64 // how many are drawn into its corners, at least and at most
	Line    int
}

// Joints is every sealed joint of a design.
type Joints struct {
	List []Joint
	// Placed are panes whose place was taken from their names, Lost those whose place
	// is not known, or which nothing holds, so that their joints are left out.
	Placed, Lost []string
	// Open are sides whose front edge nothing in the file holds.
	Open []string
	// BraceEnds are the ends of grid's braces that are bonded to glass.
	BraceEnds []BraceEnd
}

// BraceEnd is the end of a brace of grid on glass.
type BraceEnd struct {
	Area  float64 // m2
	Panel int     // in the design's list, the one it comes from
}

// braceEnds lists them. Nothing is placed where there are none.
func braceEnds(e *enclosure.Enclosure) (out []BraceEnd) {
	if !slices.ContainsFunc(e.Design.Grid, func(g design.GridPanel) bool { return len(g.Braces) > 0 }) {
		return nil
	}
	l := layout.Of(e)
	for i := range l.GridBraces {
		if b := &l.GridBraces[i]; b.Bond > 0 {
			out = append(out, BraceEnd{b.Width * b.Bond, l.Grids[b.Grid].Index})
		}
	}
	return out
}

// wall is one pane as its joints see it.
type wall struct {
	p     *design.Pane
	at    string
	count int
	glass *GlassPane // nil if no water presses on it
}

// SealedJoints finds the sealed joints of a design: where its panes meet, by their
// places and sizes, with what the solved panes pass on to them.
func SealedJoints(e *enclosure.Enclosure, panes []GlassPane) Joints {
	f := &jointFinder{e: e, d: e.Design, panes: panes}
	f.out.BraceEnds = braceEnds(e)
	for i := range f.d.Enclosure.Panes {
		p := &f.d.Enclosure.Panes[i]
		at, guessed := enclosure.PanePlace(p)
		switch {
		case at == "":
			f.out.Lost = append(f.out.Lost, p.Name.Value)
			continue
		case guessed:
			f.out.Placed = append(f.out.Placed, p.Name.Value)
		}
		w := wall{p: p, at: at, count: max(1, p.Count.Value)}
		if g := f.glass(p.Name.Value); g != nil && !g.Lying {
			w.glass = g
			if g.Trouble != "" {
				f.out.Lost, w.glass = append(f.out.Lost, p.Name.Value), nil
			}
		}
		f.walls = append(f.walls, w)
	}
	f.dam()
	for i := range f.walls {
		f.bottom(&f.walls[i])
	}
	for i := range f.walls {
		f.corners(&f.walls[i])
		f.others(&f.walls[i])
	}
	f.braces()
	return f.out
}

type jointFinder struct {
	e     *enclosure.Enclosure
	d     *design.Design
	panes []GlassPane
	walls []wall
	out   Joints
}

// glass returns the solved pane of a name.
func (f *jointFinder) glass(name string) *GlassPane {
	for i := range f.panes {
		if f.panes[i].Name == name && f.panes[i].Thickness.Likely > 0 {
			return &f.panes[i]
		}
	}
	return nil
}

// where returns the first pane at a place that stands at the bottom.
func (f *jointFinder) where(places ...string) *wall {
	for i := range f.walls {
		for _, at := range places {
			if f.walls[i].at == at && f.walls[i].p.Up.Value == 0 {
				return &f.walls[i]
			}
		}
	}
	return nil
}

func (f *jointFinder) side() *wall { return f.where("sides", "left", "right") }

// bite is the thickness of a pane as it may measure.
func (w *wall) bite() quantity.Band[float64] {
	t, _ := thickness(w.p.Thickness)
	return t
}

// bonded reports whether the file has an edge bonded, as it is if it says nothing.
func bonded(edge design.Field[string]) bool { return edge.Value == "" || edge.Value == "bonded" }

// old reports whether a pane was one of the shop tank's.
func (f *jointFinder) old(w *wall) bool {
	if w == nil || f.d.Enclosure.Made.Value != "from a tank" {
		return false
	}
	if w.p.Was.Given() {
		return true
	}
	for i := range f.d.Enclosure.Panes { // does the file say of others what they were?
		if f.d.Enclosure.Panes[i].Was.Given() {
			return false
		}
	}
	return w.at != "dam" && w.at != "inside" && w.at != "door"
}

// outside returns the enclosure's outside width or depth; from the inside and the
// glass if only that is given.
func (f *jointFinder) outside(depth bool, t float64) float64 {
	out, in := f.d.Enclosure.Outside.Width, f.d.Enclosure.Inside.Width
	if depth {
		out, in = f.d.Enclosure.Outside.Depth, f.d.Enclosure.Inside.Depth
	}
	if out.Given() {
		return float64(out.Value)
	}
	return float64(in.Value) + 2*t
}

// reaches reports whether a size covers the thickness of the pane that it meets.
func (f *jointFinder) reaches(size float64, depth bool, t float64) bool {
	return size > f.outside(depth, t)-t/2
}

// peaks adds the peak line load of an edge to a joint.
func (s *Joint) peaks(g *GlassPane, side plate.Side) {
	if g == nil {
		return
	}
	s.Loaded = true
	at := func(p *PaneState) float64 { return math.Max(p.Edges[side].Peak, 0) }
	s.Running = math.Hypot(s.Running, at(&g.Running))
	for i := range g.Brim {
		s.Brim[i] = math.Hypot(s.Brim[i], at(&g.Brim[i]))
	}
}
