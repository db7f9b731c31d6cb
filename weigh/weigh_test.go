package weigh

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func demo(tb testing.TB, data []byte) *enclosure.Enclosure {
	tb.Helper()
	return trial.Resolved(tb, trial.Swap(tb, data), enclosure.Resolve)
}

func weighed(tb testing.TB, e *enclosure.Enclosure, o Options) *Result {
	tb.Helper()
	r, err := Weigh(context.Background(), e, o)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func TestWorkersChangeNothing(t *testing.T) {
	e := demo(t, examples.CounterWall)
	a := weighed(t, e, Options{Draws: 200, Seed: 5, Rows: 8, Workers: 1})
	b := weighed(t, e, Options{Draws: 200, Seed: 5, Rows: 8, Workers: 3})
	if !reflect.DeepEqual(a, b) {
		t.Error("three workers give another result than one")
	}
	if c := weighed(t, e, Options{Draws: 200, Seed: 6, Rows: 8}); reflect.DeepEqual(a.Answers, c.Answers) {
		t.Error("another seed draws the same")
	}
}

// What holds at the bad end of its band holds in every draw, and no draw's figure goes
// past that end. The good end is no bound: some answers show none, and that of evenness
// is not quite one.
func TestWithinTheCorners(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e := demo(t, data)
		s, err := answers.NewSurvey(e)
		if err != nil {
			t.Fatal(err)
		}
		list, r := s.Water(), weighed(t, e, Options{Draws: 500, Seed: 1})
		for i, a := range list {
			w := r.Answers[i]
			if w.ID != a.ID {
				t.Fatalf("%s stands where %s should", w.ID, a.ID)
			}
			if a.Verdict == answers.Holds && w.Holds.P != 1 {
				t.Errorf("%s holds at the bad end, yet in %g of draws", a.ID, w.Holds.P)
			}
			f := a.Figures[a.Key]
			past := w.Low < f.Low-1e-6
			if a.ID == "quiet" || a.ID == "too-strong" {
				past = w.High > f.High+1e-6
			}
			if w.Figure != "" && past {
				t.Errorf("%s: draws %g to %g, band %g to %g", a.ID, w.Low, w.High, f.Low, f.High)
			}
		}
	}
}

func TestStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Weigh(ctx, demo(t, examples.CounterWall), Options{Draws: 100}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it says %v", err)
	}
}

func BenchmarkWeigh(b *testing.B) {
	e := demo(b, examples.CorridorCabinet)
	for b.Loop() {
		weighed(b, e, Options{Draws: 10_000, Seed: 1, Workers: 2})
	}
}
