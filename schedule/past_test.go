package schedule

import (
	"errors"
	"strings"
	"testing"

	"rillwright/quantity"
)

const hour = quantity.Duration(3600)

func exactly(d quantity.Duration) Lasting { return quantity.Exactly(d) }

// bench is a small build: drill, bond, leak test, foam; and a stand beside them.
func bench() *Project {
	start, _ := DayOf(2026, 3, 2)
	me := []Need{{Resource: "builder"}}
	return &Project{
		Start:     start.At(0),
		Resources: []Resource{{Name: "builder", Hours: evenings(), Count: 1}},
		Tasks: []Task{
			{ID: "drill", Work: exactly(2 * hour), Needs: me, Earliest: (start + 3).At(0)},
			{ID: "bond", Work: exactly(3 * hour), Wait: Lasting{Low: 48 * hour, Likely: 96 * hour, High: 168 * hour}, After: []Cause{{Task: "drill"}}, Needs: me, Whole: true},
			{ID: "leak test", Work: exactly(hour), Wait: exactly(48 * hour), After: []Cause{{Task: "bond"}}, Needs: me},
			{ID: "stand", Work: exactly(2 * hour), Needs: me},
		},
	}
}

// By hand: Monday 2 March; the stand waits for nothing, on Tuesday; glass on
// Thursday, drilled 18:30 to 20:30; 3 h in one sitting on Saturday from 9:00; 96 h
// on, Wednesday noon, tested on Thursday 12 March, dry on Saturday at 19:30.
func TestBenchByHand(t *testing.T) {
	plan, err := Make(bench(), 0)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{
		"2026-03-05 18:30 to 2026-03-05 20:30", "2026-03-07 09:00 to 2026-03-07 12:00",
		"2026-03-12 18:30 to 2026-03-12 19:30", "2026-03-03 18:30 to 2026-03-03 20:30",
	} {
		if got := plan.Items[i].Start.String() + " to " + plan.Items[i].End.String(); got != want {
			t.Errorf("%s: %s, not %s", plan.Items[i].Task, got, want)
		}
	}
	if got := strings.Join(plan.Chain(), ", "); plan.Finish.String() != "2026-03-14 19:30" || got != "drill, bond, leak test" {
		t.Errorf("ends %s by %s", plan.Finish, got)
	}
	// Bonded by 15:00 on Saturday or so, it is all the same on Thursday.
	if s := plan.Items[1].Slack; s != 5*60 {
		t.Errorf("bond may wait %d min", s)
	}
}

