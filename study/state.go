// Package study poses the problem of each subject for an enclosure, runs them
// in order and carries numbers from one to the next: the supply circuit gives
// the flow that falls into the pool, the drains give the level at which it
// leaves again, and what stands in pool, pipes and wall is missing in the sump.
//
// A study is made for one Case, one choice of every figure in doubt; package
// answers runs many.
package study

import (
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
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
	// Moves, if given, are what this case does to Near as far as that is known
	// from other cases: the start is Near with all their differences added. They
	// too save time and change nothing else.
	Moves []Move
	// Pieces asks for the loss of each piece of the runs, which few need.
	Pieces bool
	// Workspace, if given, lends its memory; it saves time and changes nothing
	// else.
	Workspace *Workspace
}

// Move is what one change did to a running state.
type Move struct{ From, To *State }

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
	// Pieces is the loss of each piece with the change of bore before it; nil
	// unless Setting.Pieces asks for it.
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

// CapillaryHead returns the head that a hole of diameter d needs to start.
func (st *State) CapillaryHead(d float64) float64 {
	return 4 * st.surface / (st.Density * hydraulics.G * d)
}
