package works

import (
	"slices"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/quantity"
	"rillwright/schedule"
)

// week is the week of a build in which a step begins, counted from its first day.
func week(w *Work, at schedule.Moment) int { return int(at.Day()-w.Project.Start.Day())/7 + 1 }

// The calendar of the cabinet was made by hand before there was a program: order and
// stand in week 1, drilled and bonded in week 2, leak test in week 3, grid, plumbing
// and wet run in week 4, two layers of foam and carving in week 5, coat and flush in
// weeks 5 and 6, commissioned and planted in week 7, 4 days before the deadline, a
// Thursday. Each step is in that week; the end lies two days after the hand's, since
// commissioning and planting take 6.5 hours as is likely and two evenings have 6.
func TestCabinetByHand(t *testing.T) {
	w := demo(t, examples.CorridorCabinet)
	plan, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	hand := map[string][2]int{
		"order": {1, 1}, "stand": {1, 1}, "drill": {2, 2}, "bond": {2, 2}, "dam": {2, 2}, "leak-test": {3, 3},
		"bond-grid": {4, 4}, "plumb-dry": {4, 4}, "solvent": {4, 4}, "wet-run": {4, 4}, "foam": {5, 5}, "carve": {5, 5},
		"coat": {5, 6}, "flush": {5, 6}, "commission": {7, 7}, "plant": {7, 7},
	}
	seen := map[string]bool{}
	for i := range lines {
		rule, _, _ := strings.Cut(lines[i].ID, ":")
		want, ok := hand[rule]
		if !ok {
			continue
		}
		seen[rule] = true
		if got := week(w, lines[i].Start); got < want[0] || got > want[1] {
			t.Errorf("%s in week %d (%s), by hand in %d to %d", lines[i].ID, got, lines[i].Start, want[0], want[1])
		}
	}
	if len(seen) != len(hand) {
		t.Errorf("%d of %d kinds of step", len(seen), len(hand))
	}
	byHand := w.Project.Deadline.Day() - 4
	if d := plan.Finish.Day() - byHand; d < 0 || d > 2 {
		t.Errorf("done %s, %d days after the hand's %s", plan.Finish, d, byHand)
	}
}

// By hand, glass that comes three working days late costs three days. But it comes on
// a Friday for the Saturday on which it is bonded: with one day more that is lost, and
// the next on which panes can be drilled, fitted and bonded is a week later.
func TestLateGlass(t *testing.T) {
	w := demo(t, examples.CorridorCabinet)
	plan, _, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	for _, more := range []quantity.Duration{1, 3} {
		late := *w.Project
		late.Tasks = slices.Clone(late.Tasks)
		for i := range late.Tasks {
			if x := &late.Tasks[i]; x.ID == "delivery" {
				d := x.Work.Likely + more*86400
				x.Work = schedule.Lasting{Low: d, Likely: d, High: d}
			}
		}
		after, err := schedule.Make(&late, 0)
		if err != nil {
			t.Fatal(err)
		}
		if d := after.Finish.Day() - plan.Finish.Day(); d != 7 {
			t.Errorf("%g days late: done %s, %d days later than %s", more, after.Finish, d, plan.Finish)
		}
	}
}

// The calendar of the counter wall by hand: drilled and dammed in week 1, leak test in
// week 3, wet run in week 4, foam in weeks 4 and 5, flush in weeks 6 and 7, planted in
// week 8. By hand every cure in the cold garage takes a week and half again, 10.5
// days. Planned with that for the dam, the end is in week 8; with what the dam's own
// width asks for, 7 days as is likely, it stands a weekend sooner, and the hand's end
// lies before the one that is kept nine times in ten.
func TestCounterByHand(t *testing.T) {
	for _, c := range []struct {
		name      string
		dam       float64 // days, 0 for those of its clock
		leak, end int     // weeks
	}{{"by the joint's width", 0, 2, 7}, {"by hand", 10.5, 3, 8}} {
		w := demo(t, examples.CounterWall)
		for i := range w.Project.Tasks {
			if x := &w.Project.Tasks[i]; x.ID == "dam" && c.dam > 0 {
				d := quantity.Duration(c.dam * 86400)
				x.Wait = schedule.Lasting{Low: d, Likely: d, High: d}
			}
		}
		plan, lines, err := Planned(w)
		if err != nil {
			t.Fatal(err)
		}
		for i := range lines {
			l := &lines[i]
			want := map[string]int{"drill: riser hole": 1, "dam": 1, "leak-test": c.leak, "plant": c.end}[l.ID]
			if got := week(w, l.Start); want > 0 && got != want {
				t.Errorf("%s: %s in week %d (%s), not %d", c.name, l.ID, got, l.Start, want)
			}
		}
		byHand := w.Project.Start.Day() + 8*7 - 1 // the end of week 8
		chances, err := schedule.Draw(w.Project, 2000, 1)
		if err != nil {
			t.Fatal(err)
		}
		if late, ok := chances.Quantile(0.9); !ok || plan.Finish.Day() > byHand || late.Day() < byHand-6 {
			t.Errorf("%s: likely %s, nine times in ten by %s, by hand by %s", c.name, plan.Finish, late, byHand)
		}
	}
}
