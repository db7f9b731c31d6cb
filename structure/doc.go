// Package structure holds what glass and plastics bear, where a pane may be
// drilled, and what a finished enclosure weighs and what tips it over.
// structure/plate bends panes, structure/joint loads their seams.
//
// Every function takes and returns plain float64 in SI units: m, kg, N, Pa, s,
// angles in radians. The package is pure: no I/O, no clock, no state. Figures
// that are known roughly are bands with their source, and the figures of
// standards are here as such; what is enough for an enclosure is judged by the
// caller.
package structure

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
