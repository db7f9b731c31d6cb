package network

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