func TestPastThatCannotBe(t *testing.T) {
	d := bench().Start.Day()
	for _, c := range []struct {
		name string
		done []Done
		kind Kind
		task string
		says string
	}{
		{"before its cause is marked", []Done{{Task: "bond", Start: d.At(600), End: d.At(700)}}, BeforeCause, "bond", "drill"},
		{"before its cause had ended", []Done{{Task: "drill", Start: d.At(600), End: d.At(700)}, {Task: "bond", Start: d.At(650), End: d.At(800)}}, BeforeCause, "bond", "2026-03-02 11:40"},
		{"while its cause is under way", []Done{{Task: "drill", Start: d.At(600), Under: true}, {Task: "bond", Start: d.At(650), End: d.At(800)}}, BeforeCause, "bond", "under way"},
		{"in the future", []Done{{Task: "drill", Start: d.At(600), End: (d + 9).At(0)}}, InFuture, "drill", "after now"},
		{"begun in the future", []Done{{Task: "drill", Start: (d + 9).At(0), Under: true}}, InFuture, "drill", "after now"},
		{"backwards", []Done{{Task: "drill", Start: d.At(600), End: d.At(500)}}, BadFigures, "drill", "before it began"},
		{"twice", []Done{{Task: "drill", Start: d.At(0), End: d.At(1)}, {Task: "drill", Start: d.At(0), End: d.At(1)}}, BadFigures, "drill", "twice"},
		{"of no task", []Done{{Task: "dril", Start: d.At(0), End: d.At(1)}}, Unknown, "dril", "no task"},
	} {
		p := bench()
		p.Now, p.Done = (d + 1).At(0), c.done
		_, err := Make(p, 0)
		var e *TaskError
		if !errors.As(err, &e) || !errors.Is(err, ErrInput) || e.Kind != c.kind || e.Task != c.task || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestFiguresThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Project)
		kind   Kind
		says   string
	}{
		"unknown cause":    {func(p *Project) { p.Tasks[0].After = []Cause{{Task: "order"}} }, Unknown, "order"},
		"unknown resource": {func(p *Project) { p.Tasks[0].Needs = []Need{{Resource: "crane"}} }, Unknown, "crane"},
		"too many hands":   {func(p *Project) { p.Tasks[0].Needs[0].Count = 2 }, NeverFits, "there are 1"},
		"falling band":     {func(p *Project) { p.Tasks[0].Wait = Lasting{Low: 2, Likely: 1, High: 3} }, BadFigures, "waiting must rise"},
		"no sitting":       {func(p *Project) { p.Tasks[1].Work = exactly(9 * hour) }, NeverFits, "9 h in one sitting, and the longest in which all it needs are there is 8 h"},
		"no hours":         {func(p *Project) { p.Resources[0].Hours = Calendar{} }, NeverFits, "no hours"},
		"hours past a day": {func(p *Project) { p.Resources[0].Hours.Week[0] = []Hours{{1200, 1500}} }, BadFigures, "1500"},
		"two of a name":    {func(p *Project) { p.Tasks[3].ID = "drill" }, BadFigures, "two tasks"},
		"too long":         {func(p *Project) { p.Tasks[0].Work = exactly(2e5 * hour) }, NeverFits, "ten years"},
	} {
		p := bench()
		c.change(p)
		_, err := Make(p, 0)
		var e *TaskError
		if !errors.As(err, &e) || e.Kind != c.kind || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestLateAndWhatBuysDays(t *testing.T) {
	p := bench()
	start := p.Start.Day()
	p.Deadline = (start + 11).At(0) // Friday 13 March
	before, err := Make(p, 0)
	if err != nil || before.Late != DayMinutes+19*60+30 {
		t.Fatal(before, err)
	}
	gains, err := Gains(p)
	if err != nil || len(gains) == 0 {
		t.Fatal(gains, err)
	}
	// Cured in 48 h the test is on Tuesday, two days sooner. A Wednesday as long as
	// the Saturday: glass comes on Thursday all the same; tested on Wednesday from
	// noon, which is a day and 6.5 h sooner.
	if g := gains[0]; g.Task != "bond" || g.Minutes != 2*DayMinutes {
		t.Errorf("most is bought by %+v", g)
	}
	found := false
	for _, g := range gains {
		found = found || g.Resource == "builder" && g.Weekday == 2 && g.Minutes == DayMinutes+6*60+30
	}
	if !found {
		t.Errorf("no Wednesday in %+v", gains)
	}
	// Drilled a week late, bonded into the test's evening: all that follows moves.
	p.Now = (start + 13).At(0)
	p.Done = []Done{{Task: "drill", Start: (start + 10).At(18 * 60), End: (start + 10).At(21 * 60)}}
	after, err := Make(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	moved := map[string]Moment{}
	for _, m := range Moves(before, after) {
		moved[m.Task] = m.Start
	}
	if len(moved) != 4 || moved["drill"] != 7*DayMinutes-30 || moved["leak test"] <= 7*DayMinutes {
		t.Errorf("moved by %v", moved)
	}
	// A leak test after a day of cure is told, not refused.
	p.Done = append(p.Done, Done{Task: "bond", Start: (start + 11).At(0), End: (start + 11).At(180)}, Done{Task: "leak test", Start: (start + 12).At(180), Under: true})
	cut, err := Make(p, 0)
	if err != nil || len(cut.Cuts) != 1 || cut.Cuts[0] != (Cut{"bond", "leak test", 72 * 60, true}) {
		t.Error(cut, err)
	}
}

// What only waits runs from the end of what it waits for, though nobody marks it, and
// need not be marked for what comes after it. By hand: bonded on Saturday 7 March until
// noon, it bears five days later, on Thursday; seen from the Tuesday after, 17 March,
// that is past, and the load goes on that evening. Marked as over after three days it
// is over then, and whoever loads it a day after it was bonded is told.
func TestWaitingGoesByItself(t *testing.T) {
	p := bench()
	p.Tasks = append(p.Tasks,
		Task{ID: "bears", Wait: Lasting{Low: 96 * hour, Likely: 120 * hour, High: 168 * hour}, After: []Cause{{Task: "bond", Work: true}}},
		Task{ID: "load", Work: exactly(hour), After: []Cause{{Task: "bears"}}, Needs: []Need{{Resource: "builder"}}})
	d := p.Start.Day()
	at := func(day Day, hour int) Moment { return (d + day).At(60 * hour) }
	p.Now = at(15, 0)
	p.Done = []Done{{Task: "drill", Start: at(3, 18), End: at(3, 20)}, {Task: "bond", Start: at(5, 9), End: at(5, 12)}, {Task: "stand", Start: at(1, 18), End: at(1, 20)}}
	plan, err := Make(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	if b, l := plan.Items[4], plan.Items[5]; b.Start != at(5, 12) || b.Finish != at(10, 12) || l.Start.Day() != d+15 {
		t.Errorf("bears from %s to %s, loaded %s", b.Start, b.Finish, l.Start)
	}
	p.Now = at(6, 12)
	p.Done = append(p.Done, Done{Task: "load", Start: at(6, 9), End: at(6, 10)})
	if plan, err = Make(p, 0); err != nil || len(plan.Cuts) != 1 || plan.Cuts[0] != (Cut{"bears", "load", 99 * 60, true}) {
		t.Error(plan, err)
	}
	p.Done[1] = Done{Task: "bond", Start: at(5, 9), Under: true}
	var wrong *TaskError
	if _, err = Make(p, 0); !errors.As(err, &wrong) || wrong.Kind != BeforeCause || wrong.Task != "load" || !strings.Contains(wrong.Say, "bond, which comes before it, is still under way") {
		t.Error(err)
	}
	p.Now = at(9, 0)
	p.Done[1] = Done{Task: "bond", Start: at(5, 9), End: at(5, 12)}
	p.Done[3] = Done{Task: "bears", Start: at(5, 12), End: at(5, 12), Over: at(8, 12)}
	if plan, err = Make(p, 0); err != nil || plan.Items[4].Finish != at(8, 12) || plan.Items[5].Start.Day() != d+10 {
		t.Error(plan, err)
	}
	p.Done[3].Over = at(4, 12)
	if _, err = Make(p, 0); !errors.As(err, &wrong) || wrong.Task != "bears" || !strings.Contains(wrong.Say, "before it began") {
		t.Error(err)
	}
	p.Done[3].Over = at(9, 12)
	if _, err = Make(p, 0); !errors.As(err, &wrong) || wrong.Kind != InFuture {
		t.Error(err)
	}
}
