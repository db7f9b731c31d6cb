package network

import (
	"math"

	"rillwright/hydraulics"
)

// Tee is the coupling of three equal legs that meet at one node, two in line
// and one at a right angle. Which leg carries the combined flow, and whether
// the flow divides or combines, follows from the flows themselves.
//
// Coefficients: Gardel's for flow into or out of the side leg. For a tee fed
// or emptied through its side leg alone ("bull head") there are published
// values for equal shares only: 1.075 dividing and 1.25 combining (Idelchik's
// 1 + 0.3 q^2 and 2 + 3 (q^2 - q), from memory). The parabolas used here go
// through those and run on, without a jump, into Gardel's values where one run
// carries nothing or everything: the shape between is our own. All refer to the
// velocity of the combined flow. Measurements on small tees scatter by some
// 30 %: Factor carries that doubt.
type Tee struct {
	// Runs are the two links in line, Branch is the side link.
	Runs   [2]TeeLeg
	Branch TeeLeg
	Bore   float64 // m
	Factor float64 // multiplies every coefficient; 1 as published
}

// TeeLeg is one link of a tee.
type TeeLeg struct {
	Link int
	// Into is +1 if the link's To end is at the tee, -1 if its From end is.
	Into float64
}

// Links implements Coupling.
func (t Tee) Links(list []int) []int {
	return append(list, t.Runs[0].Link, t.Runs[1].Link, t.Branch.Link)
}

// Add implements Coupling.
func (t Tee) Add(flow, extra, stiff []float64) {
	t.each(flow, func(leg, combined TeeLeg, k, dk, q, sense, unit, total float64) {
		extra[leg.Link] += sense * k * unit * total * total
		stiff[leg.Link] += unit * total * (4*math.Abs(k) + math.Abs(dk))
	})
}

// Change implements Coupling.
func (t Tee) Change(flow, dflow, dextra []float64) {
	t.each(flow, func(leg, combined TeeLeg, k, dk, q, sense, unit, total float64) {
		// loss = k(q) unit total^2 with q = own/total.
		dtotal := combined.Into * dflow[combined.Link]
		if combined.Into*flow[combined.Link] < 0 {
			dtotal = -dtotal
		}
		down := leg.Into * dflow[leg.Link]
		if combined.Into*flow[combined.Link] > 0 {
			down = -down
		}
		dextra[leg.Link] += sense * unit * total * (dk*(down-q*dtotal) + 2*k*dtotal)
	})
}

// each visits the two legs that do not carry the combined flow: with their
// coefficient k and its derivative by the leg's share q of the combined flow,
// and the sense of the loss along the leg's link; unit times total squared is
// the velocity head of the combined flow.
func (t Tee) each(flow []float64, visit func(leg, combined TeeLeg, k, dk, q, sense, unit, total float64)) {
	legs := [3]TeeLeg{t.Runs[0], t.Runs[1], t.Branch}
	const branch = 2
	var in [3]float64
	c := 0 // the leg with the largest flow carries the combined one
	for i, l := range legs {
		in[i] = l.Into * flow[l.Link]
		if math.Abs(in[i]) > math.Abs(in[c]) {
			c = i
		}
	}
	if in[c] == 0 {
		return
	}
	dividing := in[c] > 0
	area := math.Pi * t.Bore * t.Bore / 4
	unit := t.Factor / (2 * hydraulics.G * area * area)
	for i, l := range legs {
		if i == c {
			continue
		}
		// While the solver's flows do not balance yet, the share may leave
		// the range for a moment.
		q := min(max(-in[i]/in[c], 0), 1)
		k, dk := teeLoss(q, i == branch, c == branch, dividing)
		sense := l.Into
		if dividing {
			sense = -sense // the flow leaves by this leg: head falls away from the tee
		}
		visit(l, legs[c], k, dk, q, sense, unit, math.Abs(in[c]))
	}
}

// teeLoss returns K of a leg that carries share q of the combined flow, and
// dK/dq. side says that the leg is the side leg, bullHead that the combined
// flow runs in the side leg.
func teeLoss(q float64, side, bullHead, dividing bool) (k, dkdq float64) {
	switch {
	case bullHead && dividing:
		return 0.58 + (1.36-0.74*q)*q, 1.36 - 1.48*q
	case bullHead:
		return 0.95 + (0.85-0.5*q)*q, 0.85 - q
	case side && dividing:
		return hydraulics.GardelTee(hydraulics.DividingBranch, q)
	case side:
		return hydraulics.GardelTee(hydraulics.CombiningBranch, q)
	}
	// A run's coefficient is given by the branch's share.
	leg := hydraulics.CombiningRun
	if dividing {
		leg = hydraulics.DividingRun
	}
	k, dkdq = hydraulics.GardelTee(leg, 1-q)
	return k, -dkdq
}

// Taps is the coupling of outlets drilled into the wall of a pipe: the water
// in the pipe passes them at speed and the hole feels the pressure at the wall
// only, not the velocity head of the stream. That is the branch loss of a tee
// at a small share of the flow, K near 1 (0.95 Gardel, 1.0 Idelchik).
type Taps struct {
	Outlet      []int // link of each outlet, From end at the pipe
	Left, Right []int // links along the pipe on either side of it, or -1
	Bore        float64
	Share       float64 // of the velocity head that the hole does not feel
}

// Links implements Coupling.
func (t Taps) Links(list []int) []int { return append(list, t.Outlet...) }

// Add implements Coupling. What a hole feels does not depend on its own flow to
// speak of, so nothing is added to stiff.
func (t Taps) Add(flow, extra, _ []float64) {
	c := t.unit()
	for i, o := range t.Outlet {
		q, _ := t.stream(i, flow)
		extra[o] += c * q * q
	}
}

// Change implements Coupling.
func (t Taps) Change(flow, dflow, dextra []float64) {
	c := t.unit()
	for i, o := range t.Outlet {
		if q, l := t.stream(i, flow); l >= 0 {
			dextra[o] += 2 * c * q * dflow[l]
		}
	}
}

func (t Taps) unit() float64 {
	area := math.Pi * t.Bore * t.Bore / 4
	return t.Share / (2 * hydraulics.G * area * area)
}

// stream returns the flow of the stream that comes to outlet i along the pipe,
// the larger of those on its two sides, and its link.
func (t Taps) stream(i int, flow []float64) (q float64, link int) {
	link = t.Right[i]
	if l := t.Left[i]; link < 0 || l >= 0 && math.Abs(flow[l]) > math.Abs(flow[link]) {
		link = l
	}
	if link < 0 {
		return 0, -1
	}
	return flow[link], link
}
