package answers

import (
	"errors"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// Band returns a measure with every doubt at the end that lowers it, likely, and
// with every doubt at the end that raises it.
func (s *Survey) Band(m Measure) (low, likely, high float64) {
	likely = s.at(m)
	low, high = m.Of(s.End(m, -1)), m.Of(s.End(m, 1))
	// Doubts that only act together may turn a corner round; the band still
	// holds whatever was computed.
	return min(low, likely, high), likely, max(low, likely, high)
}

// End returns the running state with every doubt at the end that lowers the
// measure (side -1) or raises it (side 1).
func (s *Survey) End(m Measure, side int) *study.State {
	k := s.cornerOf(m, side)
	if st, ok := s.corner[k.key]; ok {
		return st
	}
	st, err := s.runCorner(k)
	s.keep(k, st, err)
	return s.corner[k.key]
}

// corner is a case with every doubt at one of its ends.
type corner struct {
	key  string // tells corners apart
	at   enclosure.Case
	open bool // every valve open
}

func (s *Survey) cornerOf(m Measure, side int) corner {
	signs := s.senses(m)
	key := make([]byte, 0, len(signs)+1)
	c := corner{at: s.E.Likely(), open: m.Open && throttled(s.E)}
	for i, sign := range signs {
		d := &s.E.Doubts[i]
		switch int(sign) * side {
		case 1:
			c.at[i] = d.High
		case -1:
			c.at[i] = d.Low
		}
		key = append(key, byte('1'+int(sign)*side))
	}
	if c.open {
		key = append(key, 'o')
	}
	c.key = string(key)
	return c
}

func (s *Survey) runCorner(c corner) (*study.State, error) {
	return s.runCase(c.at, c.open)
}

// runCase runs a case from where the likely state and what is known of each
// doubt by itself lead to expect it.
func (s *Survey) runCase(c enclosure.Case, open bool) (*study.State, error) {
	moves := make([]study.Move, 0, len(c))
	for i, v := range c {
		side := 1
		switch v {
		case s.E.Doubts[i].Likely:
			continue
		case s.E.Doubts[i].Low:
			side = 0
		}
		if m, ok := s.move(i, side, open); ok {
			moves = append(moves, m)
		}
	}
	return s.run(s.E, c, study.Setting{OpenValves: open, Near: s.middle(open), Moves: moves})
}

// move returns what a doubt at one end does to the likely state; if that was
// not run, what it did in the survey before.
func (s *Survey) move(doubt, side int, open bool) (m study.Move, ok bool) {
	o := 0
	if open {
		o = 1
	}
	if list := s.ends[o][side]; doubt < len(list) && list[doubt] != nil {
		return study.Move{From: s.middle(open), To: list[doubt]}, true
	}
	if s.before != nil && s.was[doubt] >= 0 {
		return s.before.move(s.was[doubt], side, open)
	}
	return m, false
}

// middle is the likely state, with the valves as set or open.
func (s *Survey) middle(open bool) *study.State {
	if open {
		return s.open
	}
	return s.Likely
}

// keep remembers the state of a corner. If it could not be found the likely one
// stands in its place and Err tells: bands are then too narrow to be shown.
func (s *Survey) keep(c corner, st *study.State, err error) {
	if err != nil {
		st = s.Likely
		s.err = errors.Join(s.err, err)
	}
	s.corner[c.key] = st
}

// prepare runs the corners of measures side by side, which End would else run
// one after another.
func (s *Survey) prepare(measures []Measure) {
	var missing []corner
	seen := map[string]bool{}
	for _, m := range measures {
		for _, side := range [...]int{-1, 1} {
			c := s.cornerOf(m, side)
			if _, ok := s.corner[c.key]; !ok && !seen[c.key] {
				seen[c.key] = true
				missing = append(missing, c)
			}
		}
	}
	found := make([]*study.State, len(missing))
	errs := make([]error, len(missing))
	InParallel(len(missing), func(i int) { found[i], errs[i] = s.runCorner(missing[i]) })
	for i, c := range missing {
		s.keep(c, found[i], errs[i])
	}
}

// least returns a measure with every doubt at the end that lowers it, most with
// every doubt at the end that raises it.
func (s *Survey) least(m Measure) float64 { return min(s.at(m), m.Of(s.End(m, -1))) }

func (s *Survey) most(m Measure) float64 { return max(s.at(m), m.Of(s.End(m, 1))) }

// bandOf returns a measure's band as a quantity.
func bandOf[T ~float64](s *Survey, m Measure) quantity.Band[T] {
	l, k, h := s.Band(m)
	return quantity.Band[T]{Low: T(l), Likely: T(k), High: T(h)}
}

// run finds a running state, with memory of states before it.
func (s *Survey) run(e *enclosure.Enclosure, c enclosure.Case, set study.Setting) (*study.State, error) {
	w := s.spaces.Get()
	defer s.spaces.Put(w)
	if space, ok := w.(*study.Workspace); ok {
		set.Workspace = space
	}
	return study.Run(e, c, set)
}
