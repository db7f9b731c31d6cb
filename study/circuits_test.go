package study

import (
	"math"
	"testing"

	"rillwright/examples"
)

const riser = `  - name: riser
    from: main pump
    to: drip bar
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m, bend: 180 mm }
      - { part: ball valve 16 mm }
      - { part: vinyl hose 16 mm, length: 2.35 m, bend: 180 mm }
      - { part: elbow 90 barbed 16 mm }
      - { part: vinyl hose 16 mm, length: 50 mm }
`

// balanced checks that what the pumps standing in the sump lift is what leaves
// outlets and open ends. Limit: 1e-9 of the flow.
func balanced(t *testing.T, st *State, lifted, out float64) {
	t.Helper()
	if st.Outlets <= 0 || math.Abs(lifted/out-1) > 1e-9 {
		t.Errorf("pumps %g, outlets and open ends %g m3/s", lifted, out)
	}
}

// Two manifolds of one make and height on equal legs of a tee: the one on the
// side leg gets less, for the turn costs about one velocity head more than the
// straight way (some 50 mm here, half the head at the outlets: no more than 30 %
// of the flow). Both give less than one alone would, and together more.
func TestTwoManifolds(t *testing.T) {
	const second = `  - name: second bar
    part: rigid pipe 20 mm PN20
    bore: 16 mm
    pipe-wall: 2 mm
    length: 820 mm
    height: 962 mm
    feed: centre
    outlets:
      - { count: 27, pitch: 30 mm, hole: 2.0 mm, hole-error: 0.1 mm }

tees:
  - { name: split, part: tee barbed 16 mm, height: 900 mm, branch: right leg }

`
	const legs = `  - name: riser
    from: main pump
    to: split
    pieces:
      - { part: vinyl hose 16 mm, length: 2.4 m }
  - name: left leg
    from: split
    to: drip bar
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m }
  - name: right leg
    from: split
    to: second bar
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m }
`
	st := run(t, changed(t, examples.CorridorCabinet, riser, legs, "drains:\n", second+"drains:\n"), Setting{})
	balanced(t, st, st.Pumps[0].Flow, st.Outlets)
	a, b := st.Manifolds[0].Total, st.Manifolds[1].Total
	if b >= a || b < 0.7*a {
		t.Errorf("straight leg %g, side leg %g m3/s", a, b)
	}
	one := run(t, changed(t, examples.CorridorCabinet, riser, legs[:len(legs)-len("  - name: right leg\n    from: split\n    to: second bar\n    pieces:\n      - { part: vinyl hose 16 mm, length: 0.4 m }\n")],
		"drains:\n", "tees:\n  - { name: split, part: tee barbed 16 mm, height: 900 mm }\n\ndrains:\n"), Setting{})
	if st.Outlets <= one.Outlets || max(a, b) >= one.Outlets {
		t.Errorf("two bars %g and %g, one alone %g m3/s", a, b, one.Outlets)
	}
}

// A ring manifold is at least as even as the capped one fed at an end, and gives
// no less.
func TestRingManifold(t *testing.T) {
	capped := run(t, changed(t, examples.CorridorCabinet, "feed: centre", "feed: left"), Setting{})
	ring := run(t, changed(t, examples.CorridorCabinet, "feed: centre", "feed: left", "ends: capped", "ends: joined\n    ring: 900 mm"), Setting{})
	spread := func(st *State) float64 { return st.Manifolds[0].HeadMax - st.Manifolds[0].HeadMin }
	if spread(ring) >= spread(capped) {
		t.Errorf("heads differ by %g m round the ring, %g m along the pipe", spread(ring), spread(capped))
	}
	balanced(t, ring, ring.Pumps[0].Flow, ring.Outlets)
}

