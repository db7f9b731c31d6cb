package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/fluid"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/plate"
)

// Hold is what holds an edge of a pane.
type Hold uint8

// The ways. A rimmed edge is held as firmly as its rim is stiff.
const (
	Bonded Hold = iota
	Rimmed
	Loose
)

// GlassPane is one pane that carries water, and how it stands: running, and with
// the pool full to its brim.
type GlassPane struct {
	Name      string
	At        string // bottom, back, left, right, sides, front, inside or dam
	Kind      structure.Kind
	Width     float64 // m
	Height    float64
	Thickness quantity.Band[float64] // as sold under its name, or as measured
	Named     bool                   // the thickness is a shop's name for a range
	Plies     int                    // of laminated glass; 0 for others
	Ply       quantity.Band[float64] // thickness of each, m
	Holds     [4]Hold                // by plate.Side, as seen from outside
	Strips    []Strip                // rims and braces, those of the design's braces first
	Pads      []plate.Bed            // that a floor pane lies on, its edges then free
	Openings  []Opening              // holes, slots and notches
	Lying     bool                   // a floor pane
	Flat      bool                   // one on a full board, which is not bent: it has no states
	Rests     string                 // what the file says that it rests on
	Depth     [2]float64             // of water over its lower edge, running and brim-full, m
	Outer     float64                // of water on its other side
	Stands    float64                // on a floor pane besides the water, Pa
	Partly    bool                   // the water presses on a part of its width only; all of it is taken
	Assumed   []string               // what of all this the file does not say
	// Lacks is the key without which the pane cannot be computed; it has no states.
	Lacks string
	// Trouble says why it cannot be computed as it is held; it then has no states.
	Trouble string
	Line    int

	Running PaneState    // of the likely thickness
	Brim    [3]PaneState // with the glass thin, as likely, and thick; strips and plastics as soft, likely, stiff
	Knock   PaneState    // brim-full, the glass thin, somebody pushing where it bears least
	Drained PaneState    // the glass thin, no water but that on its other side, if there is any

	weight float64 // of the water, N/m3
	refine int     // of the mesh

	posed string // the problem, in words that no other pane shares
}

// PaneState is what a pane bears.
type PaneState struct {
	Stress, Bow float64           // largest principal tension, Pa, and deflection, m
	X, Y        float64           // where the stress is, m
	EdgeBow     float64           // largest along an edge that is not bonded
	EdgeStress  float64           // largest tension along such an edge, Pa
	Openings    []float64         // stress beside each opening, Pa, +Inf if it has no meaning
	Side        plate.Reaction    // of the left edge
	Edges       [4]plate.Reaction // what each edge's support takes, by plate.Side; N/m and N
	Corners     [4]float64        // N, by plate.Corner; below 0 the corner is held down
	Braces      []plate.Reaction  // in the order of Strips
	Beds        []plate.BedReaction
	Error       float64 // what the mesh costs of the stress, at most, as a share
}

// Glass poses the panes that the pool's water presses on and solves them. The
// pool stands at level while it runs, m above the room floor. A pane that is posed
// as one of those known is not solved again: it would come out the same. One that
// nothing holds, or that is too long for its width, has its Trouble told.
func Glass(e *enclosure.Enclosure, c enclosure.Case, level float64, known ...GlassPane) []GlassPane {
	panes := glassPanes(e, level)
	weight := waterWeight(c.Of(e.WaterTemperature))
	inParallel(len(panes), func(i int) {
		p := &panes[i]
		p.posed = fmt.Sprintf("%g %+v", weight, *p)
		k := slices.IndexFunc(known, func(q GlassPane) bool { return q.posed == p.posed })
		if k >= 0 {
			*p = known[k]
			return
		}
		if err := p.states(weight); err != nil {
			p.Trouble = err.Error()
		}
	})
	return panes
}

func waterWeight(celsius float64) float64 {
	density := 1000.0
	if w, ok := fluid.AtCelsius(celsius); ok {
		density = w.Density
	}
	return density * structure.G
}

// WaterWeight returns the weight of the enclosure's water, N/m3.
func WaterWeight(e *enclosure.Enclosure, c enclosure.Case) float64 {
	return waterWeight(c.Of(e.WaterTemperature))
}

// GlassKind is what a word of the design file stands for.
func GlassKind(word string) structure.Kind {
	switch word {
	case "annealed":
		return structure.Annealed
	case "toughened":
		return structure.Toughened
	case "laminated":
		return structure.Laminated
	case "acrylic":
		return structure.Acrylic
	case "polycarbonate":
		return structure.Polycarbonate
	}
	return structure.UnknownKind
}

// thickness is what glass of a thickness measures: a range if that is a name by
// which it is sold.
func thickness(f design.Field[quantity.Length]) (quantity.Band[float64], bool) {
	t := SoldThickness(float64(f.Value), strings.Contains(f.Text, "in"))
	return t, !t.IsExact()
}

// SoldThickness returns what glass may measure (m) whose thickness (m) is that of a
// name by which it is sold, in inches or in mm; any other thickness is taken as
// measured.
func SoldThickness(t float64, inches bool) quantity.Band[float64] {
	list := structure.MetricFloat()
	if inches {
		list = structure.USFloat()
	}
	for i := range list {
		if math.Abs(list[i].Named-t) < 1e-5 {
			return list[i].Actual.Band
		}
	}
	return quantity.Exactly(t)
}

// FreeEdge returns an edge of the pane that is not bonded, the top one if there is
// a choice.
func (p *GlassPane) FreeEdge() (plate.Side, bool) {
	if free := p.freeEdges(); len(free) > 0 {
		return free[0], true
	}
	return 0, false
}

// freeEdges are all edges that are not bonded; none of a pane on pads.
func (p *GlassPane) freeEdges() []plate.Side {
	var out []plate.Side
	for _, s := range [...]plate.Side{plate.Top, plate.Left, plate.Right, plate.Bottom} {
		if p.Holds[s] != Bonded && len(p.Pads) == 0 {
			out = append(out, s)
		}
	}
	return out
}

// EdgeLength returns the length of an edge, m.
func (p *GlassPane) EdgeLength(s plate.Side) float64 {
	if s == plate.Top || s == plate.Bottom {
		return p.Width
	}
	return p.Height
}

// Pressure returns what presses on a floor pane with the pool full, Pa.
func (p *GlassPane) Pressure(weight float64) float64 { return weight*p.Depth[1] + p.Stands }

// IsPlastic reports whether the pane creeps.
func (p *GlassPane) IsPlastic() bool {
	return p.Kind == structure.Acrylic || p.Kind == structure.Polycarbonate
}

// IsHeldByStrips reports whether a rim or brace takes part.
func (p *GlassPane) IsHeldByStrips() bool { return len(p.Strips) > 0 }
