package answers

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rillwright/examples"
)

const litrePerHour = 1e-3 / 3600 // m3/s

func one(t *testing.T, s *Survey, id string) Answer {
	t.Helper()
	a, ok := s.One(id)
	if !ok {
		t.Fatalf("no answer %q", id)
	}
	return a
}

// A verdict is taken at the bad end: a target just under the low end of the flow
// holds, one just over it is tight though the likely flow is far above, and one
// over what the look needs at least fails.
func TestVerdictAtBadEnd(t *testing.T) {
	low, likely, _ := survey(t, changed(t, examples.CorridorCabinet)).Band(flowMeasure())
	target := func(q float64) *Survey {
		return survey(t, changed(t, examples.CorridorCabinet, "target: 400 L/h per m", fmt.Sprintf("target: %.4f L/h per m", q/litrePerHour/0.82)))
	}
	if a := one(t, target(low*0.99), "lift"); a.Verdict != Holds {
		t.Errorf("1 %% under the low end: %v", a.Verdict)
	}
	if a := one(t, target(low*1.01), "lift"); a.Verdict != Tight || likely < low*1.05 {
		t.Errorf("1 %% over the low end: %v", a.Verdict)
	}
	weak := survey(t, changed(t, examples.CorridorCabinet, "flow: 1200 L/h, head: 2.4 m", "flow: 800 L/h, head: 2.0 m"))
	if a := one(t, weak, "lift"); a.Verdict != Fails {
		t.Errorf("a weak pump: %v, %s", a.Verdict, a.Figures[0].Text)
	}
}

func TestDryPumpIsNoSteadyState(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, "{ level: 130 mm, when: running }", "{ level: 50 mm, when: stopped }"))
	a := one(t, s, "levels")
	if a.Verdict != Fails || !strings.Contains(a.Say, "No steady state") || !strings.Contains(a.Say, "main pump") {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
}

func TestSpillIsNoSteadyState(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, "lip-bore: 26.6 mm", "lip-bore: 12 mm", "    bore: 26.6 mm", "    bore: 12 mm", "size: 44 mm", "size: 20 mm"))
	if a := one(t, s, "levels"); a.Verdict != Fails || !strings.Contains(a.Say, "spill") {
		t.Errorf("levels %v: %s", a.Verdict, a.Say)
	}
	a := one(t, s, "drain")
	if a.Verdict != Fails || a.Figures[0].Low >= 1 {
		t.Errorf("drain %v: %s", a.Verdict, a.Say)
	}
	st := s.Likely
	if want := st.Drains[0].Capacity / st.Inflow; math.Abs(a.Figures[0].Likely-want) > 1e-9 {
		t.Errorf("takes %g times what comes, by hand %g", a.Figures[0].Likely, want)
	}
}

// Nothing flows: a shut valve or a pump too weak gives words, not numbers without
// sense.
func TestNothingFlows(t *testing.T) {
	shut := survey(t, changed(t, examples.CounterWall, "open: 60 %", "open: 0 %"))
	if a := one(t, shut, "lift"); a.Verdict != Fails || !strings.Contains(a.Say, "valve in the riser is shut") {
		t.Errorf("shut: %v: %s", a.Verdict, a.Say)
	}
	weak := survey(t, changed(t, examples.CounterWall, "350 US gal/h, head: 8 ft", "160 US gal/h, head: 4 ft"))
	if a := one(t, weak, "lift"); a.Verdict != Fails || !strings.Contains(a.Say, "does not lift") {
		t.Errorf("weak: %v: %s", a.Verdict, a.Say)
	}
	if a := one(t, weak, "drain"); a.Verdict != Unknown {
		t.Errorf("a drain without water: %v: %s", a.Verdict, a.Say)
	}
	for _, s := range []*Survey{shut, weak} {
		for _, a := range s.Water() {
			for _, f := range a.Figures {
				if !(f.Low <= f.Likely && f.Likely <= f.High) || math.IsInf(f.High, 0) {
					t.Errorf("%s: %+v", a.ID, f)
				}
			}
		}
	}
}

// A change tried from a state in which nothing flows has a band of its own: what
// moves the flow is found anew.
func TestAgainFromNothing(t *testing.T) {
	shut := survey(t, changed(t, examples.CounterWall, "open: 60 %", "open: 0 %"))
	shut.Water()
	e := shut.E.Clone()
	e.Runs[0].Pieces[1].Open = 1
	again, err := shut.Again(e, false)
	if err != nil {
		t.Fatal(err)
	}
	low, likely, high := again.Band(flowMeasure())
	wantLow, want, wantHigh := survey(t, e).Band(flowMeasure())
	for k, d := range []float64{low - wantLow, likely - want, high - wantHigh} {
		if math.Abs(d) > 1e-9*want {
			t.Errorf("end %d off by %g of %g m3/s", k, d, want)
		}
	}
	if low > 0.9*likely {
		t.Errorf("no band: %g, %g, %g", low, likely, high)
	}
}

// The drill in the design gives what the design gives.
func TestDrillsAgree(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet))
	found := false
	for _, f := range one(t, s, "outlets[drip bar]").Figures {
		if !strings.Contains(f.Name, "2.0 mm") {
			continue
		}
		found = true
		if math.Abs(f.Likely/(s.Likely.Outlets/litrePerHour)-1) > 1e-9 {
			t.Errorf("%s: %g L/h, the design gives %g", f.Name, f.Likely, s.Likely.Outlets/litrePerHour)
		}
	}
	if !found {
		t.Error("the drill of the design is not among them")
	}
}
