package schedule

import (
	"errors"
	"fmt"
	"slices"
)

// past takes over what has happened, and says what cannot have.
func (pl *placer) past() error {
	var errs []error
	fault := func(k Kind, task, say string, args ...any) {
		errs = append(errs, &TaskError{Kind: k, Task: task, Say: fmt.Sprintf(say, args...)})
	}
	for _, d := range pl.p.Done {
		i, ok := pl.n.index[d.Task]
		switch {
		case !ok:
			fault(Unknown, d.Task, "marked as done, and no task has this name")
			continue
		case pl.status[i] != toDo:
			fault(BadFigures, d.Task, "marked as done twice")
			continue
		case d.Start > pl.now:
			fault(InFuture, d.Task, "marked as begun at %s, which is after now, %s", d.Start, pl.now)
		case !d.Under && d.End > pl.now:
			fault(InFuture, d.Task, "marked as done at %s, which is after now, %s", d.End, pl.now)
		case d.Over > pl.now:
			fault(InFuture, d.Task, "its waiting marked as over at %s, which is after now, %s", d.Over, pl.now)
		case !d.Under && d.End < d.Start:
			fault(BadFigures, d.Task, "ended at %s, before it began at %s", d.End, d.Start)
		case d.Over != 0 && d.Over < d.End:
			fault(BadFigures, d.Task, "its waiting marked as over at %s, before it began at %s", d.Over, d.End)
		}
		pl.start[i], pl.end[i], pl.over[i], pl.status[i] = d.Start, d.End, d.Over, done
		if d.Under {
			pl.status[i] = underWay
		}
	}
	for i, t := range pl.p.Tasks {
		if pl.status[i] == toDo {
			continue
		}
		for _, j := range pl.marked(i, nil) {
			cause := pl.p.Tasks[j].ID
			say := ""
			switch {
			case pl.status[j] == toDo:
				say = fmt.Sprintf("marked as done or begun, but %s, which comes before it, is not: mark that too, or take this mark away", cause)
			case pl.status[j] == underWay:
				say = fmt.Sprintf("marked as done or begun, but %s, which comes before it, is still under way", cause)
			case pl.start[i] < pl.end[j]:
				say = fmt.Sprintf("begun at %s, but %s, which comes before it, ended at %s", pl.start[i], cause, pl.end[j])
			}
			if say != "" {
				errs = append(errs, &TaskError{Kind: BeforeCause, Task: t.ID, Say: say, Cause: cause})
			}
		}
	}
	return errors.Join(errs...)
}

// byItself says whether a task needs nobody: it only waits for what went before.
func (t *Task) byItself() bool {
	return t.Work.High == 0 && len(t.Needs) == 0 && len(t.After) > 0 && t.Earliest == 0
}

// marked lists the causes of a task that have to be marked before it is: those of what
// goes by itself in its place.
func (pl *placer) marked(i int, list []int) []int {
	for _, l := range pl.n.after[i] {
		if pl.status[l.task] == toDo && pl.p.Tasks[l.task].byItself() {
			list = pl.marked(l.task, list)
		} else if !slices.Contains(list, l.task) {
			list = append(list, l.task)
		}
	}
	return list
}

// Cut is a waiting that was cut short by what came after it.
type Cut struct {
	Task  string // whose waiting
	By    string // what was begun too soon
	Short Moment // minutes missing of the likely waiting
	Sure  bool   // less than the shortest waiting there may be
}

// cuts finds waitings that were cut short.
func (pl *placer) cuts() []Cut {
	var out []Cut
	for i, t := range pl.p.Tasks {
		if pl.status[i] == toDo {
			continue
		}
		for _, l := range pl.n.after[i] {
			cause := &pl.p.Tasks[l.task]
			had := pl.start[i] - pl.end[l.task]
			if short := minutes(cause.Wait.Likely) - had; !l.work && short > 0 {
				out = append(out, Cut{cause.ID, t.ID, short, had < minutes(cause.Wait.Low)})
			}
		}
	}
	return out
}
