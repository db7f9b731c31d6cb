package works

import (
	"strings"
	"testing"

	"rillwright/schedule"
)

const glassComes = weekends + "  deliveries: [{ what: glass, takes: 8 working days }]"

// What is done stays where it was, what is not is planned from today, and what moved
// is told. With nothing moved nothing is said to have.
func TestPastIsKept(t *testing.T) {
	plan, err := planned(t, glassComes, "", "2026-03-01")
	before := made(t, plan, err)
	done := `done:
  - { step: order, on: 2026-03-07 }
  - { step: stand, begun: 2026-03-08 }
`
	w, err := planned(t, glassComes, done, "2026-03-08")
	it := made(t, w, err)
	if !it["order"].Done || it["order"].End.String() != "2026-03-07 17:00" {
		t.Errorf("ordered at %s", it["order"].End)
	}
	if s := it["stand"]; !s.Under || s.Start.String() != "2026-03-08 09:00" {
		t.Errorf("stand: %+v", s)
	}
	now := w.Project.Now
	for id, x := range it {
		if !x.Done && !x.Under && x.Start < now {
			t.Errorf("%s is planned for %s, before %s", id, x.Start, now)
		}
		if !x.Done && id != "delivery" && x.Start < before[id].Start-schedule.DayMinutes {
			t.Errorf("%s moved from %s to %s", id, before[id].Start, x.Start)
		}
	}
	// Ordered on a Saturday evening, eight working days: there when Wednesday the 18th
	// is over, from whatever day one looks before that.
	if d := it["delivery"]; !d.Under || d.Finish.String() != "2026-03-19 00:00" || d.Finish != before["delivery"].Finish {
		t.Errorf("glass comes at %s, planned for %s", d.Finish, before["delivery"].Finish)
	}
	late, err := planned(t, glassComes, done, "2026-04-12")
	itLate := made(t, late, err)
	p, err := late.Make(0)
	if err != nil {
		t.Fatal(err)
	}
	m, ok := late.Moved(p)
	if !ok || len(m.Shifts) == 0 || m.Shifts[0].Days < 28 || m.Was != made(t, plan, nil)["plant"].Finish {
		t.Errorf("%+v, %v", m, ok)
	}
	for _, s := range m.Shifts {
		for _, id := range s.Steps {
			d := int(itLate[id].Start.Day() - before[id].Start.Day())
			if id == "delivery" { // not there yet on the 12th of April: it may come that day
				d = int(itLate[id].Finish.Day() - before[id].Finish.Day())
			}
			if d != s.Days {
				t.Errorf("%s moved by %d, said to by %d", id, d, s.Days)
			}
		}
	}
	if m, ok := plan.Moved(p); ok {
		t.Errorf("nothing is done, and %+v moved", m)
	}
}

// Marks of one day stand in the order in which their steps must have come.
func TestMarksOfOneDay(t *testing.T) {
	w, err := planned(t, glassComes, `done:
  - { step: "plumb-dry: riser", on: 2026-03-29 14:00 }
  - { step: order, on: 2026-03-07 }
  - { step: delivery, on: 2026-03-14 }
  - { step: "temper: riser hole", on: 2026-03-14 }
  - { step: arris, on: 2026-03-14 16:00 }
  - { step: "drill: riser hole", on: 2026-03-14 }
  - { step: "fittings: riser hole", on: 2026-03-14 10:00 }
  - { step: "fittings: the hole of main drain", on: 2026-03-14 }
  - { step: "temper: the hole of main drain", on: 2026-03-14 }
  - { step: "drill: the hole of main drain", on: 2026-03-14 }
  - { step: dry-fit, on: 2026-03-15 }
  - { step: bond, on: 2026-03-15 13:00 }
  - { step: dam, on: 2026-03-15 }
  - { step: leak-test, on: 2026-03-21 }
  - { step: bulkhead, on: 2026-03-21 }
  - { step: stand, on: 2026-03-08 }
  - { step: sump, on: 2026-03-08 }
  - { step: cut-grid, on: 2026-03-08 }
`, "2026-04-01")
	it := made(t, w, err)
	if it["drill: riser hole"].Start < it["arris"].End || it["dry-fit"].End > it["bond"].Start {
		t.Errorf("drilled %s, arrissed %s, dry-fitted %s, bonded %s", it["drill: riser hole"].Start, it["arris"].End, it["dry-fit"].End, it["bond"].Start)
	}
	plan, err := w.Make(0)
	if err != nil {
		t.Fatal(err)
	}
	if cuts := w.Short(plan); len(cuts) != 0 {
		t.Errorf("cut short: %+v", cuts)
	}
}