// Two equal pumps one behind the other are one pump of twice the head; side by
// side, of twice the flow (affinity of equal pumps, any pump handbook), but for
// the hose between them, short and wide here: 0.5 %.
func TestTwoPumps(t *testing.T) {
	const label = "    label: { flow: 1200 L/h, head: 2.4 m }\n"
	const shelf = "shelf:\n"
	const strainer = "    strainer: { part: sponge strainer }\n"
	const join = "      - { part: vinyl hose 32 mm, length: 10 mm }\n"
	const leg = "      - { part: vinyl hose 16 mm, length: 10 mm }\n"
	wide := []string{strainer, "", "    outlet: barb 16 mm\n", ""}

	double := run(t, changed(t, examples.CorridorCabinet, append(wide, label, "    label: { flow: 1200 L/h, head: 4.8 m }\n")...), Setting{})
	series := run(t, changed(t, examples.CorridorCabinet, append(wide,
		shelf, "  - name: booster\n"+label+"\n"+shelf,
		"    from: main pump\n", "    from: booster\n",
		"runs:\n", "runs:\n  - name: link\n    from: main pump\n    to: booster\n    pieces:\n"+join)...), Setting{})
	if math.Abs(series.Outlets/double.Outlets-1) > 0.005 {
		t.Errorf("in series %g, one of twice the head %g m3/s", series.Outlets, double.Outlets)
	}
	if math.Abs(series.Pumps[0].Head/series.Pumps[1].Head-1) > 1e-6 {
		t.Errorf("heads %g and %g m", series.Pumps[0].Head, series.Pumps[1].Head)
	}
	balanced(t, series, series.Pumps[0].Flow, series.Outlets)

	twice := run(t, changed(t, examples.CorridorCabinet, append(wide, label, "    label: { flow: 2400 L/h, head: 2.4 m }\n")...), Setting{})
	side := run(t, changed(t, examples.CorridorCabinet, append(wide,
		shelf, "  - name: other pump\n"+label+"    in: pump side\n    inlet: 35 mm\n\n"+shelf,
		"    from: main pump\n", "    from: join\n",
		"runs:\n", "runs:\n  - name: leg one\n    from: main pump\n    to: join\n    pieces:\n"+leg+
			"  - name: leg two\n    from: other pump\n    to: join\n    pieces:\n"+leg,
		"manifolds:\n", "tees:\n  - { name: join, bore: 16 mm, height: 0 mm, branch: leg two }\n\nmanifolds:\n")...), Setting{})
	// The tee takes some 0.35 velocity heads, 5 mm of the 0.4 m that the pump
	// gives over the lift: about half of that share of the flow.
	if r := side.Outlets / twice.Outlets; r > 1 || r < 0.99 {
		t.Errorf("side by side %g, one of twice the flow %g m3/s", side.Outlets, twice.Outlets)
	}
	balanced(t, side, side.Pumps[0].Flow+side.Pumps[1].Flow, side.Outlets)
}

// An emitter rated 8 L/h at 1 bar (10.2 m) with a turbulent path gives
// 8 sqrt(h / 10.2) L/h. Limit: 1e-8, what the solver leaves of the head.
func TestEmitters(t *testing.T) {
	e := changed(t, examples.CorridorCabinet, "hole: 2.0 mm, hole-error: 0.1 mm", "emitter: button emitter 8 L/h")
	st := run(t, e, Setting{})
	for k, q := range st.Manifolds[0].Flow {
		if want := 8 * litrePerHour * math.Sqrt(st.Manifolds[0].Head[k]/10.2); math.Abs(q/want-1) > 1e-8 {
			t.Errorf("emitter %d: %g, its law %g m3/s", k+1, q, want)
		}
	}
	balanced(t, st, st.Pumps[0].Flow, st.Outlets)
}

// A run that ends in the pool below its water feels the pool's level, in air only
// its own end's height. A deeper pool must slow the drowned one.
func TestDrownedReturn(t *testing.T) {
	with := func(end, lip string) *State {
		return run(t, changed(t, examples.CorridorCabinet,
			"lip: 150 mm", "lip: "+lip,
			riser, `  - name: riser
    from: main pump
    to: split
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m }
  - name: upper leg
    from: split
    to: drip bar
    pieces:
      - { part: vinyl hose 16 mm, length: 2.35 m }
  - name: return
    from: split
    to: pool
    end-height: `+end+`
    pieces:
      - { part: vinyl hose 10 mm, length: 1.5 m }
`, "drains:\n", "tees:\n  - { name: split, part: tee barbed 16 mm, height: 0 mm, branch: return }\n\ndrains:\n"), Setting{})
	}
	low, high := with("50 mm", "120 mm"), with("50 mm", "170 mm")
	if low.Runs[2].Flow <= high.Runs[2].Flow {
		t.Errorf("return %g with the pool low, %g with it high", low.Runs[2].Flow, high.Runs[2].Flow)
	}
	// The head at the tee less the run's loss is the pool's level: the two
	// sides have met. Limit of the turns: 1e-9 m, here with the solver's own.
	for _, st := range []*State{low, high} {
		balanced(t, st, st.Pumps[0].Flow, st.Outlets+st.Runs[2].Flow)
		if drains := st.Drains[0].Flow + st.Spill; math.Abs(drains/st.Inflow-1) > 1e-9 {
			t.Errorf("drains %g, inflow %g", drains, st.Inflow)
		}
	}
	again := with("50 mm", "170 mm")
	if again.PoolLevel != high.PoolLevel {
		t.Error("not repeatable")
	}
	air, deeper := with("300 mm", "120 mm"), with("300 mm", "170 mm")
	// The sump's level is given while running, so that nothing else differs.
	if math.Abs(air.Runs[2].Flow/deeper.Runs[2].Flow-1) > 1e-9 {
		t.Errorf("return in air %g and %g", air.Runs[2].Flow, deeper.Runs[2].Flow)
	}
}
