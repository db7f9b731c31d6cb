package joint

import "math"

// EndSlope returns the slope (radians) of a pane at its bonded side, at the end of
// a free edge of some width (m) that bows by some amount (m) at its middle:
// 3.2 bow/width, that of a strip under uniform load; a triangle-shaped deflection
// would have 2, a half sine pi. Take it from the pane's solution where there is
// one. Derived.
func EndSlope(bow, width float64) float64 { return 3.2 * bow / width }

// Peel is what a bed bears where its pane turns as well as pulls.
type Peel struct {
	Mean float64 // stress of the line load alone, Pa
	Peak float64 // largest tension across the bite, Pa
	At   float64 // where, from the middle of the bite towards the side that opens, m
	Gap  float64 // by how much the bed's edge opens from the turning alone, m
}

// Peel returns the stress across a bed at the end of a dam's side bond, under a
// line load (N/m, tension positive) while its pane is turned by a slope (radians)
// against the other, with the modulus of the sealant (Pa):
//
//	p/b + 4/3 E s x/e + 2/3 E s (x b^2/4 - x^3)/e^3
//
// with x from the middle, b the bite, e the thickness, s the slope. The first
// turning term is of sealant that draws in freely at its edges, the second of
// sealant that cannot flow sideways in a thin bed; their sum is taken, which is
// more than either, as cautious (assumed: not checked against a solid model). The
// pane turns as if the bed did not hold it: cautious too. For small strains: show
// Gap over the thickness beside it. Bite and thickness must be over 0.
//
// Derived, for sealant that keeps its volume (G = E/3); the second term is that
// of a film squeezed between plates.
func (b Butt) Peel(line, slope, modulus float64) Peel {
	mean, s, half := line/b.Bite, math.Abs(slope), b.Bite/2
	e := b.Thickness
	free := 4. / 3 * modulus * s / e           // per m from the middle
	held := 2. / 3 * modulus * s / (e * e * e) // times x b^2/4 - x^3
	at := half
	if held > 0 {
		at = min(half, math.Sqrt((free+held*half*half)/(3*held)))
	}
	return Peel{
		Mean: mean,
		Peak: mean + free*at + held*(half*half*at-at*at*at),
		At:   at,
		Gap:  s * half,
	}
}

// PeelUse returns a line load (N/m) over that of the usual peel test (PeelLevel):
// a joint that is pried open from one end, as by a wedge, bears no more than 1.
func PeelUse(line float64) float64 { return line / PeelLevel().Likely }