// A cure that was not waited for is told.
func TestCutShort(t *testing.T) {
	marks := `done:
  - { step: order, on: 2026-03-07 }
  - { step: delivery, on: 2026-03-14 }
  - { step: arris, on: 2026-03-14 }
  - { step: "temper: riser hole", on: 2026-03-14 }
  - { step: "fittings: riser hole", on: 2026-03-14 }
  - { step: "fittings: the hole of main drain", on: 2026-03-14 }
  - { step: "temper: the hole of main drain", on: 2026-03-14 }
  - { step: "drill: riser hole", on: 2026-03-14 }
  - { step: "drill: the hole of main drain", on: 2026-03-14 }
  - { step: dry-fit, on: 2026-03-14 }
  - { step: bond, on: 2026-03-14 }
  - { step: dam, on: 2026-03-14 }
  - { step: bulkhead, on: 2026-03-15 10:00 }
  - { step: leak-test, begun: 2026-03-15 }
`
	w, err := planned(t, glassComes, marks, "2026-03-15")
	made(t, w, err)
	plan, err := w.Make(0)
	if err != nil {
		t.Fatal(err)
	}
	cuts := w.Short(plan)
	var said []string
	for _, c := range cuts {
		said = append(said, c.Task+" by "+c.By)
	}
	if got, want := strings.Join(said, ", "), "bond by bulkhead, dam by bulkhead, bond by leak-test, dam by leak-test"; got != want {
		t.Errorf("%s, not %s", got, want)
	}
}

func TestMarksThatCannotBe(t *testing.T) {
	for name, c := range map[string][2]string{
		"future":        {"done: [{ step: order, on: 2026-03-09 }]", "done[1].on: 2026-03-09 lies in the future, today is 2026-03-08"},
		"unknown":       {"done: [{ step: ordr, on: 2026-03-07 }]", `done[1].step: the plan has no step "ordr": did you mean "order"?`},
		"no one":        {"done: [{ step: drill, on: 2026-03-07 }]", `there are 2 steps "drill": write one of drill: the hole of main drain; drill: riser hole`},
		"before causes": {"done: [{ step: dry-fit, on: 2026-03-07 }]", "done[1]: dry-fit: marked as done or begun, but drill: the hole of main drain"},
		"with reasons":  {"done: [{ step: dry-fit, on: 2026-03-07 }]", "(drill: riser hole comes first: a pane is drilled lying flat, and one that breaks is still replaced)"},
		"too soon":      {"done: [{ step: stand, on: 2026-03-07 }, { step: sump, on: 2026-03-06 }]", "done[2]: sump: begun at 2026-03-06"},
	} {
		w, err := planned(t, glassComes, c[0], "2026-03-08")
		if err == nil {
			_, err = w.Make(0)
		}
		if err == nil || !strings.Contains(err.Error(), c[1]) || !strings.HasPrefix(err.Error(), "line ") {
			t.Errorf("%s: %v", name, err)
		}
	}
	// Where nobody says what day it is, nothing lies in the future.
	e, err := planned(t, glassComes, "done: [{ step: order, on: 2099-03-09 }]", "1970-01-01")
	if err != nil || e.Project.Now.Day().String() != "2099-03-09" {
		t.Error(err)
	}
}

// All that comes before a step is listed, each behind what comes before it.
func TestBefore(t *testing.T) {
	w, err := planned(t, glassComes, "done: [{ step: order, on: 2026-03-07 }]", "2026-03-08")
	if err != nil {
		t.Fatal(err)
	}
	got := w.Before("drill: riser hole")
	want := "delivery, fittings: riser hole, arris, temper: riser hole" // not what the other hole waits for
	list := map[string]bool{}
	for _, id := range got {
		list[id] = true
	}
	for id := range strings.SplitSeq(want, ", ") {
		if !list[id] {
			t.Errorf("%s is missing of %v", id, got)
		}
	}
	if len(got) != 4 || list["order"] {
		t.Errorf("%v", got)
	}
}

