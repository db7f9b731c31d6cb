package rillwright_test

import (
	"testing"

	"rillwright"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// With the report of the text before an edit at hand answers come sooner; they are
// the ones that looking at everything anew gives, but for the doubts that matter in
// faults.
func TestLike(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	whole := rillwright.Options{Structure: true, Faults: rillwright.MainFaults, NoFixes: true}
	for name, pairs := range map[string][]string{
		"nothing":        nil,
		"a pump":         {"flow: 1200 L/h, head: 2.4 m }\n    in", "flow: 900 L/h, head: 2.0 m }\n    in"},
		"a higher dam":   {"  height: 200 mm\n  thickness", "  height: 230 mm\n  thickness"},
		"a thick dam":    {"  thickness: 6 mm\n  set-back", "  thickness: 10 mm\n  set-back"},
		"a fuller sump":  {"level: 130 mm, when", "level: 190 mm, when"},
		"a smaller pool": {"depth: 408 mm\n", "depth: 300 mm\n"},
		"another lip":    {"    lip: 150 mm", "    lip: 120 mm"},
		"larger holes":   {"hole: 2.0 mm", "hole: 3.0 mm"},
	} {
		before, err := rillwright.Build("x", examples.CorridorCabinet, whole)
		if err != nil {
			t.Fatal(err)
		}
		data := trial.Swap(t, examples.CorridorCabinet, pairs...)
		o := whole
		o.Like = before
		quick, err := rillwright.Build("x", data, o)
		if err != nil {
			t.Fatal(err)
		}
		anew, err := rillwright.Build("x", data, whole)
		if err != nil {
			t.Fatal(err)
		}
		if len(quick.Answers) != len(anew.Answers) {
			t.Fatalf("%s: %d answers, want %d", name, len(quick.Answers), len(anew.Answers))
		}
		for i := range anew.Answers {
			a, b := quick.Answers[i], anew.Answers[i]
			// The good end of days away may turn on another doubt than before.
			same := a.ID == "away" || len(a.Figures) == 0 || len(b.Figures) == 0 || a.Figures[0].Text == b.Figures[0].Text
			if a.ID != b.ID || a.Verdict != b.Verdict || len(a.Figures) != len(b.Figures) || !same || a.Say != b.Say {
				t.Errorf("%s: %s %v %s\nanew %s %v %s", name, a.ID, a.Verdict, a.Say, b.ID, b.Verdict, b.Say)
			}
		}
	}
}
