package study

import (
	"errors"
	"math"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/hydraulics/network"
	"rillwright/internal/trial"
)

const litrePerHour = 1e-3 / 3600 // m3/s

// changed returns a demo with pieces of its text replaced, resolved.
func changed(tb testing.TB, data []byte, pairs ...string) *enclosure.Enclosure {
	tb.Helper()
	return trial.Resolved(tb, trial.Swap(tb, data, pairs...), enclosure.Resolve)
}

func run(tb testing.TB, e *enclosure.Enclosure, s Setting) *State {
	tb.Helper()
	st, err := Run(e, e.Likely(), s)
	if err != nil {
		tb.Fatal(err)
	}
	return st
}

// A sump level given for standing water falls by what pool, pipes and wall hold
// once the pump runs. The volume is worked out here from the drawing: the pool's
// rise over its lip on the area that wood and rock leave, the bore volumes of
// hose and manifold, and the film. In the sump, the chamber upstream of the baffle
// stands higher by the loss under it. Limit: 1e-9 m, the limit of the turns.
func TestStoppedSump(t *testing.T) {
	e := changed(t, examples.CorridorCabinet, "when: running", "when: stopped")
	st := run(t, e, Setting{})
	area := func(d float64) float64 { return math.Pi / 4 * d * d }
	rise := st.PoolLevel - st.RestLevel
	held := 0.886*0.408*(1-0.35)*rise +
		area(0.016)*(0.4+2.35+0.05) + area(0.016)*0.82 +
		0.0035*0.82*0.75
	if math.Abs(st.Held-held) > 1e-12 {
		t.Errorf("%.6f L held, by hand %.6f", st.Held*1e3, held*1e3)
	}
	if want := 0.05 + 0.13 - held/(0.6*0.4) - (st.Chambers[0]-st.SumpLevel)*0.22/0.6; math.Abs(st.SumpLevel-want) > 1e-9 {
		t.Errorf("sump at %.9f m, by hand %.9f", st.SumpLevel, want)
	}
	// Under the baffle the water loses the jet's velocity head.
	v := st.Inflow / (0.6 * 0.04 * 0.4)
	if d := st.Chambers[0] - st.SumpLevel; math.Abs(d-v*v/(2*9.80665)) > 1e-9 {
		t.Errorf("%g m under the baffle, by hand %g", d, v*v/(2*9.80665))
	}
	// The lower sump costs lift, and so flow.
	if full := run(t, changed(t, examples.CorridorCabinet), Setting{}); st.Outlets >= full.Outlets {
		t.Errorf("%g m3/s from the lower sump, %g from the full one", st.Outlets, full.Outlets)
	}
}

// A sump filled too low runs its pump dry once the pool has taken its share.
func TestDryPump(t *testing.T) {
	wet := changed(t, examples.CorridorCabinet, "{ level: 130 mm, when: running }", "{ level: 75 mm, when: stopped }")
	if st := run(t, wet, Setting{}); len(st.Dry) != 0 {
		t.Errorf("75 mm: dry at %.1f mm", (st.SumpLevel-0.05)*1e3)
	}
	dry := changed(t, examples.CorridorCabinet, "{ level: 130 mm, when: running }", "{ level: 65 mm, when: stopped }")
	if st := run(t, dry, Setting{}); len(st.Dry) != 1 || st.SumpLevel-0.05 >= 0.050 {
		t.Errorf("65 mm: %v at %.1f mm, the inlet is at 50", st.Dry, (st.SumpLevel-0.05)*1e3)
	}
}

// Every valve shut: nothing flows, the pump gives its largest head and the pool
// stands at its lip.
func TestAllShut(t *testing.T) {
	e := changed(t, examples.CounterWall, "open: 60 %", "open: 0 %")
	st := run(t, e, Setting{})
	if st.Outlets != 0 || st.Inflow != 0 || st.Held > 0.5e-3 || // what the pipes hold, no film and no rise
		!st.Runs[0].Shut {
		t.Errorf("outlets %g, inflow %g, held %g, shut %v", st.Outlets, st.Inflow, st.Held, st.Runs[0].Shut)
	}
	if head := st.Pumps[0].Head; math.Abs(head-8*0.3048) > 1e-9 {
		t.Errorf("pump at %g m, its label says 8 ft", head)
	}
	if st.PoolLevel != st.RestLevel {
		t.Errorf("pool at %g, lip at %g", st.PoolLevel, st.RestLevel)
	}
	if _, err := SystemHead(e, e.Likely(), Setting{}, 1e-5); err == nil {
		t.Error("a system curve through a shut valve")
	}
}

