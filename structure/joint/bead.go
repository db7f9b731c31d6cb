package joint

import "math"

// Butt is a bed of sealant between two parallel faces.
type Butt struct {
	Bite      float64 // width of the bonded face, m
	Thickness float64 // bond line, m
}

// Stress returns the mean stress (Pa) across the bite under a line load (N/m), in
// tension or shear as the load runs. Derived.
func (b Butt) Stress(line float64) float64 { return line / b.Bite }

// BiteFor returns the bite (m) that brings a line load (N/m) down to a stress (Pa).
// Derived.
func BiteFor(line, stress float64) float64 { return line / stress }

// FourSidedBite returns the bite (m) of a pane held on four sides under a uniform
// pressure (Pa): half the short side (m) times the pressure over the stress (Pa).
// Source: Construction Waterproofing Handbook p. 5.51; ETAG 002-1 annex 2.
func FourSidedBite(shortSide, pressure, stress float64) float64 {
	return shortSide / 2 * pressure / stress
}

// Fillet is a bead in the corner of two faces at right angles, with a leg on
// each (m).
type Fillet struct{ A, B float64 }

// Throat returns the least thickness (m) through a fillet from the corner to its
// flat face: A B/sqrt(A^2 + B^2), leg/sqrt(2) for equal legs; 0 with none. A
// hollow face has less. Derived.
func (f Fillet) Throat() float64 {
	if !(f.A > 0 && f.B > 0) {
		return 0
	}
	return f.A * f.B / math.Hypot(f.A, f.B)
}

// Stress returns the shear (Pa) across the throat under a line load (N/m), taken
// as evenly spread, whichever leg it pulls along. A fillet on the wet side is
// pressed into its corner and mostly seals; one on the dry side is peeled
// (assumed). Derived.
func (f Fillet) Stress(line float64) float64 { return line / f.Throat() }

// LegFor returns the leg (m) of the equal fillet that brings a line load (N/m)
// down to a stress (Pa). Derived.
func LegFor(line, stress float64) float64 { return math.Sqrt2 * line / stress }

// Dam is a low pane bonded at the bottom and both sides, with water up to a depth
// on one side.
type Dam struct {
	Width float64 // of the wetted face, m
	Depth float64 // of the water, m
}

// Force returns the force (N) of water of some density (kg/m3) on the dam,
// rho g h^2 W/2, which acts at a third of the depth. Derived.
func (d Dam) Force(density float64) float64 {
	return density * G * d.Depth * d.Depth * d.Width / 2
}

// MeanLine returns that force over the wetted length of the bond, W + 2 h, N/m.
// The peak is 1.35 to 1.95 times as much, at the middle of the bottom: take it
// from the pane's edge reactions. Derived.
func (d Dam) MeanLine(density float64) float64 {
	return d.Force(density) / (d.Width + 2*d.Depth)
}

// BedShare returns what share of a shear load a bed takes while a fillet of the
// same sealant helps it, 0 to 1; the fillet takes the rest. The bed is as stiff as
// G b/e for each metre. The fillet, between two faces at a right angle from the
// bed's edge (a bond line out) to the end of its shorter leg, is as stiff as
// (2/pi) G ln((A+e)/e): a quarter of a ring sheared along its axis, as a
// conductor between two plates. Exact for that; taken as near enough across the
// joint and for a flat face (assumed). Derived.
func BedShare(b Butt, f Fillet) float64 {
	leg := min(f.A, f.B)
	if !(leg > 0) {
		return 1
	}
	bed := b.Bite / b.Thickness
	return bed / (bed + 2/math.Pi*math.Log1p(leg/b.Thickness))
}
