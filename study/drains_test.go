package study

import (
	"math"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/hydraulics/gravity"
)

const (
	strainerLine = "    strainer: { part: slotted strainer 1 in }\n"
	gridLine     = "grid:\n"
)

// settled puts a flow into an enclosure's pool.
func settled(tb testing.TB, e *enclosure.Enclosure, q float64) gravity.State {
	tb.Helper()
	b, err := buildSupply(e, e.Likely(), Setting{}, e.Sump.Level, restLevel(e))
	if err != nil {
		tb.Fatal(err)
	}
	levels := make([]float64, max(1, len(e.Sump.Chambers)))
	b.fillLevels(levels, e.Sump.Level, q)
	return b.buildPool(levels).Settle(q)
}

// Rule of thumb, derived with a weir coefficient of 1.7: over a 3/4 in standpipe
// the level rises 6 mm at 200 L/h and 10 at 400, over a 1 in one 8.5 at 400 and
// 11 at 600. Here a sharp crest, 0.62 2/3 sqrt(2 g) = 1.83, makes that 5 % less;
// and beyond 0.36 of the bore the mouth is drowned, which the rule leaves out:
// then h = (q / 0.6 A)^2 / 2g, 15 mm at 400 L/h in 3/4 in and 12.8 at 600 in 1
// in. Limit: half a unit of the rule's last figure.
func TestRiseOverStandpipe(t *testing.T) {
	for _, c := range []struct {
		bore          string
		d, flow, rule float64
		last          float64
		drowned       bool
	}{
		{"20.9 mm", 0.0209, 200, 6, 0.5, false},
		{"20.9 mm", 0.0209, 400, 10, 0.5, true},
		{"26.6 mm", 0.0266, 400, 8.5, 0.25, false},
		{"26.6 mm", 0.0266, 600, 11, 0.5, true},
	} {
		e := changed(t, examples.CorridorCabinet, strainerLine, "", "lip-bore: 26.6 mm", "lip-bore: "+c.bore)
		q := c.flow * litrePerHour
		rest := settled(t, e, q)
		have := (rest.Level - restLevel(e)) * 1e3
		want := c.rule * math.Pow(1.7/(0.62*2/3*math.Sqrt(2*9.80665)), 2.0/3)
		if c.drowned {
			v := q / (0.6 * math.Pi / 4 * c.d * c.d)
			want = v * v / (2 * 9.80665) * 1e3
			if rest.Limit[0].Kind != gravity.Opening || want < c.rule {
				t.Errorf("%s at %g L/h: limit %v, drowned head %.1f mm", c.bore, c.flow, rest.Limit[0], want)
			}
		}
		if math.Abs(have-want) > c.last {
			t.Errorf("%s at %g L/h: %.2f mm, expected %.2f", c.bore, c.flow, have, want)
		}
	}
}

// A drain too small for what comes: the pool stands at the dam's top and what
// the drain cannot take runs over it.
func TestUndersizedDrainSpills(t *testing.T) {
	e := changed(t, examples.CorridorCabinet, "lip-bore: 26.6 mm", "lip-bore: 12 mm", "    bore: 26.6 mm", "    bore: 12 mm", "size: 44 mm", "size: 20 mm")
	st := run(t, e, Setting{})
	if !st.Spills || st.PoolLevel != e.Pool.DamTop {
		t.Fatalf("spills %v, pool %g, dam %g", st.Spills, st.PoolLevel, e.Pool.DamTop)
	}
	if want := st.Inflow - st.Drains[0].Capacity; math.Abs(st.Spill-want) > 1e-9*st.Inflow || st.Spill <= 0 {
		t.Errorf("%g over the dam, inflow less capacity %g m3/s", st.Spill, want)
	}
}

const secondDrain = `  - name: second drain
    kind: standpipe
    lip: 152 mm
    bore: 26.6 mm
    lip-bore: 26.6 mm
    vented: yes
    to: drain side
    end-height: 160 mm
    pieces:
      - { part: rigid pipe 1 in sch 40, length: 690 mm }

`

// Two drains at different lips share by the weir formula: each takes h^1.5 of
// its own head, without strainers.
func TestTwoDrainsShare(t *testing.T) {
	e := changed(t, examples.CorridorCabinet, strainerLine, "", gridLine, secondDrain+gridLine)
	st := run(t, e, Setting{})
	h1, h2 := st.PoolLevel-e.Drains[0].Lip, st.PoolLevel-e.Drains[1].Lip
	if h2 <= 0 {
		t.Fatalf("the higher lip is dry: %g m under it", -h2)
	}
	k := 0.62 * 2 / 3 * math.Sqrt(2*9.80665) * math.Pi * 0.0266
	for i, h := range []float64{h1, h2} {
		if want := k * math.Pow(h, 1.5); math.Abs(st.Drains[i].Flow/want-1) > 1e-6 {
			t.Errorf("drain %d takes %g, weir %g m3/s", i+1, st.Drains[i].Flow, want)
		}
	}
	if sum := st.Drains[0].Flow + st.Drains[1].Flow; math.Abs(sum/st.Inflow-1) > 1e-9 {
		t.Errorf("drains %g, inflow %g m3/s", sum, st.Inflow)
	}
	one := run(t, changed(t, examples.CorridorCabinet), Setting{})
	if st.PoolLevel >= one.PoolLevel {
		t.Errorf("two drains stand at %g, one at %g", st.PoolLevel, one.PoolLevel)
	}
}

// Drains that join in a tee share one pipe: wide, it holds nothing back;
// narrow, both together take what the pipe can.
func TestDrainsJoin(t *testing.T) {
	const tee = `tees:
  - { name: drain tee, part: tee solvent 1 in, height: 20 mm, branch: second drain }

`
	joined := func(bore string) *State {
		e := changed(t, examples.CorridorCabinet, strainerLine, "",
			"    to: drain side\n    end-height: 160 mm\n", "    to: drain tee\n",
			gridLine, `  - name: second drain
    kind: standpipe
    lip: 152 mm
    bore: 26.6 mm
    lip-bore: 26.6 mm
    to: drain tee

`+tee+gridLine,
			"manifolds:\n", `  - name: down pipe
    from: drain tee
    to: drain side
    end-height: 160 mm
    pieces:
      - { part: rigid pipe 1 in sch 40, bore: `+bore+`, length: 600 mm }

manifolds:
`)
		return run(t, e, Setting{})
	}
	wide, narrow := joined("40 mm"), joined("8 mm")
	for _, st := range []*State{wide, narrow} {
		sum := st.Spill
		for i := range st.Drains {
			sum += st.Drains[i].Flow
		}
		if math.Abs(sum/st.Inflow-1) > 1e-9 {
			t.Errorf("drains and dam %g, inflow %g m3/s", sum, st.Inflow)
		}
	}
	if wide.Spills || wide.Drains[1].Flow <= 0 {
		t.Errorf("wide pipe: spills %v, second drain %g", wide.Spills, wide.Drains[1].Flow)
	}
	sum := func(st *State) float64 { return st.Drains[0].Capacity + st.Drains[1].Capacity }
	if sum(narrow) > 0.5*sum(wide) {
		t.Errorf("narrow pipe takes %g, wide %g m3/s", sum(narrow), sum(wide))
	}
	if narrow.PoolLevel <= wide.PoolLevel {
		t.Errorf("narrow pipe stands at %g, wide at %g", narrow.PoolLevel, wide.PoolLevel)
	}
}
