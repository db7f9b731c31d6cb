package works

import (
	"cmp"
	"fmt"
	"slices"

	"rillwright/schedule"
)

// Shift is how far steps that are not done have moved.
type Shift struct {
	Days  int      // later; sooner if < 0
	Steps []string // IDs, by time
}

// Moved is what has moved since nothing was done.
type Moved struct {
	Was    schedule.Moment // the end as it was planned
	Shifts []Shift         // of whole days, the largest first
}

// Moved compares a plan with the one that was made before anything was done. ok is
// false if nothing is marked as done.
func (w *Work) Moved(plan *schedule.Plan) (m Moved, ok bool) {
	if len(w.Project.Done) == 0 {
		return m, false
	}
	p := *w.Project
	p.Done, p.Now = nil, 0
	was, err := schedule.Make(&p, 0)
	if err != nil { // what fits with its past fits without
		return m, false
	}
	m.Was = was.Finish
	by := map[int][]*schedule.Item{}
	for i := range plan.Items {
		it := &plan.Items[i]
		d := int(it.Start.Day() - was.Items[i].Start.Day())
		switch s := &w.Steps[i]; {
		case it.Done:
			continue
		case s.Rule.ID == delivered: // under way since it was ordered
			d = int(it.Finish.Day() - was.Items[i].Finish.Day())
		case it.Under, s.waits() && it.Start < w.Project.Now:
			continue
		}
		if d != 0 {
			by[d] = append(by[d], it)
		}
	}
	for days, list := range by {
		slices.SortStableFunc(list, func(a, b *schedule.Item) int {
			return cmp.Or(cmp.Compare(a.Start, b.Start), cmp.Compare(a.Task, b.Task))
		})
		s := Shift{Days: days}
		for _, it := range list {
			s.Steps = append(s.Steps, it.Task)
		}
		m.Shifts = append(m.Shifts, s)
	}
	slices.SortFunc(m.Shifts, func(a, b Shift) int { return cmp.Compare(b.Days, a.Days) })
	return m, true
}

// Days tells how many days something is later or sooner.
func Days(later int) string {
	n, word := later, "later"
	if later < 0 {
		n, word = -later, "sooner"
	}
	if n == 1 {
		return word + " by 1 day"
	}
	return fmt.Sprintf("%s by %d days", word, n)
}

// Gains lists what brings the end forward, see schedule.Gains, but for what no builder
// can have: a shop that delivers on more days.
func (w *Work) Gains() ([]schedule.Gain, error) {
	list, err := schedule.Gains(w.Project)
	if err != nil {
		return nil, fmt.Errorf("works: %w", err)
	}
	return slices.DeleteFunc(list, func(g schedule.Gain) bool { return g.Resource == Shop }), nil
}

// Buys tells what a gain changes, in words that follow "sooner by so many days:".
func (w *Work) Buys(g schedule.Gain) string {
	switch {
	case g.Resource != "":
		return "the " + g.Resource + " on " + schedule.Day(4 + g.Weekday).Named()[:3] + " as long as on the longest day"
	case g.Sooner:
		return g.Task + " a day sooner"
	}
	return g.Task + " at its shortest"
}

// Before returns the steps that come before one, directly or not, and are not marked,
// in the order of the plan. What only waits need not be.
func (w *Work) Before(id string) []string {
	need := map[string]bool{}
	var walk func(id string)
	walk = func(id string) {
		for _, t := range w.Project.Tasks {
			if t.ID != id {
				continue
			}
			for _, c := range t.After {
				if !need[c.Task] {
					need[c.Task] = true
					walk(c.Task)
				}
			}
		}
	}
	walk(id)
	var out []string
	for i := range w.Steps {
		t := w.Steps[i].Task.ID
		if _, marked := w.marks[t]; need[t] && !marked && !w.Steps[i].waits() {
			out = append(out, t)
		}
	}
	// What comes stands behind what waits for it in the list.
	slices.SortStableFunc(out, func(a, b string) int {
		return cmp.Compare(w.depth(a, map[string]int{}), w.depth(b, map[string]int{}))
	})
	return out
}

// depth is how many steps one after the other come before a step, at most.
func (w *Work) depth(id string, known map[string]int) int {
	if d, ok := known[id]; ok {
		return d
	}
	d := 0
	for _, t := range w.Project.Tasks {
		if t.ID != id {
			continue
		}
		for _, c := range t.After {
			d = max(d, 1+w.depth(c.Task, known))
		}
	}
	known[id] = d
	return d
}

// Marked returns the number, from 1, of the mark of a step in the list done; 0 if
// it has none. begun says that it is under way.
func (w *Work) Marked(id string) (number, line int, begun bool) {
	k, ok := w.marks[id]
	if !ok {
		return 0, 0, false
	}
	return k.number, k.entry.Pos.Line, !k.entry.On.Given()
}
