package moistair

import "math"

// Saturation returns the pressure (Pa) of vapour over water, or over ice below
// 0.01 C, at t (C, MinCelsius to MaxCelsius; NaN outside).
//
// Hyland and Wexler's fits as in ashrae-fundamentals, equations 5 and 6.
func Saturation(t float64) float64 {
	p, _ := SaturationSlope(t)
	return p
}

// SaturationSlope returns Saturation and how it grows with temperature, Pa/K: the
// derivative of the same fit.
func SaturationSlope(t float64) (p, slope float64) {
	if !(t >= MinCelsius && t <= MaxCelsius) {
		return math.NaN(), math.NaN()
	}
	k := t + zeroCelsius
	var ln, d float64
	if t < triple {
		const c0, c1, c2, c3, c4, c5, c6 = -5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019
		ln = c0/k + c1 + k*(c2+k*(c3+k*(c4+k*c5))) + c6*math.Log(k)
		d = -c0/(k*k) + c2 + k*(2*c3+k*(3*c4+k*4*c5)) + c6/k
	} else {
		const c0, c1, c2, c3, c4, c5 = -5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673
		ln = c0/k + c1 + k*(c2+k*(c3+k*c4)) + c5*math.Log(k)
		d = -c0/(k*k) + c2 + k*(2*c3+k*3*c4) + c5/k
	}
	p = math.Exp(ln)
	return p, p * d
}

// DewPoint returns the temperature (C) at which vapour of a pressure (Pa, between
// the saturation at MinCelsius and at MaxCelsius; NaN outside) begins to settle:
// the inverse of Saturation.
func DewPoint(vapour float64) float64 {
	if !(vapour >= Saturation(MinCelsius) && vapour <= Saturation(MaxCelsius)) {
		return math.NaN()
	}
	want := math.Log(vapour)
	lo, hi := MinCelsius, MaxCelsius
	t := 15.0
	for range 100 {
		p, slope := SaturationSlope(t)
		off := math.Log(p) - want
		if off > 0 {
			hi = t
		} else {
			lo = t
		}
		next := t - off*p/slope
		if !(next >= lo && next <= hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-t) < 1e-11 {
			return next
		}
		t = next
	}
	return t
}
