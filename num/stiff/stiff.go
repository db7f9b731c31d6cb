package stiff

import (
	"errors"
	"fmt"
	"math"
)

// Path is a way from one store to another, by index.
type Path struct{ From, To int }

// Rates sets rate[k] to what moves along path k each second, at time t with the
// stores holding x. Negative rates move backwards. It must depend on nothing
// else, and must not keep or change x.
type Rates func(t float64, x, rate []float64)

// Event is something that happens when a figure passes through zero.
type Event struct {
	// Value is the figure at time t with the stores holding x.
	Value func(t float64, x []float64) float64
	// Rising tells whether it happens when the figure grows to zero or beyond,
	// or when it falls to zero or below.
	Rising bool
}

// System is what is to be followed.
type System struct {
	Stores int
	// Felt is the number of stores, the first ones, on which rates and events
	// depend. The others only count.
	Felt  int
	Paths []Path
	Rates Rates
	// Changing says that the rates depend on time itself.
	Changing bool
	Events   []Event
}

// Settings steer the steps. The zero value means the documented defaults.
type Settings struct {
	// Tolerance is the largest error of a step in any store; 0 for 1e-8.
	Tolerance float64
	// First is the length of the first step, s; 0 for 0.01.
	First float64
	// MaxSteps bounds the steps between two calls of Restart; 0 for 20,000.
	MaxSteps int
}

// ErrTooManySteps says that Advance gave up.
var ErrTooManySteps = errors.New("too many steps in time")

// Solver follows a System. Not for use by two goroutines at once.
type Solver struct {
	sys  System
	set  Settings
	t, h float64
	x    []float64
	// Moved is what has moved along each path since Start.
	moved []float64
	steps int

	tolerance float64

	rate, rateT        []float64   // at the start of the step
	slope              [][]float64 // of each path's rate by each store felt
	lu                 []float64
	pivot              []int
	u                  [4][]float64 // stage amounts by path
	stage              []float64    // stage rates
	sum, xs            []float64
	trial, trialMoved  []float64
	before, after      []float64 // event figures
	slopesKnown, began bool
}

// NewSolver makes ready to follow a system.
func NewSolver(sys System, set Settings) *Solver {
	if set.Tolerance <= 0 {
		set.Tolerance = 1e-8
	}
	if set.First <= 0 {
		set.First = 0.01
	}
	if set.MaxSteps <= 0 {
		set.MaxSteps = 20000
	}
	n, m, d := sys.Stores, len(sys.Paths), sys.Felt
	s := &Solver{
		sys: sys, set: set, tolerance: set.Tolerance, x: make([]float64, n), moved: make([]float64, m),
		rate: make([]float64, m), rateT: make([]float64, m), stage: make([]float64, m),
		lu: make([]float64, d*d), pivot: make([]int, d), sum: make([]float64, d), xs: make([]float64, n),
		trial: make([]float64, n), trialMoved: make([]float64, m),
		before: make([]float64, len(sys.Events)), after: make([]float64, len(sys.Events)),
	}
	for i := range s.u {
		s.u[i] = make([]float64, m)
	}
	s.slope = make([][]float64, d)
	for j := range s.slope {
		s.slope[j] = make([]float64, m)
	}
	return s
}

// Start sets the time and what the stores hold.
func (s *Solver) Start(t float64, x []float64) {
	s.t = t
	copy(s.x, x)
	clear(s.moved)
	s.Restart()
}

// Restart tells the solver that the rates or events are others from here on, or
// that X was changed.
func (s *Solver) Restart() {
	s.h, s.steps, s.slopesKnown, s.began = s.set.First, 0, false, false
}

// Tolerate sets the largest error of a step in any store for the steps to come; 0 for
// that of the Settings.
func (s *Solver) Tolerate(most float64) {
	if s.tolerance = most; most <= 0 {
		s.tolerance = s.set.Tolerance
	}
}

// Time returns the time reached, s.
func (s *Solver) Time() float64 { return s.t }

