package answers

import (
	"math"
	"strings"
	"testing"

	"rillwright/examples"
)

func figureOf(t *testing.T, a Answer, name string) Figure {
	t.Helper()
	for _, f := range a.Figures {
		if strings.HasPrefix(f.Name, name) {
			return f
		}
	}
	t.Fatalf("%s has no figure %q", a.ID, name)
	return Figure{}
}

func standing(t *testing.T, data []byte, pairs ...string) Answer {
	t.Helper()
	return survey(t, changed(t, data, pairs...)).Standing()
}

func weight(t *testing.T, data []byte, pairs ...string) Answer {
	t.Helper()
	return survey(t, changed(t, data, pairs...)).Weight()
}

// A band holds its likely figure, and every doubt alone stays within it.
func TestWeightBands(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		s := survey(t, changed(t, data))
		for _, a := range []Answer{s.Weight(), s.Standing()} {
			for _, f := range a.Figures {
				if !(f.Low <= f.Likely && f.Likely <= f.High) || math.IsNaN(f.Low+f.High) || f.Text == "" {
					t.Errorf("%s, %s: %+v", name, a.ID, f)
				}
			}
			if len(a.Matters) == 0 || len(a.Cautions) == 0 || a.LimitingLine == 0 {
				t.Errorf("%s, %s: no doubts, cautions or line", name, a.ID)
			}
			for i, m := range a.Matters {
				if i > 0 && m.Swing > a.Matters[i-1].Swing {
					t.Errorf("%s, %s: %q matters more than what stands before it", name, a.ID, m.What)
				}
			}
		}
	}
}

// The parts add up to the whole, by the figures shown.
func TestWeightAddsUp(t *testing.T) {
	a := weight(t, examples.CorridorCabinet)
	sum := 0.0
	for _, name := range []string{"panes", "grid and what", "wood and rock", "what else", "water in the pool", "water in hose"} {
		f := figureOf(t, a, name)
		if f.Unit == "g" {
			f.Likely /= 1000
		}
		sum += f.Likely
	}
	if whole := figureOf(t, a, "enclosure running"); math.Abs(sum-whole.Likely) > 1e-9 {
		t.Errorf("parts %g kg, whole %g", sum, whole.Likely)
	}
	// Water 42 mm deeper on what wood and rock leave of the pool.
	e := changed(t, examples.CorridorCabinet)
	s := survey(t, e)
	more := figureOf(t, a, "the same, pool full").Likely - figureOf(t, a, "enclosure running").Likely
	byHand := s.Likely.Density * 0.886 * 0.408 * 0.65 * (e.Pool.DamTop - s.Likely.PoolLevel)
	if math.Abs(more-byHand) > 0.03*byHand { // the pool's width is the builder's
		t.Errorf("full %g kg more than running, by hand %g", more, byHand)
	}
}

// What results are shown in changes none of them.
func TestWeightUnits(t *testing.T) {
	for name, c := range map[string]struct {
		data   []byte
		change []string
	}{
		"metric": {examples.CorridorCabinet, []string{"units: metric", "units: us"}},
		"us":     {examples.CounterWall, []string{"units: us", "units: metric"}},
	} {
		for _, of := range []func(*Survey) Answer{(*Survey).Weight, (*Survey).Standing} {
			a, b := of(survey(t, changed(t, c.data))), of(survey(t, changed(t, c.data, c.change...)))
			if a.Verdict != b.Verdict || math.Abs(a.Score-b.Score) > 1e-12*math.Abs(a.Score) || len(a.Figures) != len(b.Figures) {
				t.Errorf("%s, %s: %v %g, in other units %v %g", name, a.ID, a.Verdict, a.Score, b.Verdict, b.Score)
			}
		}
	}
	us := weight(t, examples.CorridorCabinet, "units: metric", "units: us")
	if f := figureOf(t, us, "panes"); f.Unit != "lb" || math.Abs(f.Likely*0.45359237-figureOf(t, weight(t, examples.CorridorCabinet), "panes").Likely) > 1e-9 {
		t.Errorf("panes %+v", f)
	}
}

