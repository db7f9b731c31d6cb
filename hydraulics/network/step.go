package network

import (
	"fmt"
	"math"
)

// newton fills step with the change of each flow and moves the heads. No slope
// is taken as less than least, s/m2.
func (s *Solver) newton(least float64) error {
	clear(s.ground)
	for i := range s.open {
		w := &s.open[i]
		g := 1 / (max(s.slope[w.link], least) + s.damping*s.stiff[w.link])
		s.conductance[w.link] = g
		if w.entry >= 0 {
			s.between[w.entry] = g
			continue
		}
		s.ground[w.tail] += g
		s.ground[w.head] += g
	}
	if err := s.matrix.Factor(s.ground[:len(s.free)], s.between); err != nil {
		return fmt.Errorf("circuit: %w", err)
	}
	for i := range s.open {
		w := &s.open[i]
		k := w.link
		s.drop[k] = s.head[w.from] - s.head[w.to] - s.loss[k] - s.extra[k]
	}
	s.respond(s.bal, s.drop, s.step)
	if s.coupled && len(s.tied) > 0 {
		s.tie()
	}
	for u, i := range s.free {
		s.head[i] += s.rhs[u]
	}
	return nil
}

// respond computes how the flows answer, to first order, to missing water at
// the nodes (nil for none) and to heads that act along the links; the answer of
// the free nodes' heads is left in rhs.
func (s *Solver) respond(missing, acting, answer []float64) {
	if missing == nil {
		clear(s.rhs)
	} else {
		copy(s.rhs, missing)
	}
	for i := range s.open {
		w := &s.open[i]
		push := s.conductance[w.link] * acting[w.link]
		s.rhs[w.tail] -= push
		s.rhs[w.head] += push
	}
	s.matrix.Solve(s.rhs[:len(s.free)])
	s.rhs[len(s.free)] = 0 // given heads stay
	for i := range s.open {
		w := &s.open[i]
		answer[w.link] = s.conductance[w.link] * (acting[w.link] + s.rhs[w.tail] - s.rhs[w.head])
	}
}

// tie lets the couplings' answer to the step into the step. With y the change
// of the couplings' losses, the flows change by step - G y, G being respond,
// and y must be what the couplings make of that: y = C (step - G y). It is found
// to 1e-4: closer saves no Newton step, less close costs some.
func (s *Solver) tie() {
	change := func(dflow []float64) {
		clear(s.dextra)
		for _, c := range s.p.Couplings {
			c.Change(s.flow, dflow, s.dextra)
		}
	}
	change(s.step)
	for i, k := range s.tied {
		s.tiedRHS[i] = s.dextra[k]
	}
	s.ties.solve(s.tiedRHS, s.tiedLoss, 1e-4, func(in, out []float64) {
		clear(s.acting)
		for i, k := range s.tied {
			s.acting[k] = in[i]
		}
		s.respond(nil, s.acting, s.dflow)
		change(s.dflow)
		for i, k := range s.tied {
			out[i] = in[i] + s.dextra[k]
		}
	})
	for i, k := range s.tied {
		s.drop[k] -= s.tiedLoss[i]
	}
	s.respond(s.bal, s.drop, s.step)
}

// advance moves the flows along the step: all of it if that does not overshoot
// the content's minimum along the step by much, else to near that minimum. The
// slope of the content along the step is monotone, so that a bracket closes in
// on it.
func (s *Solver) advance(balanced bool) {
	slope0 := 0.0
	if balanced {
		slope0 = s.contentSlope(s.loss, 0)
	}
	take := func(alpha float64) float64 {
		for i := range s.open {
			k := s.open[i].link
			s.trial[k] = s.flow[k] + alpha*s.step[k]
		}
		s.evaluate(s.trial, s.trialLoss, s.trialSlope)
		return s.contentSlope(s.trialLoss, alpha)
	}
	clear(s.dextra)
	if s.coupled {
		for _, c := range s.p.Couplings {
			c.Change(s.flow, s.step, s.dextra)
		}
	}
	slope1 := take(1)
	if balanced && slope0 < 0 && slope1 > -0.5*slope0 {
		lo, hi, flo, fhi := 0.0, 1.0, slope0, slope1
		for range 40 {
			alpha := (lo*fhi - hi*flo) / (fhi - flo)
			// Keep off the ends, where a kinked curve would hold the secant.
			alpha = min(max(alpha, lo+0.05*(hi-lo)), hi-0.05*(hi-lo))
			f := take(alpha)
			if math.Abs(f) <= -0.3*slope0 {
				break
			}
			if f < 0 {
				lo, flo = alpha, f
			} else {
				hi, fhi = alpha, f
			}
		}
	}
	s.flow, s.trial = s.trial, s.flow
	s.loss, s.trialLoss = s.trialLoss, s.loss
	s.slope, s.trialSlope = s.trialSlope, s.slope
	s.couple()
}

// contentSlope is the derivative of the content along the step at alpha of it,
// given the losses there; any node heads serve, since the step balances.
func (s *Solver) contentSlope(loss []float64, alpha float64) float64 {
	sum := 0.0
	for i := range s.open {
		w := &s.open[i]
		k := w.link
		coupled := s.extra[k] + alpha*s.dextra[k]
		sum += (loss[k] + coupled - s.head[w.from] + s.head[w.to]) * s.step[k]
	}
	return sum
}
