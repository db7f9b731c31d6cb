package schedule

import (
	"cmp"
	"fmt"
	"slices"
	"sort"
)

// Item is a task with its times.
type Item struct {
	Task        string
	Start, End  Moment // of the work
	Finish      Moment // of the waiting
	Pieces      []Span // the work, cut at closed hours
	LatestStart Moment // beginning later moves the end of the project
	Slack       Moment // minutes from Start to LatestStart
	Held        Held
	Done, Under bool
}

// Plan is a project's tasks in time.
type Plan struct {
	Items  []Item // as listed in the project
	Finish Moment
	Late   Moment // minutes past the deadline; 0 if there is none or it is met
	Cuts   []Cut
}

// Make plans a project with everything lasting as long as is likely (side 0), as
// short (< 0) or as long (> 0) as may be. Errors wrap ErrInput: all that is wrong
// with figures, names and what is marked as done at once, or a CycleError, or the
// task that fits nowhere.
//
// Slack keeps what each resource does in the order of the plan. Where there are
// several of a resource it is a lower bound: each task is let wait for none that
// began after it.
func Make(p *Project, side int) (*Plan, error) {
	pl, err := newPlacer(p)
	if err != nil {
		return nil, err
	}
	pl.last(side)
	if i := pl.place(); i >= 0 {
		return nil, pl.neverFits(i)
	}
	return pl.plan(), nil
}

func (pl *placer) neverFits(i int) error {
	t := &pl.p.Tasks[i]
	e := &TaskError{Kind: NeverFits, Task: t.ID}
	switch most := pl.tracks[i].longest(); {
	case most == 0:
		e.Say = "there are no hours in which all it needs are there: give some"
	case t.Whole && most < pl.work[i]:
		e.Say = fmt.Sprintf("takes %s in one sitting, and the longest in which all it needs are there is %s: give a longer one or split the task", length(pl.work[i]), length(most))
	default:
		e.Say = "does not fit within ten years: give more hours"
	}
	return e
}

// length writes minutes as hours and minutes.
func length(m Moment) string {
	if m%60 == 0 {
		return fmt.Sprintf("%d h", m/60)
	}
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %d min", m/60, m%60)
}

func (pl *placer) plan() *Plan {
	out := &Plan{Items: make([]Item, len(pl.p.Tasks)), Finish: pl.now, Cuts: pl.cuts()}
	if len(pl.p.Tasks) > 0 {
		out.Finish = slices.Max(pl.finish)
	}
	if d := pl.p.Deadline; d != 0 {
		out.Late = max(out.Finish-d, 0)
	}
	late := pl.latest(out.Finish)
	for i, t := range pl.p.Tasks {
		it := Item{
			Task: t.ID, Start: pl.start[i], End: pl.end[i], Finish: pl.finish[i],
			LatestStart: late[i], Slack: late[i] - pl.start[i],
			Held: Held{By: pl.by[i]}, Done: pl.status[i] == done, Under: pl.status[i] == underWay,
		}
		if b := pl.behind[i]; b >= 0 {
			it.Held.Task = pl.p.Tasks[b].ID
		}
		switch s := (Span{it.Start, it.End}); {
		case s.From == s.To:
		case pl.tracks[i] == nil || pl.status[i] == done:
			it.Pieces = []Span{s}
		default:
			it.Pieces = pl.tracks[i].pieces(s)
		}
		out.Items[i] = it
	}
	return out
}

// latest returns the latest start of each task that leaves the end where it is.
func (pl *placer) latest(end Moment) []Moment {
	k := len(pl.p.Tasks)
	late := make([]Moment, k)
	// Later starts first; of equal ones, effects before causes.
	place := make([]int, k)
	for at, i := range pl.n.order {
		place[i] = at
	}
	order := slices.Clone(pl.n.order)
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(pl.start[b], pl.start[a]), cmp.Compare(pl.end[b], pl.end[a]), place[b]-place[a])
	})
	type turn struct{ start, late Moment } // late: the earliest latest start from here on
	turns := make([][]turn, len(pl.p.Resources))
	for _, i := range order {
		if pl.status[i] != toDo {
			late[i] = pl.start[i]
			continue
		}
		by := end - pl.wait[i]
		for _, l := range pl.n.next[i] {
			if b := late[l.task]; l.work {
				by = min(by, b)
			} else {
				by = min(by, b-pl.wait[i])
			}
		}
		for _, u := range pl.uses[i] {
			t := turns[u.resource]
			if n := sort.Search(len(t), func(k int) bool { return t[k].start < pl.end[i] }); n > 0 && pl.work[i] > 0 {
				by = min(by, t[n-1].late)
			}
		}
		late[i] = pl.start[i]
		if pl.tracks[i] == nil {
			late[i] = max(late[i], by-pl.work[i])
		} else if begin, ok := pl.tracks[i].late(by, pl.work[i], pl.p.Tasks[i].Whole); ok {
			late[i] = max(late[i], begin)
		}
		for _, u := range pl.uses[i] {
			if pl.work[i] > 0 {
				t, least := turns[u.resource], late[i]
				if n := len(t); n > 0 {
					least = min(least, t[n-1].late)
				}
				turns[u.resource] = append(t, turn{pl.start[i], least})
			}
		}
	}
	return late
}

// Chain returns the tasks that set the end, the first of them first: from the one
// that ends last back through what each waited for.
func (p *Plan) Chain() []string {
	at := make(map[string]int, len(p.Items))
	last := -1
	for i, it := range p.Items {
		at[it.Task] = i
		if last < 0 || it.Finish > p.Items[last].Finish {
			last = i
		}
	}
	var out []string
	for i := last; i >= 0; {
		it := &p.Items[i]
		out = append(out, it.Task)
		if it.Held.Task == "" {
			break
		}
		i = at[it.Held.Task]
	}
	slices.Reverse(out)
	return out
}
