package answers

import (
	"errors"
	"math"
	"strings"
	"sync"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// Measure reads one figure, in SI, out of a running state.
type Measure struct {
	ID   string
	Open bool // with every valve fully open
	Of   func(*study.State) float64
}

// Survey holds the running states of an enclosure over its doubts: the likely
// one, one for each end of each doubt, and, for a figure, those with every
// doubt at the end that lowers it or raises it. Where a doubt moves a figure up
// and where down is found by computing, not presumed. States are computed when
// first asked for: a Survey must not be used by two goroutines at once.
type Survey struct {
	E      *enclosure.Enclosure
	Likely *study.State

	open   *study.State
	ends   [2][2][]*study.State // by valves open, by side, by doubt
	signs  map[string][]int8    // by measure: +1 if the doubt's high end raises it
	corner map[string]*study.State
	near   *study.State
	err    error
	quick  bool
	spaces *sync.Pool // of *study.Workspace, shared with surveys made by Again
	// Of a survey made by Again: the one before, where each doubt stands there
	// (-1 for nowhere), what is known of the senses from it, and the doubts to
	// be run at both ends.
	before *Survey
	was    []int
	like   map[string][]int8
	fresh  []int
}

// NewSurvey runs e over its doubts. The error is of a circuit that cannot be
// solved.
func NewSurvey(e *enclosure.Enclosure) (*Survey, error) {
	s := &Survey{
		E: e, signs: map[string][]int8{}, corner: map[string]*study.State{},
		spaces: &sync.Pool{New: func() any { return &study.Workspace{} }},
	}
	if err := s.base(); err != nil {
		return nil, err
	}
	all := make([]int, len(e.Doubts))
	for i := range all {
		all[i] = i
	}
	return s, s.runEnds(all)
}

// runEnds runs each of the doubts listed at both its ends, with the valves as
// set and with all of them open.
func (s *Survey) runEnds(doubts []int) error {
	type job struct{ open, side, doubt int }
	var jobs []job
	for open := range 2 {
		if open == 1 && !throttled(s.E) {
			s.ends[1] = s.ends[0]
			break
		}
		for side := range 2 {
			s.ends[open][side] = make([]*study.State, len(s.E.Doubts))
			for _, d := range doubts {
				jobs = append(jobs, job{open, side, d})
			}
		}
	}
	errs := make([]error, len(jobs))
	run := func(i int) {
		j := jobs[i]
		c := s.E.Likely()
		c[j.doubt] = s.E.Doubts[j.doubt].Low
		if j.side == 1 {
			c[j.doubt] = s.E.Doubts[j.doubt].High
		}
		s.ends[j.open][j.side][j.doubt], errs[i] = s.runCase(c, j.open == 1)
	}
	if s.quick { // fixes are tried side by side already
		for i := range jobs {
			run(i)
		}
	} else {
		InParallel(len(jobs), run)
	}
	return errors.Join(errs...)
}

// Again surveys a changed enclosure with the senses found for this one: good
// enough to try a fix, at a small part of the cost. Only doubts that the change
// brought in are run at both their ends, or all of them if anew says that the
// change may turn the others round, or if nothing flowed or the pool ran over
// before: then nothing is known of what moves flow and level. Every measure that
// is to be read must have been read here before.
func (s *Survey) Again(e *enclosure.Enclosure, anew bool) (*Survey, error) {
	t := &Survey{E: e, signs: map[string][]int8{}, corner: map[string]*study.State{}, near: s.Likely, quick: true, spaces: s.spaces, before: s, like: map[string][]int8{}}
	anew = anew || s.Likely.Outlets <= 0 || s.Likely.Spills || s.open.Spills
	index := make(map[string]int, len(s.E.Doubts))
	for i := range s.E.Doubts {
		index[s.E.Doubts[i].ID] = i
	}
	t.was = make([]int, len(e.Doubts))
	for i := range e.Doubts {
		k, ok := index[e.Doubts[i].ID]
		if !ok {
			k = -1
		}
		t.was[i] = k
		if !ok || anew {
			t.fresh = append(t.fresh, i)
		}
	}
	for id, signs := range s.signs {
		mapped := make([]int8, len(e.Doubts))
		for i, k := range t.was {
			if k >= 0 {
				mapped[i] = signs[k]
			}
		}
		t.like[id] = mapped
	}
	if err := t.base(); err != nil {
		return nil, err
	}
	return t, t.runEnds(t.fresh)
}

func (s *Survey) base() error {
	var err error
	if s.Likely, err = s.run(s.E, s.E.Likely(), study.Setting{Near: s.near, Pieces: !s.quick}); err != nil {
		return err
	}
	s.open = s.Likely
	if throttled(s.E) {
		s.open, err = s.run(s.E, s.E.Likely(), study.Setting{OpenValves: true, Near: s.Likely})
	}
	return err
}

// InParallel calls f(0) to f(n-1) on several processors. Results are to be stored
// by index, so that the order of the calls changes nothing.
func InParallel(n int, f func(i int)) {
	const most = 8 // calls take some 0.1 ms: more would only wait
	workers := min(most, n)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			for i := w; i < n; i += workers {
				f(i)
			}
		})
	}
	wg.Wait()
}

