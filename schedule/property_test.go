package schedule

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rillwright/quantity"
)

// evenings has Tuesday and Thursday 18:30 to 21:30 and Saturday 9:00 to 17:00.
func evenings() Calendar {
	var c Calendar
	c.Week[1] = []Hours{{18*60 + 30, 21*60 + 30}}
	c.Week[3] = c.Week[1]
	c.Week[5] = []Hours{{9 * 60, 17 * 60}}
	return c
}

func drawLasting(t *rapid.T, name string, most int) Lasting {
	low := rapid.IntRange(0, most).Draw(t, name)
	likely := low + rapid.IntRange(0, most/2).Draw(t, name)
	high := likely + rapid.IntRange(0, most/2).Draw(t, name)
	return Lasting{Low: quantity.Duration(low * 60), Likely: quantity.Duration(likely * 60), High: quantity.Duration(high * 60)}
}

func drawProject(t *rapid.T) *Project {
	start, _ := DayOf(2026, 3, 2)
	helper := Calendar{Only: true, Days: map[Day][]Hours{}}
	for k := range 200 {
		helper.Days[start+Day(7*k+5)] = []Hours{{10 * 60, 16 * 60}}
	}
	me := evenings()
	me.Days = map[Day][]Hours{start + 5: nil, start + 15: {{7 * 60, 12 * 60}, {11 * 60, 14 * 60}}}
	p := &Project{Start: start.At(rapid.IntRange(0, DayMinutes-1).Draw(t, "start")), Resources: []Resource{
		{Name: "builder", Hours: me, Count: 1},
		{Name: "helper", Hours: helper, Count: 1},
		{Name: "clamps", Hours: Always(), Count: 3},
		{Name: "shop", Hours: evenings()},
	}}
	n := rapid.IntRange(1, 25).Draw(t, "tasks")
	for i := range n {
		task := Task{ID: fmt.Sprint(i), Work: drawLasting(t, "work", 150), Wait: drawLasting(t, "wait", 5000), Whole: rapid.Bool().Draw(t, "whole")}
		for _, r := range []Need{{"builder", 1}, {"helper", 0}, {"clamps", rapid.IntRange(1, 3).Draw(t, "clamps")}, {"shop", 5}} {
			if rapid.IntRange(0, 2).Draw(t, "need") == 0 {
				task.Needs = append(task.Needs, r)
			}
		}
		if rapid.IntRange(0, 3).Draw(t, "only waits") == 0 {
			task.Work, task.Needs = Lasting{}, nil
		}
		for range rapid.IntRange(0, 2).Draw(t, "causes") {
			if i > 0 {
				task.After = append(task.After, Cause{Task: fmt.Sprint(rapid.IntRange(0, i-1).Draw(t, "cause")), Work: rapid.Bool().Draw(t, "only work")})
			}
		}
		if rapid.IntRange(0, 4).Draw(t, "bound") == 0 {
			task.Earliest = p.Start + Moment(rapid.IntRange(0, 20000).Draw(t, "earliest"))
		}
		p.Tasks = append(p.Tasks, task)
	}
	// The list need not be in the order of causes.
	p.Tasks = rapid.Permutation(p.Tasks).Draw(t, "listed")
	return p
}

// faults counts minute by minute and cause by cause, knowing nothing of how plans
// are made. The start and the end of each task's work are given.
func faults(p *Project, start, end []Moment, side int) []string {
	var out []string
	say := func(f string, a ...any) { out = append(out, fmt.Sprintf(f, a...)) }
	index := map[string]int{}
	for i, t := range p.Tasks {
		index[t.ID] = i
	}
	for i, t := range p.Tasks {
		if start[i] < p.Start || start[i] < t.Earliest {
			say("%s begins too early", t.ID)
		}
		for _, c := range t.After {
			j := index[c.Task]
			over := end[j]
			if !c.Work {
				over += minutes(p.Tasks[j].Wait.At(side))
			}
			if start[i] < over {
				say("%s begins %d min before %s is over", t.ID, over-start[i], c.Task)
			}
		}
		var worked Moment
		for m := start[i]; m < end[i]; m++ {
			if there(p, t, m) {
				worked++
			} else if t.Whole {
				say("%s is interrupted", t.ID)
				break
			}
		}
		if want := minutes(t.Work.At(side)); worked < want {
			say("%s has %d min of %d", t.ID, worked, want)
		}
	}
	for _, r := range p.Resources {
		for i, t := range p.Tasks {
			if r.Count == 0 || end[i] == start[i] {
				continue
			}
			taken := 0
			for j, u := range p.Tasks {
				if start[j] <= start[i] && start[i] < end[j] {
					for _, need := range u.Needs {
						if need.Resource == r.Name {
							taken += max(need.Count, 1)
						}
					}
				}
			}
			if taken > r.Count {
				say("%d of %d %s at the start of %s", taken, r.Count, r.Name, t.ID)
			}
		}
	}
	return out
}