// A pump by points of its curve in place of a label works at the same point if
// the points lie on the label's curve.
func TestPumpByPoints(t *testing.T) {
	e := changed(t, examples.CorridorCabinet)
	want := run(t, e, Setting{})
	k := e.Clone()
	c := enclosure.Curve{}
	for i := range 201 {
		q := 1200 * litrePerHour * float64(i) / 200
		c.Flow = append(c.Flow, q)
		c.Head = append(c.Head, 2.4*(1-math.Pow(q/(1200*litrePerHour), 1.5)))
	}
	k.Pumps[0].Curve = c
	// Between points 6 L/h apart the table's curve is good to 1e-5.
	if have := run(t, k, Setting{}); math.Abs(have.Outlets/want.Outlets-1) > 1e-4 {
		t.Errorf("%g m3/s by points, %g by label", have.Outlets, want.Outlets)
	}
}

// Affinity laws: at speed s the label's curve is hMax s^2 and qMax s. A pump at
// 85 % with the full label is the pump at full speed with the smaller label.
func TestWornPump(t *testing.T) {
	const s = 0.85
	worn := run(t, changed(t, examples.CorridorCabinet), Setting{Speed: s})
	small := changed(t, examples.CorridorCabinet).Clone()
	small.Pumps[0].Curve.HMax *= s * s
	small.Pumps[0].Curve.QMax *= s
	if want := run(t, small, Setting{}); math.Abs(worn.Outlets/want.Outlets-1) > 1e-9 {
		t.Errorf("%g m3/s worn, %g by the affinity laws", worn.Outlets, want.Outlets)
	}
}

// Where the pump's curve meets the system curve, there it works.
func TestSystemHeadMeetsPump(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e := changed(t, data)
		st := run(t, e, Setting{})
		q := st.Pumps[0].Flow
		need, err := SystemHead(e, e.Likely(), Setting{}, q)
		if err != nil {
			t.Fatal(err)
		}
		if have := PumpHead(&e.Pumps[0], e.Likely(), Setting{}, q); math.Abs(have-need) > 1e-8 {
			t.Errorf("pump %.9f m, circuit %.9f m at its flow", have, need)
		}
	}
}

func TestSystemHeadRefuses(t *testing.T) {
	e := changed(t, examples.CorridorCabinet).Clone()
	e.Pumps = append(e.Pumps, e.Pumps[0])
	if _, err := SystemHead(e, e.Likely(), Setting{}, 1e-4); err == nil {
		t.Error("a system curve for two pumps")
	}
}

func TestColdWaterRefused(t *testing.T) {
	e := changed(t, examples.CorridorCabinet)
	c := e.Likely()
	i, ok := e.WaterTemperature.Doubt()
	if !ok {
		t.Fatal("the water's temperature is not in doubt")
	}
	c[i] = 80
	_, err := Run(e, c, Setting{})
	var invalid *network.InvalidError
	if err == nil || errors.As(err, &invalid) {
		t.Errorf("water of 80 C: %v", err)
	}
}

// Starting near another state saves time and changes nothing.
func TestNearChangesNothing(t *testing.T) {
	a, b := changed(t, examples.CorridorCabinet), changed(t, examples.CounterWall)
	cold := run(t, a, Setting{})
	for name, near := range map[string]*State{
		"itself":             cold,
		"a worn pump":        run(t, a, Setting{Speed: 0.8}),
		"quite another wall": run(t, b, Setting{}),
	} {
		st := run(t, a, Setting{Near: near})
		// The solver's own limit.
		if math.Abs(st.Outlets/cold.Outlets-1) > 1e-9 || math.Abs(st.PoolLevel-cold.PoolLevel) > 1e-9 {
			t.Errorf("near %s: %g m3/s, cold %g", name, st.Outlets, cold.Outlets)
		}
	}
}
