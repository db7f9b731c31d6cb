package hydraulics

import (
	"fmt"
	"math"
)

// TableCurve is a pump curve through measured points: a monotone piecewise cubic
// that never overshoots its points. The zero value is not usable; make one with
// NewTableCurve.
//
// Source: Fritsch & Carlson 1980, SIAM J. Numer. Anal. 17:238; slopes inside by
// the weighted harmonic mean of Fritsch & Butland 1984, at the ends by the
// three-point formula limited for shape, as in the widely used PCHIP routines.
type TableCurve struct {
	q, h, m []float64 // flow, head, slope at each point
	before  float64   // slope used below the first point
	after   float64   // slope used above the last
}

// NewTableCurve returns the curve through the points (q[i] m3/s, h[i] m). It
// copies them. There must be two or more (two give a straight line), the first
// flow not negative, flows rising and heads falling strictly, all finite.
func NewTableCurve(q, h []float64) (TableCurve, error) {
	n := len(q)
	if n != len(h) {
		return TableCurve{}, fmt.Errorf("pump table: %d flows but %d heads", n, len(h))
	}
	if n < 2 {
		return TableCurve{}, fmt.Errorf("pump table: %d points, need two or more", n)
	}
	for i := range n {
		for _, v := range [2]float64{q[i], h[i]} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return TableCurve{}, fmt.Errorf("pump table: point %d: %g is not a finite number", i+1, v)
			}
		}
		if i == 0 {
			if q[0] < 0 {
				return TableCurve{}, fmt.Errorf("pump table: point 1: flow %g m3/s is negative", q[0])
			}
			continue
		}
		if q[i] <= q[i-1] {
			return TableCurve{}, fmt.Errorf("pump table: point %d: flow %g m3/s does not rise above %g", i+1, q[i], q[i-1])
		}
		if h[i] >= h[i-1] {
			return TableCurve{}, fmt.Errorf("pump table: point %d: head %g m does not fall below %g", i+1, h[i], h[i-1])
		}
	}
	t := TableCurve{
		q: append([]float64(nil), q...),
		h: append([]float64(nil), h...),
		m: make([]float64, n),
	}
	t.slopes()
	return t, nil
}

// slopes fills in the slope at each point. All secants are negative.
func (t *TableCurve) slopes() {
	n := len(t.q)
	step := func(i int) float64 { return t.q[i+1] - t.q[i] }
	secant := func(i int) float64 { return (t.h[i+1] - t.h[i]) / step(i) }
	if n == 2 {
		t.m[0], t.m[1] = secant(0), secant(0)
	} else {
		for i := 1; i < n-1; i++ {
			w1 := 2*step(i) + step(i-1)
			w2 := step(i) + 2*step(i-1)
			t.m[i] = (w1 + w2) / (w1/secant(i-1) + w2/secant(i))
		}
		t.m[0] = endSlope(step(0), step(1), secant(0), secant(1))
		t.m[n-1] = endSlope(step(n-2), step(n-3), secant(n-2), secant(n-3))
	}
	t.before, t.after = t.m[0], t.m[n-1]
	if t.before == 0 {
		t.before = secant(0)
	}
	if t.after == 0 {
		t.after = secant(n - 2)
	}
}

// endSlope returns the slope at an end, from the spacings and falling secants of
// the nearest interval (0) and the next (1).
func endSlope(s0, s1, d0, d1 float64) float64 {
	m := ((2*s0+s1)*d0 - s0*d1) / (s0 + s1)
	// Secants all fall, so the limiter for a change of sign between them never
	// applies.
	return min(m, 0)
}

// Range returns the flows of the first and last point: the measured part.
func (t TableCurve) Range() (first, last float64) { return t.q[0], t.q[len(t.q)-1] }

// Head returns the head and its slope at flow q. Outside Range the curve goes on
// in a straight line with its end slope, or with the slope of the outermost
// secant where the end slope is 0, so that it always falls. That is for a
// solver's iterates; a result out there is not a statement about the pump.
func (t TableCurve) Head(q float64) (h, dhdq float64) {
	n := len(t.q)
	if q <= t.q[0] {
		if q == t.q[0] {
			return t.h[0], t.m[0]
		}
		return t.h[0] + t.before*(q-t.q[0]), t.before
	}
	if q >= t.q[n-1] {
		if q == t.q[n-1] {
			return t.h[n-1], t.m[n-1]
		}
		return t.h[n-1] + t.after*(q-t.q[n-1]), t.after
	}
	lo, hi := 0, n-1
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if t.q[mid] <= q {
			lo = mid
		} else {
			hi = mid
		}
	}
	s := t.q[hi] - t.q[lo]
	x := (q - t.q[lo]) / s
	rise, m0, m1 := t.h[hi]-t.h[lo], t.m[lo]*s, t.m[hi]*s
	c2 := 3*rise - 2*m0 - m1
	c3 := m0 + m1 - 2*rise
	return t.h[lo] + x*(m0+x*(c2+x*c3)), (m0 + x*(2*c2+3*x*c3)) / s
}

// Flow returns the flow at which the pump gives head h, 0 for a head at or
// above that at no flow (a check valve holds): the inverse of Head.
func (t TableCurve) Flow(h float64) float64 {
	shutOff, _ := t.Head(0)
	if h >= shutOff {
		return 0
	}
	n := len(t.q)
	if h <= t.h[n-1] {
		return t.q[n-1] + (h-t.h[n-1])/t.after
	}
	lo, hi := 0.0, t.q[n-1]
	for range 200 {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if v, _ := t.Head(mid); v > h {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
