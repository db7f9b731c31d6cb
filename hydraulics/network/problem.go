// Package network solves pressurised pipe circuits of any shape: which heads
// stand at the joints and which flows run through the links between them, when
// pumps, pipes, fittings, valves, outlets and open water surfaces are joined
// into a tree or into loops.
//
// Every link follows a Law: the head lost from its one end to the other as a
// function of its flow, never falling as the flow grows. With that, the flows
// of the circuit are the minimum of a convex function (the content, Cherry 1951
// and Birkhoff & Diaz 1956, from memory), so that Newton's method with a line
// search finds them from any start. See Solver.
//
// What the circuit is made of lives elsewhere: formulas in package hydraulics,
// parts in the catalogue, the verdict on the result in package answers.
package network

import (
	"fmt"
	"math"
)

// Law is how the head lost along a link depends on the flow through it.
type Law interface {
	// Loss returns the head lost (m) from the link's From end to its To end
	// at flow q (m3/s, negative for reverse flow), and the slope dh/dq of
	// that curve (s/m2). Head lost must not fall as q grows; a pump's loss
	// is the negative of its head.
	Loss(q float64) (h, slope float64)
}

// Node is a joint of the circuit.
type Node struct {
	ID string
	// Fixed says that Head is given, as at a free water surface or, for the
	// air side of an outlet, the height of its mouth.
	Fixed bool
	Head  float64 // total head above the datum, m; used when Fixed
	// Demand is a flow taken out of a node that is not fixed, m3/s; negative
	// for water put in.
	Demand float64
}

// Link joins two nodes, given by their place in Problem.Nodes.
type Link struct {
	ID       string
	From, To int
	Law      Law
	// OneWay links never flow from To to From: check valves, outlets into
	// air, pumps that are not meant to run backwards.
	OneWay bool
	// Closed links carry nothing.
	Closed bool
	// Guess is a flow to start from, m3/s; 0 for "no idea".
	Guess float64
}

// Coupling is a loss that depends on the flows of several links at once, such
// as a tee. It must be bounded for bounded flows and need not be monotone.
// Losses are in m in the sense of each link's own direction.
type Coupling interface {
	// Links appends the links on which Add puts a loss to a list.
	Links(list []int) []int
	// Add adds to extra[k] the head lost along each of its links k at the
	// given link flows, and to stiff[k] a slope, s/m2 and not negative, of
	// the order in which that loss answers to all the flows it depends on.
	Add(flow, extra, stiff []float64)
	// Change adds to dextra[k] how the loss along link k changes, to first
	// order, if the flows change by dflow.
	Change(flow, dflow, dextra []float64)
}

// Problem is a circuit to be solved.
type Problem struct {
	Nodes     []Node
	Links     []Link
	Couplings []Coupling
}

// InvalidError says why a circuit cannot be solved.
type InvalidError struct {
	ID     string // the node or link at fault
	Reason string
}

func (e *InvalidError) Error() string {
	if e.ID == "" {
		return "circuit: " + e.Reason
	}
	return fmt.Sprintf("circuit: %s: %s", e.ID, e.Reason)
}

// check finds mistakes that can be seen without solving.
func (p *Problem) check() error {
	if len(p.Nodes) == 0 {
		return &InvalidError{Reason: "it has no nodes"}
	}
	for i := range p.Nodes {
		n := &p.Nodes[i]
		switch {
		case n.Fixed && !finite(n.Head):
			return &InvalidError{n.ID, fmt.Sprintf("its given head %g is not a number", n.Head)}
		case !finite(n.Demand):
			return &InvalidError{n.ID, fmt.Sprintf("its demand %g is not a number", n.Demand)}
		}
	}
	for k := range p.Links {
		l := &p.Links[k]
		switch {
		case l.From < 0 || l.From >= len(p.Nodes) || l.To < 0 || l.To >= len(p.Nodes):
			return &InvalidError{l.ID, "it ends at a node that does not exist"}
		case l.From == l.To:
			return &InvalidError{l.ID, "both its ends are at the same node"}
		case l.Law == nil:
			return &InvalidError{l.ID, "it has no law"}
		case !finite(l.Guess):
			return &InvalidError{l.ID, "its starting flow is not a number"}
		}
	}
	return nil
}

// reach marks the nodes that an open chain of links joins to a given head.
func (p *Problem) reach() []bool {
	parent := make([]int, len(p.Nodes))
	for i := range parent {
		parent[i] = i
	}
	find := func(i int) int {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for k := range p.Links {
		if l := &p.Links[k]; !l.Closed {
			parent[find(l.From)] = find(l.To)
		}
	}
	anchored := make([]bool, len(p.Nodes))
	for i := range p.Nodes {
		if p.Nodes[i].Fixed {
			anchored[find(i)] = true
		}
	}
	joined := make([]bool, len(p.Nodes))
	for i := range joined {
		joined[i] = anchored[find(i)]
	}
	return joined
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
