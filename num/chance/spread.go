package chance

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Shape says how likely the values of a band are.
type Shape int

// The shapes of a band.
const (
	Triangular Shape = iota // most likely at Likely, falling straight to nothing at either end
	Pert                    // as Triangular but rounded, with less at the ends: a beta distribution
	Uniform                 // all of the band alike; Likely counts for nothing
)

// Spread is the distribution of a figure over a band, in the figure's unit.
// Low <= Likely <= High.
type Spread struct {
	Shape             Shape
	Low, Likely, High float64
}

// At returns the value below which a share u of the spread lies, 0 <= u <= 1. Products
// are rounded before they are added, so that no machine fuses the two into another digit.
func (s Spread) At(u float64) float64 {
	width := s.High - s.Low
	if !(width > 0) {
		return s.Likely
	}
	switch s.Shape {
	case Uniform:
		return s.Low + float64(width*u)
	case Pert:
		a, b := s.beta()
		return s.Low + float64(width*mathext.InvRegIncBeta(a, b, u))
	case Triangular:
	}
	top := (s.Likely - s.Low) / width
	if u < top {
		return s.Low + float64(width*math.Sqrt(u*top))
	}
	return s.High - float64(width*math.Sqrt((1-u)*(1-top)))
}

// beta returns the exponents of the beta distribution of Malcolm, Roseboom, Clark &
// Fazar 1959, with the usual weight of four on the likely value (from memory).
func (s Spread) beta() (a, b float64) {
	top := (s.Likely - s.Low) / (s.High - s.Low)
	return 1 + 4*top, 1 + 4*(1-top)
}

// Mean returns the mean of the spread, in the figure's unit.
func (s Spread) Mean() float64 {
	switch s.Shape {
	case Uniform:
		return (s.Low + s.High) / 2
	case Pert:
		return (s.Low + 4*s.Likely + s.High) / 6
	case Triangular:
	}
	return (s.Low + s.Likely + s.High) / 3
}

// Variance returns the variance of the spread, in the figure's unit squared.
func (s Spread) Variance() float64 {
	w := s.High - s.Low
	switch s.Shape {
	case Uniform:
		return w * w / 12
	case Pert:
		m := s.Mean()
		return (m - s.Low) * (s.High - m) / 7
	case Triangular:
	}
	l, k, h := s.Low, s.Likely, s.High
	return (l*l + k*k + h*h - l*k - l*h - k*h) / 18
}

// Choice is a figure that is one of several values, each with its weight.
type Choice struct {
	Values, Weights []float64 // of one length; weights not negative, not all zero
}

// At returns the value below which a share u of the weights lies, 0 <= u <= 1.
func (c Choice) At(u float64) float64 {
	sum := 0.0
	for _, w := range c.Weights {
		sum += w
	}
	left := u * sum
	last := c.Values[0]
	for i, w := range c.Weights {
		if w <= 0 {
			continue
		}
		last = c.Values[i]
		if left -= w; left < 0 {
			break
		}
	}
	return last
}
