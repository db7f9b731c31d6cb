package answers

import (
	"errors"
	"sync"

	"rillwright/enclosure"
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
	panes  *glassMemo // solved once for all answers about glass
	// knownPanes are those of the survey that this one is a change of.
	knownPanes []study.GlassPane
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
	if s.panes != nil {
		t.knownPanes = s.panes.list
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

// Err returns what went wrong in any state computed so far. While it is not nil
// no answer of the survey may be shown.
func (s *Survey) Err() error { return s.err }

// detail adds figures that no verdict turns on; while fixes are tried they are
// left out.
func (s *Survey) detail(a *Answer, figures func() []Figure) {
	if !s.quick {
		a.Figures = append(a.Figures, figures()...)
	}
}

// Open returns the likely state with every valve fully open.
func (s *Survey) Open() *study.State { return s.open }
