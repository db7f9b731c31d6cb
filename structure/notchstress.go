package structure

import "math"

// CornerStress returns the largest stress (Pa) at the corners of an opening that is
// not round, or of a notch at an edge, under the stress (Pa) that the pane would
// have there without it:
//
//	s (1 + 2 sqrt(depth/radius))
//
// depth is half the opening's longer side, or how far a notch cuts in; radius that
// of its corners (m). +Inf for a sharp corner: no figure then means anything, and a
// glazier must round it, to the glass's thickness at least (processors' pages on
// notches, some of them to 1/2 in at least).
//
// It is the factor of an ellipse as deep with a tip as round in a sheet that is
// pulled; a pane that is bent has less (cautious).
// Source: Inglis 1913, from memory.
func CornerStress(s, depth, radius float64) float64 {
	if !(radius > 0) {
		return math.Inf(1)
	}
	return s * (1 + 2*math.Sqrt(depth/radius))
}
