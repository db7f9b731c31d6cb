package works

import (
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/study"
)

// Both demos are planned from their files alone.
func TestPlanOfFiles(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e := trial.Resolved(t, file, enclosure.Resolve)
		w, err := Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), 0)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := w.Make(0)
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
		if _, err := w.Make(0); err != nil {
			b.Fatal(err)
		}
	}
}
