package hydraulics

import (
	"fmt"
	"math"
)

// MaxRelativeRoughness is the largest roughness/bore the friction formulas are
// used for; Friction is known to be monotone up to it.
const MaxRelativeRoughness = 0.05

// Pipe is a full circular pipe with its fittings and the water in it, ready for
// many head-loss calls. Make one with NewPipe.
type Pipe struct {
	fr        Friction
	fittings  KModel
	bore      float64
	kinematic float64
	area      float64
	lOverD    float64
}

// NewPipe returns a pipe of the given length, bore and roughness (m) carrying
// water of the given kinematic viscosity (m2/s); fittings is the sum of all
// losses on the velocity in this bore. Length and roughness may be 0. It fails
// on a figure that is negative, not finite, or, for bore and viscosity, 0, and
// on a roughness over MaxRelativeRoughness of the bore.
func NewPipe(length, bore, roughness, kinematic float64, fittings KModel) (Pipe, error) {
	switch {
	case !(bore > 0) || math.IsInf(bore, 1):
		return Pipe{}, fmt.Errorf("pipe: bore %g m must be positive", bore)
	case !(kinematic > 0) || math.IsInf(kinematic, 1):
		return Pipe{}, fmt.Errorf("pipe: kinematic viscosity %g m2/s must be positive", kinematic)
	case !(length >= 0) || math.IsInf(length, 1):
		return Pipe{}, fmt.Errorf("pipe: length %g m must not be negative", length)
	case !(roughness >= 0 && roughness <= MaxRelativeRoughness*bore):
		return Pipe{}, fmt.Errorf("pipe: roughness %g m must lie between 0 and %g of the bore %g m", roughness, MaxRelativeRoughness, bore)
	case math.IsNaN(fittings.K1) || math.IsInf(fittings.K1, 0) || math.IsNaN(fittings.KInf) || math.IsInf(fittings.KInf, 0):
		return Pipe{}, fmt.Errorf("pipe: fittings K1 %g and KInf %g must be finite", fittings.K1, fittings.KInf)
	}
	return Pipe{
		fr:        NewFriction(roughness / bore),
		fittings:  fittings,
		bore:      bore,
		kinematic: kinematic,
		area:      CircleArea(bore),
		lOverD:    length / bore,
	}, nil
}

// Velocity returns the mean velocity (m/s) at flow q.
func (p Pipe) Velocity(q float64) float64 { return q / p.area }

// Reynolds returns the Reynolds number at flow q, not negative.
func (p Pipe) Reynolds(q float64) float64 {
	return math.Abs(q) / p.area * p.bore / p.kinematic
}

// HeadLoss returns the head (m) lost at flow q, with the sign of q, and its
// slope dh/dq:
//
//	h = (f L/D + K1/Re + KInf) V^2/(2g)   (Darcy-Weisbach)
//
// The slope at q = 0 is finite, that of laminar flow.
func (p Pipe) HeadLoss(q float64) (h, dhdq float64) {
	v := math.Abs(q) / p.area
	// lin is the loss in proportion to V: laminar friction and K1.
	lin := p.fittings.K1 * p.kinematic / (2 * G * p.bore)
	re := v * p.bore / p.kinematic
	if re <= ReLaminar {
		lin += 32 * p.kinematic * p.lOverD / (G * p.bore)
		k := p.fittings.KInf / (2 * G)
		h = v * (lin + k*v)
		return math.Copysign(h, q), (lin + 2*k*v) / p.area
	}
	f, df := p.fr.At(re)
	k := (f*p.lOverD + p.fittings.KInf) / (2 * G)
	h = v * (lin + k*v)
	// re df = v df/dv
	return math.Copysign(h, q), (lin + 2*k*v + v*p.lOverD*re*df/(2*G)) / p.area
}

// Flow returns the flow (m3/s) that loses head h (m), with the sign of h: the
// inverse of HeadLoss, to rounding. With an exit loss among the fittings it is
// the flow of a pipe that runs full between two free surfaces h apart. It
// needs losses that rise with flow, so KInf and K1 must not be negative; it is
// +-Inf for a pipe without any loss.
func (p Pipe) Flow(h float64) float64 {
	target := math.Abs(h)
	if target == 0 {
		return 0
	}
	// Bracket: double from a unit velocity until the loss is more than h.
	lo, hi := 0.0, p.area
	for {
		loss, _ := p.HeadLoss(hi)
		if loss >= target {
			break
		}
		lo, hi = hi, hi*2
		if math.IsInf(hi, 1) {
			return math.Copysign(hi, h)
		}
	}
	// Newton, with bisection where it leaves the bracket.
	q := (lo + hi) / 2
	for range 100 {
		loss, slope := p.HeadLoss(q)
		if loss > target {
			hi = q
		} else {
			lo = q
		}
		next := q - (loss-target)/slope
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-q) <= 1e-15*q {
			q = next
			break
		}
		q = next
	}
	return math.Copysign(q, h)
}
