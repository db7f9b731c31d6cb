package weigh

import (
	"math"
	"slices"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/num/chance"
)

// openness is the variance of all verdicts together, from their shares.
func openness(r *Result) (sum float64) {
	for i := range r.Answers {
		for _, p := range [...]float64{r.Answers[i].Holds.P, r.Answers[i].Fails.P} {
			sum += p * (1 - p)
		}
	}
	return sum
}

// settled is e with one doubt known to lie where a share u of its band lies below.
func settled(e *enclosure.Enclosure, doubt int, u float64) *enclosure.Enclosure {
	out := e.Clone()
	d := &out.Doubts[doubt]
	v := chance.Spread{Shape: chance.Triangular, Low: d.Low, Likely: d.Likely, High: d.High}.At(u)
	d.Low, d.Likely, d.High = v, v, v
	return out
}

// By brute force: with the doubt known at one value after another, what stays open is
// less by the share that was told, as a mean; and no other that can be measured takes
// away more.
func TestFirstSettlesMost(t *testing.T) {
	e := demo(t, examples.CounterWall)
	all := weighed(t, e, Options{Draws: 8000, Seed: 2, Workers: 2})
	if all.First == nil || len(all.Open) == 0 {
		t.Fatalf("nothing is open: %+v", all)
	}
	const values, draws = 16, 250
	best, bestWhat := 0.0, ""
	for d := range e.Doubts {
		if e.Doubts[d].Settle == "" {
			continue
		}
		left := 0.0
		for k := range values {
			r := weighed(t, settled(e, d, (float64(k)+0.5)/values), Options{Draws: draws, Seed: uint64(k + 3), Workers: 2})
			left += openness(r) / values
		}
		gone := 1 - left/openness(all)
		if gone > best {
			best, bestWhat = gone, e.Doubts[d].What
		}
		if e.Doubts[d].What == all.First.What && math.Abs(gone-all.First.Share) > 0.04 {
			t.Errorf("%s: told to settle %.3f, by brute force %.3f", all.First.What, all.First.Share, gone)
		}
	}
	if bestWhat != all.First.What {
		t.Errorf("told to measure %s, by brute force %s (%.3f)", all.First.What, bestWhat, best)
	}
}

// Where all is known nothing is open; with few draws nothing is claimed.
func TestNothingFirst(t *testing.T) {
	e := demo(t, examples.CounterWall)
	few := weighed(t, e, Options{Draws: 50, Seed: 1})
	if few.First != nil || len(few.Open) == 0 {
		t.Errorf("from 50 draws: %+v, open %v", few.First, few.Open)
	}
	known := e.Clone()
	for i := range known.Doubts {
		d := &known.Doubts[i]
		d.Low, d.High = d.Likely, d.Likely
	}
	r := weighed(t, known, Options{Draws: 300, Seed: 1})
	if r.First != nil || len(r.Open) != 0 || openness(r) != 0 {
		t.Errorf("all is known, yet open is %v, and first %+v", r.Open, r.First)
	}
	if slices.ContainsFunc(r.Answers, func(a Answer) bool { return a.Low != a.High }) {
		t.Error("all is known, yet a figure is spread")
	}
}

// Progress ends at the end, in steps that go forward.
func TestProgress(t *testing.T) {
	last, end := -1, 0
	weighed(t, demo(t, examples.CounterWall), Options{Draws: 100, Rows: 2, Workers: 2, Progress: func(done, of int) {
		if done <= last {
			t.Errorf("%d after %d", done, last)
		}
		last, end = done, of
	}})
	if last != end || end <= 100 {
		t.Errorf("it ends at %d of %d", last, end)
	}
}
