package answers

import (
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
)

func ready(t *testing.T, data []byte, today string, pairs ...string) Answer {
	t.Helper()
	e := trial.Resolved(t, trial.Swap(t, data, pairs...), enclosure.Resolve)
	s, err := NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	var day schedule.Day
	if today != "" {
		if day, err = schedule.ParseDay(today); err != nil {
			t.Fatal(err)
		}
	}
	a, _ := s.Ready(day)
	return a
}

// The deadline is held against the likely end and against the ninth in ten.
func TestReadyVerdict(t *testing.T) {
	for deadline, want := range map[string]Verdict{
		"2026-04-10": Fails, "2026-04-20": Tight, "2026-04-28": Holds,
	} {
		a := ready(t, examples.CorridorCabinet, "", "deadline: 2026-04-20", "deadline: "+deadline)
		if a.Verdict != want || a.Figures[0].Bound == nil {
			t.Errorf("%s: %v: %s", deadline, a.Verdict, a.Say)
		}
		if f := a.Figures[0]; (f.High > *f.Bound) != (want != Holds) || (f.Likely > *f.Bound) != (want == Fails) {
			t.Errorf("%s: %v of %v, and it %v", deadline, f, *f.Bound, a.Verdict)
		}
	}
	if a := ready(t, examples.CorridorCabinet, ""); !strings.Contains(a.Limiting, "bottom") || len(a.Matters) == 0 {
		t.Errorf("limited by %q, %d matters", a.Limiting, len(a.Matters))
	}
}

// Where there is no date days are counted, and the same whatever day it is.
func TestReadyWithoutDates(t *testing.T) {
	a := ready(t, examples.CorridorCabinet, "2026-11-26", "  start: 2026-03-02\n  deadline: 2026-04-20\n", "")
	b := ready(t, examples.CorridorCabinet, "", "  start: 2026-03-02\n  deadline: 2026-04-20\n", "")
	if a.Say != b.Say || !strings.Contains(a.Say, "on day ") || a.Verdict != Holds {
		t.Errorf("%s\n%s", a.Say, b.Say)
	}
	// A Monday as the file's own first day: the same number of days.
	if c := ready(t, examples.CorridorCabinet, "", "  deadline: 2026-04-20\n", ""); c.Figures[0] != a.Figures[0] {
		t.Errorf("%v and %v", c.Figures[0], a.Figures[0])
	}
	if d := ready(t, examples.CorridorCabinet, "", "  start: 2026-03-02\n", ""); d.Verdict != Unknown || !strings.Contains(d.Say, "budget.start") {
		t.Errorf("%v: %s", d.Verdict, d.Say)
	}
}

// What is done tells its own dates, and a day not used is a day lost.
func TestReadyAsThingsAreDone(t *testing.T) {
	const marks = "done:\n  - { step: order, on: 2026-03-03 }\n"
	data := append(append([]byte(nil), examples.CorridorCabinet...), marks...)
	a, b := ready(t, data, "2026-03-04"), ready(t, data, "2026-04-01")
	if a.Score <= b.Score {
		t.Errorf("%g days left on the 4th of March, %g on the 1st of April", a.Score, b.Score)
	}
	if c := ready(t, data, "2026-03-02"); c.Verdict != Unknown || !strings.Contains(c.Say, "in the future") {
		t.Errorf("%v: %s", c.Verdict, c.Say)
	}
}

func BenchmarkReady(b *testing.B) {
	e := trial.Resolved(b, examples.CorridorCabinet, enclosure.Resolve)
	s, err := NewSurvey(e)
	if err != nil {
		b.Fatal(err)
	}
	s.Ready(0)
	for b.Loop() {
		s.Ready(0)
	}
}
