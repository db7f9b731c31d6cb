package study

import (
	"rillwright/hydraulics/gravity"
	"rillwright/hydraulics/network"
)

// Workspace keeps what solving one circuit took, for the next of the same shape.
// It serves one Run at a time. The zero Workspace is ready for use.
type Workspace struct {
	solver *network.Solver
	supply supply
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

// memory is what the many small slices and laws of a supply are cut from. A
// circuit is posed some hundred times for one design: after the first time
// nothing is allocated for it.
type memory struct {
	ints    slab[int]
	floats  slab[float64]
	laws    network.Store
	tees    slab[network.Tee]
	reaches slab[gravity.Reach]
}

func (m *memory) reset() {
	m.ints.reset()
	m.floats.reset()
	m.laws.Reset()
	m.tees.reset()
	m.reaches.reset()
}

// slab hands out slices of one block until it is reset.
type slab[T any] struct{ block []T }

func (s *slab[T]) reset() { s.block = s.block[:0] }

// take returns n zeros with no room beyond.
func (s *slab[T]) take(n int) []T {
	used := len(s.block)
	if used+n > cap(s.block) {
		// Slices taken before keep the old block.
		s.block, used = make([]T, 0, max(2*cap(s.block), n, 16)), 0
	}
	s.block = s.block[:used+n]
	part := s.block[used : used+n : used+n]
	clear(part)
	return part
}

// room returns an empty slice with room for n.
func (s *slab[T]) room(n int) []T { return s.take(n)[:0] }
