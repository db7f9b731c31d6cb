package structure

import (
	"fmt"
	"math"

	"rillwright/source"
)

// Notch is an opening with corners in a Sheet: a slot within it, or a notch at its
// edge.
type Notch struct {
	X, Y          float64 // centre from the lower left corner, m
	Width, Height float64 // m
	Corner        float64 // radius of its corners, m
}

// NotchRule is one body's word on openings with corners. A figure that it does not
// have is nil. All lengths are m; t is the thickness.
type NotchRule struct {
	Name    string
	Corner  func(t float64) float64       // least radius of its corners
	Edge    func(t, size float64) float64 // least to an edge, size being its own that way; of strict rules for slots alone
	Largest func(side float64) float64    // most size, of the pane's narrow side
	Leg     func(t float64) float64       // least from a notch to the pane's corner
	Strict  bool                          // only some ask for it
	Source  source.Key
}

// NotchRules returns what glass processors ask of slots and notches. They write
// of panes that are toughened afterwards, and some make none in annealed glass at
// all. The edge of the first is theirs for holes, taken over (assumed).
func NotchRules() []NotchRule {
	const inch = 0.0254
	return []NotchRule{
		{
			Name: "glazing", Source: "notch-fabricators",
			Corner:  func(t float64) float64 { return t },
			Edge:    func(t, _ float64) float64 { return max(inch/4, 2*t) },
			Largest: func(side float64) float64 { return side / 3 },
		},
		{
			Name: "stricter glaziers'", Source: "notch-fabricators", Strict: true,
			Corner: func(t float64) float64 { return max(t, inch/2) },
			Edge: func(t, size float64) float64 {
				if t < 0.007 {
					return max(0.075, size/2)
				}
				return max(0.1, size/2)
			},
			Leg: func(float64) float64 { return 3 * inch },
		},
	}
}

// What a NotchClearance is about.
const (
	NotchCorners = "radius of its corners"
	NotchLargest = "largest size"
	NotchEdge    = "rim to edge"
	NotchLeg     = "notch to corner"
)

// NotchClearance is what a rule says of a slot or notch.
type NotchClearance struct {
	What       string // NotchCorners and so on
	Rule       string
	Have, Need float64 // m
	Most       bool    // Have may be at most Need; otherwise it must be at least that
	Strict     bool
	Source     source.Key
}

// Margin returns by how much a rule is kept (m), negative if it is broken.
func (c NotchClearance) Margin() float64 {
	if c.Most {
		return c.Need - c.Have
	}
	return c.Have - c.Need
}

// Kept reports whether a rule is kept, to within a hundredth of a millimetre.
func (c NotchClearance) Kept() bool { return c.Margin() > -1e-5 }

// atEdge is how near an opening comes to the edge that it is open to, m.
const atEdge = 0.5e-3

// CheckNotch returns what every rule says of an opening with corners. One that
// comes to an edge is a notch there: it has no distance from that edge, but one from
// the pane's corners along it. The error names a size that is not over 0 or an
// opening that reaches off the sheet.
func CheckNotch(s Sheet, rules []NotchRule, n Notch) ([]NotchClearance, error) {
	if !positive(s.Width, s.Height, s.Thickness, n.Width, n.Height) || !(n.Corner >= 0) {
		return nil, fmt.Errorf("notch: sizes of %g by %g m in a sheet of %g by %g by %g m must be over 0", n.Width, n.Height, s.Width, s.Height, s.Thickness)
	}
	// Left and right, bottom and top; then its own size that way.
	gap := [4]float64{n.X - n.Width/2, s.Width - n.X - n.Width/2, n.Y - n.Height/2, s.Height - n.Y - n.Height/2}
	size := [4]float64{n.Width, n.Width, n.Height, n.Height}
	open := [4]bool{}
	for i, g := range gap {
		if !(g >= -atEdge) {
			return nil, fmt.Errorf("notch: %g by %g m at %g, %g m reaches off the sheet of %g by %g m", n.Width, n.Height, n.X, n.Y, s.Width, s.Height)
		}
		open[i] = g < atEdge
	}
	var out []NotchClearance
	for _, r := range rules {
		add := func(what string, have, need float64, most bool) {
			out = append(out, NotchClearance{what, r.Name, have, need, most, r.Strict, r.Source})
		}
		if r.Corner != nil {
			add(NotchCorners, n.Corner, r.Corner(s.Thickness), false)
		}
		if r.Largest != nil {
			add(NotchLargest, max(n.Width, n.Height), r.Largest(min(s.Width, s.Height)), true)
		}
		slot := open == [4]bool{}
		if r.Edge != nil && (slot || !r.Strict) {
			have, need := math.Inf(1), 0.0
			for i, g := range gap {
				if want := r.Edge(s.Thickness, size[i]); !open[i] && g-want < have-need {
					have, need = g, want
				}
			}
			add(NotchEdge, have, need, false)
		}
		if r.Leg != nil {
			for i := range gap {
				if open[i] {
					across := (i ^ 2) &^ 1 // the two edges beside it
					add(NotchLeg, min(gap[across], gap[across+1]), r.Leg(s.Thickness), false)
				}
			}
		}
	}
	return out, nil
}
