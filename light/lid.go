package light

import "math"

// lidSteps is into how many steps the cosine is cut for a Lid's table.
const lidSteps = 256

// Lid is a clear sheet that light passes.
type Lid struct {
	byCos   [lidSteps + 1]float64
	diffuse float64
}

// NewLid returns a clean dry sheet with a refractive index (1.52 soda-lime glass,
// 1.49 acrylic), an absorption (1/m; 10 clear float, 30 green) and a thickness (m).
// Wet or dirty ones let through 10 to 30 % less (from memory).
func NewLid(index, absorption, thickness float64) *Lid {
	l := new(Lid)
	for i := range l.byCos {
		l.byCos[i] = Transmission(index, absorption, thickness, math.Acos(float64(i)/lidSteps))
	}
	// Simpson's rule over the cosine squared: the weight of directions is 2 c dc.
	for i := 0; i < lidSteps; i += 2 {
		c := func(k int) float64 { return 2 * float64(k) / lidSteps * l.byCos[k] }
		l.diffuse += (c(i) + 4*c(i+1) + c(i+2)) / (3 * lidSteps)
	}
	return l
}

// At returns the share let through at an angle to the vector across it with a
// cosine from 0 to 1.
func (l *Lid) At(cos float64) float64 {
	x := min(max(cos, 0), 1) * lidSteps
	i := min(int(x), lidSteps-1)
	f := x - float64(i)
	return l.byCos[i]*(1-f) + l.byCos[i+1]*f
}

// Diffuse returns the share let through of light from all sides alike.
func (l *Lid) Diffuse() float64 { return l.diffuse }

// Transmission returns the share of unpolarised light that passes a sheet at an
// angle to the vector across it (radians, 0 to pi/2): Fresnel's losses at both
// faces, absorption along the slanted way, and all reflections to and fro.
//
// Source: fresnel.
func Transmission(index, absorption, thickness, angle float64) float64 {
	c1, s1 := math.Cos(angle), math.Sin(angle)
	if c1 <= 1e-12 {
		return 0
	}
	s2 := s1 / index
	c2 := math.Sqrt(1 - s2*s2)
	rs := (c1 - index*c2) / (c1 + index*c2)
	rp := (index*c1 - c2) / (index*c1 + c2)
	a := math.Exp(-absorption * thickness / c2)
	sum := 0.0
	for _, r := range [2]float64{rs * rs, rp * rp} {
		sum += (1 - r) * (1 - r) * a / (1 - r*r*a*a)
	}
	return sum / 2
}
