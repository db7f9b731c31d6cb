// Package study poses the problem of each subject for an enclosure, runs them
// in order and carries numbers from one to the next: the supply circuit gives
// the flow that falls into the pool, the drains give the level at which it
// leaves again, and what stands in pool, pipes and wall is missing in the sump.
//
// A study is made for one Case, one choice of every figure in doubt; package
// answers runs many.
package study

import (
	"errors"
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
	"rillwright/hydraulics/network"
)

// Setting changes the way an enclosure is run, not how it is built.
type Setting struct {
	// OpenValves opens every valve fully.
	OpenValves bool
	// Speed multiplies every pump's speed; 0 means 1. A worn pump is a slow one.
	Speed float64
	// Near is a state of the same or a like circuit to start from; it saves
	// time and changes nothing else.
	Near *State
	// Workspace, if given, lends its memory; it saves time and changes nothing
	// else.
	Workspace *Workspace
}

// Workspace keeps what solving one circuit took, for the next of the same shape.
// It serves one Run at a time. The zero Workspace is ready for use.
type Workspace struct {
	solver *network.Solver
}

// solverFor returns a solver for p, the last one if p has its shape.
func (w *Workspace) solverFor(p *network.Problem) (*network.Solver, error) {
	if w.solver != nil && w.solver.Take(p) {
		return w.solver, nil
	}
	s, err := network.NewSolver(p, network.Settings{})
	w.solver = s
	return s, err
}

func (s Setting) speed() float64 {
	if s.Speed == 0 {
		return 1
	}
	return s.Speed
}

// State is the steady running state of an enclosure. Flows are in m3/s, levels
// and heads in m above the room floor, losses in m.
type State struct {
	// SumpLevel is the water surface in the pumps' chamber, Chambers that of
	// every chamber.
	SumpLevel float64
	Chambers  []float64
	PoolLevel float64
	// RestLevel is where the pool stands when nothing runs in: its lowest lip.
	RestLevel float64
	// Spills says that the drains cannot take the inflow: there is no steady
	// state, and Spill is what runs over the dam to begin with.
	Spills bool
	Spill  float64
	// Dry lists pumps whose inlet the running level leaves uncovered.
	Dry []int

	Inflow    float64 // into the pool
	Outlets   float64 // out of all outlets
	Pumps     []PumpState
	Manifolds []ManifoldState
	Runs      []RunState
	Drains    []DrainState
	Joined    []JunctionState

	Kinematic, Density float64
	surface            float64
	linkFlow, nodeHead []float64 // of the whole supply circuit
	// Iterations counts Newton steps of the supply circuit.
	Iterations int
	// Held is the water, m3, that the sump gives up when the pump starts: the
	// pool's rise, the pipes' contents and the film on the wall.
	Held float64
	// StopLevel is where the pump's chamber stands once all that has come back
	// after the pump stopped. It may be above the sump's rim.
	StopLevel float64
}

// PumpState is one pump at work: its flow and the head that it gives, what its
// strainer takes of it included.
type PumpState struct {
	Flow, Head float64
	Lift       float64 // from the sump's surface to the highest manifold it can feed
}

// ManifoldState is one manifold at work.
type ManifoldState struct {
	Flow    []float64 // of each outlet
	Head    []float64 // over each outlet, that which the hole feels
	Total   float64
	HeadMin float64
	HeadMax float64
}

// RunState is one run at work.
type RunState struct {
	Flow, Loss float64
	// Pieces is the loss of each piece with the change of bore before it.
	Pieces []float64
	// Speed is the highest speed along the run, Reynolds the number in its
	// narrowest hose or pipe.
	Speed, Reynolds float64
	Shut            bool
}

// DrainState is one drain at work.
type DrainState struct {
	Flow  float64
	Limit gravity.Limit
	// Capacity is what it takes with the pool at the top of the dam, without
	// help from a siphon, and what holds it there.
	Capacity float64
	AtTop    gravity.Limit
	// Quiet is the flow up to which it keeps an open core of air, Gulps that
	// beyond which an upright pipe of its bore fills and gulps.
	Quiet, Gulps float64
	Reaches      []string
}

// JunctionState is the pipe after a tee in which drains meet.
type JunctionState struct {
	Name        string // of the run that leaves the tee
	Flow, Quiet float64
}

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
	if near := st; near.linkFlow != nil || s.Near != nil {
		if near.linkFlow == nil {
			near = s.Near
		}
		solver.Begin(near.nodeHead, near.linkFlow)
	}
	res, err := solver.Solve()
	if err != nil {
		return fmt.Errorf("supply %w", err)
	}
	if res.Status != network.Converged {
		return fmt.Errorf("supply circuit: no state found (off by %.2g m of head after %d steps)", res.Residual, res.Iterations)
	}
	st.Iterations = res.Iterations
	st.linkFlow, st.nodeHead = append(st.linkFlow[:0], res.Flow...), append(st.nodeHead[:0], res.Head...)
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

// CapillaryHead returns the head that a hole of diameter d needs to start.
func (st *State) CapillaryHead(d float64) float64 {
	return 4 * st.surface / (st.Density * hydraulics.G * d)
}

