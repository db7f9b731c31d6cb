package workbench

import (
	"slices"
	"sync"

	"rillwright"
)

// mostSeen is how many designs are remembered.
const mostSeen = 4

// seen remembers the last whole report of a few designs. Reports are not changed
// once they are made, so that several requests may read one.
type seen struct {
	mu    sync.Mutex
	names []string // last used last
	last  map[string]*rillwright.Report
}

func newSeen() *seen { return &seen{last: map[string]*rillwright.Report{}} }

func (s *seen) get(name string) *rillwright.Report {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.last[name]
}

func (s *seen) put(name string, r *rillwright.Report) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.names = append(slices.DeleteFunc(s.names, func(n string) bool { return n == name }), name)
	s.last[name] = r
	if len(s.names) > mostSeen {
		delete(s.last, s.names[0])
		s.names = s.names[1:]
	}
}
