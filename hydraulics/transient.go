package hydraulics

import "math"

// The functions of this file are closed forms for slow filling and emptying:
// the water level follows A dh/dt = inflow - outflow(h), and the inertia of the
// water in the pipes is left out. Good where length over velocity of the pipe is
// far less than the time found. All derived.

// TorricelliTime returns the time (s) in which a tank of plan area (m2) empties
// from level h1 down to h2 above a hole: (A/(cd a)) sqrt(2/g) (sqrt h1 - sqrt
// h2). It is negative for h2 > h1 and NaN for a level under 0.
func TorricelliTime(area, cd, hole, h1, h2 float64) float64 {
	return area / (cd * hole) * math.Sqrt(2/G) * (math.Sqrt(h1) - math.Sqrt(h2))
}

// FillTime returns the time (s) in which a steady inflow q lifts a tank of plan
// area (m2) from level h0 to h1.
func FillTime(area, q, h0, h1 float64) float64 { return area * (h1 - h0) / q }

// InflowOrificeLevel returns the steady level (m) over a hole that lets a steady inflow
// q out again.
func InflowOrificeLevel(q, cd, hole float64) float64 { return OrificeHead(cd, hole, q) }

// InflowOrificeTime returns the time (s) in which a tank of plan area (m2) with
// steady inflow q >= 0 and a hole goes from level h0 to h1:
//
//	t = -(2A/k) {sqrt h1 - sqrt h0 + (q/k) ln[(q - k sqrt h1)/(q - k sqrt h0)]}
//
// with k = cd a sqrt(2g). ok is false, and t is 0, when the level never comes to
// h1: it lies at or beyond the steady level (to 1e-12 of the flow), or on the
// other side of h0.
func InflowOrificeTime(area, q, cd, hole, h0, h1 float64) (t float64, ok bool) {
	if h0 == h1 {
		return 0, true
	}
	k := cd * hole * math.Sqrt(2*G)
	s0, s1 := math.Sqrt(h0), math.Sqrt(h1)
	// Net inflow at both levels: same sign, and that of the move.
	n0, n1 := q-k*s0, q-k*s1
	if !(n0*n1 > 0) || (h1 > h0) != (n0 > 0) || math.Abs(n1) <= 1e-12*q {
		// With no inflow the level does reach 0 itself.
		if q == 0 && h1 == 0 && h0 > 0 {
			return 2 * area / k * s0, true
		}
		return 0, false
	}
	return -2 * area / k * (s1 - s0 + q/k*math.Log(n1/n0)), true
}

// LinearOutletLevel returns the level (m) after time t (s) in a tank of plan area
// (m2) with steady inflow q and an outlet that passes k times the level: q/k +
// (h0 - q/k) exp(-k t/A).
func LinearOutletLevel(area, k, q, h0, t float64) float64 {
	// Written so that small k t/A loses no digits.
	return h0 + (h0-q/k)*math.Expm1(-k*t/area)
}

// SumpLevel returns the level (m) of a sump of plan area sumpArea whose only
// exchange is with a tank of plan area tankArea: when the tank has gone from h0
// to h, the sump has gone from sump0 the other way in proportion.
func SumpLevel(sump0, sumpArea, tankArea, h0, h float64) float64 {
	return sump0 - tankArea/sumpArea*(h-h0)
}

// DrainDownTime returns the time (s) in which a tank of plan area (m2) empties
// through a pipe that runs full, while the total drop from its surface to the
// outlet goes from h1 down to h2 > 0: the integral of A dh/Q(h). The fittings
// of p must hold the exit loss. It is NaN unless h1 >= h2 > 0.
//
// The integral is taken over the flow, A (dh/dQ)/Q dQ, which needs no inverse of
// the loss formula and is smooth between the friction regimes: Gauss-Legendre
// on each piece, good to about 1e-12.
func DrainDownTime(p Pipe, area, h1, h2 float64) float64 {
	if !(h1 >= h2 && h2 > 0) {
		return math.NaN()
	}
	perRe := p.area * p.kinematic / p.bore // flow at Re = 1
	from, to := p.Flow(h2), p.Flow(h1)
	sum := 0.0
	for _, edge := range [3]float64{ReLaminar * perRe, ReTurbulent * perRe, math.Inf(1)} {
		end := min(edge, to)
		for from < end {
			// Pieces of at most a doubling, where eight points suffice.
			next := min(end, 2*from)
			sum += gauss8(from, next, func(q float64) float64 {
				_, slope := p.HeadLoss(q)
				return slope / q
			})
			from = next
		}
	}
	return area * sum
}

// gauss8 returns the integral of f from a to b by the eight-point Gauss-Legendre
// rule. Source of the points: Abramowitz & Stegun, table 25.4.
func gauss8(a, b float64, f func(float64) float64) float64 {
	rule := [4][2]float64{
		{0.1834346424956498, 0.3626837833783620},
		{0.5255324099163290, 0.3137066458778873},
		{0.7966664774136267, 0.2223810344533745},
		{0.9602898564975363, 0.1012285362903763},
	}
	mid, half := (a+b)/2, (b-a)/2
	sum := 0.0
	for _, r := range rule {
		sum += r[1] * (f(mid-half*r[0]) + f(mid+half*r[0]))
	}
	return half * sum
}