func (st *State) readSupply(b *supply, res network.Result) {
	st.Inflow, st.Outlets = 0, 0
	st.Pumps = make([]PumpState, len(b.e.Pumps))
	for i, l := range b.pumpLink {
		q := clean(res.Flow[l])
		st.Pumps[i] = PumpState{Flow: q, Head: PumpHead(&b.e.Pumps[i], b.c, b.s, q)}
		for k := range b.e.Manifolds {
			st.Pumps[i].Lift = math.Max(st.Pumps[i].Lift, b.e.Manifolds[k].Height-res.Head[b.pumpIn[i]])
		}
	}
	st.Manifolds = make([]ManifoldState, len(b.e.Manifolds))
	for i := range b.e.Manifolds {
		st.readManifold(b, res, i)
		st.Outlets += st.Manifolds[i].Total
	}
	st.Inflow = st.Outlets * (1 - b.c.Of(b.e.WaterLost))
	st.Runs = make([]RunState, len(b.e.Runs))
	for i := range b.e.Runs {
		if l := b.runLink[i]; l >= 0 {
			st.readRun(b, res, i, l)
			if b.e.Runs[i].To.Kind == enclosure.AtPool {
				st.Inflow += st.Runs[i].Flow
			}
		}
	}
}

func (st *State) readManifold(b *supply, res network.Result, i int) {
	m := &st.Manifolds[i]
	links := b.outletLink[i]
	extra := make([]float64, len(b.p.Links))
	b.taps[i].Add(res.Flow, extra, extra)
	for k, l := range links {
		q := clean(res.Flow[l])
		air := b.p.Links[l].To
		h := res.Head[b.outletNode[i][k]] - res.Head[air] - extra[l]
		m.Flow, m.Head = append(m.Flow, q), append(m.Head, h)
		m.Total += q
		if k == 0 {
			m.HeadMin, m.HeadMax = h, h
		}
		m.HeadMin, m.HeadMax = math.Min(m.HeadMin, h), math.Max(m.HeadMax, h)
	}
}

// clean drops the traces that one-way links let through.
func clean(q float64) float64 {
	if math.Abs(q) < 1e-12 {
		return 0
	}
	return q
}

func (st *State) readRun(b *supply, res network.Result, i, l int) {
	r := &st.Runs[i]
	u := &b.e.Runs[i]
	r.Flow = clean(res.Flow[l])
	r.Shut = b.p.Links[l].Closed
	r.Loss = res.Head[b.p.Links[l].From] - res.Head[b.p.Links[l].To]
	first := 0.0
	narrow := math.Inf(1)
	for k := range u.Pieces {
		p := &u.Pieces[k]
		law, bore, _ := b.pieces(u.Pieces[k:k+1], first, 0, 0)
		h, _ := law.Loss(r.Flow)
		r.Pieces = append(r.Pieces, h)
		first = bore
		r.Speed = math.Max(r.Speed, network.Velocity(r.Flow, bore))
		if p.Kind.HasLength() && bore < narrow {
			narrow = bore
			r.Reynolds = network.Velocity(r.Flow, bore) * bore / st.Kinematic
		}
	}
}

// drain settles the pool under the inflow.
func (st *State) drain(b *supply) {
	st.Chambers = b.chamberLevels(st.SumpLevel, st.Inflow)
	pool := b.buildPool(st.Chambers)
	rest := pool.Settle(st.Inflow)
	st.PoolLevel, st.Spills, st.Spill = rest.Level, rest.Spills, rest.Spill
	st.Drains = make([]DrainState, len(b.e.Drains))
	for i := range pool.Drains {
		d := &pool.Drains[i]
		s := DrainState{Flow: rest.Flow[i], Limit: rest.Limit[i]}
		s.Capacity, s.AtTop = d.Capacity(b.e.Pool.DamTop)
		s.Quiet = hydraulics.SelfVentingFlow(d.Bore)
		for k := range d.Reaches {
			s.Reaches = append(s.Reaches, d.Reaches[k].ID)
		}
		for k := range b.e.Drains[i].Pieces {
			p := &b.e.Drains[i].Pieces[k]
			s.Quiet = math.Min(s.Quiet, hydraulics.SelfVentingFlow(b.c.Of(p.Bore)))
		}
		s.Quiet = math.Min(s.Quiet, hydraulics.SelfVentingFlow(b.c.Of(b.e.Drains[i].Bulkhead)))
		s.Gulps = s.Quiet * hydraulics.StackFlow(d.Bore) / hydraulics.SelfVentingFlow(d.Bore)
		st.Drains[i] = s
	}
	st.Joined = nil
	if len(pool.Junctions) > 0 {
		st.joined(b, pool)
	}
}

// joined gives drains that share a pipe their capacities together.
func (st *State) joined(b *supply, pool *gravity.Pool) {
	top := pool.Settle(math.MaxFloat64)
	for i := range st.Drains {
		if pool.Drains[i].Joins >= 0 {
			st.Drains[i].Capacity, st.Drains[i].AtTop = top.Flow[i], top.Limit[i]
		}
	}
	for i := range b.e.Runs {
		u := &b.e.Runs[i]
		if !b.isDrainRun(i) {
			continue
		}
		j := JunctionState{Name: u.Name, Flow: st.through(b, u.From.Index), Quiet: math.Inf(1)}
		for k := range u.Pieces {
			j.Quiet = math.Min(j.Quiet, hydraulics.SelfVentingFlow(b.c.Of(u.Pieces[k].Bore)))
		}
		st.Joined = append(st.Joined, j)
	}
}

// through returns what drains and other tees bring to a tee.
func (st *State) through(b *supply, tee int) float64 {
	q := 0.0
	for i := range b.e.Drains {
		if to := b.e.Drains[i].To; to.Kind == enclosure.AtTee && to.Index == tee {
			q += st.Drains[i].Flow
		}
	}
	for i := range b.e.Runs {
		if u := &b.e.Runs[i]; b.isDrainRun(i) && u.To.Kind == enclosure.AtTee && u.To.Index == tee {
			q += st.through(b, u.From.Index)
		}
	}
	return q
}
