package structure

import (
	"math"

	"rillwright/quantity"
)

// Durations of load, s.
const (
	Hour    = 3600.0
	Day     = 24 * Hour
	Years50 = 50 * 365 * Day // a load that stays, as glass standards count it
)

// Finish is how the part of a pane that is stressed was made.
type Finish int

// The finishes of glass. AsCut stands for arrissed, seamed and drilled too.
const (
	Surface Finish = iota // away from every edge and hole
	Polished
	AsCut
)

// DurationFactor returns the part (0.25 to 1) of the strength of glass that is
// left under a load of some duration (s, over 0): 0.663 t^(-1/16), t in hours.
// Source: EN 16612, from memory.
func DurationFactor(seconds float64) float64 {
	return min(max(0.663*math.Pow(seconds/Hour, -1./16), 0.25), 1)
}

// GlassStrength is what EN 16612 makes a design strength of.
type GlassStrength struct {
	Float       float64 // characteristic strength of annealed glass, Pa
	Prestressed float64 // that of the glass as it is, Pa; as Float if not prestressed
	Edge        float64 // k_e, 1 on a surface
	Texture     float64 // k_sp, 1 for float, 0.75 for patterned
	Annealed    float64 // partial factor gamma_A
	Prestress   float64 // partial factor gamma_v
}

// StrengthOf returns the figures of EN 16612, from memory, for float glass; ok is
// false for what is not glass. For laminated glass they hold in each ply of
// annealed. Prestress is taken as made horizontally (k_v = 1).
func StrengthOf(k Kind, f Finish) (s GlassStrength, ok bool) {
	s = GlassStrength{Float: 45e6, Prestressed: 45e6, Edge: 1, Texture: 1, Annealed: 1.8, Prestress: 1.2}
	switch k {
	case Annealed, Laminated:
	case HeatStrengthened:
		s.Prestressed = 70e6
	case Toughened:
		s.Prestressed = 120e6
	default:
		return GlassStrength{}, false
	}
	if f == AsCut {
		s.Edge = 0.8
	}
	return s, true
}

// Design returns the design strength (Pa) for a load of some duration (s):
//
//	k_e k_mod k_sp f_float/gamma_A + (f_prestressed - f_float)/gamma_v
//
// It is to be compared with the stress under the load times its own factor, for
// water 1.35 (assumed). Source: EN 16612, from memory; made for infill panes
// under wind, snow and their own weight, so a yardstick only.
func (s GlassStrength) Design(seconds float64) float64 {
	return s.Edge*DurationFactor(seconds)*s.Texture*s.Float/s.Annealed + (s.Prestressed-s.Float)/s.Prestress
}

// FatigueFactor returns by how much the 3 s strength of annealed glass falls
// under a load of a duration (s, 3 or more): (3 s/t)^(1/16), 1 below 3 s.
// Source: ASTM E1300, from memory.
func FatigueFactor(seconds float64) float64 {
	return math.Pow(3/max(seconds, 3), 1./16)
}

// AllowableE1300 returns the stress (Pa) at which 8 in 1000 annealed panes break
// under a load of a duration (s): 23.3 MPa on a surface and 16.6 MPa at a
// clean-cut edge for 3 s, times FatigueFactor; a polished edge is taken as
// clean-cut. ok is false for other kinds, whose figures fall differently.
// Source: ASTM E1300, from memory.
func AllowableE1300(k Kind, f Finish, seconds float64) (stress float64, ok bool) {
	if k != Annealed && k != Laminated {
		return 0, false
	}
	at3s := 23.3e6
	if f != Surface {
		at3s = 16.6e6
	}
	return at3s * FatigueFactor(seconds), true
}

// TradeLimit returns the stress (Pa) that tank builders allow annealed glass
// under water for good: 19.2 MPa over a factor of 3.8.
func TradeLimit() Figure {
	const limit = 19.2e6 / 3.8
	return Figure{Band: quantity.Exactly(limit), Source: "tank-glass-2001"}
}

// PermanentLimit returns the stress (Pa) that a surface of a kind of pane bears
// for years under water, as published limits and practice have it, for the
// actual load without a factor; ok is false for a kind that is not known.
//
// Glass: low and high are the least and largest of EN 16612 for 50 years over
// a factor of 1.35 on water (assumed), ASTM E1300 for 50 years (annealed only)
// and TradeLimit (annealed only). Edges and holes bear less: ask StrengthOf and
// AllowableE1300. Plastics: what they bear before they craze; bow usually
// governs, and alcohol or solvent lowers it (from memory).
func PermanentLimit(k Kind) (f Figure, ok bool) {
	const onWater = 1.35
	s, glass := StrengthOf(k, Surface)
	switch {
	case k == Annealed || k == Laminated:
		trade := TradeLimit().Likely
		usual, _ := AllowableE1300(k, Surface, Years50)
		code := s.Design(Years50) / onWater
		return Figure{
			Band:   quantity.Band[float64]{Low: min(trade, code, usual), Likely: trade, High: max(trade, code, usual)},
			Source: "tank-glass-2001", Note: "high from en-16612 and astm-e1300, both from memory",
		}, true
	case glass:
		return Figure{
			Band:   quantity.Exactly(s.Design(Years50) / onWater),
			Source: "en-16612", Note: "over an assumed factor of 1.35 on water",
		}, true
	case k == Acrylic:
		return Figure{
			Band:   quantity.Band[float64]{Low: 5.2e6, Likely: 5.2e6, High: 10.3e6},
			Source: "acrylic-design-stress", Note: "low for extruded, high for cell cast",
		}, true
	case k == Polycarbonate:
		return Figure{Band: quantity.Exactly(7e6), Source: "memory"}, true
	}
	return Figure{}, false
}