// Marking steps done when they were planned moves nothing, however many they are.
func TestDoneAsPlannedMovesNothing(t *testing.T) {
	w, err := planned(t, glassComes, "", "2026-03-01")
	if err != nil {
		t.Fatal(err)
	}
	_, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []int{1, 5, 12, 18, 25, len(lines)} {
		var marks strings.Builder
		marks.WriteString("done:\n")
		today := ""
		for i := range lines[:k] {
			l := &lines[i]
			marks.WriteString("  - { step: \"" + l.ID + "\", begun: " + l.Start.String() + ", on: " + l.End.String() + " }\n")
			today = max(today, l.End.Day().String())
		}
		again, err := planned(t, glassComes, marks.String(), today)
		if err != nil {
			t.Fatal(err)
		}
		plan, after, err := Planned(again)
		if err != nil {
			t.Fatal(err)
		}
		m, ok := again.Moved(plan)
		if !ok || len(m.Shifts) > 0 || m.Was != plan.Finish {
			t.Errorf("%d steps done: %+v, the end %s", k, m, plan.Finish)
		}
		if cuts := again.Short(plan); len(cuts) > 0 {
			t.Errorf("%d steps done: cut short %+v", k, cuts)
		}
		for i := range after {
			if l := &after[i]; !l.Done && !l.Comes && l.Start < again.Project.Now {
				t.Errorf("%d steps done: %s is planned before now", k, after[i].ID)
			}
		}
	}
}

// builtTo marks all steps as done in the order of the plan, up to one and with it, an hour
// apart, on its planned days.
func builtTo(t *testing.T, last string) (marks string, end schedule.Moment) {
	t.Helper()
	w, err := planned(t, glassComes, "", "2026-03-01")
	if err != nil {
		t.Fatal(err)
	}
	_, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("done:\n")
	for i := range lines {
		l := &lines[i]
		if !l.Idle() || l.Comes {
			b.WriteString("  - { step: \"" + l.ID + "\", begun: " + l.Start.String() + ", on: " + l.End.String() + " }\n")
		}
		if l.ID == last {
			return b.String(), l.End
		}
	}
	t.Fatalf("no step %s", last)
	return "", 0
}

// What only waits has no mark, nor has what was done after it: a bonded grid bears five
// days after it was bonded, from whatever day one looks. What loads it sooner is told,
// and a mark says when it was over.
func TestGridBearsByItself(t *testing.T) {
	marks, end := builtTo(t, "bond-grid")
	for _, later := range []schedule.Day{2, 40} {
		w, err := planned(t, glassComes, marks, (end.Day() + later).String())
		if err != nil {
			t.Fatal(err)
		}
		plan, lines, err := Planned(w)
		if err != nil {
			t.Fatal(err)
		}
		for i := range lines {
			if l := &lines[i]; l.ID == "grid-bears" && (l.Start != end || l.Finish < end+5*schedule.DayMinutes || l.Finish > end+6*schedule.DayMinutes || l.Done != (later == 40) || l.Under != (later == 2)) {
				t.Errorf("%d days later: %+v", later, l)
			}
		}
		if cuts := w.Short(plan); len(cuts) > 0 {
			t.Errorf("cut short: %+v", cuts)
		}
	}
	marks, end = builtTo(t, "commission")
	if strings.Contains(marks, "grid-bears") {
		t.Error("grid-bears is marked")
	}
	w, err := planned(t, glassComes, marks, end.Day().String())
	made(t, w, err)
	if got := w.Before("plant"); len(got) > 0 {
		t.Errorf("%v is to be marked", got)
	}
	marks, end = builtTo(t, "bond-grid")
	w, err = planned(t, glassComes, marks+"  - { step: grid-bears, on: "+(end.Day()+3).String()+" 12:00 }\n", (end.Day() + 3).String())
	if b := made(t, w, err)["grid-bears"]; !b.Done || b.Start != end || b.Finish != (end.Day()+3).At(12*60) {
		t.Errorf("%+v", b)
	}
}
