package faults

import (
	"math"
	"testing"

	"rillwright/enclosure"
)

// A return that ends under the pool's water: the riser's line with a second hose.
const drowned = "manifolds:\n"

func withReturn(tb testing.TB, end string, pairs ...string) *Rig {
	tb.Helper()
	back := "  - { name: return, from: main pump, to: pool, end-height: " + end + ", pieces: [{ part: vinyl hose 16 mm, length: 1.5 m }] }\n\nmanifolds:\n"
	return rig(tb, metric(tb, append([]string{drowned, back}, pairs...)...))
}

func columns(r *Rig, res *Result) float64 {
	most := 0.0
	for i, name := range res.Stores {
		if name == "hose and manifold" {
			for _, v := range res.Track.Volume[i] {
				most = math.Max(most, v/r.lines[0].full)
			}
		}
	}
	return most
}

// A power cut too short for the siphon to break: the line is still full and gives
// water at once, holds no more than it can, and the drain that blocks then spills.
func TestShortCutWhileSiphoning(t *testing.T) {
	r := withReturn(t, "20 mm")
	res := course(t, r, Options{Record: true}, 3600,
		enclosure.Step{What: "power off"}, enclosure.Step{At: 5, What: "power on"},
		enclosure.Step{At: 60, What: "drain blocks", Share: 1})
	if when(res, "siphons back") != 0 {
		t.Fatalf("no siphon: %+v", res.Events)
	}
	if most := columns(r, res); most > 1+1e-6 {
		t.Errorf("the hose holds %g of what it can", most)
	}
	if res.Spilled < 0.005 {
		t.Errorf("%g m3 spilled", res.Spilled)
	}
}

// What stands exactly at a switch's level counts as past it.
func TestAtTheVeryLevel(t *testing.T) {
	for name, pairs := range map[string][]string{
		"inlet": {"    inlet: 50 mm\n", "    inlet: 130 mm\n"},
		"float": {"    inlet: 50 mm\n", "    inlet: 50 mm\n    float: { off: 130 mm, on: 200 mm }\n"},
	} {
		r := rig(t, metric(t, pairs...))
		if r.Runs() {
			t.Errorf("%s: it is said to run", name)
		}
		res := course(t, r, Options{Record: true}, 3600, enclosure.Step{What: "drain blocks", Share: 1})
		if err := kept(r, res.Track, Options{}); err != nil || res.Spilled > 0 {
			t.Errorf("%s: %g m3 spilled, %v", name, res.Spilled, err)
		}
	}
}

// The riser comes off while a return stands under water: the pool runs out of the
// cut, not through it back into the sump.
func TestCutSiphonRunsOnTheFloor(t *testing.T) {
	r := withReturn(t, "20 mm")
	// The return leaves from the pump, so cut the return itself outside the sump.
	run := 1
	res := course(t, r, Options{}, 3600, enclosure.Step{What: "hose off", Index: run, Height: math.NaN()})
	lost, back := 0.0, 0.0
	for k, way := range res.Ways {
		switch way {
		case "out of the pool through the return":
			lost += res.Moved[k]
		case "siphoned back through the return":
			back += res.Moved[k]
		}
	}
	whole := r.PoolVolume(r.Start.PoolLevel) - r.PoolVolume(r.E.Pool.Floor+0.020)
	if back != 0 || lost < 0.8*whole {
		t.Errorf("%.3g L onto the floor and %.3g L back, %.3g L stood over the return's end", 1000*lost, 1000*back, 1000*whole)
	}
}

// A valve that is shut in the plan and opened in time lets the line fill.
func TestShutValveOpens(t *testing.T) {
	r := rig(t, metric(t, "ball valve 16 mm }", "ball valve 16 mm, open: 0 % }"))
	res := course(t, r, Options{}, 600, enclosure.Step{What: "valve opens", Index: 0, Share: 1})
	if at := when(res, "water reaches the outlets"); at < 0 || at > 30 {
		t.Errorf("water reaches the outlets at %g s: %+v", at, res.Events)
	}
	// Half open it gives less than wide open.
	flow := func(share float64) float64 {
		res := course(t, r, Options{Record: true}, 600, enclosure.Step{What: "valve opens", Index: 0, Share: share})
		return res.Track.Rate[0][len(res.Track.Time)-1]
	}
	if some, all := flow(0.4), flow(1); !(some > 0 && some < 0.98*all) {
		t.Errorf("at 40 %% it gives %g m3/s, wide open %g", some, all)
	}
}

// Two faults of one drain add up: leaves over half of it and a strainer half
// clogged leave a quarter.
func TestLeavesAndStrainer(t *testing.T) {
	r := rig(t, metric(t))
	end := func(steps ...enclosure.Step) float64 {
		return course(t, r, Options{}, 1800, steps...).PoolMost
	}
	leaves := enclosure.Step{What: "drain blocks", Share: 0.5}
	clogged := enclosure.Step{What: "strainer clogs", Share: 0.5, Place: enclosure.Place{Index: -1}}
	both := end(leaves, clogged)
	if quarter := end(enclosure.Step{What: "drain blocks", Share: 0.75}); math.Abs(both-quarter) > 1e-6 {
		t.Errorf("both: %g m, three quarters blocked: %g m", both, quarter)
	}
	blocked := enclosure.Step{What: "drain blocks", Share: 1}
	if a, b := end(blocked), end(blocked, clogged); math.Abs(a-b) > 1e-6 {
		t.Errorf("a strainer that clogs opens a blocked drain: %g m and %g m", a, b)
	}
}

// A second hose that comes off does not put the first back on.
func TestTwoHosesOff(t *testing.T) {
	r := withReturn(t, "190 mm")
	one := course(t, r, Options{}, 3600, enclosure.Step{What: "hose off", Index: 0, Height: math.NaN()})
	two := course(t, r, Options{}, 3600, enclosure.Step{What: "hose off", Index: 0, Height: math.NaN()},
		enclosure.Step{At: 20, What: "hose off", Index: 1, Height: math.NaN()})
	if two.Spilled < one.Spilled-1e-4 || two.Dry > one.Dry {
		t.Errorf("one off: %g m3 and dry at %g s; two off: %g m3 and %g s", one.Spilled, one.Dry, two.Spilled, two.Dry)
	}
}
