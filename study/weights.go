package study

import (
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
)

// Stage is how far a build has come, or what has been done to it.
type Stage int

// The stages, each with all that the one before has.
const (
	Bare    Stage = iota // panes, rims and braces on the stand, dry
	Drained              // planted and wet, no water standing anywhere
	Running
	Brim // as running, the pool full to the dam's top
)

// LoadKind is what a Load is, for sums and for words.
type LoadKind int

// The kinds of load.
const (
	PaneLoad  LoadKind = iota
	FrameLoad          // rims and braces
	WallLoad           // grid, foam, moss and plants, wet
	PieceLoad          // wood and rock that was weighed
	SunkLoad           // what else takes up room in the pool
	LampLoad
	PoolLoad // the pool's water
	PipeLoad // water in hose and pipe
	SumpLoad // the empty sump with its pumps
	SumpWaterLoad
	StandLoad
)

// Load is one thing with a weight.
type Load struct {
	Kind   LoadKind
	Name   string
	Mass   float64         // kg
	Centre structure.Point // from the enclosure's inside back-left-bottom corner, Z up from there
	Line   int             // of the design file, 0 if it does not name the thing
	On     string          // the grid panel that it hangs on or is
	Each   float64         // kg of one of several alike that are carried one by one
	// Standing water may run to the low side: its box, left to right and front to
	// back, and its depth, m. Depth is 0 for all that cannot.
	Across, Deep, Depth float64
	// Swing is how far the centre moves when a door is opened wide.
	Swing structure.Point
	Door  bool
}

// WeightUnit tells how a WeightDoubt is shown.
type WeightUnit int

// The units of weight doubts.
const (
	Kilograms WeightUnit = iota
	PerArea              // kg/m2
	PerVolume            // kg/m3
	Thick                // m
	Share
)

// WeightDoubt is a figure of the weights that is known only as a band, SI.
type WeightDoubt struct {
	What   string
	Band   quantity.Band[float64]
	Unit   WeightUnit
	Why    string
	Settle string
	Line   int
}

// Weights is everything in a design that weighs something.
type Weights struct {
	Doubts []WeightDoubt
	// Assumed says in words what was taken because the file does not say it, and
	// Left what was left out.
	Assumed, Left []string
	// Unplaced names what the file does not place: it is taken to be in the middle
	// of the enclosure.
	Unplaced []string
	Footing  Footing
	Top      float64 // of the enclosure, from the datum, m
	// CarriesSump tells whether the sump stands in the stand; SumpSaid whether
	// the file says so.
	CarriesSump, SumpSaid bool
	Panes                 int // listed in the file
	items                 []item
}

// item is one load as a function of the doubts and the stage.
type item struct {
	from Stage
	load func(v sides, at Stage) Load
}

// sides is a choice of an end for each doubt; the zero value is likely.
type sides struct {
	w    *Weights
	side []int
}

// of returns the figure of a doubt, 0 for none (-1).
func (v sides) of(doubt int) float64 {
	s := 0
	if doubt < len(v.side) {
		s = v.side[doubt]
	}
	return v.w.Doubts[doubt].Band.At(s)
}

// doubt adds one and returns its number. A band of no width is none to anybody
// else, but can be asked for all the same.
func (w *Weights) doubt(d WeightDoubt) int {
	for i := range w.Doubts {
		if w.Doubts[i].What == d.What && w.Doubts[i].Band == d.Band {
			return i
		}
	}
	w.Doubts = append(w.Doubts, d)
	return len(w.Doubts) - 1
}

func (w *Weights) add(from Stage, load func(v sides, at Stage) Load) {
	w.items = append(w.items, item{from, load})
}

// fixed adds a load of which nothing is in doubt.
func (w *Weights) fixed(from Stage, l Load) {
	w.add(from, func(sides, Stage) Load { return l })
}

func (w *Weights) assume(words string) { w.Assumed = append(w.Assumed, words) }

// At returns every load at a stage with each doubt at an end: -1 low, 1 high, 0
// likely; nil for all likely.
func (w *Weights) At(stage Stage, side []int) []Load {
	v := sides{w, side}
	out := make([]Load, 0, len(w.items))
	for i := range w.items {
		if w.items[i].from > stage {
			continue
		}
		if l := w.items[i].load(v, stage); l.Mass > 0 {
			out = append(out, l)
		}
	}
	return out
}

// Weigh finds everything that weighs something. The state is the likely running
// one, of which the water's levels and density are taken.
func Weigh(e *enclosure.Enclosure, st *State) *Weights {
	w := &Weights{Left: []string{"sealant, hose, pipe, fittings, cords and a hood"}}
	b := &weigher{Weights: w, e: e, st: st, at: layout.Of(e)}
	b.Footing = footing(e, b.at)
	w.Top = b.at.Outside.Max.Z
	w.CarriesSump, w.SumpSaid = e.Design.Stand.Sump.Value, e.Design.Stand.Sump.Given()
	b.panes()
	b.frames()
	b.wall()
	b.pool()
	b.pieces()
	b.fixtures()
	b.sump()
	b.stand()
	return w
}

type weigher struct {
	*Weights

	e  *enclosure.Enclosure
	st *State
	at *layout.Layout
}
