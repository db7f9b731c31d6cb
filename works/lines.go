package works

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

// Line is a step with its times, as it is listed, told or drawn.
type Line struct {
	ID, Say                           string
	Why, Closes, Tools, CleanUp, Mark string
	After                             []Reason
	Hands                             int
	Work                              schedule.Lasting // hands-on, s
	Whole                             bool             // in one sitting
	Start, End                        schedule.Moment  // of the work
	Finish                            schedule.Moment  // of what it then stands
	Pieces                            []schedule.Span  // the work, by sitting
	Slack                             schedule.Moment  // by which it may begin later, minutes
	Sets                              bool             // it is one of those that set the end
	Comes                             bool             // it is delivered, not done: nobody works on it
	Done, Under                       bool
	// By is the joint whose sealant sets how long it stands, "" where practice does.
	By string
	// Open is how long its fresh sealant may be worked on, s; 0 where there is none.
	Open quantity.Band[quantity.Duration]
}

// Reason is why a line comes after others.
type Reason struct {
	Rule  string   // of those others
	Steps []string // their IDs
	Why   string   // "" where the table does not say
}

// reasons gathers the causes of a step by rule and reason.
func (w *Work) reasons(s *Step) []Reason {
	var out []Reason
	for i, c := range s.Task.After {
		r := Reason{Rule: w.rule(c.Task), Why: s.Because[i]}
		k := slices.IndexFunc(out, func(x Reason) bool { return x.Rule == r.Rule && x.Why == r.Why })
		if k < 0 {
			k, out = len(out), append(out, r)
		}
		out[k].Steps = append(out[k].Steps, c.Task)
	}
	return out
}

// rule returns that of a step.
func (w *Work) rule(id string) string {
	k := slices.IndexFunc(w.Steps, func(s Step) bool { return s.Task.ID == id })
	if k < 0 {
		return id
	}
	return w.Steps[k].Rule.ID
}

// Since tells what a line comes after and why, "" where nothing is told.
func (l *Line) Since() string {
	var say []string
	for _, r := range l.After {
		if r.Why != "" {
			say = append(say, r.Rule+": "+r.Why)
		}
	}
	return strings.Join(say, "; ")
}

// Idle reports whether nobody works on a step: it comes by itself, or only stands.
func (l *Line) Idle() bool { return l.Comes || l.Work.High == 0 }

// At is where a line stands in a list by day: what is delivered when it comes, all
// else when it begins.
func (l *Line) At() schedule.Moment {
	if l.Comes {
		return l.Finish
	}
	return l.Start
}

// Planned plans a work as is likely. Errors are those of Make.
func Planned(w *Work) (*schedule.Plan, []Line, error) {
	plan, err := w.Make(0)
	if err != nil {
		return nil, nil, err
	}
	return plan, Lines(w, plan), nil
}

// PlanLikely makes the steps of a design and plans them as is likely; today is the
// first day where the file gives none. Errors are those of Plan and schedule.Make.
func PlanLikely(e *enclosure.Enclosure, today schedule.Day) (*Work, *schedule.Plan, []Line, error) {
	brim := e.Pool.DamTop - e.Pool.Floor
	w, err := Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), brim)), today)
	if err != nil {
		return nil, nil, nil, err
	}
	plan, lines, err := Planned(w)
	return w, plan, lines, err
}

// Lines returns the steps of a work, planned, in the order of a list by day.
func Lines(w *Work, plan *schedule.Plan) []Line {
	chain := plan.Chain()
	out := make([]Line, len(plan.Items))
	for i := range plan.Items {
		it, s := &plan.Items[i], &w.Steps[i]
		l := Line{
			ID: it.Task, Say: s.Say, After: w.reasons(s),
			Why: s.Rule.Why, Closes: s.Rule.Closes, Tools: s.Rule.Tools, CleanUp: s.Rule.CleanUp, Mark: s.Rule.Mark,
			Hands: s.Rule.Hands, Work: s.Task.Work, Whole: s.Task.Whole,
			Start: it.Start, End: it.End, Finish: it.Finish, Pieces: it.Pieces, Slack: it.Slack,
			Sets: slices.Contains(chain, it.Task), Comes: s.Rule.ID == delivered, Done: it.Done, Under: it.Under,
		}
		if s.waits() && !l.Done && it.Start < w.Project.Now && len(w.Project.Done) > 0 { // by itself
			l.Done, l.Under = it.Finish <= w.Project.Now, it.Finish > w.Project.Now
		}
		if s.ByCure {
			l.By = s.Thing.By
		}
		if s.Rule.Wet {
			l.Open = cure.Open(w.Air)
		}
		out[i] = l
	}
	slices.SortStableFunc(out, func(a, b Line) int { return cmp.Compare(a.At(), b.At()) })
	return out
}

