package works

import (
	"reflect"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/study"
)

func TestHours(t *testing.T) {
	evening, day := parts["evenings"], wholeDay
	for text, want := range map[string][7][]schedule.Hours{
		"Tuesday and Thursday evenings, Saturdays": {1: {evening}, 3: {evening}, 5: {day}},
		"weekends":                          {5: {day}, 6: {day}},
		"weekends 10:00-16:30, Friday 9-12": {5: {{From: 600, To: 990}}, 6: {{From: 600, To: 990}}, 4: {{From: 540, To: 720}}},
	} {
		week, _, err := Hours(text)
		if err != nil || !reflect.DeepEqual(week.Week, want) {
			t.Errorf("%q: %v, %v", text, week.Week, err)
		}
	}
	for text, says := range map[string]string{
		"Tusday evenings":      `"tusday"`,
		"evenings":             "name a day first",
		"":                     "no hours",
		"Saturday 17:00-9:00":  "earlier to a later",
		"Saturday 9:00-25:00":  `"9:00-25:00"`,
		"Saturday 9:00-24:30":  "one day",
		"Saturday, when I can": `"when"`,
	} {
		if week, _, err := Hours(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, %v", text, week.Week, err)
		}
	}
	for text, want := range map[string]int{"8 working days for glass": 8, "2 weeks": 14, "1 day": 1} {
		if n, working, err := Delivery(text); n != want || working != strings.Contains(text, "working") || err != nil {
			t.Errorf("%q: %d, %v, %v", text, n, working, err)
		}
	}
	for _, text := range []string{"soon", "-1 days", "8", "3 months", "2 working weeks"} {
		if n, _, err := Delivery(text); err == nil {
			t.Errorf("%q: %d", text, n)
		}
	}
}

// Both demos are planned from their files alone.
func TestPlanOfFiles(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e := trial.Resolved(t, file, enclosure.Resolve)
		w, err := Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), 0)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := schedule.Make(w.Project, 0)
		if err != nil {
			t.Fatal(err)
		}
		for i, it := range plan.Items {
			if w.Steps[i].Rule.ID == "delivery" && (it.Finish-it.Start < 8*schedule.DayMinutes || it.Finish > w.Project.Start+14*schedule.DayMinutes) {
				t.Errorf("glass comes from %s to %s", it.Start, it.Finish)
			}
			for _, c := range w.Project.Tasks[i].After {
				if c.Task == "order" && it.Task != "delivery" {
					t.Errorf("%s waits for the order, not for the glass", it.Task)
				}
			}
		}
		t.Logf("%s: %s, late %d min", e.Name, plan.Finish, plan.Late)
	}
}

func BenchmarkPlanOfDemo(b *testing.B) {
	e := trial.Resolved(b, examples.CorridorCabinet, enclosure.Resolve)
	joints := study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15))
	for b.Loop() {
		w, err := Plan(e, joints, 0)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := schedule.Make(w.Project, 0); err != nil {
			b.Fatal(err)
		}
	}
}
