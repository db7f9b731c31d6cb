package stiff

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// robertson is the chemistry of Robertson 1966 as paths between three stores.
func robertson() System {
	return System{
		Stores: 3, Felt: 3, Paths: []Path{{0, 1}, {1, 2}},
		Rates: func(_ float64, x, r []float64) {
			r[0] = 0.04*x[0] - 1e4*x[1]*x[2]
			r[1] = 3e7 * x[1] * x[1]
		},
	}
}

// Source: Hairer & Wanner, Solving Ordinary Differential Equations II, problem
// ROBER, and the test set for initial value solvers of CWI Amsterdam and the
// University of Bari; figures from memory, confirmed by scipy's Radau.
func TestRobertson(t *testing.T) {
	s := NewSolver(robertson(), Settings{Tolerance: 1e-11, First: 1e-5})
	s.Start(0, []float64{1, 0, 0})
	for _, c := range []struct {
		at   float64
		want [3]float64
		tol  float64
	}{
		{40, [3]float64{0.7158270688, 0.9185534764e-5, 0.2841637457}, 1e-7},
		{1e11, [3]float64{0.2083340149701255e-07, 0.8333360770334713e-13, 0.9999999791665050}, 1e-8}, // the tolerance of each step is 1e-11
	} {
		advance(t, s, c.at)
		for i, want := range c.want {
			if got := s.X()[i]; math.Abs(got-want) > c.tol {
				t.Errorf("at %g: store %d holds %.10g, want %.10g", c.at, i, got, want)
			}
		}
		if sum := s.X()[0] + s.X()[1] + s.X()[2]; math.Abs(sum-1) > 1e-13 {
			t.Errorf("at %g: together %.17g, want 1", c.at, sum)
		}
	}
}

func advance(t *testing.T, s *Solver, until float64) {
	t.Helper()
	for s.Time() < until {
		if _, err := s.Step(until); err != nil {
			t.Fatal(err)
		}
	}
}

// The method is of order 3: half the step, an eighth of the error, for rates
// that depend on the stores and on time. Fixed steps are forced by a tolerance
// that is never met.
func TestOrder(t *testing.T) {
	// Growth of x from a large source y: x' = x^2 cos t, x = 1/(c - sin t).
	sys := System{Stores: 2, Felt: 2, Changing: true, Paths: []Path{{1, 0}}, Rates: func(t float64, x, r []float64) {
		r[0] = x[0] * x[0] * math.Cos(t)
	}}
	run := func(n int) float64 {
		s := NewSolver(sys, Settings{Tolerance: 1e9})
		s.Start(0, []float64{0.5, 10})
		for i := range n {
			s.h = 1 / float64(n)
			for until := float64(i+1) / float64(n); s.Time() < until; {
				s.h = until - s.Time()
				if _, err := s.Step(until); err != nil {
					t.Fatal(err)
				}
			}
		}
		return math.Abs(s.X()[0] - 1/(2-math.Sin(1)))
	}
	a, b, c := run(20), run(40), run(80)
	for _, ratio := range []float64{a / b, b / c} {
		if ratio < 7 || ratio > 9.5 {
			t.Errorf("errors %.3g, %.3g, %.3g: the ratio %.3g is not that of order 3", a, b, c, ratio)
		}
	}
}

// A tank that fills evenly and empties when it is full: the times are known.
func TestEvents(t *testing.T) {
	fill := true
	sys := System{Stores: 2, Felt: 1, Paths: []Path{{1, 0}}, Rates: func(_ float64, _, r []float64) {
		if r[0] = 2; !fill {
			r[0] = -3
		}
	}}
	sys.Events = []Event{
		{Rising: true, Value: func(_ float64, x []float64) float64 { return x[0] - 1 }},
		{Value: func(_ float64, x []float64) float64 { return x[0] - 0.25 }},
		{Rising: true, Value: func(t float64, _ []float64) float64 { return t - 1.7 }},
	}
	s := NewSolver(sys, Settings{})
	s.Start(0, []float64{0, 100})
	var got []float64
	for s.Time() < 2.3 {
		e, err := s.Step(2.3)
		if err != nil {
			t.Fatal(err)
		}
		if e >= 0 {
			got = append(got, s.Time())
			switch e {
			case 0:
				fill = false
			case 1:
				fill = true
			}
			s.Restart()
		}
	}
	want := []float64{0.5, 0.75, 1.125, 1.375, 1.7, 1.75, 2}
	if len(got) != len(want) {
		t.Fatalf("events at %v, want %v", got, want)
	}
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-12 {
			t.Errorf("event %d at %.15g, want %.15g", i, got[i], want[i])
		}
	}
}

