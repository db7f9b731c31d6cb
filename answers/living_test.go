package answers

import (
	"math"
	"strings"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func livingOf(t *testing.T, text []byte) []Answer {
	t.Helper()
	rep, err := Living(trial.Resolved(t, text, enclosure.Resolve), LivingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return rep.Answers
}

func named(t *testing.T, list []Answer, id string) Answer {
	t.Helper()
	for i := range list {
		if list[i].ID == id {
			return list[i]
		}
	}
	t.Fatalf("no answer %s", id)
	return Answer{}
}

// lit is the second demo with a lamp, hard water and a quarter changed.
func lit(t testing.TB) []byte {
	return trial.Swap(t, examples.CounterWall,
		"lights:\n  - { name: lamp, power: 24 W, hours: 11 h, price: 60 USD }",
		"water: { solids: 350, hardness: 15, carbonate: 12, change: 10 %, every: 60 days }\n\nlights:\n  - { name: lamp, power: 24 W, lumens: 2600, hours: 11 h, kind: strip, sits: on the top, out: 9 in, length: 15 in }")
}

func TestLivingOfDemos(t *testing.T) {
	for _, text := range [][]byte{examples.CorridorCabinet, examples.CounterWall, lit(t)} {
		list := livingOf(t, text)
		if len(list) != 6 {
			t.Fatalf("%d answers", len(list))
		}
		for _, a := range list {
			if a.Say == "" || a.Verdict != Unknown && (len(a.Figures) == 0 || a.Limit.Text == "" || a.Margin == "" || a.Key >= len(a.Figures)) {
				t.Errorf("%s: not a whole answer: %+v", a.ID, a)
			}
			for _, f := range a.Figures {
				if !(f.Low <= f.Likely && f.Likely <= f.High) {
					t.Errorf("%s, %s: %g, %g, %g do not rise", a.ID, f.Name, f.Low, f.Likely, f.High)
				}
			}
			for _, f := range a.Fixes {
				if f.Verdict > a.Verdict || f.After == f.Before {
					t.Errorf("%s: no help: %+v", a.ID, f)
				}
			}
		}
	}
}

// A fix with edits, written into the file and computed from there, comes to what it
// promises.
func TestLivingFixesKeepTheirWord(t *testing.T) {
	kept := 0
	text := lit(t)
	known := map[string][]Answer{} // one fix may help several answers
	for _, a := range livingOf(t, text) {
		for _, f := range a.Fixes {
			if len(f.Edits) == 0 {
				continue
			}
			changed, err := design.Apply(text, f.Edits)
			if err != nil {
				t.Errorf("%s: %q: %v", a.ID, f.Do, err)
				continue
			}
			if known[string(changed)] == nil {
				known[string(changed)] = livingOf(t, changed)
			}
			b := named(t, known[string(changed)], a.ID)
			if keyText(&a, &b) != f.After || b.Verdict != f.Verdict {
				t.Errorf("%s: %q promises %s (%s), the file gives %s (%s)", a.ID, f.Do, f.After, f.Verdict, b.Figures[a.Key].Text, b.Verdict)
			}
			kept++
		}
	}
	if kept < 4 {
		t.Errorf("only %d fixes with edits", kept)
	}
}

// Twice the lumens is twice the light; no lamp, no answer.
func TestLightFollowsTheLamp(t *testing.T) {
	once := named(t, livingOf(t, lit(t)), "light").Figures[0].Likely
	twice := named(t, livingOf(t, trial.Swap(t, lit(t), "lumens: 2600", "lumens: 5200")), "light").Figures[0].Likely
	if math.Abs(twice-2*once) > 1e-9*twice || once == 0 {
		t.Errorf("%g mol/m2, with twice the lumens %g", once, twice)
	}
	dark := trial.Swap(t, examples.CounterWall, "power: 24 W, hours: 11 h", "hours: 11 h")
	if a := named(t, livingOf(t, dark), "light"); a.Verdict != Unknown {
		t.Errorf("light of a lamp with neither watts nor lumens: %s", a.Verdict)
	}
}

// What the file says counts: a damper room makes it damper, mesh low and high lets
// air through, a heater keeps the water.
func TestLivingReadsTheFile(t *testing.T) {
	base := livingOf(t, examples.CounterWall)
	vented := livingOf(t, trial.Swap(t, examples.CounterWall, "  ways:\n",
		"  ways:\n    - { name: low vent, pane: left side, width: 6 in, height: 2 in, up: 9 in, in: 8 in, edge: rear, closed: mesh }\n    - { name: high vent, pane: right side, width: 6 in, height: 2 in, up: 33 in, in: 8 in, edge: rear, closed: mesh }\n"))
	if a, b := named(t, base, "humidity").Figures[0].Likely, named(t, vented, "humidity").Figures[0].Likely; !(b < a-1) {
		t.Errorf("humidity %g %%, with vents %g %%", a, b)
	}
	if a, b := named(t, base, "fog").Figures[0].Likely, named(t, vented, "fog").Figures[0].Likely; !(b < a) {
		t.Errorf("fogged %g h, with vents %g h", a, b)
	}
	heated := livingOf(t, append([]byte("heater: { power: 100 W, keeps: 76 to 78 F }\n"), examples.CounterWall...))
	for _, f := range named(t, heated, "heat").Figures {
		if strings.HasPrefix(f.Name, "water at its coldest") && f.Likely < 75.5 {
			t.Errorf("the heater lets the water fall to %g F", f.Likely)
		}
	}
	damp := livingOf(t, trial.Swap(t, examples.CorridorCabinet, "place:\n", "place:\n  humidity: 65 to 70 %\n"))
	if a, b := named(t, livingOf(t, examples.CorridorCabinet), "humidity").Figures[0].Likely, named(t, damp, "humidity").Figures[0].Likely; !(b > a+3) {
		t.Errorf("humidity %g %%, in a damp room %g %%", a, b)
	}
}

func BenchmarkLiving(b *testing.B) {
	e := trial.Resolved(b, lit(b), enclosure.Resolve)
	whole, err := Living(e, LivingOptions{NoFixes: true})
	if err != nil {
		b.Fatal(err)
	}
	warmer := trial.Resolved(b, trial.Swap(b, lit(b), "air: 60 to 80 F", "air: 60 to 84 F"), enclosure.Resolve)
	for _, c := range []struct {
		name string
		e    *enclosure.Enclosure
		o    LivingOptions
	}{
		{"fixes", e, LivingOptions{}},
		{"verdicts", e, LivingOptions{NoFixes: true}},
		{"an edit that matters", warmer, LivingOptions{NoFixes: true, Like: whole}},
		{"an edit that does not", e, LivingOptions{NoFixes: true, Like: whole}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Living(c.e, c.o); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