// throttled reports whether any valve is part closed.
func throttled(e *enclosure.Enclosure) bool {
	for i := range e.Runs {
		for k := range e.Runs[i].Pieces {
			if e.Runs[i].Pieces[k].Open < 1 {
				return true
			}
		}
	}
	return false
}

// at returns the likely value of a measure.
func (s *Survey) at(m Measure) float64 {
	return m.Of(s.middle(m.Open))
}

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

// Err returns what went wrong in any state computed so far. While it is not nil
// no answer of the survey may be shown.
func (s *Survey) Err() error { return s.err }

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
func (s *Survey) most(m Measure) float64  { return max(s.at(m), m.Of(s.End(m, 1))) }

// detail adds figures that no verdict turns on; while fixes are tried they are
// left out.
func (s *Survey) detail(a *Answer, figures func() []Figure) {
	if !s.quick {
		a.Figures = append(a.Figures, figures()...)
	}
}

// senses returns for each doubt which end raises the measure.
func (s *Survey) senses(m Measure) []int8 {
	if signs, ok := s.signs[m.ID]; ok {
		return signs
	}
	signs := make([]int8, len(s.E.Doubts))
	likely := math.Abs(s.at(m))
	sense := func(i int) {
		low, high := s.doubtEnds(m, i)
		switch d := high - low; {
		case d > 1e-7*likely:
			signs[i] = 1
		case d < -1e-7*likely:
			signs[i] = -1
		}
	}
	if s.quick {
		copy(signs, s.like[m.ID])
		for _, i := range s.fresh {
			sense(i)
		}
	} else {
		for i := range signs {
			sense(i)
		}
	}
	s.signs[m.ID] = signs
	return signs
}

// doubtEnds returns the measure with one doubt at its low and at its high end.
func (s *Survey) doubtEnds(m Measure, doubt int) (low, high float64) {
	o := 0
	if m.Open {
		o = 1
	}
	return m.Of(s.ends[o][0][doubt]), m.Of(s.ends[o][1][doubt])
}

// Matters ranks the doubts by how far each alone moves a measure, largest
// first, leaving out those that move it by less than half a per cent.
func (s *Survey) Matters(m Measure, show func(float64) string, most int) []Matter {
	if s.quick {
		return nil
	}
	likely := s.at(m)
	var out []Matter
	for i := range s.E.Doubts {
		d := &s.E.Doubts[i]
		low, high := s.doubtEnds(m, i)
		swing := math.Abs(high-low) / math.Max(math.Abs(likely), 1e-12)
		if swing < 0.005 || show(low) == show(high) {
			continue
		}
		out = append(out, Matter{
			What: d.What, Range: fromTo(d.Show(d.Low, s.E.Units), d.Show(d.High, s.E.Units)),
			Effect: fromTo(show(min(low, high)), show(max(low, high))),
			Swing:  swing, Why: d.Why, Settle: d.Settle, Line: d.Pos.Line,
		})
	}
	sortMatters(out)
	return out[:min(most, len(out))]
}

func sortMatters(m []Matter) {
	for i := 1; i < len(m); i++ {
		for k := i; k > 0 && m[k].Swing > m[k-1].Swing; k-- {
			m[k], m[k-1] = m[k-1], m[k]
		}
	}
}

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

// fromTo joins two figures, saying once the unit that both end with.
func fromTo(low, high string) string {
	number, unit, ok := strings.Cut(low, " ")
	if ok && strings.HasSuffix(high, " "+unit) && !strings.Contains(number, "/") && !strings.HasPrefix(unit, "1/") {
		if n, _, _ := strings.Cut(high, " "); n+" "+unit == high {
			return number + " to " + high
		}
	}
	return low + " to " + high
}
