package study

import (
	"errors"
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// Run finds the steady running state of e with the figures of c. The error says
// what about the circuit cannot be solved; State.Spills and State.Dry are
// answers, not errors.
func Run(e *enclosure.Enclosure, c enclosure.Case, s Setting) (*State, error) {
	if s.Workspace == nil {
		s.Workspace = &Workspace{}
	}
	st := &State{SumpLevel: e.Sump.Level, RestLevel: restLevel(e), PoolLevel: restLevel(e)}
	if err := st.close(e, c, s); err != nil {
		return nil, err
	}
	for i := range e.Pumps {
		if e.Pumps[i].InSump && st.SumpLevel < e.Pumps[i].Inlet {
			st.Dry = append(st.Dry, i)
		}
	}
	return st, nil
}

// close finds the levels of sump and pool that agree with each other. The sump's
// answers to what pool, pipes and wall hold, and they mostly hardly to it: each
// turn shrinks the difference by a factor of a hundred or more, and drowned
// returns couple pool and supply in the same way. Where a pump can only just
// lift, a little less in the sump stops the flow: then the level is bracketed,
// since the more there is in the sump, the more it gives up.
func (st *State) close(e *enclosure.Enclosure, c enclosure.Case, s Setting) error {
	const agree = 1e-9 // m
	for range 12 {
		sump, pool := st.SumpLevel, st.PoolLevel
		if err := st.once(e, c, s); err != nil {
			return err
		}
		if math.Abs(st.SumpLevel-sump) <= agree && (math.Abs(st.PoolLevel-pool) <= agree || !drowned(e, st.PoolLevel, pool)) {
			return nil
		}
	}
	if e.Sump.Running {
		return errors.New("the levels of pool and drowned returns do not come to rest")
	}
	lo, hi := e.Sump.Bottom, e.Sump.Level
	for hi-lo > agree {
		mid := (lo + hi) / 2
		st.SumpLevel = mid
		if err := st.once(e, c, s); err != nil {
			return err
		}
		if st.SumpLevel > mid {
			lo = mid
		} else {
			hi = mid
		}
	}
	st.SumpLevel = lo
	return nil
}

func restLevel(e *enclosure.Enclosure) float64 {
	rest := e.Pool.DamTop
	for i := range e.Drains {
		rest = math.Min(rest, e.Drains[i].Lip)
	}
	return rest
}

// drowned reports whether an open end in the pool feels either of two levels.
func drowned(e *enclosure.Enclosure, a, b float64) bool {
	for i := range e.Runs {
		if u := &e.Runs[i]; u.To.Kind == enclosure.AtPool && u.EndHeight < math.Max(a, b) {
			return true
		}
	}
	return false
}

// once solves supply and drains at the present levels.
func (st *State) once(e *enclosure.Enclosure, c enclosure.Case, s Setting) error {
	b, err := buildSupply(e, c, s, st.SumpLevel, st.PoolLevel)
	if err != nil {
		return err
	}
	solver, err := s.Workspace.solverFor(&b.p)
	if err != nil {
		return fmt.Errorf("supply %w", err)
	}
	switch {
	case st.linkFlow != nil:
		solver.Begin(st.nodeHead, st.linkFlow)
	case s.Near != nil:
		solver.Begin(b.foresee(s.Near, s.Moves))
	}
	res, err := solver.Solve()
	if err != nil {
		return fmt.Errorf("supply %w", err)
	}
	if res.Status != network.Converged {
		return fmt.Errorf("supply circuit: no state found (off by %.2g m of head after %d steps)", res.Residual, res.Iterations)
	}
	st.Iterations = res.Iterations
	st.reserve(b)
	copy(st.linkFlow, res.Flow)
	copy(st.nodeHead, res.Head)
	st.Kinematic, st.Density = b.water.Kinematic, b.water.Density
	st.surface = b.water.SurfaceTension
	st.readSupply(b, res)
	st.drain(b)
	st.Held = b.held(st)
	if e.Sump.Running {
		st.StopLevel = b.sumpLevel(b.sumpVolume(st.SumpLevel, st.Inflow)+st.Held, 0)
	} else {
		st.StopLevel = e.Sump.Level
		st.SumpLevel = b.sumpLevel(b.sumpVolume(e.Sump.Level, 0)-st.Held, st.Inflow)
	}
	return nil
}

// foresee returns the heads and flows of a state after moves, to first order:
// most doubts are small, and each acts almost as if it were alone. Moves of
// circuits of another shape are left out.
func (b *supply) foresee(near *State, moves []Move) (head, flow []float64) {
	head, flow = b.memory.floats.take(len(near.nodeHead)), b.memory.floats.take(len(near.linkFlow))
	copy(head, near.nodeHead)
	copy(flow, near.linkFlow)
	for _, m := range moves {
		if len(m.From.linkFlow) == len(flow) && len(m.To.linkFlow) == len(flow) && len(m.From.nodeHead) == len(head) && len(m.To.nodeHead) == len(head) {
			addDifference(head, m.From.nodeHead, m.To.nodeHead)
			addDifference(flow, m.From.linkFlow, m.To.linkFlow)
		}
	}
	return head, flow
}

func addDifference(sum, from, to []float64) {
	for i := range sum {
		sum[i] += to[i] - from[i]
	}
}
