package answers

import (
	"strings"
	"testing"

	"rillwright/examples"
)

const cabinetSump = "{ level: 130 mm, when: running }"

// What pool, pipes and wall hold comes back when the pump stops. The cabinet's
// holds 3 to 7 L over 0.24 m2, 13 to 29 mm: a sump filled to 12 mm under its rim
// floods at the bad end, one filled to 60 mm under it does not.
func TestSumpAfterStop(t *testing.T) {
	for level, want := range map[string]Verdict{"308 mm": Fails, "260 mm": Holds} {
		s := survey(t, changed(t, examples.CorridorCabinet, cabinetSump, "{ level: "+level+", when: running }", "end-height: 160 mm", "end-height: 315 mm"))
		a := one(t, s, "levels")
		if a.Verdict != want || want == Fails && !strings.Contains(a.Say, "above the sump's rim") {
			t.Errorf("%s: %v, %s", level, a.Verdict, a.Say)
		}
	}
}

// A baffle whose crest is a millimetre under the rim lets the water upstream of
// it over the rim, whatever the pump's chamber does.
func TestBaffleOverRim(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, "under: 40 mm", "over: 319 mm", "end-height: 160 mm", "end-height: 330 mm"))
	if a := one(t, s, "levels"); a.Verdict != Fails || !strings.Contains(a.Say, "upstream of a baffle") {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
}

// Water behind a solid crest stays there when the pump stops: a small pump
// chamber is not filled with it. What the sump gives up is what pool, pipes and
// wall hold, as with one open box.
func TestWaterStaysBehindCrest(t *testing.T) {
	open := survey(t, changed(t, examples.CorridorCabinet))
	crest := survey(t, changed(t, examples.CorridorCabinet, "length: 220 mm, under: 40 mm", "length: 560 mm, over: 200 mm", "length: 380 mm", "length: 40 mm", "end-height: 160 mm", "end-height: 250 mm"))
	a, b := open.Likely.Held, crest.Likely.Held
	if d := b/a - 1; d > 0.02 || d < -0.02 {
		t.Errorf("gives up %.2f L with a crest, %.2f L without", b*1e3, a*1e3)
	}
	rise := crest.Likely.StopLevel - crest.Likely.SumpLevel
	// It fills the pump's chamber, 40 by 400 mm, from 130 mm to the crest and
	// then the whole box, with the sheet of water, some millimetres over 560 by
	// 400 mm, that stood on the crest.
	want := 0.070 + (b-0.070*0.04*0.4)/(0.6*0.4)
	if rise < want || rise > want+0.005 {
		t.Errorf("rises %.4f m, %.4f m for what comes back alone", rise, want)
	}
}

// With more water than the drains can take, the spill at the bad end is more
// than the likely one.
func TestSpillAtBadEnd(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, "flow: 1200 L/h, head: 2.4 m", "flow: 9000 L/h, head: 6 m"))
	if !s.Likely.Spills {
		t.Fatal("it does not spill")
	}
	bad := s.End(openPoolMeasure(), 1)
	if bad.Spill <= s.Likely.Spill*1.05 {
		t.Errorf("%.0f L/h at the bad end, likely %.0f", bad.Spill*3.6e6, s.Likely.Spill*3.6e6)
	}
	if a := one(t, s, "levels"); !strings.Contains(a.Say, "spills likely") {
		t.Error(a.Say)
	}
}