// Next returns the first so many lines that somebody has to do, with what comes or
// stands in between: what somebody has begun first, then by time.
func Next(lines []Line, most int) []Line {
	var out []Line
	n := 0
	for _, under := range []bool{true, false} {
		for i := range lines {
			l := &lines[i]
			if n == most {
				return out
			}
			if l.Done || (l.Under && !l.Idle()) != under {
				continue
			}
			out = append(out, *l)
			if !l.Idle() {
				n++
			}
		}
	}
	return out
}

// Skins tells how long a line's fresh sealant may be worked on, "" where there is
// none.
func (l *Line) Skins() string {
	if l.Open.High == 0 {
		return ""
	}
	return fmt.Sprintf("skins %.0f to %.0f min after it is laid: no touching after that", float64(l.Open.Low)/60, float64(l.Open.High)/60)
}

// Lasts tells how long the work takes.
func (l *Line) Lasts() string {
	unit, name := 3600.0, "h"
	if l.Work.High < 3600 {
		unit, name = 60, "min"
	}
	in := func(d quantity.Duration) string { return fmt.Sprintf("%.2g", float64(d)/unit) }
	say := in(l.Work.Likely) + " " + name
	if l.Work.Low != l.Work.High {
		say += fmt.Sprintf(" (%s to %s)", in(l.Work.Low), in(l.Work.High))
	}
	switch {
	case l.Whole:
		say += ", in one sitting"
	case len(l.Pieces) > 1:
		say += fmt.Sprintf(", in %d sittings", len(l.Pieces))
	}
	return say
}

// ClosesOff is what a Tell is about that says what cannot be reached or undone after.
const ClosesOff = "closes off"

// Tell is one thing to be known of a line.
type Tell struct{ About, Say string }

// Tells lists what is to be known of a line at the bench, in the order in which it
// is wanted; what there is none of is left out.
func (l *Line) Tells() []Tell {
	hands, lasts := "one pair", l.Lasts()
	if l.Hands > 1 {
		hands = fmt.Sprintf("%d people", l.Hands)
	}
	if l.Idle() {
		hands, lasts = "", ""
	}
	stands := ""
	if l.Finish > l.End {
		stands = "until " + l.Finish.Day().Named() + ", " + l.Finish.Clock()
		if l.By != "" {
			stands += ", for the sealant of " + l.By
		}
	}
	all := []Tell{
		{"why", l.Why},
		{"tools", l.Tools},
		{"hands", hands},
		{"takes", lasts},
		{"wet sealant", l.Skins()},
		{ClosesOff, l.Closes},
		{"clean up", l.CleanUp},
		{"then it stands", stands},
	}
	return slices.DeleteFunc(all, func(t Tell) bool { return t.Say == "" })
}

// AtOnce is how many things to do stand on one card for the bench.
const AtOnce = 3

// Stands tells how long a step's waiting is, in days.
func (s *Step) Stands() string {
	return fmt.Sprintf("%s, %.0f to %.0f days", s.Say, s.Task.Wait.Low/86400, s.Task.Wait.High/86400)
}

// Rows is a plan as a table, its first row the names of the columns, then a line a
// row.
func Rows(lines []Line) [][]string {
	rows := [][]string{{"id", "step", "start", "end", "stands until", "may wait (days)", "people", "tools", "why", "closes off", "clean up", "times from"}}
	for i := range lines {
		l := &lines[i]
		rows = append(rows, []string{
			l.ID, l.Say, l.Start.String(), l.End.String(), l.Finish.String(),
			strconv.FormatFloat(float64(l.Slack)/schedule.DayMinutes, 'g', 3, 64), strconv.Itoa(l.Hands), l.Tools, l.Why, l.Closes, l.CleanUp, l.Mark,
		})
	}
	return rows
}
