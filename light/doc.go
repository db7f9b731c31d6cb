// Package light computes how much light lamps give to faces of an enclosure, straight
// and by way of its walls.
//
// Light is counted in photons that plants use: flux in umol/s, PPFD (the light on a
// face) in umol/(m2 s), a day's light in mol/m2. With lumen for flux it computes
// lux. Lengths are in m. The package is pure: no I/O, no state. Surfaces are dull:
// they throw back evenly to all sides; leaves, wood and rock do not shade each other
// (assumed), so what grows below others gets less.
package light

import (
	"math"

	"rillwright/geom"
	"rillwright/quantity"
	"rillwright/source"
)

// Figure is a band with where it comes from.
type Figure struct {
	quantity.Band[float64]

	Source source.Key
	Note   string // what of it is not from the source
}

// DLI returns a day's light (mol/m2) from a PPFD (umol/(m2 s)) and the time it is on
// each day (s).
func DLI(ppfd, seconds float64) float64 { return ppfd * seconds * 1e-6 }

// WhiteLED returns the photons in a lumen of white light-emitting diodes,
// umol/(s lm): low for cool white, high for warm white of good colour.
func WhiteLED() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.013, Likely: 0.015, High: 0.018}, Source: "photons-per-lux", Note: "of white diodes from memory"}
}

// Sunlight, CoolFluorescent and others are the photons in a lumen, umol/(s lm)
// (photons-per-lux).
const (
	Sunlight        = 0.0185
	CoolFluorescent = 0.0135
	MetalHalide     = 0.0141
	SodiumPressure  = 0.0122
)

func cross(a, b geom.Vec) geom.Vec {
	return geom.Vec{X: a.Y*b.Z - a.Z*b.Y, Y: a.Z*b.X - a.X*b.Z, Z: a.X*b.Y - a.Y*b.X}
}

// size is Length without care for overflow, which is slow.
func size(v geom.Vec) float64 { return math.Sqrt(v.Dot(v)) }

// unit returns a vector of length 1.
func unit(v geom.Vec) geom.Vec { return v.Times(1 / size(v)) }
