package hydraulics

import (
	"fmt"
	"math"
)

// Wick is a porous thing that hangs over a crest from an upper water to a lower
// place: a cord, moss, a root, a strip of mesh. All heights are over one datum
// of the caller's, m.
type Wick struct {
	Conductivity float64 // hydraulic conductivity full of water, m/s
	Capillary    float64 // height to which it lifts water, m; 0 for what does not wet
	Area         float64 // cross-section, solid and pores, m2
	Length       float64 // from the water along the wick to its lower end, m; taken as constant
	Crest        float64 // highest place on its way
	Foot         float64 // its end in the upper water
	End          float64 // its lower end, or the place where it first drips
}

// Check returns what is wrong with the wick, nil if nothing. The length must be
// at least the fall from crest to end.
func (k Wick) Check() error {
	switch {
	case !finite(k.Conductivity, k.Capillary, k.Area, k.Length, k.Crest, k.Foot, k.End):
		return fmt.Errorf("wick: every figure must be finite: %+v", k)
	case k.Conductivity < 0 || k.Capillary < 0:
		return fmt.Errorf("wick: conductivity %g m/s and capillary height %g m must not be negative", k.Conductivity, k.Capillary)
	case !(k.Area > 0 && k.Length > 0):
		return fmt.Errorf("wick: area %g m2 and length %g m must be positive", k.Area, k.Length)
	case k.Crest < max(k.Foot, k.End):
		return fmt.Errorf("wick: crest %g m must not lie below the foot %g m or the end %g m", k.Crest, k.Foot, k.End)
	case k.Length < k.Crest-k.End:
		return fmt.Errorf("wick: length %g m is less than the fall from crest to end, %g m", k.Length, k.Crest-k.End)
	}
	return nil
}

// Carries reports whether the wick draws water over its crest from an upper
// water at level upper (m): its foot is wet and the crest is less than the
// capillary height above. Whether water then runs depends on the lower end; see
// Flow.
func (k Wick) Carries(upper float64) bool {
	return k.Capillary > 0 && upper > k.Foot && k.Crest-upper < k.Capillary
}

// Flow returns the flow (m3/s) along the wick from an upper water at level upper
// to the higher of End and the level lower of the water there (m; -Inf if it
// drips free):
//
//	q = K A (drop/Length) (1 - rise/Capillary)
//
// with rise the crest's height over the upper water; a crest under water counts
// as 0. It is 0 at and below Stop and for a wick that does not wet, never falls
// as upper rises, never rises with lower, is continuous in both and its slope
// is finite everywhere. One way only: for the other, exchange the ends.
//
// Darcy's law; that conductivity falls in proportion to suction, and that the
// crest's suction stands for the whole, is assumed, no source. Against the
// steady flow of that law solved along an upright wick, falls of 1.05 to 10
// rises, it gives 0.5 to 2.1 times as much for a crest up to 0.7 capillary
// heights up, 0.1 to 5 times up to 0.97: the conductivity is known no better.
// Over the foot's last thickness, the root of Area, the flow fades (assumed).
// What evaporates on the way is not taken off; how long a dry wick takes to
// fill is not told.
func (k Wick) Flow(upper, lower float64) float64 {
	if !(k.Capillary > 0 && upper > k.Stop(lower)) {
		return 0
	}
	wet := unit(1 - (k.Crest-upper)/k.Capillary)
	dip := unit((upper - k.Foot) / math.Sqrt(k.Area))
	q := k.Conductivity * k.Area * (upper - max(k.End, lower)) / k.Length * wet * dip
	if !(q > 0) { // a conductivity of 0, or figures beyond float64
		return 0
	}
	return q
}

// Stop returns the level (m) to which the wick can draw the upper water, the
// highest of: the crest less the capillary height, the foot, the end and the
// level lower of the water there. For a wick that does not wet it is the crest,
// though Flow is 0 there too.
func (k Wick) Stop(lower float64) float64 {
	return max(k.Crest-k.Capillary, k.Foot, k.End, lower)
}
