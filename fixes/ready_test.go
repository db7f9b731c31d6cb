package fixes

import (
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func readied(t *testing.T, data []byte) answers.Answer {
	t.Helper()
	e := trial.Resolved(t, data, enclosure.Resolve)
	s, err := answers.NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	a, plan := s.Ready(0)
	Ready(s, &a, plan)
	return a
}

// What is said to buy days buys them when it is written into the file.
func TestReadyFixesAsWritten(t *testing.T) {
	for name, c := range map[string]struct {
		data  []byte
		pairs []string
		wants []string // keys that fixes must reach
	}{
		"cabinet":        {examples.CorridorCabinet, nil, []string{"budget.week", "budget.deadline"}},
		"hours in words": {examples.CorridorCabinet, []string{"  week:\n    - { day: Tuesday, hours: 18:30-21:30 }\n    - { day: Thursday, hours: 18:30-21:30 }\n    - { day: Saturday, hours: 9:00-17:00 }\n", "  hours: Saturdays\n"}, []string{"budget.hours"}},
		"late glass":     {examples.CorridorCabinet, []string{"takes: 8 working days", "takes: 40 working days"}, []string{"budget.deliveries[1].takes"}},
		"rare helper":    {examples.CorridorCabinet, []string{"  deliveries:", "  helper: [{ on: 2026-05-02, hours: 9:00-17:00 }]\n  deliveries:"}, []string{"budget.helper"}},
		"cold garage":    {examples.CounterWall, []string{"air: 50 to 60 F, humidity: 40 to 60 %", "air: 41 to 42 F, humidity: 10 to 12 %", "deadline: 2026-05-02", "deadline: 2026-04-12"}, []string{"budget.workshop.air"}},
	} {
		data := trial.Swap(t, c.data, c.pairs...)
		a := readied(t, data)
		if a.Verdict != answers.Fails && a.Verdict != answers.Tight {
			t.Errorf("%s: %v: %s", name, a.Verdict, a.Say)
			continue
		}
		found := map[string]bool{}
		for _, f := range a.Fixes {
			if len(f.Edits) == 0 || f.Cost == "" {
				t.Errorf("%s: %s: %d edits, cost %q", name, f.Do, len(f.Edits), f.Cost)
			}
			for _, e := range f.Edits {
				found[e.Path] = true
			}
			text, err := design.Apply(data, f.Edits)
			if err != nil {
				t.Fatal(err)
			}
			again := readied(t, text)
			if again.Verdict != f.Verdict || headline(&again) != f.After {
				t.Errorf("%s: %s: said to come to %v, %q; comes to %v, %q", name, f.Do, f.Verdict, f.After, again.Verdict, headline(&again))
			}
			if again.Score <= a.Score {
				t.Errorf("%s: %s buys nothing: %g days left, then %g", name, f.Do, a.Score, again.Score)
			}
		}
		for _, path := range c.wants {
			if !found[path] {
				t.Errorf("%s: no fix writes %s, of %v", name, path, found)
			}
		}
	}
}

// What holds needs nothing, and what cannot be planned gets nothing.
func TestReadyWithoutFixes(t *testing.T) {
	if a := readied(t, examples.CounterWall); a.Verdict != answers.Holds || len(a.Fixes) > 0 {
		t.Errorf("%v with %d fixes", a.Verdict, len(a.Fixes))
	}
	bad := append([]byte(nil), examples.CorridorCabinet...)
	bad = append(bad, "done: [{ step: ordr, on: 2026-03-07 }]\n"...)
	if a := readied(t, bad); a.Verdict != answers.Unknown || len(a.Fixes) > 0 {
		t.Errorf("%v with %d fixes", a.Verdict, len(a.Fixes))
	}
}
