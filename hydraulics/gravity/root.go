package gravity

import "math"

// root finds x in [0, hi] where the rising function f crosses zero, to the last
// few bits; hi if f is still below zero there. The method is the secant kept
// inside a shrinking bracket, with the older end's weight halved when one end
// stays (Dowell & Jarratt 1971, "Illinois", from memory), and bisection when
// that is slow.
func root(hi float64, f func(float64) float64) float64 {
	lo := 0.0
	flo, fhi := f(lo), f(hi)
	if fhi <= 0 {
		return hi
	}
	if flo >= 0 {
		return lo
	}
	side := 0
	for i := range 200 {
		x := (lo*fhi - hi*flo) / (fhi - flo)
		if i%4 == 3 || !(x > lo && x < hi) {
			x = lo + (hi-lo)/2
		}
		if x == lo || x == hi || hi-lo <= 4e-16*hi {
			break
		}
		fx := f(x)
		switch {
		case fx == 0:
			return x
		case fx < 0:
			lo, flo = x, fx
			if side < 0 {
				fhi /= 2
			}
			side = -1
		default:
			hi, fhi = x, fx
			if side > 0 {
				flo /= 2
			}
			side = 1
		}
	}
	if math.IsInf(fhi, 1) {
		return lo
	}
	return lo + (hi-lo)/2
}

// newton finds x in [0, hi] where the rising function f, given with its slope,
// crosses zero; hi if f is not above zero there. Newton's method, bisecting
// where that leaves the bracket. f is not evaluated at 0, where it must be
// negative.
func newton(hi float64, f func(float64) (value, slope float64)) float64 {
	lo, x := 0.0, hi
	for range 200 {
		v, slope := f(x)
		switch {
		case v == 0:
			return x
		case v > 0:
			hi = x
		case x == hi:
			return hi
		default:
			lo = x
		}
		next := x - v/slope
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if math.Abs(next-x) <= 2e-16*x || next == lo || next == hi {
			return next
		}
		x = next
	}
	return x
}
