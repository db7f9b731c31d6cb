package structure

import (
	"math"

	"rillwright/quantity"
)

// StripModulus returns the modulus of elasticity (Pa) after years under load of
// what rims and braces are made of: plastic (of a rim), glass, acrylic,
// polycarbonate, aluminium or steel. ok is false for another word.
//
// Rim plastics are not named on a tank: 0.5 to 2 GPa, likely 1, is assumed for what
// creep leaves of some 2 GPa under a short load. Metals from memory; the others as
// MaterialOf has them.
func StripModulus(of string) (f Figure, ok bool) {
	switch of {
	case "plastic":
		return Figure{Band: quantity.Band[float64]{Low: 0.5e9, Likely: 1e9, High: 2e9}, Source: "assumed", Note: "no source; about 2 GPa under a short load, from memory"}, true
	case "aluminium":
		return Figure{Band: quantity.Exactly(70e9), Source: "memory"}, true
	case "steel":
		return Figure{Band: quantity.Exactly(200e9), Source: "memory"}, true
	case "glass", "acrylic", "polycarbonate":
		m, _ := MaterialOf(map[string]Kind{"glass": Annealed, "acrylic": Acrylic, "polycarbonate": Polycarbonate}[of])
		return m.Creep, true
	}
	return Figure{}, false
}

// EdgeBeam returns the stiffness (N/m on each metre of bow, so Pa) with which a
// strip that lies flat along an edge, and is bent in its own plane, holds that edge:
//
//	k = E I (pi/L)^4, I = wall flat^3/12
//
// flat is how far the strip reaches across, wall how thick it is, length that of
// the edge (m, over 0), young its modulus (Pa). A strip along a part of the edge has
// the same k over its part. Derived: the energy of the strip is that of springs of
// this stiffness if the edge bows in a half sine; one that bows in a shorter stretch
// is held more firmly, so k is cautious there.
func EdgeBeam(young, flat, wall, length float64) float64 {
	return young * wall * flat * flat * flat / 12 * math.Pow(math.Pi/length, 4)
}

// Tie returns the stiffness (N/m) of a strip across to the pane opposite: the half
// of it up to its middle, which stays where it is if both panes push alike
// (assumed), in series with its bond:
//
//	1/K = (span/2)/(E A) + line/(S area)
//
// with the strip's modulus E (Pa), its section A (m2) and its span (m); the bond's
// area (m2), the thickness of its sealant (line, m) and S the sealant's modulus in
// the way it is loaded (Pa): of shear for a strip laid on the edges, of tension for
// one between the panes. All over 0. Derived.
func Tie(young, section, span, sealant, area, line float64) float64 {
	return 1 / (span/2/(young*section) + line/(sealant*area))
}

// InSeries returns the stiffness of two springs one after another, in their unit;
// one that is +Inf is a stiff link.
func InSeries(a, b float64) float64 { return 1 / (1/a + 1/b) }