// 40 lb/ft2 is 1.92 kPa, between the European figures, of which the verdict is
// taken at the least; it is met by a light tank on a large base.
func TestFloorLimit(t *testing.T) {
	if floorUS < floorLeast || floorUS > floorMost || math.Abs(floorUS-1915) > 1 {
		t.Errorf("40 lb/ft2 is %g Pa", floorUS)
	}
	a := weight(t, examples.CorridorCabinet)
	if a.Verdict != Tight || !strings.Contains(a.Say, "ask an engineer") {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
	wide := weight(t, examples.CorridorCabinet, "stand: { width: 900 mm, depth: 450 mm", "stand: { width: 2000 mm, depth: 1500 mm")
	if wide.Verdict != Holds || !strings.Contains(wide.Say, "an engineer") || strings.Contains(strings.ToLower(wide.Say), "safe") {
		t.Errorf("on a base of 3 m2: %v: %s", wide.Verdict, wide.Say)
	}
	none := weight(t, examples.CorridorCabinet, "  floor: timber joists, running away from the wall\n", "")
	if !strings.Contains(none.Say, "place.floor") {
		t.Errorf("no floor in the file: %s", none.Say)
	}
}

// Where the sump stands apart its weight is not under the enclosure; where the
// file does not say, it counts for the floor and not against tipping.
func TestSumpApart(t *testing.T) {
	const in = "carries-sump: yes, "
	load := func(pairs ...string) float64 {
		return figureOf(t, weight(t, examples.CorridorCabinet, pairs...), "on the floor under it").High
	}
	inside, apart, unsaid := load(), load(in, "carries-sump: no, "), load(in, "")
	if !(apart < inside) || inside != unsaid {
		t.Errorf("in the stand %g, apart %g, not said %g kg/m2", inside, apart, unsaid)
	}
	tips := func(pairs ...string) Answer { return standing(t, examples.CounterWall, pairs...) }
	a, b, c := tips(), tips("carries-sump: yes", "carries-sump: no"), tips(", carries-sump: yes", "")
	if !(b.Score < a.Score) || b.Score != c.Score || !strings.Contains(c.Say, "stand.carries-sump") {
		t.Errorf("in the stand %g, apart %g, not said %g", a.Score, b.Score, c.Score)
	}
}

// The verdict asks for the wall where it tips easily; fixed it holds, and the
// fixing is said not to be checked; with its weight outside its feet it fails,
// fixed or not.
func TestStandingVerdicts(t *testing.T) {
	us := standing(t, examples.CounterWall)
	if us.Verdict != Tight || !strings.Contains(us.Say, "fix it to the wall") {
		t.Errorf("not fixed: %v: %s", us.Verdict, us.Say)
	}
	fixed := standing(t, examples.CounterWall, "fixed: no", "fixed: yes")
	if fixed.Verdict != Holds || !strings.Contains(fixed.Say, "not checked") || fixed.Score != us.Score {
		t.Errorf("fixed: %v: %s", fixed.Verdict, fixed.Say)
	}
	large := standing(t, examples.CorridorCabinet, "fixed: yes", "fixed: no", "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg", "stand: { width: 1400 mm, depth: 1200 mm, weight: 60 kg")
	if large.Verdict != Holds || large.Score < 1 {
		t.Errorf("on a large stand: %v %g: %s", large.Verdict, large.Score, large.Say)
	}
	for _, wall := range []string{"yes", "no"} {
		over := standing(t, examples.CorridorCabinet, "fixed: yes", "fixed: "+wall, "inset: 0 mm,", "inset: 0 mm, front: -300 mm,")
		if over.Verdict != Fails || !strings.Contains(over.Say, "falls over by itself") {
			t.Errorf("feet 300 mm behind the front, fixed: %s: %v: %s", wall, over.Verdict, over.Say)
		}
	}
	none := standing(t, examples.CorridorCabinet, "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg, feet: 4, foot: 50 mm, inset: 0 mm, carries-sump: yes, fixed: yes }\n", "")
	if none.Verdict != Tight || !strings.Contains(none.Say, "no stand") {
		t.Errorf("no stand: %v: %s", none.Verdict, none.Say)
	}
	if three := standing(t, examples.CorridorCabinet, "feet: 4", "feet: 3"); !strings.Contains(three.Say, "2 are taken in front and 1 at the back") || strings.Contains(us.Say, "taken in front") {
		t.Errorf("three feet: %s", three.Say)
	}
}

// What helps against tipping helps here: a heavier stand, feet further out, a lower
// enclosure. A hinged door opened wide does not.
func TestStandingSenses(t *testing.T) {
	score := func(pairs ...string) float64 { return standing(t, examples.CorridorCabinet, pairs...).Score }
	plain := score()
	for name, pairs := range map[string][]string{
		"heavier stand": {"weight: 34 kg", "weight: 80 kg"},
		"deeper stand":  {"stand: { width: 900 mm, depth: 450 mm", "stand: { width: 900 mm, depth: 550 mm"},
		"lighter wall":  {"weight: 12 kg", "weight: 6 kg"},
	} {
		// A wall of half the weight lowers the centre; the push it takes may fall.
		a := standing(t, examples.CorridorCabinet, pairs...)
		if name == "lighter wall" {
			if was := standing(t, examples.CorridorCabinet); figureOf(t, a, "centre of its weight").Likely >= figureOf(t, was, "centre of its weight").Likely {
				t.Errorf("%s: the centre is no lower", name)
			}
			continue
		}
		if a.Score <= plain {
			t.Errorf("%s: %g, before %g", name, a.Score, plain)
		}
	}
	// On feet that stand back it tips towards the front.
	back := []string{"inset: 0 mm,", "inset: 0 mm, front: -60 mm,"}
	shut := standing(t, examples.CorridorCabinet, back...)
	open := standing(t, examples.CorridorCabinet, append(back, "opens: slides", "opens: hinged top")...)
	if open.Score > 0.95*shut.Score || !strings.Contains(open.Limiting, "doors open, towards the front") || len(open.Figures) != len(shut.Figures)+1 {
		t.Errorf("hinged doors: %g, sliding %g; %d figures and %d", open.Score, shut.Score, len(open.Figures), len(shut.Figures))
	}
	hung := figureOf(t, open, "weight on the far edge of an open door")
	if !(hung.Low > 0) || !strings.Contains(hung.Text, "not a limit") {
		t.Errorf("hung on a door: %+v", hung)
	}
}

// Panes that nobody has looked at weigh as glass, and without any the answers say
// what to write.
func TestWeightNotKnown(t *testing.T) {
	a := weight(t, examples.CorridorCabinet, "thickness: 8 mm, glass: annealed", "thickness: 8 mm, glass: not checked")
	if b := weight(t, examples.CorridorCabinet); figureOf(t, a, "panes") != figureOf(t, b, "panes") || !strings.Contains(a.Say, `pane "base"`) {
		t.Errorf("a pane that nobody looked at: %s", a.Say)
	}
	light := weight(t, examples.CorridorCabinet, "thickness: 8 mm, glass: annealed", "thickness: 8 mm, glass: acrylic")
	if figureOf(t, light, "panes").High >= figureOf(t, a, "panes").High {
		t.Error("acrylic weighs as much as glass")
	}
	stand := weight(t, examples.CorridorCabinet, " weight: 34 kg,", "")
	if f := figureOf(t, stand, "stand"); !(f.Low < f.High) || !strings.Contains(stand.Say, "stand.weight") {
		t.Errorf("no weight of the stand: %+v", f)
	}
	e := changed(t, examples.CorridorCabinet)
	d := *e.Design
	d.Enclosure.Panes = nil
	e.Design = &d
	d.Dam.Thickness.Pos.Line = 0
	s := survey(t, e)
	for _, a := range []Answer{s.Weight(), s.Standing()} {
		if a.Verdict != Unknown || !strings.Contains(a.Say, "enclosure.panes") {
			t.Errorf("%s without panes: %v: %s", a.ID, a.Verdict, a.Say)
		}
	}
}

// The steps tell how many people, at the cautious end of what they may lift: 16 kg
// alone, 21.3 for two, 24 for three, up to 37.5 if they are strong.
func TestPeople(t *testing.T) {
	for mass, want := range map[float64]string{
		10: "one person", 16.1: "two people", 22: "three people", 25: "three people, and strong ones", 38: "more than three people should lift by hand",
	} {
		if got := people(mass); got != want {
			t.Errorf("%g kg: %s, want %s", mass, got, want)
		}
	}
	a := weight(t, examples.CorridorCabinet)
	if f := figureOf(t, a, "to lift: the heaviest pane"); !strings.Contains(f.Text, "two people") || !strings.Contains(f.Name, "back") {
		t.Errorf("heaviest pane: %+v", f)
	}
	if f := figureOf(t, a, "the sump with its water"); !strings.Contains(f.Text, "drain it") {
		t.Errorf("sump: %+v", f)
	}
	if f := figureOf(t, a, "to lift: wall grid"); math.Abs(f.High-15.3) > 1e-9 {
		t.Errorf("grid with its wood: %+v, by hand 12 + 2.5 + 0.8 kg", f)
	}
}