func there(p *Project, t Task, m Moment) bool {
	for _, need := range t.Needs {
		for _, r := range p.Resources {
			if r.Name == need.Resource && !slices.ContainsFunc(r.Hours.On(m.Day()), func(h Hours) bool { return h.From <= m.Minute() && m.Minute() < h.To }) {
				return false
			}
		}
	}
	return true
}

func TestPlansHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProject(t)
		side := rapid.IntRange(-1, 1).Draw(t, "side")
		plan, err := Make(p, side)
		if err != nil {
			t.Fatal(err)
		}
		var start, end, late, lateEnd []Moment
		pl, _ := newPlacer(p)
		for i, it := range plan.Items {
			start, end = append(start, it.Start), append(end, it.End)
			if it.Finish != it.End+minutes(p.Tasks[i].Wait.At(side)) || it.Finish > plan.Finish {
				t.Errorf("%s: waiting of %d min, end of all %d min later", it.Task, it.Finish-it.End, plan.Finish-it.Finish)
			}
			var worked Moment
			for _, s := range it.Pieces {
				worked += s.To - s.From
			}
			if want := minutes(p.Tasks[i].Work.At(side)); worked != want {
				t.Errorf("%s: pieces of %d min, not %d", it.Task, worked, want)
			}
			pl.work[i] = minutes(p.Tasks[i].Work.At(side))
			span, ok := pl.fit(i, it.LatestStart, p.Tasks[i].Whole)
			if !ok || span.To+minutes(p.Tasks[i].Wait.At(side)) > plan.Finish {
				t.Errorf("%s at its latest start ends %d min after all", it.Task, span.To-plan.Finish)
			}
			late, lateEnd = append(late, it.LatestStart), append(lateEnd, span.To)
		}
		for _, f := range faults(p, start, end, side) {
			t.Error(f)
		}
		// What slack means: all may begin as late as they may.
		for _, f := range faults(p, late, lateEnd, side) {
			t.Error("at the latest: " + f)
		}
		if again, _ := Make(p, side); fmt.Sprint(again) != fmt.Sprint(plan) {
			t.Error("planned otherwise the second time")
		}
	})
}

// Nothing has changed when all has gone by the plan, whenever one looks.
func TestReplanUnchanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProject(t)
		plan, err := Make(p, 0)
		if err != nil {
			t.Fatal(err)
		}
		q := *p
		waits := rapid.Bool().Draw(t, "waits are marked") // what goes by itself need not be
		q.Now = p.Start + Moment(rapid.IntRange(0, int(plan.Finish-p.Start)).Draw(t, "now"))
		for i, it := range plan.Items {
			switch {
			case !waits && p.Tasks[i].byItself():
			case it.End <= q.Now:
				q.Done = append(q.Done, Done{Task: it.Task, Start: it.Start, End: it.End})
			case it.Start < q.Now:
				q.Done = append(q.Done, Done{Task: it.Task, Start: it.Start, Under: true})
			}
		}
		again, err := Make(&q, 0)
		if err != nil {
			t.Fatal(err)
		}
		if m := Moves(plan, again); len(m) > 0 || again.Finish != plan.Finish || len(again.Cuts) > 0 {
			t.Errorf("moved %+v, cut short %+v", m, again.Cuts)
		}
	})
}

// A ring laid through a random project is found, and is one.
func TestRingIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProject(t)
		members := rapid.SliceOfNDistinct(rapid.IntRange(0, len(p.Tasks)-1), 1, min(5, len(p.Tasks)), rapid.ID).Draw(t, "ring")
		for k, i := range members {
			before := members[(k+len(members)-1)%len(members)]
			p.Tasks[i].After = append(p.Tasks[i].After, Cause{Task: p.Tasks[before].ID})
		}
		_, err := Make(p, 0)
		ring := (*CycleError)(nil)
		if !errors.As(err, &ring) || !errors.Is(err, ErrInput) {
			t.Fatalf("no ring: %v", err)
		}
		for k, id := range ring.Tasks {
			before := ring.Tasks[(k+len(ring.Tasks)-1)%len(ring.Tasks)]
			i := slices.IndexFunc(p.Tasks, func(t Task) bool { return t.ID == id })
			if !slices.ContainsFunc(p.Tasks[i].After, func(c Cause) bool { return c.Task == before }) {
				t.Errorf("%s does not wait for %s: %v", id, before, err)
			}
		}
	})
}
