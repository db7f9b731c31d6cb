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
	for _, k := range s.open {
		s.flow[k] = flow[k]
	}
	clear(s.extra)
	clear(s.stiff)
	s.coupled, s.solvedOnce = true, true
	return true
}

// Take makes the solver solve p in place of its present circuit and reports
// whether it can: p must have the same shape (nodes, fixed flags, ends and
// closed flags of links, links of couplings) and be valid. The analysis and the
// memory are then used again, but nothing of the state: the next Solve starts
// from the links' guesses, or from what Begin is given.
func (s *Solver) Take(p *Problem) bool {
	if !s.p.sameShape(p) || p.check() != nil {
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

func (p *Problem) sameShape(q *Problem) bool {
	if len(p.Nodes) != len(q.Nodes) || len(p.Links) != len(q.Links) || len(p.Couplings) != len(q.Couplings) {
		return false
	}
	for i := range p.Nodes {
		if p.Nodes[i].Fixed != q.Nodes[i].Fixed {
			return false
		}
	}
	for k := range p.Links {
		a, b := &p.Links[k], &q.Links[k]
		if a.From != b.From || a.To != b.To || a.Closed != b.Closed {
			return false
		}
	}
	for c := range p.Couplings {
		if !slices.Equal(p.Couplings[c].Links(), q.Couplings[c].Links()) {
			return false
		}
	}
	return true
}
