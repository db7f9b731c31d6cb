package joint

import "rillwright/quantity"

// psi is a pound-force per square inch, Pa.
const psi = 0.45359237 * G / (0.0254 * 0.0254)

// ShortTerm returns the stress (Pa) that structural silicone is designed to under
// loads that come and go, in tension and shear alike: 20 psi.
func ShortTerm() Figure {
	return Figure{
		Band:   quantity.Band[float64]{Low: 20 * psi, Likely: 20 * psi, High: 0.14e6},
		Source: "astm-c1401", Note: "from memory; 20 psi is also in the worked example of waterproofing-handbook; high is typical by etag-002, from memory",
	}
}

// Permanent returns the stress (Pa) that structural silicone is designed to under
// a load that stays and that nothing else carries. Tanks in common use run several
// times past the low end for years (common practice, no source): show the use
// made of it, do not fail a joint by it alone.
func Permanent() Figure {
	return Figure{
		Band:   quantity.Band[float64]{Low: 1 * psi, Likely: 1 * psi, High: 0.014e6},
		Source: "astm-c1401", Note: "1 psi; high from etag-002; both from memory",
	}
}

// Practice returns the peak stress (Pa) up to which hand-built tanks are found to
// hold water for years; above it give the pane a stop that carries the load.
// Assumed.
func Practice() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 20e3, Likely: 27.5e3, High: 35e3}, Source: "assumed", Note: "likely is the middle"}
}

// PeelLevel returns the line load (N/m) at which a strip is pulled off in the
// usual peel test of a sealant that passes: 22 N over 25 mm.
func PeelLevel() Figure {
	return Figure{Band: quantity.Exactly(22 / 0.025), Source: "astm-c794"}
}

// Modulus returns the modulus of elasticity (Pa) of cured one-part silicone at
// small strain.
func Modulus() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.4e6, Likely: 1e6, High: 2e6}, Source: "memory", Note: "measure a cured strip with a weight"}
}

// LeastBondLine returns the thickness of sealant (m) between glass and glass that
// hand-built tanks need at least.
func LeastBondLine() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.0005, Likely: 0.00075, High: 0.001}, Source: "tank-glass-2001", Note: "likely is the middle: assumed"}
}

// StructuralBed is how a bed falls short of the shape that structural glazing
// asks: 6 mm or more of bite and of thickness, and a bite of one to three times
// the thickness (ETAG 002, from memory). Hand-built tanks use far thinner beds.
type StructuralBed struct {
	Narrow, Thin, Flat, Deep bool
}

// Structural compares a bed with the shape that structural glazing asks.
func (b Butt) Structural() StructuralBed {
	const least, tape = 0.006, 1e-6 // the latter so that 6 mm is not under 6 mm
	return StructuralBed{
		Narrow: b.Bite < least-tape,
		Thin:   b.Thickness < least-tape,
		Flat:   b.Bite > 3*b.Thickness+tape,
		Deep:   b.Bite < b.Thickness-tape,
	}
}

// Use returns what share of a limit (Pa) a stress (Pa) takes: at a side of the
// limit's band that of At, so that -1 is the cautious one. Safety is one over it.
func Use(stress float64, limit Figure, side int) float64 { return stress / limit.At(side) }
