package rillwright

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func sealedAnswer(t *testing.T, id string, data []byte, pairs ...string) answers.Answer {
	t.Helper()
	return find(structures(t, trial.Swap(t, data, pairs...)), id)
}

func figureOf(t *testing.T, a *answers.Answer, name string) answers.Figure {
	t.Helper()
	for _, f := range a.Figures {
		if strings.HasPrefix(f.Name, name) {
			return f
		}
	}
	t.Fatalf("%s has no figure %q: %+v", a.ID, name, a.Figures)
	return answers.Figure{}
}

// The dam of the metric example by hand from its own line loads: 194 N/m on glass
// of 5.8 mm at its thinnest is 33 kPa; the fillet of 6 mm has a throat of 4.24 mm;
// 1 psi would ask 28 mm of bite, 20 psi a twentieth of that.
func TestJointsAnswerByHand(t *testing.T) {
	a := sealedAnswer(t, "joints", examples.CorridorCabinet)
	line := figureOf(t, &a, "dam, bottom: largest line load").High
	bed := figureOf(t, &a, "dam, bottom: bed")
	alone := figureOf(t, &a, "dam, bottom: fillet")
	bite := figureOf(t, &a, "dam, bottom: bite")
	legs := figureOf(t, &a, "dam, bottom: or a fillet's legs")
	for _, c := range []struct {
		what           string
		got, want, tol float64
	}{
		{"line load", line, 194, 0.005},
		{"bed", bed.High, line / 5.8, 1e-3},
		{"fillet", alone.High, line / (6 / math.Sqrt2), 1e-3},
		{"bite for good", bite.High, line / 6.894757, 1e-4},
		{"bite for a while", bite.Low, line / 137.89515, 1e-4},
		{"legs as in tanks", legs.Likely, math.Sqrt2 * line / 35, 1e-4},
	} {
		if !within(c.got, c.want, c.tol) {
			t.Errorf("%s: %g, by hand %g", c.what, c.got, c.want)
		}
	}
	if a.Verdict != answers.Holds || !strings.Contains(a.Say, "dam.stops") || a.Key != 0 {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
}

// The sealant of the metric example by hand: 6.56 m of beds 6 by 1 mm and fillets
// of 6 mm are 39 and 118 ml with one on each inside corner (the top strip has none
// for sure, so 93), 15 spots of 9 cm2 by 3 mm 40 ml. The builder's own estimate was
// a cartridge and a half for panes and fillets and half a one for the grid, 600 ml
// in all against 200 to 300: he counts the round beads of 4 to 5 mm that he lays,
// of which most is pressed out of a bed of 1 mm and wiped off, and the grid's spots
// squeezed through the cells. His two cartridges are the program's at most.
func TestSealantByHand(t *testing.T) {
	a := sealedAnswer(t, "sealant", examples.CorridorCabinet)
	for name, want := range map[string]float64{"glass joints": 6.558, "in their beds": 6.558 * 6, "in their fillets": (6.558 - 1.406) * 18, "under the spots": 15 * 0.9 * 3} {
		if got := figureOf(t, &a, name).Likely; !within(got, want, 0.001) {
			t.Errorf("%s: %g, by hand %g", name, got, want)
		}
	}
	n := figureOf(t, &a, "cartridges")
	if a.Verdict != answers.Holds || n.High != 2 || figureOf(t, &a, "on hand").Likely != 5 {
		t.Errorf("%v: %s, %+v", a.Verdict, a.Say, n)
	}
	// By hand the coat takes 2 to 4 cartridges of 300 ml on 0.62 m2; with waste 3 to 6.
	if f := figureOf(t, &a, "not counted"); !within(f.Low, 615, 0.001) || !strings.Contains(f.Text, "3 to 6 more") {
		t.Errorf("coat %+v", f)
	}
}

func TestJointVerdicts(t *testing.T) {
	const label, fillet = "label: plain 100 % silicone, acetoxy, no mould inhibitor", "  fillet: 6 mm\n"
	for _, c := range []struct {
		name  string
		pairs []string
		id    string
		want  answers.Verdict
		says  string
	}{
		{"bathroom silicone", []string{label, "label: 100 % silicone, sanitary, with fungicide"}, "sealant", answers.Fails, `"sanitary"`},
		{"no label", []string{"  " + label + "\n", ""}, "sealant", answers.Unknown, "sealant.label"},
		{"a label that tells nothing", []string{label, "label: clear sealant"}, "sealant", answers.Unknown, "data sheet"},
		{"one cartridge", []string{"{ what: sealant, count: 5", "{ what: sealant, count: 1"}, "sealant", answers.Tight, "too few"},
		{"none in stock", []string{"  - { what: sealant, count: 5, size: 300 ml }\n", ""}, "sealant", answers.Holds, "1 cartridge at most"},
		{"two sizes", []string{"{ what: sealant, count: 5, size: 300 ml }", "{ what: sealant, count: 1, size: 300 ml }\n  - { what: clear sealant, count: 4, size: 80 ml }"}, "sealant", answers.Holds, "2 cartridges"},
		{"a deep pool", []string{"  height: 200 mm\n", "  height: 300 mm\n"}, "joints", answers.Tight, "a stop"},
		{"a deep pool, a thin dam", []string{"  height: 200 mm\n  thickness: 6 mm\n", "  height: 300 mm\n  thickness: 4 mm\n", fillet, "  fillet: 25 mm\n"}, "joints", answers.Tight, "peels the ends"},
		{"a deep pool, wide fillets", []string{"  height: 200 mm\n  thickness: 6 mm\n", "  height: 300 mm\n  thickness: 10 mm\n", fillet, "  fillet: 20 mm\n"}, "joints", answers.Holds, "were it alone"},
		{"a weak sealant", []string{fillet, fillet + "  strength: 20 to 25 kPa\n"}, "joints", answers.Fails, "even for a while"},
		{"a dam on stops", []string{"  set-back: 30 mm", "  set-back: 30 mm\n  stops: sides and bottom"}, "joints", answers.Holds, `"back and side"`},
		{"a pane nobody placed", []string{"name: side, at: sides", "name: large one"}, "joints", answers.Unknown, `"large one"`},
		{"a thin dam of acrylic", []string{"height: 200 mm, thickness: 6 mm, glass: annealed", "height: 200 mm, thickness: 6 mm, glass: acrylic"}, "joints", answers.Tight, "at the good end"},
		{"a dam that nothing holds", []string{"height: 200 mm, thickness: 6 mm, glass: annealed", "height: 200 mm, thickness: 6 mm, glass: annealed, edges: { bottom: free, left: free, right: free }"}, "joints", answers.Unknown, `Where "dam" stands, or what holds it`},
		{"a heavy root far out", []string{"weight: 2.5 kg, out: 110 mm", "weight: 25 kg, out: 310 mm"}, "bond[wall grid]", answers.Fails, "at the least"},
		{"no bond in the file", []string{"    bond: { spots: 15, width: 30 mm, height: 30 mm, line: 2 to 4 mm }\n", ""}, "bond[wall grid]", answers.Unknown, "grid[wall grid].bond"},
		{"no face", []string{"    at: back\n", ""}, "bond[wall grid]", answers.Unknown, "grid[wall grid].at"},
		{"on legs", []string{"line: 2 to 4 mm }", "line: 2 to 4 mm, rests: yes }"}, "bond[wall grid]", answers.Holds, "lower edge"},
		{"two small spots", []string{"spots: 15, width: 30 mm, height: 30 mm", "spots: 2, width: 25 mm, height: 25 mm"}, "bond[wall grid]", answers.Fails, "even for a while"},
		{"more spots than fit", []string{"spots: 15, width: 30 mm, height: 30 mm", "spots: 700, width: 30 mm, height: 30 mm"}, "bond[wall grid]", answers.Unknown, "side by side"},
	} {
		a := sealedAnswer(t, c.id, examples.CorridorCabinet, c.pairs...)
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
	}
	if a := sealedAnswer(t, "bond[false bottom]", examples.CounterWall); a.ID != "" {
		t.Errorf("a floor hangs: %+v", a)
	}
}

// What the units are changes no verdict and no figure but its unit.
func TestJointsInOtherUnits(t *testing.T) {
	metric := structures(t, examples.CorridorCabinet)
	us := structures(t, trial.Swap(t, examples.CorridorCabinet, "units: metric", "units: us"))
	for _, id := range []string{"joints", "sealant", "bond[wall grid]"} {
		a, b := find(metric, id), find(us, id)
		if a.Verdict != b.Verdict || !within(a.Score, b.Score, 1e-12) || len(a.Figures) != len(b.Figures) {
			t.Errorf("%s: %v, %g, or %v, %g", id, a.Verdict, a.Score, b.Verdict, b.Score)
		}
		for i, f := range a.Figures {
			if k, ok := map[string]float64{"kPa": 6.894757293, "N/m": 175.1268, "mm": 25.4, "cm2": 6.4516, "ml": 29.5735}[f.Unit]; ok && !within(b.Figures[i].Likely*k, f.Likely, 1e-4) {
				t.Errorf("%s, %s: %g %s, %g %s", id, f.Name, f.Likely, f.Unit, b.Figures[i].Likely, b.Figures[i].Unit)
			}
		}
	}
}

// Fixes are computed again: stops take the load off the dam, fillets off all
// joints; legs, more spots and a nearer root off the bond.
func TestJointFixes(t *testing.T) {
	with := func(pairs ...string) []answers.Answer {
		r, err := Build("trial", trial.Swap(t, examples.CorridorCabinet, pairs...), Options{Structure: true})
		if err != nil {
			t.Fatal(err)
		}
		return r.Answers
	}
	has := func(a answers.Answer, word string, want answers.Verdict) {
		t.Helper()
		for _, f := range a.Fixes {
			if strings.Contains(f.Do, word) && f.Verdict == want {
				return
			}
		}
		t.Errorf("%s: no fix with %q that leads to %v: %+v", a.ID, word, want, a.Fixes)
	}
	has(find(with("  height: 200 mm\n  thickness: 6 mm\n", "  height: 300 mm\n  thickness: 10 mm\n"), "joints"), "fillets", answers.Holds)
	// The dam alone is over the limit if the panes are thick.
	list := with("  height: 200 mm\n", "  height: 240 mm\n", "height: 1040 mm, thickness: 6 mm", "height: 1040 mm, thickness: 12 mm")
	has(find(list, "joints"), "along its sides and bottom", answers.Holds)
	bond := find(with(), "bond[wall grid]")
	has(bond, "legs", answers.Holds)
	has(bond, "spots", answers.Holds)
	for _, f := range bond.Fixes {
		if f.After == f.Before || f.Cost == "" || f.Change == "" {
			t.Errorf("%+v", f)
		}
	}
}
