package structure

import (
	"fmt"

	"rillwright/quantity"
)

// Kind is what a pane is made of.
type Kind int

// The kinds of pane. The zero Kind is not known: nothing is assumed of it.
const (
	UnknownKind      Kind = iota
	Annealed              // float glass as it comes; can be cut and drilled
	HeatStrengthened      // half toughened
	Toughened             // tempered; bursts when cut, drilled or notched
	Laminated             // plies of annealed glass with a film between
	Acrylic
	Polycarbonate
)

func (k Kind) String() string {
	switch k {
	case UnknownKind:
		return "not known"
	case Annealed:
		return "annealed glass"
	case HeatStrengthened:
		return "heat-strengthened glass"
	case Toughened:
		return "toughened glass"
	case Laminated:
		return "laminated glass"
	case Acrylic:
		return "acrylic"
	case Polycarbonate:
		return "polycarbonate"
	}
	return fmt.Sprintf("unknown kind %d", int(k))
}

// Drilling tells whether a pane can be drilled.
type Drilling int

// What drilling does to a pane.
const (
	DrillingUnknown Drilling = iota // find out first: crossed polarisers, the stamp, the seller
	DrillingNever                   // the pane bursts
	DrillingHard                    // only by a glass shop
	DrillingPossible
)

// Drilling returns whether panes of this kind, as they are, can be drilled.
// Toughened glass must be drilled before it is toughened; heat-strengthened is
// treated alike. Source: processors' pages on toughened glass (en-12150-1);
// laminated is common practice, no source.
func (k Kind) Drilling() Drilling {
	switch k {
	case Annealed, Acrylic, Polycarbonate:
		return DrillingPossible
	case HeatStrengthened, Toughened:
		return DrillingNever
	case Laminated:
		return DrillingHard
	}
	return DrillingUnknown
}

// Material is what a kind of pane is like.
type Material struct {
	Kind    Kind
	Density Figure // kg/m3
	Young   Figure // modulus of elasticity under a short load, Pa
	Creep   Figure // modulus after years under load, Pa; as Young for glass
	Poisson Figure // ratio
}

// MaterialOf returns the figures of a kind of pane at room temperature; ok is
// false for a kind that is not known. Laminated glass has the figures of its
// plies: see LayeredThickness for what they do together.
func MaterialOf(k Kind) (m Material, ok bool) {
	b := func(low, likely, high float64) quantity.Band[float64] {
		return quantity.Band[float64]{Low: low, Likely: likely, High: high}
	}
	switch k {
	case Annealed, HeatStrengthened, Toughened, Laminated:
		young := Figure{Band: b(70e9, 70e9, 71.7e9), Source: "en-572-1", Note: "high as astm-e1300 has it, from memory"}
		return Material{
			Kind:    k,
			Density: Figure{Band: b(2500, 2500, 2500), Source: "en-572-1"},
			Young:   young,
			Creep:   young,
			Poisson: Figure{Band: b(0.20, 0.23, 0.23), Source: "en-572-1", Note: "0.20 there; 0.22 and 0.23 elsewhere, from memory"},
		}, true
	case Acrylic:
		return Material{
			Kind:    k,
			Density: Figure{Band: b(1190, 1190, 1190), Source: "acrylic-design-stress"},
			Young:   Figure{Band: b(2.86e9, 3.0e9, 3.2e9), Source: "acrylic-design-stress", Note: "low read; high from memory, likely between"},
			Creep:   Figure{Band: b(1.2e9, 1.4e9, 1.6e9), Source: "memory", Note: "over years; likely is the middle"},
			Poisson: Figure{Band: b(0.37, 0.37, 0.37), Source: "memory"},
		}, true
	case Polycarbonate:
		return Material{
			Kind:    k,
			Density: Figure{Band: b(1200, 1200, 1200), Source: "memory"},
			Young:   Figure{Band: b(2.35e9, 2.35e9, 2.35e9), Source: "memory"},
			Creep:   Figure{Band: b(1.7e9, 1.7e9, 1.7e9), Source: "memory", Note: "one figure remembered; its spread is not known"},
			Poisson: Figure{Band: b(0.38, 0.38, 0.38), Source: "memory"},
		}, true
	}
	return Material{}, false
}

// StripStress returns the largest bending stress (Pa) of a long strip of
// thickness t (m) held along two edges a span (m) apart under a uniform
// pressure (Pa): 0.75 q L^2/t^2. Also a floor pane over a gap in its base.
// Derived, for thin plates that bow less than half their thickness.
func StripStress(span, t, pressure float64) float64 {
	return 0.75 * pressure * span * span / (t * t)
}

// StripBow returns the bow (m) of that strip at mid-span for a modulus (Pa):
// 5 q L^4/(384 D), D = E t^3/(12 (1 - nu^2)), at either side of which it is
// long. Derived, as StripStress.
func StripBow(span, t, pressure, young, poisson float64) float64 {
	d := young * t * t * t / (12 * (1 - poisson*poisson))
	return 5 * pressure * span * span * span * span / (384 * d)
}
