package cure

import (
	"fmt"
	"math"
)

// SpotDepth returns how deep (m) a rectangular spot of sealant between two faces that
// let no vapour through has to cure from its rim, open all round, until a share of its
// area has: the lesser root d of
//
//	(width - 2 d) (height - 2 d) = (1 - share) width height
//
// which is half the lesser side for a share of 1. Sides in m, over 0 and up to 1; share
// from 0 to 1. Derived: each point cures from the nearest side. The error wraps ErrInput:
// figures out of range.
func SpotDepth(width, height, share float64) (float64, error) {
	if !(width > 0 && width <= 1 && height > 0 && height <= 1) {
		return 0, fmt.Errorf("%w: a spot of %g by %g m: give sides of up to 1 m", ErrInput, width, height)
	}
	if !(share >= 0 && share <= 1) {
		return 0, fmt.Errorf("%w: a share of %g: give 0 to 1", ErrInput, share)
	}
	sum := width + height
	return (sum - math.Sqrt(max(sum*sum-4*share*width*height, 0))) / 4, nil
}
