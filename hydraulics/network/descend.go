package network

import (
	"errors"
	"fmt"
	"math"
)

func (s *Solver) anyReverse() bool {
	for i := range s.open {
		if k := s.open[i].link; s.flow[k] < 0 && s.p.Links[k].OneWay {
			return true
		}
	}
	return false
}

// evaluate fills loss and slope of every open link at the flows q.
func (s *Solver) evaluate(q, loss, slope []float64) {
	for i := range s.open {
		k := s.open[i].link
		l := &s.p.Links[k]
		if l.OneWay && q[k] < 0 {
			h, _ := l.Law.Loss(0)
			loss[k], slope[k] = h+s.wall*q[k], s.wall
			continue
		}
		loss[k], slope[k] = l.Law.Loss(q[k])
	}
}

var errNotNumber = errors.New("a law gave a head that is not a number")

// descend runs Newton steps until the circuit is at rest with the present
// slope for reverse flow.
func (s *Solver) descend(res *Result) error {
	s.damping = 0
	best, since := math.Inf(1), 0
	lowest, stuck := math.Inf(1), 0
	s.evaluate(s.flow, s.loss, s.slope)
	s.couple()
	for range s.settings.MaxIterations {
		largest, scale, bad := s.residuals()
		if bad >= 0 {
			return fmt.Errorf("circuit: %s: %w", s.p.Links[bad].ID, errNotNumber)
		}
		imbalance, through := s.balance()
		res.Residual, res.Imbalance = largest, imbalance
		settled := imbalance <= 1e-12*through
		if !s.coupled && settled && largest <= roughly*scale {
			s.coupled = true
			s.couple()
			if len(s.p.Couplings) > 0 {
				continue
			}
		}
		if settled && largest <= s.settings.Tolerance*scale {
			res.Status = Converged
			return nil
		}
		// Where laws are steep, rounding may keep the residual above the
		// tolerance: once it no longer falls, what is good enough is taken.
		if stuck++; largest < lowest {
			lowest, stuck = largest, 0
		} else if stuck > 3*patience && settled && largest <= goodEnough*scale {
			res.Status = Converged
			return nil
		}
		// A coupling's answer to other links' flows is not in the system of a
		// step. If that makes the steps swing, they are held back more.
		if since++; largest < best/2 {
			best, since = largest, 0
		} else if since > patience && s.coupled {
			s.damping = min(max(2*s.damping, 0.25), 1<<12)
			best, since = largest, 0
		}
		if err := s.newton(min(leastSlope, leastShare*scale/through)); err != nil {
			return err
		}
		res.Iterations++
		// The search along a step needs flows that balance, but not to the last
		// digit: near rest, rounding of the flows before may be all there is.
		s.advance(imbalance <= 1e-6*through)
	}
	if largest, scale, _ := s.residuals(); largest <= goodEnough*scale {
		res.Status = Converged
		return nil
	}
	res.Status = Stalled
	return nil
}

// residuals returns the largest head residual of a link, less what rounding
// alone can make of it, and the scale of head differences in the circuit, or
// the index of a link whose law gave no number.
func (s *Solver) residuals() (largest, scale float64, bad int) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.open {
		w := &s.open[i]
		k := w.link
		hf, ht := s.head[w.from], s.head[w.to]
		lo, hi = min(lo, hf, ht), max(hi, hf, ht)
		r := math.Abs(hf - ht - s.loss[k] - s.extra[k])
		if !(r < math.MaxFloat64) {
			return 0, 0, int(k)
		}
		const eps = 1.0 / (1 << 50)
		rounding := eps * (math.Abs(hf) + math.Abs(ht) + math.Abs(s.extra[k]) + (s.slope[k]+s.stiff[k])*math.Abs(s.flow[k]))
		largest = max(largest, r-rounding)
	}
	return largest, max(hi-lo, 1e-2), -1
}

// balance computes what is missing at each free node and returns the largest
// imbalance and the scale of flows through nodes, at least a drop an hour.
func (s *Solver) balance() (largest, through float64) {
	for u, i := range s.free {
		s.bal[u] = -s.p.Nodes[i].Demand
		through = max(through, math.Abs(s.p.Nodes[i].Demand))
	}
	for i := range s.open {
		w := &s.open[i]
		q := s.flow[w.link]
		through = max(through, math.Abs(q))
		s.bal[w.tail] -= q
		s.bal[w.head] += q
	}
	for _, b := range s.bal[:len(s.free)] {
		largest = max(largest, math.Abs(b))
	}
	return largest, max(through, 1e-9)
}

// couple evaluates the couplings at the present flows.
func (s *Solver) couple() {
	if !s.coupled || len(s.p.Couplings) == 0 {
		return
	}
	clear(s.extra)
	clear(s.stiff)
	for _, c := range s.p.Couplings {
		c.Add(s.flow, s.extra, s.stiff)
	}
}
