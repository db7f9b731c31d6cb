package works

import (
	"rillwright/design"
	"rillwright/schedule"
)

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
