package works

import (
	"cmp"
	"fmt"
	"slices"

	"rillwright/quantity"
	"rillwright/schedule"
	"rillwright/structure/cure"
)

// Line is a step with its times, as it is listed, told or drawn.
type Line struct {
	ID, Say                           string
	Why, Closes, Tools, CleanUp, Mark string
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

// Lines returns the steps of a work, planned, in the order of a list by day.
func Lines(w *Work, plan *schedule.Plan) []Line {
	chain := plan.Chain()
	out := make([]Line, len(plan.Items))
	for i := range plan.Items {
		it, s := &plan.Items[i], &w.Steps[i]
		l := Line{
			ID: it.Task, Say: s.Say,
			Why: s.Rule.Why, Closes: s.Rule.Closes, Tools: s.Rule.Tools, CleanUp: s.Rule.CleanUp, Mark: s.Rule.Mark,
			Hands: s.Rule.Hands, Work: s.Task.Work, Whole: s.Task.Whole,
			Start: it.Start, End: it.End, Finish: it.Finish, Pieces: it.Pieces, Slack: it.Slack,
			Sets: slices.Contains(chain, it.Task), Comes: s.Rule.ID == delivered, Done: it.Done, Under: it.Under,
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

// Next returns the first so many lines that somebody has to do, with what comes in
// between: those under way first, then by time.
func Next(lines []Line, most int) []Line {
	var out []Line
	n := 0
	for _, under := range []bool{true, false} {
		for i := range lines {
			l := &lines[i]
			if n == most {
				return out
			}
			if l.Done || l.Under != under {
				continue
			}
			out = append(out, *l)
			if !l.Comes {
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
	hands := "one pair"
	if l.Hands > 1 {
		hands = fmt.Sprintf("%d people", l.Hands)
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
		{"takes", l.Lasts()},
		{"wet sealant", l.Skins()},
		{ClosesOff, l.Closes},
		{"clean up", l.CleanUp},
		{"then it stands", stands},
	}
	return slices.DeleteFunc(all, func(t Tell) bool { return t.Say == "" })
}
