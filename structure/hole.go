package structure

import (
	"fmt"
	"math"

	"rillwright/source"
)

// Sheet is a pane that is to be drilled, seen flat.
type Sheet struct {
	Width, Height, Thickness float64 // m
}

// Hole is a round hole in a Sheet.
type Hole struct {
	X, Y     float64 // centre from the lower left corner, m
	Diameter float64 // m
}

// HoleRule is one body's word on where holes may be. A figure that it does not
// have is nil. All lengths are m; t is the thickness, d the diameter.
type HoleRule struct {
	Name    string
	Edge    func(t, d float64) float64 // least from rim to edge
	Corner  func(t, d float64) float64 // least from rim to corner
	Between func(t, d, other float64) float64
	Largest func(narrowSide float64) float64 // most diameter
	Least   func(t float64) float64          // least diameter
	Source  source.Key
}

// HoleRules returns the rules of glazing and of the hobby. All but the last are
// of glaziers; those of EN 12150-1 were written for holes made before toughening
// and are taken as least distances in annealed glass too (assumed).
func HoleRules() []HoleRule {
	const inch = 0.0254
	twice := func(t, _ float64) float64 { return 2 * t }
	return []HoleRule{
		{
			Name: "glazing, European", Source: "en-12150-1",
			Edge:    twice,
			Corner:  func(t, _ float64) float64 { return 6 * t },
			Between: func(t, _, _ float64) float64 { return 2 * t },
			Least:   func(t float64) float64 { return t },
		},
		{
			Name: "glazing, North American", Source: "hole-fabricators",
			Edge:    func(t, _ float64) float64 { return max(inch/4, 2*t) },
			Corner:  func(t, _ float64) float64 { return 6.5 * t },
			Between: func(t, _, _ float64) float64 { return max(inch*3/8, 2*t) },
			Largest: func(narrow float64) float64 { return narrow / 3 },
		},
		{
			Name: "hobby", Source: "reef-drilling",
			Edge: func(_, d float64) float64 { return d },
			// Two diameters from centre to centre; of unlike holes the wider counts.
			Between: func(_, d, other float64) float64 { return 2*max(d, other) - (d+other)/2 },
		},
	}
}

// Clearance is what a rule says of one hole.
type Clearance struct {
	Hole, Other int // indices; Other is -1 unless What is HoleToHole
	What        ClearanceOf
	Rule        string
	Have, Need  float64 // m
	Source      source.Key
}

// ClearanceOf is which distance a Clearance is about.
type ClearanceOf int

// The distances. For LargestHole Have may be at most Need, for all others it
// must be at least Need.
const (
	RimToEdge ClearanceOf = iota
	RimToCorner
	HoleToHole
	LargestHole
	LeastHole
)

func (w ClearanceOf) String() string {
	switch w {
	case RimToEdge:
		return "rim to edge"
	case RimToCorner:
		return "rim to corner"
	case HoleToHole:
		return "rim to rim"
	case LargestHole:
		return "largest hole"
	case LeastHole:
		return "least hole"
	}
	return fmt.Sprintf("unknown distance %d", int(w))
}

// Margin returns by how much a rule is kept (m), negative if it is broken.
func (c Clearance) Margin() float64 {
	if c.What == LargestHole {
		return c.Need - c.Have
	}
	return c.Have - c.Need
}

// Kept reports whether a rule is kept, to within a hundredth of a millimetre,
// which no tape shows.
func (c Clearance) Kept() bool { return c.Margin() > -1e-5 }

// CheckHoles returns what every rule says of every hole, in the order of rules,
// then holes. Distances are from the nearest edge and corner; Have is negative
// where the hole cuts an edge or another hole. The error names a size that is not
// over 0 or a centre that is not on the sheet.
func CheckHoles(s Sheet, rules []HoleRule, holes ...Hole) ([]Clearance, error) {
	if !positive(s.Width, s.Height, s.Thickness) {
		return nil, fmt.Errorf("holes: width %g, height %g and thickness %g m must be over 0", s.Width, s.Height, s.Thickness)
	}
	for i, h := range holes {
		if !positive(h.Diameter) || !(h.X >= 0 && h.X <= s.Width && h.Y >= 0 && h.Y <= s.Height) {
			return nil, fmt.Errorf("holes: hole %d of %g m at %g, %g m must have a size and its centre on the sheet of %g by %g m", i, h.Diameter, h.X, h.Y, s.Width, s.Height)
		}
	}
	var out []Clearance
	for _, r := range rules {
		for i, h := range holes {
			add := func(what ClearanceOf, other int, have, need float64) {
				out = append(out, Clearance{i, other, what, r.Name, have, need, r.Source})
			}
			if r.Edge != nil {
				add(RimToEdge, -1, s.toEdge(h), r.Edge(s.Thickness, h.Diameter))
			}
			if r.Corner != nil {
				add(RimToCorner, -1, s.toCorner(h), r.Corner(s.Thickness, h.Diameter))
			}
			if r.Largest != nil {
				add(LargestHole, -1, h.Diameter, r.Largest(min(s.Width, s.Height)))
			}
			if r.Least != nil {
				add(LeastHole, -1, h.Diameter, r.Least(s.Thickness))
			}
			for j := i + 1; j < len(holes) && r.Between != nil; j++ {
				o := holes[j]
				apart := math.Hypot(h.X-o.X, h.Y-o.Y) - (h.Diameter+o.Diameter)/2
				add(HoleToHole, j, apart, r.Between(s.Thickness, h.Diameter, o.Diameter))
			}
		}
	}
	return out, nil
}

func (s Sheet) toEdge(h Hole) float64 {
	return min(h.X, s.Width-h.X, h.Y, s.Height-h.Y) - h.Diameter/2
}

func (s Sheet) toCorner(h Hole) float64 {
	return math.Hypot(min(h.X, s.Width-h.X), min(h.Y, s.Height-h.Y)) - h.Diameter/2
}
