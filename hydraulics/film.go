package hydraulics

import (
	"math"

	"rillwright/fluid"
)

// Film is a smooth laminar film that falls down a vertical wall.
type Film struct {
	Thickness float64 // m
	Reynolds  float64 // 4q/nu; wavy above about 30, turbulent above about 1600
	Mean      float64 // mean velocity, m/s
	Surface   float64 // velocity at the free surface, m/s
}

// FallingFilm returns the film for a flow q per width of wall (m2/s) on a smooth
// flat vertical wall: thickness (3 nu q/g)^(1/3), mean velocity q/thickness,
// surface velocity 1.5 times that. The zero Film for q <= 0. It is
// wavy above a Reynolds number of about 30, and above about 1600, where it is
// turbulent, thicker than this (both from memory).
//
// Source: Nusselt 1916, Z. VDI 60:541.
func FallingFilm(q float64, w fluid.Water) Film {
	if q <= 0 {
		return Film{}
	}
	t := math.Cbrt(3 * w.Kinematic * q / G)
	u := q / t
	return Film{Thickness: t, Reynolds: 4 * q / w.Kinematic, Mean: u, Surface: 1.5 * u}
}

// MinWettingFlow returns the smallest flow per width (m2/s) that keeps a film
// whole on a smooth wall with the given contact angle (radians):
//
//	rho q = (15^0.6/3) (mu rho/g)^0.2 [sigma (1 - cos angle)]^0.6
//
// A drip wall carries far less, so bare panel runs in rivulets; even wetting
// rests on porous media, which this does not describe. Guidance only.
//
// Source: Hartley & Murgatroyd 1964, Int. J. Heat Mass Transf. 7:1003, force
// criterion.
func MinWettingFlow(angle float64, w fluid.Water) float64 {
	c := math.Pow(15, 0.6) / 3
	mass := c * math.Pow(w.Viscosity*w.Density/G, 0.2) * math.Pow(w.SurfaceTension*(1-math.Cos(angle)), 0.6)
	return mass / w.Density
}
