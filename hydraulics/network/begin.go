package network

import "slices"

// Begin sets the heads (m) and link flows (m3/s) from which the next Solve
// starts, such as the Result for a like circuit: near the solution that takes
// two or three steps. It reports whether they fit the circuit; if they do not,
// nothing is changed. What is found does not depend on it beyond the tolerance.
func (s *Solver) Begin(head, flow []float64) bool {
	if len(head) != len(s.head) || len(flow) != len(s.flow) {
		return false
	}
	for _, i := range s.free {
		s.head[i] = head[i]
	}
	for i := range s.open {
		k := s.open[i].link
		s.flow[k] = flow[k]
	}
	clear(s.extra)
	clear(s.stiff)
	s.coupled, s.solvedOnce = true, true
	return true
}

// Take makes the solver solve p in place of its present circuit and reports
// whether it can: p must have the same shape (nodes, fixed flags, ends and
// closed flags of links, links of couplings) and be valid. It may be the present
// circuit, changed. The analysis and the memory are then used again, but nothing
// of the state: the next Solve starts from the links' guesses, or from what
// Begin is given.
func (s *Solver) Take(p *Problem) bool {
	if !s.shape.fits(p) || p.check() != nil {
		return false
	}
	for i := range p.Nodes {
		if s.isolated[i] && p.Nodes[i].Demand != 0 {
			return false
		}
	}
	s.p = p
	s.solvedOnce = false
	return true
}

// shape is what a solver's analysis rests on. It is a copy, since whoever poses
// the circuit may pose the next in the same memory.
type shape struct {
	fixed []bool // of each node
	links []linkShape
	tied  []int // links on which couplings put a loss, coupling by coupling
	list  []int // scratch
}

type linkShape struct {
	from, to int
	closed   bool
}

func shapeOf(p *Problem) shape {
	s := shape{fixed: make([]bool, len(p.Nodes)), links: make([]linkShape, len(p.Links))}
	for i := range p.Nodes {
		s.fixed[i] = p.Nodes[i].Fixed
	}
	for k := range p.Links {
		l := &p.Links[k]
		s.links[k] = linkShape{l.From, l.To, l.Closed}
	}
	for _, c := range p.Couplings {
		s.tied = c.Links(s.tied)
	}
	return s
}

// fits reports whether p has the shape.
func (s *shape) fits(p *Problem) bool {
	if len(p.Nodes) != len(s.fixed) || len(p.Links) != len(s.links) {
		return false
	}
	for i := range p.Nodes {
		if p.Nodes[i].Fixed != s.fixed[i] {
			return false
		}
	}
	for k := range p.Links {
		if l := &p.Links[k]; s.links[k] != (linkShape{l.From, l.To, l.Closed}) {
			return false
		}
	}
	s.list = s.list[:0]
	for _, c := range p.Couplings {
		s.list = c.Links(s.list)
	}
	return slices.Equal(s.list, s.tied)
}
