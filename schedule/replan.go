package schedule

import (
	"cmp"
	"slices"
)

// Move is a task that two plans put at different times.
type Move struct {
	Task       string
	Start, End Moment // minutes later in the second plan; sooner if < 0
	Finish     Moment
	Gone, New  bool // it stands in one plan alone
}

// Moves returns what differs between two plans, in the order of the second one's
// list, what is gone after it.
func Moves(before, after *Plan) []Move {
	was := make(map[string]*Item, len(before.Items))
	for i := range before.Items {
		was[before.Items[i].Task] = &before.Items[i]
	}
	var out []Move
	for _, it := range after.Items {
		old, ok := was[it.Task]
		if !ok {
			out = append(out, Move{Task: it.Task, New: true})
			continue
		}
		delete(was, it.Task)
		if m := (Move{Task: it.Task, Start: it.Start - old.Start, End: it.End - old.End, Finish: it.Finish - old.Finish}); m.Start != 0 || m.End != 0 || m.Finish != 0 {
			out = append(out, m)
		}
	}
	for _, it := range before.Items {
		if was[it.Task] != nil {
			out = append(out, Move{Task: it.Task, Gone: true})
		}
	}
	return out
}

// Gain is a change that brings the end forward.
type Gain struct {
	Task     string // this task takes its low end, or comes a day sooner
	Resource string // or this one is there on a weekday more, as long as on its longest
	Weekday  int
	Sooner   bool   // the day before the task's earliest moment, not its low end
	Minutes  Moment // by how much
}

// Gains tries, one at a time, what might bring the end forward: each task that
// sets the end at its low end or let begin a day sooner, and each resource on one
// weekday more. The largest gain stands first. Errors are those of Make.
func Gains(p *Project) ([]Gain, error) {
	base, err := Make(p, 0)
	if err != nil {
		return nil, err
	}
	var out []Gain
	try := func(g Gain, q *Project) {
		if plan, err := Make(q, 0); err == nil && plan.Finish < base.Finish {
			g.Minutes = base.Finish - plan.Finish
			out = append(out, g)
		}
	}
	chain := base.Chain()
	for i, t := range p.Tasks {
		if base.Items[i].Done || !slices.Contains(chain, t.ID) {
			continue
		}
		q := *p
		q.Tasks = slices.Clone(p.Tasks)
		low := t
		low.Work.Likely, low.Wait.Likely = t.Work.Low, t.Wait.Low
		q.Tasks[i] = low
		try(Gain{Task: t.ID}, &q)
		if t.Earliest != 0 {
			early := t
			early.Earliest -= DayMinutes
			q.Tasks[i] = early
			try(Gain{Task: t.ID, Sooner: true}, &q)
		}
	}
	for i, r := range p.Resources {
		longest := slices.MaxFunc(r.Hours.Week[:], func(a, b []Hours) int { return cmp.Compare(open(a), open(b)) })
		for w, hours := range r.Hours.Week {
			if r.Hours.Only || open(hours) >= open(longest) {
				continue
			}
			q := *p
			q.Resources = slices.Clone(p.Resources)
			q.Resources[i].Hours.Week[w] = longest
			try(Gain{Resource: r.Name, Weekday: w}, &q)
		}
	}
	slices.SortStableFunc(out, func(a, b Gain) int { return cmp.Compare(b.Minutes, a.Minutes) })
	return out, nil
}

// open returns how many minutes hours have; those that overlap count twice.
func open(hours []Hours) int {
	n := 0
	for _, h := range hours {
		n += h.To - h.From
	}
	return n
}
