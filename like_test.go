package rillwright_test

import (
	"reflect"
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
	whole := rillwright.Options{Structure: true, Living: true, Faults: rillwright.MainFaults, NoFixes: true}
	for name, pairs := range map[string][]string{
		"nothing":        nil,
		"a pump":         {"flow: 1200 L/h, head: 2.4 m }\n    in", "flow: 900 L/h, head: 2.0 m }\n    in"},
		"a higher dam":   {"  height: 200 mm\n  thickness", "  height: 230 mm\n  thickness"},
		"a thick dam":    {"  thickness: 6 mm\n  set-back", "  thickness: 10 mm\n  set-back"},
		"a fuller sump":  {"level: 130 mm, when", "level: 190 mm, when"},
		"a smaller pool": {"depth: 408 mm\n", "depth: 300 mm\n"},
		"another lip":    {"    lip: 150 mm", "    lip: 120 mm"},
		"larger holes":   {"hole: 2.0 mm", "hole: 3.0 mm"},
		"a warmer room":  {"air: 18 to 24 C", "air: 20 to 29 C"},
		"a lamp":         {"stand: { width", "lights: [ { name: bar, power: 30 W, lumens: 3000, hours: 10 h, sits: on the top } ]\nstand: { width"},
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

// What is taken over from another text is what looking anew gives, fixes and all, and
// nothing is taken over where it matters.
func TestLived(t *testing.T) {
	o := rillwright.Options{Living: true}
	build := func(data []byte, o rillwright.Options) *rillwright.Report {
		t.Helper()
		r, err := rillwright.Build("x", data, o)
		if err != nil || r.Living == nil {
			t.Fatal(r, err)
		}
		return r
	}
	before := build(examples.CounterWall, o)
	for name, c := range map[string]struct {
		pairs []string
		taken bool
	}{
		"a price":       {[]string{"price: 45 USD", "price: 49 USD"}, true},
		"a larger pump": {[]string{"power: 25 W", "power: 35 W"}, false},
		"a line more":   {[]string{"lights:\n", "# a lamp\n\nlights:\n"}, false},
		"longer light":  {[]string{"hours: 11 h", "hours: 12 h"}, false},
	} {
		data := trial.Swap(t, examples.CounterWall, c.pairs...)
		o := o
		o.Lived = before.Living
		quick, anew := build(data, o), build(data, rillwright.Options{Living: true})
		if !reflect.DeepEqual(anew.Living.Answers, quick.Living.Answers) {
			t.Errorf("%s: %+v\nanew %+v", name, quick.Living.Answers, anew.Living.Answers)
		}
		if taken := quick.Living.Took(before.Living); taken != c.taken {
			t.Errorf("%s: taken over %v", name, taken)
		}
	}
}