// X returns what the stores hold. The slice is the solver's own: whoever changes
// it must call Restart.
func (s *Solver) X() []float64 { return s.x }

// Moved returns what has moved along each path since Start.
func (s *Solver) Moved() []float64 { return s.moved }

// Rate returns the rates at the time reached.
func (s *Solver) Rate() []float64 {
	s.begin()
	return s.rate
}

func (s *Solver) begin() {
	if s.began {
		return
	}
	s.sys.Rates(s.t, s.x, s.rate)
	for i := range s.sys.Events {
		s.before[i] = s.sys.Events[i].Value(s.t, s.x)
	}
	s.began = true
}

// Step goes on by one step, at most to the time until, and ends it where the
// first event happens. It returns the index of that event, -1 for none.
func (s *Solver) Step(until float64) (event int, err error) {
	s.begin()
	if s.steps++; s.steps > s.set.MaxSteps {
		return -1, fmt.Errorf("%w: %d by %.6g s", ErrTooManySteps, s.set.MaxSteps, s.t)
	}
	s.slopes()
	rest := until - s.t
	for {
		// No crumbs before the end.
		h := s.h
		if h > rest*(1-1e-9) {
			h = rest
		} else if h > 0.5*rest {
			h = 0.5 * rest
		}
		bad := s.try(h)
		grow := 0.9 * math.Pow(max(bad, 1e-6), -1.0/3)
		if bad > 1 || math.IsNaN(bad) {
			if s.h = h * min(max(grow, 0.1), 0.8); math.IsNaN(bad) {
				s.h = h * 0.1
			}
			if s.t+s.h <= s.t {
				return -1, fmt.Errorf("no step is short enough at %.6g s", s.t)
			}
			continue
		}
		event = s.happens(h)
		if event < 0 {
			// A step cut short by the end says nothing against a longer one.
			if next := h * min(grow, 5); h >= s.h || next > s.h {
				s.h = next
			}
			s.accept(h, until, rest)
			return -1, nil
		}
		return s.land(event, h, until)
	}
}

// accept makes the trial the state reached.
func (s *Solver) accept(h, until, rest float64) {
	if s.t += h; h >= rest {
		s.t = until
	}
	s.x, s.trial = s.trial, s.x
	for k, v := range s.trialMoved {
		s.moved[k] += v
	}
	s.began, s.slopesKnown = false, false
}

// happens returns the first event, by index, whose figure passes zero in the
// trial step; -1 for none.
func (s *Solver) happens(h float64) int {
	found := -1
	for i := range s.sys.Events {
		e := &s.sys.Events[i]
		s.after[i] = e.Value(s.t+h, s.trial)
		if found < 0 && crosses(e, s.before[i], s.after[i]) {
			found = i
		}
	}
	return found
}

func crosses(e *Event, before, after float64) bool {
	if e.Rising {
		return before < 0 && after >= 0
	}
	return before > 0 && after <= 0
}

// land shortens the trial step of length h until it ends at the first of its
// events: bisection on the length, helped by false position, with the end kept
// where the event has just happened.
func (s *Solver) land(event int, h, until float64) (int, error) {
	rest := until - s.t
	lo, hi, at := 0.0, h, s.after[event]
	low := s.before[event]
	for range 100 {
		if hi-lo <= 4e-16*(s.t+hi) || at == 0 {
			break
		}
		m := lo + (hi-lo)*min(max(low/(low-at), 0.001), 0.999)
		// A touch beyond the root ends it with the event just past.
		m = min(m+1e-3*(hi-lo), 0.5*(m+hi))
		if !(m > lo && m < hi) {
			break
		}
		s.try(m)
		if e := s.happens(m); e >= 0 {
			if e != event {
				event, low = e, s.before[e]
				lo = 0
			}
			hi, at = m, s.after[event]
			if math.Abs(at) <= 1e-13 {
				break
			}
		} else {
			lo, low = m, s.after[event]
		}
	}
	s.try(hi)
	s.happens(hi)
	s.h = min(s.h, max(hi, s.set.First))
	s.accept(hi, until, rest)
	return event, nil
}