// Two events in one step: the earlier one ends it, whichever is listed first.
func TestEarlierEventWins(t *testing.T) {
	for _, swapped := range []bool{false, true} {
		at := []float64{0.3, 0.2}
		if swapped {
			at[0], at[1] = at[1], at[0]
		}
		sys := System{Stores: 2, Felt: 1, Paths: []Path{{1, 0}}, Rates: func(_ float64, _, r []float64) { r[0] = 1 }}
		for _, level := range at {
			sys.Events = append(sys.Events, Event{Rising: true, Value: func(_ float64, x []float64) float64 { return x[0] - level }})
		}
		s := NewSolver(sys, Settings{First: 1})
		s.Start(0, []float64{0, 10})
		for {
			e, err := s.Step(1)
			if err != nil {
				t.Fatal(err)
			}
			if e >= 0 {
				if math.Abs(s.Time()-0.2) > 1e-12 {
					t.Errorf("first event at %g, want 0.2", s.Time())
				}
				break
			}
		}
	}
}

// Random networks of stores: nothing is lost, nothing that decays goes below
// nothing by more than the tolerance, and a tighter tolerance changes little.
func TestNothingIsLost(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := 2 + r.IntN(6)
		sys := System{Stores: n, Felt: n}
		k := []float64{}
		for range n + r.IntN(6) {
			a := r.IntN(n)
			sys.Paths = append(sys.Paths, Path{a, (a + 1 + r.IntN(n-1)) % n})
			k = append(k, math.Pow(10, -5+9*r.Float64()))
		}
		sys.Rates = func(_ float64, x, q []float64) {
			for i, p := range sys.Paths {
				q[i] = k[i] * x[p.From]
			}
		}
		x := make([]float64, n)
		total := 0.0
		for i := range x {
			x[i] = r.Float64()
			total += x[i]
		}
		end := math.Pow(10, -2+6*r.Float64())
		var last []float64
		for _, tol := range []float64{1e-6, 1e-9} {
			s := NewSolver(sys, Settings{Tolerance: tol, First: 1e-6})
			s.Start(0, x)
			advance(t, s, end)
			sum := 0.0
			for i, v := range s.X() {
				if sum += v; v < -10*tol {
					t.Errorf("seed %d: store %d holds %g", seed, i, v)
				}
				if last != nil && math.Abs(v-last[i]) > 1e-4 {
					t.Errorf("seed %d: store %d: %g and %g by tolerance", seed, i, last[i], v)
				}
			}
			// What goes round and round is rounded each time.
			moved := total
			for _, m := range s.Moved() {
				moved += math.Abs(m)
			}
			if math.Abs(sum-total) > 1e-14*moved {
				t.Errorf("seed %d: %.17g became %.17g, %g moved", seed, total, sum, moved)
			}
			last = append([]float64(nil), s.X()...)
		}
	}
}

func TestGivesUp(t *testing.T) {
	s := NewSolver(robertson(), Settings{Tolerance: 1e-13, MaxSteps: 10})
	s.Start(0, []float64{1, 0, 0})
	var err error
	for err == nil && s.Time() < 1e9 {
		_, err = s.Step(1e9)
	}
	if !errors.Is(err, ErrTooManySteps) {
		t.Errorf("got %v", err)
	}
	bad := NewSolver(System{Stores: 2, Felt: 1, Paths: []Path{{0, 1}}, Rates: func(_ float64, _, r []float64) { r[0] = math.NaN() }}, Settings{})
	bad.Start(1, []float64{1, 0})
	if _, err := bad.Step(2); err == nil {
		t.Error("a rate that is no number went unnoticed")
	}
}

func TestStepAllocatesNothing(t *testing.T) {
	s := NewSolver(robertson(), Settings{Tolerance: 1e-10, First: 1e-5})
	s.Start(0, []float64{1, 0, 0})
	if n := testing.AllocsPerRun(100, func() {
		if _, err := s.Step(1e9); err != nil {
			t.Fatal(err)
		}
	}); n != 0 {
		t.Errorf("%g allocations a step", n)
	}
}

func BenchmarkRobertson(b *testing.B) {
	s := NewSolver(robertson(), Settings{Tolerance: 1e-8, First: 1e-5})
	x := []float64{1, 0, 0}
	for b.Loop() {
		s.Start(0, x)
		for s.Time() < 40 {
			if _, err := s.Step(40); err != nil {
				b.Fatal(err)
			}
		}
	}
}
