package works

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"rillwright/design"
	"rillwright/finding"
	"rillwright/schedule"
)

// mark is an entry of done.
type mark struct {
	entry  *design.DoneStep
	number int    // in the list, from 1
	path   string // done[2]
}

// past takes over the marks of a design. The error names every one that is for no
// step or lies in the future. Where today is not known, 0, it is the last day marked.
func (w *Work) past(d *design.Design, today schedule.Day) error {
	known := today != 0
	w.marks = map[string]mark{}
	for i := range d.Done {
		for _, f := range []design.Field[design.Stamp]{d.Done[i].On, d.Done[i].Begun} {
			if !known && f.Given() {
				today = max(today, dayOf(f.Value))
			}
		}
	}
	var errs []error
	for i := range d.Done {
		s := &d.Done[i]
		path := fmt.Sprintf("done[%d]", i+1)
		id, err := w.StepNamed(s.Step.Value)
		if err != nil {
			errs = append(errs, at(path+".step", s.Step.Pos.Line, err))
			continue
		}
		for key, f := range map[string]design.Field[design.Stamp]{"on": s.On, "begun": s.Begun} {
			if !f.Given() {
				continue
			}
			if day := dayOf(f.Value); day > today {
				errs = append(errs, at(path+"."+key, f.Pos.Line, fmt.Errorf("%s lies in the future, today is %s: mark a step when it is done", f.Value, today)))
			}
		}
		w.marks[id] = mark{s, i + 1, path}
	}
	slices.SortFunc(errs, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
	if len(errs) > 0 {
		return errors.Join(errs...)
	}
	w.Project.Done = w.timed()
	if len(w.Project.Done) == 0 {
		return nil
	}
	now := today.At(0)
	for _, x := range w.Project.Done {
		now = max(now, x.Start, x.End, x.Over)
	}
	w.Project.Now = now
	return nil
}

// StepNamed returns the ID of the step that a word names: its ID, in any case of
// letters. The error offers the nearest, or those of one kind.
func (w *Work) StepNamed(word string) (string, error) {
	word = strings.TrimSpace(word)
	var all, kind []string
	for i := range w.Steps {
		id := w.Steps[i].Task.ID
		if strings.EqualFold(id, word) {
			return id, nil
		}
		all = append(all, id)
		if strings.EqualFold(w.Steps[i].Rule.ID, word) {
			kind = append(kind, id)
		}
	}
	near, ok := finding.Nearest(word, all)
	switch {
	case len(kind) > 0:
		return "", fmt.Errorf("there are %d steps %q: write one of %s", len(kind), word, strings.Join(kind, "; "))
	case ok:
		return "", fmt.Errorf("the plan has no step %q: did you mean %q?", word, near)
	}
	return "", fmt.Errorf("the plan has no step %q: its steps are %s", word, strings.Join(all, "; "))
}

// Today is the day of a time, where the clock on the wall shows it.
func Today(t time.Time) schedule.Day {
	y, m, d := t.Date()
	day, _ := schedule.DayOf(y, int(m), d)
	return day
}

func dayOf(s design.Stamp) schedule.Day {
	d, _ := schedule.ParseDay(s.Day) // reading the file has looked at it
	return d
}

// Make plans the work, see schedule.Make; errors about marked steps name line and
// key of the mark.
func (w *Work) Make(side int) (*schedule.Plan, error) {
	plan, err := schedule.Make(w.Project, side)
	if err == nil {
		return plan, nil
	}
	var joined interface{ Unwrap() []error }
	list := []error{err}
	if errors.As(err, &joined) {
		list = joined.Unwrap()
	}
	for i, one := range list {
		var t *schedule.TaskError
		if !errors.As(one, &t) {
			continue
		}
		if k, ok := w.marks[t.Task]; ok {
			if why := w.why(t.Task, t.Cause); why != "" {
				one = fmt.Errorf("%w (%s comes first: %s)", one, t.Cause, why)
			}
			list[i] = at(k.path, k.entry.Pos.Line, one)
		}
	}
	return nil, errors.Join(list...)
}

// why tells why a step comes after a cause, "" where the table does not say.
func (w *Work) why(id, cause string) string {
	for i := range w.Steps {
		for k, c := range w.Steps[i].Task.After {
			if w.Steps[i].Task.ID == id && c.Task == cause {
				return w.Steps[i].Because[k]
			}
		}
	}
	return ""
}

// Short returns the waitings that were cut short for sure: by more than a mark
// without time of day leaves open.
func (w *Work) Short(plan *schedule.Plan) []schedule.Cut {
	var out []schedule.Cut
	for _, c := range plan.Cuts {
		open := schedule.Moment(0)
		for _, id := range []string{c.Task, c.By} {
			if k, ok := w.marks[id]; ok && !k.entry.On.Value.Timed {
				open = schedule.DayMinutes
			}
		}
		if c.Short > open {
			out = append(out, c)
		}
	}
	return out
}
