package works

import (
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

func steps(t testing.TB, file []byte, air cure.Air) []Step {
	t.Helper()
	rules, err := Read(Usual())
	if err != nil {
		t.Fatal(err)
	}
	e := trial.Resolved(t, file, enclosure.Resolve)
	things, err := Find(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), Steady(air))
	if err != nil {
		t.Fatal(err)
	}
	return Steps(rules, things)
}

func hours(from, to int) []schedule.Hours { return []schedule.Hours{{From: from * 60, To: to * 60}} }

func project(t testing.TB, list []Step, start string, week schedule.Calendar) *schedule.Project {
	t.Helper()
	day, err := schedule.ParseDay(start)
	if err != nil {
		t.Fatal(err)
	}
	p := &schedule.Project{Start: day.At(0), Resources: []schedule.Resource{
		{Name: Builder, Hours: week, Count: 1}, {Name: Helper, Hours: week, Count: 1},
	}}
	for _, s := range list {
		p.Tasks = append(p.Tasks, s.Task)
	}
	return p
}

// The calendars of the two demos were made by hand: 7 weeks for the cabinet (glass
// after 8 working days, Tuesday and Thursday evenings and Saturdays, 4 days of
// slack), running water and plants in week 8 for the counter wall (weekends). Here the
// waits are likely ones, not the shortest, and order begins on the first free evening:
// within a week or so of that is as near as the two can be.
func TestDemoCalendars(t *testing.T) {
	list := steps(t, examples.CorridorCabinet, cure.Air{Celsius: 18, Humidity: 0.5})
	week := schedule.Calendar{}
	week.Week[1] = []schedule.Hours{{From: 18*60 + 30, To: 21*60 + 30}}
	week.Week[3], week.Week[5] = week.Week[1], hours(9, 17)
	p := project(t, list, "2026-03-02", week)
	for i := range p.Tasks {
		if p.Tasks[i].ID == "order" { // ordered on the first Tuesday, 10 days with two weekends
			p.Tasks[i].Wait = schedule.Lasting{Low: 10 * 86400, Likely: 10 * 86400, High: 10 * 86400}
		}
	}
	plan, err := schedule.Make(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	first, last := p.Start.Day()+6*7, p.Start.Day()+8*7
	if plan.Finish.Day() < first || plan.Finish.Day() > last {
		t.Errorf("cabinet: planted %s by %v", plan.Finish, plan.Chain())
	}
	t.Logf("cabinet: %d steps, planted %s by %v", len(list), plan.Finish, plan.Chain())

	list = steps(t, examples.CounterWall, cure.Air{Celsius: 10, Humidity: 0.5})
	week = schedule.Calendar{}
	week.Week[5], week.Week[6] = hours(9, 17), hours(9, 17)
	p = project(t, list, "2026-02-28", week)
	plan, err = schedule.Make(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, it := range plan.Items {
		if list[i].Rule.ID != "plant" {
			continue
		}
		first, last = p.Start.Day()+6*7, p.Start.Day()+8*7
		if it.Start.Day() < first || it.Start.Day() > last {
			t.Errorf("counter wall: planted %s by %v", it.Start, plan.Chain())
		}
		t.Logf("counter wall: %d steps, planted %s", len(list), it.Start)
	}
}

// What is there makes steps, what is not makes none, and order goes through it.
func TestStepsFollowTheDesign(t *testing.T) {
	list := steps(t, examples.CorridorCabinet, cure.Usual())
	count := map[string]int{}
	after := map[string][]schedule.Cause{}
	for _, s := range list {
		count[s.Rule.ID]++
		after[s.Task.ID] = s.Task.After
		if strings.Contains(s.Say, "%") || s.Rule.Mark == "" {
			t.Errorf("%s: %q, %q", s.Task.ID, s.Say, s.Rule.Mark)
		}
	}
	for id, want := range map[string]int{"drill": 2, "temper": 2, "arris": 1, "bond": 1, "dam": 1, "foam": 2, "coat": 1, "cut-grid": 1, "animals": 0, "order": 1, "leak-test": 1, "quarantine": 2} {
		if count[id] != want {
			t.Errorf("%s: %d steps, not %d", id, count[id], want)
		}
	}
	rules, _ := Read(Usual())
	bare := Steps(rules, Things{"build": {{Name: "bare"}}, "hole": {{Name: "one"}}})
	for _, s := range bare {
		if s.Task.ID == "leak-test" && (len(s.Task.After) != 1 || s.Task.After[0].Task != "drill") {
			t.Errorf("without joints the leak test comes after %v", s.Task.After)
		}
		if s.Task.ID == "wet-run" && (len(s.Task.After) != 1 || s.Task.After[0].Task != "leak-test") {
			t.Errorf("without a grid the wet run comes after %v", s.Task.After)
		}
	}
}

func TestRulesThatCannotBe(t *testing.T) {
	head := strings.Join(columns, ",") + "\n"
	for name, c := range map[string][2]string{
		"other columns": {"id,each\n", "fields"},
		"other names":   {strings.Replace(head, "say", "said", 1), "first line"},
		"no kind":       {head + "a,roof,Do,,,,,1,no,1,0,no,assumed,no,\n", "line 2: each"},
		"three hands":   {head + "a,build,Do,,,,,3,no,1,0,no,assumed,no,\n", "hands"},
		"falling":       {head + "a,build,Do,,,,,1,no,3 2 1,0,no,assumed,no,\n", "work"},
		"two figures":   {head + "a,build,Do,,,,,1,no,1,1 2,no,assumed,no,\n", "wait"},
		"not below":     {head + "a,build,Do,b,,,,1,no,1,0,no,assumed,no,\nb,build,Do,,,,,1,no,1,0,no,assumed,no,\n", "does not stand above"},
		"twice":         {head + "a,build,Do,,,,,1,no,1,0,no,assumed,no,\na,build,Do,,,,,1,no,1,0,no,assumed,no,\n", "twice"},
		"maybe":         {head + "a,build,Do,,,,,1,maybe,1,0,no,assumed,no,\n", "whole"},
		"two names":     {head + "a,build,%s %s,,,,,1,no,1,0,no,assumed,no,\n", "say"},
	} {
		if _, err := Read(c[0]); err == nil || !strings.Contains(err.Error(), c[1]) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
