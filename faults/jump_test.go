package faults

import (
	"math"
	"testing"

	"rillwright/enclosure"
)

// What is poured in or taken out at once goes past inlets, floats and rims without
// passing through them, and must be noticed all the same.
func TestJumps(t *testing.T) {
	sump := enclosure.Place{Kind: enclosure.AtSump, Index: 1}
	r := rig(t, metric(t))
	res := course(t, r, Options{Record: true}, 3600,
		enclosure.Step{At: 600, What: "water taken", Place: sump, Volume: 0.015},
		enclosure.Step{At: 1800, What: "water added", Place: sump, Volume: 0.012})
	if err := kept(r, res.Track, Options{}); err != nil {
		t.Error(err)
	}
	if res.Dry < 600 || res.Dry > 610 {
		t.Errorf("the pump draws air at %g s, at 600 s the sump is emptied", res.Dry)
	}
	if at := when(res, "is covered again"); at < 600 || at > 1800 || !res.Flowing {
		t.Errorf("covered again at %g s, flowing %v", at, res.Flowing)
	}

	res = course(t, r, Options{}, 600, enclosure.Step{At: 60, What: "water added", Place: atPool, Volume: 0.030})
	if at := when(res, "over the dam"); at != 60 || len(res.Spills) != 1 || res.Spills[0].First != 60 {
		t.Errorf("runs over at %g s: %+v", at, res.Spills)
	}

	e := metric(t, "    inlet: 50 mm\n", "    inlet: 50 mm\n    float: { off: 70 mm, on: 90 mm }\n")
	r = rig(t, e)
	res = course(t, r, Options{}, 900,
		enclosure.Step{What: "drain blocks", Share: 1},
		enclosure.Step{At: 10, What: "water taken", Place: sump, Volume: 0.012},
		enclosure.Step{At: 300, What: "water added", Place: sump, Volume: 0.020})
	if off, on := when(res, "the float stops"), when(res, "the float starts"); off < 10 || off > 20 || on < 0 || on > 300 {
		t.Errorf("the float stops the pump at %g s and starts it at %g s", off, on)
	}
	if math.IsInf(res.Short, 1) {
		t.Error("never short of water")
	}
}
