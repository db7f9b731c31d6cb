// Package joint holds formulas for silicone joints between panes, and between a
// grid and the glass it hangs on: stress from a line load or a weight on a lever,
// peel, limits as published, sealant needed and how it cures.
//
// Every function takes and returns plain float64 in SI units: m, N, N/m, Pa, s,
// kg/m3. The package is pure: no I/O, no clock, no state. Limits of standards are
// figures here; what is enough is judged by the caller.
package joint

import (
	"math"

	"rillwright/quantity"
	"rillwright/source"
)

// G is the standard acceleration of gravity, m/s2 (ISO 80000-3; CGPM 1901).
const G = 9.80665

// Figure is a band with where it comes from.
type Figure struct {
	quantity.Band[float64]

	Source source.Key
	Note   string // what of it is not from the source
}

// positive reports whether all are finite and over 0.
func positive(xs ...float64) bool {
	for _, x := range xs {
		if !(x > 0) || math.IsInf(x, 1) {
			return false
		}
	}
	return true
}

// finite reports whether all are finite.
func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
