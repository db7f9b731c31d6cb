package faults

import (
	"testing"

	"rillwright/enclosure"
)

// Water that is added or taken for a time stops then, to the last drop, and the run
// goes on with no more steps than one that adds it all at once needs, give or take
// some.
func TestStreamEnds(t *testing.T) {
	r := rig(t, metric(t))
	for _, what := range []string{"water added", "water taken"} {
		steps := []enclosure.Step{{At: 100, What: what, Place: enclosure.Place{Kind: enclosure.AtSump, Index: 0}, Flow: 2e-5, Over: 300}}
		res := course(t, r, Options{Tended: true}, 3600, steps...)
		if got := max(res.Added, -res.Added); got < 0.006*(1-1e-12) || got > 0.006*(1+1e-12) {
			t.Errorf("%s: %.12g m3, want 0.006", what, got)
		}
		steps[0].Flow, steps[0].Over, steps[0].Volume = 0, 0, 0.006
		if at := course(t, r, Options{Tended: true}, 3600, steps...); res.Steps > at.Steps+60 {
			t.Errorf("%s: %d steps, at once %d", what, res.Steps, at.Steps)
		}
	}
}
