package network

// Store makes conduits in memory of its own, which Reset makes free for others:
// whoever poses one circuit after another then allocates nothing for them. The
// zero Store is ready for use.
type Store struct {
	conduits []Conduit
	pipes    []pipe
}

// Reset frees the memory of all conduits made so far: they must not be used
// again.
func (s *Store) Reset() { s.conduits, s.pipes = s.conduits[:0], s.pipes[:0] }

// Conduit returns a conduit without loss for water of the given kinematic
// viscosity, m2/s, with room for so many pipes; it may grow beyond.
func (s *Store) Conduit(kinematic float64, pipes int) *Conduit {
	if len(s.pipes)+pipes > cap(s.pipes) {
		// Conduits made before keep the old block.
		s.pipes = make([]pipe, 0, max(2*cap(s.pipes), pipes, 32))
	}
	n := len(s.pipes)
	s.pipes = s.pipes[:n+pipes]
	return s.keep(Conduit{kinematic: kinematic, pipes: s.pipes[n : n : n+pipes]})
}

// Clone returns a copy of a conduit that can be added to on its own.
func (s *Store) Clone(c *Conduit) *Conduit { return s.keep(c.share()) }

func (s *Store) keep(c Conduit) *Conduit {
	if len(s.conduits) == cap(s.conduits) {
		s.conduits = make([]Conduit, 0, max(2*cap(s.conduits), 16))
	}
	s.conduits = append(s.conduits, c)
	return &s.conduits[len(s.conduits)-1]
}
