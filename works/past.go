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

// timed gives each mark its moments. One without time of day is put at the end of
// the builder's hours of that day, but not before what it comes after nor after
// what it comes before of the same day.
func (w *Work) timed() []schedule.Done {
	index := map[string]int{}
	next := map[string][]string{}
	for i, t := range w.Project.Tasks {
		index[t.ID] = i
		for _, c := range t.After {
			next[c.Task] = append(next[c.Task], t.ID)
		}
	}
	known := map[string]schedule.Done{}
	// first is the earliest moment of a day at which something that comes after a
	// task is marked with its time.
	type when struct {
		id  string
		day schedule.Day
	}
	seen := map[when]schedule.Moment{}
	var first func(id string, day schedule.Day) schedule.Moment
	first = func(id string, day schedule.Day) schedule.Moment {
		if m, ok := seen[when{id, day}]; ok {
			return m
		}
		m := (day + 1).At(0)
		for _, n := range next[id] {
			if k, ok := w.marks[n]; ok {
				for _, f := range []design.Field[design.Stamp]{k.entry.Begun, k.entry.On} {
					if f.Given() && f.Value.Timed && dayOf(f.Value) == day {
						m = min(m, day.At(f.Value.Minute))
					}
				}
			}
			m = min(m, first(n, day))
		}
		seen[when{id, day}] = m
		return m
	}
	var place func(id string)
	place = func(id string) {
		k, marked := w.marks[id]
		if _, placed := known[id]; placed || !marked {
			return
		}
		d := schedule.Done{Task: id, Under: !k.entry.On.Given()}
		var over, stood schedule.Moment // when the work of all causes is over, and what they wait
		for _, c := range w.Project.Tasks[index[id]].After {
			place(c.Task)
			if x, ok := known[c.Task]; ok && !x.Under {
				over = max(over, x.End)
				if stood = max(stood, x.End); !c.Work {
					wait := w.Project.Tasks[index[c.Task]].Wait.Likely
					stood = max(stood, x.End+schedule.Moment(wait/60))
				}
			}
		}
		moment := func(s design.Stamp, opening bool) schedule.Moment {
			day := dayOf(s)
			if s.Timed {
				return day.At(s.Minute)
			}
			m := w.closing(day, opening)
			m = min(m, first(id, day))
			if over.Day() == day {
				m = max(m, over)
			}
			return m
		}
		if k.entry.Begun.Given() {
			d.Start = moment(k.entry.Begun.Value, true)
		}
		if w.Steps[index[id]].waits() { // on is when its waiting was over
			if !k.entry.Begun.Given() {
				d.Start = stood
			}
			d.End = d.Start
			if !d.Under {
				d.Over = max(moment(k.entry.On.Value, false), d.End)
			}
			d.Under = false
			known[id] = d
			return
		}
		if !d.Under {
			d.End = moment(k.entry.On.Value, false)
			if !k.entry.Begun.Given() {
				d.Start = d.End
			}
			d.Start = min(d.Start, d.End)
		}
		known[id] = d
	}
	var out []schedule.Done
	for _, t := range w.Project.Tasks {
		place(t.ID)
		if d, ok := known[t.ID]; ok {
			out = append(out, d)
		}
	}
	return out
}

// onTheWay lets what is delivered, and not marked as there, come since it was ordered:
// since the steps before it were done, or since the first day where none are. Once
// anything is marked, it would begin today otherwise. What is there by its days and not
// marked is taken to come today.
func (w *Work) onTheWay() {
	known := map[string]schedule.Done{}
	for _, d := range w.Project.Done {
		known[d.Task] = d
	}
	for i := range w.Steps {
		t := &w.Project.Tasks[i]
		if _, marked := known[t.ID]; marked || len(known) == 0 || w.Steps[i].Rule.ID != delivered || t.Work.High == 0 {
			continue
		}
		since, ordered := w.Project.Start, true
		for _, c := range t.After {
			d, is := known[c.Task]
			ordered = ordered && is && !d.Under
			since = max(since, d.End)
		}
		if ordered && since <= w.Project.Now {
			w.Project.Done = append(w.Project.Done, schedule.Done{Task: t.ID, Start: since, Under: true})
		}
	}
}

// closing is when the builder ends on a day, or opens it; 18:00 and 9:00 where the
// calendar has no hours. Assumed.
func (w *Work) closing(day schedule.Day, opening bool) schedule.Moment {
	hours := w.Project.Resources[0].Hours.On(day)
	if len(hours) == 0 {
		if opening {
			return day.At(9 * 60)
		}
		return day.At(18 * 60)
	}
	from, to := hours[0].From, hours[0].To
	for _, h := range hours {
		from, to = min(from, h.From), max(to, h.To)
	}
	if opening {
		return day.At(from)
	}
	return day.At(to)
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
			list[i] = at(k.path, k.entry.Pos.Line, one)
		}
	}
	return nil, errors.Join(list...)
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
