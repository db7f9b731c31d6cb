package structure

import (
	"fmt"
	"math"
)

// FreeWater is standing water in a box that may be tilted.
type FreeWater struct {
	Length float64 // of the box, inside, in the direction in which it tilts, m
	Depth  float64 // of the water, level, m
	Mass   float64 // kg
}

// Check returns what is wrong with the water, nil if nothing.
func (w FreeWater) Check() error {
	if !positive(w.Length, w.Depth) || !(w.Mass >= 0) || math.IsInf(w.Mass, 1) {
		return fmt.Errorf("free water: length %g m, depth %g m and mass %g kg must be over 0", w.Length, w.Depth, w.Mass)
	}
	return nil
}

// Tilted is where the water is in a box that stands still, tilted.
type Tilted struct {
	Shift    float64 // of its centre towards the low side, along the floor of the box, m
	Rise     float64 // of its centre away from the floor of the box, m
	WallRise float64 // of the surface at the low wall, along it, m
	Covered  bool    // the floor of the box is under water all over
}

// Tilt returns where the water is at a tilt (radians, 0 to under pi/2), with walls
// high enough to hold it:
//
//	L^2 tan/(12 h), L^2 tan^2/(24 h), L tan/2 while L tan/2 <= h
//
// and beyond, with the upper part of the floor dry, those of the triangle that
// is left. Derived.
func (w FreeWater) Tilt(angle float64) Tilted {
	l, h, tan := w.Length, w.Depth, math.Tan(angle)
	if l*tan/2 <= h {
		return Tilted{l * l * tan / (12 * h), l * l * tan * tan / (24 * h), l * tan / 2, true}
	}
	base := math.Sqrt(2 * l * h / tan) // same area as when level
	return Tilted{l/2 - base/3, base*tan/3 - h/2, base*tan - h, false}
}

// Frequency returns the frequency (Hz) of the water's first standing wave along
// the box: sqrt(g k tanh(k h))/(2 pi), k = pi/L. Small waves, no baffles or
// planting, which damp and split it. Source: linear wave theory.
func (w FreeWater) Frequency() float64 {
	k := math.Pi / w.Length
	return math.Sqrt(G*k*math.Tanh(k*w.Depth)) / (2 * math.Pi)
}
