package workbench

import (
	"fmt"
	"math"
	"net/http"
	"slices"

	"rillwright"
	"rillwright/design"
	"rillwright/document"
	"rillwright/schedule"
	"rillwright/study"
	"rillwright/works"
)

// planRequest asks for the order of work of a text, as of a day: 2026-11-26.
type planRequest struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	Today string `json:"today"`
}

// planReply is the order of work. Places in time are days from the first one.
type planReply struct {
	Days     float64    `json:"days"` // how long it is, to what is last of end and deadline
	Ticks    []tick     `json:"ticks"`
	Deadline *float64   `json:"deadline,omitempty"`
	Steps    []planStep `json:"steps"`
	Next     []string   `json:"next"`  // ids of what comes next
	Says     []string   `json:"says"`  // about the end
	Taken    []string   `json:"taken"` // where the file says nothing
}

// tick is a Monday, or the first day.
type tick struct {
	At   float64 `json:"at"`
	Name string  `json:"name"`
}

// planStep is one step with its times.
type planStep struct {
	ID     string       `json:"id"`
	Say    string       `json:"say"`
	When   string       `json:"when"`
	Pieces [][2]float64 `json:"pieces"` // its work, by sitting
	End    float64      `json:"end"`    // of its work
	Finish float64      `json:"finish"` // of what it then stands
	Slack  float64      `json:"slack"`  // by which it may wait
	Sets   bool         `json:"sets"`   // the end
	Comes  bool         `json:"comes"`  // it is delivered
	Done   bool         `json:"done"`
	Under  bool         `json:"under"` // way
	Tells  []told       `json:"tells"`
	Closes string       `json:"closes"` // what cannot be reached or changed after it
	Lost   []lostPart   `json:"lost"`   // which parts of the scene that is about
	// Mark notes in the file that it is done today, with all that comes before it,
	// Before, which is not marked either; or takes its mark away, if it is Done. None
	// for what is delivered.
	Mark   []design.Edit `json:"mark"`
	Before []string      `json:"before"`
}

type told struct {
	About string `json:"about"`
	Say   string `json:"say"`
}

// lostPart names a part of the scene.
type lostPart struct {
	Kind  string `json:"kind"`
	Name  string `json:"name"`
	Field string `json:"field"`
}

// As the command prints them.
const (
	planDraws = 10000
	planSeed  = 1
	planNext  = 3
)

// plan sends the order of work.
func (b *Bench) plan(w http.ResponseWriter, r *http.Request) {
	q, ok := take[planRequest](w, r)
	if !ok {
		return
	}
	today, err := schedule.ParseDay(q.Today)
	if err != nil {
		refuse(w, http.StatusBadRequest, "the day cannot be read: "+err.Error(), "load the page again")
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	leave, err := enter(r.Context(), b.work)
	if err != nil {
		return // nobody waits for it any more
	}
	defer leave()
	out, err := planOf(rep, today)
	if err != nil {
		refuse(w, http.StatusUnprocessableEntity, "no plan can be made: "+err.Error(), "mend that in the file")
		return
	}
	reply(w, out)
}

func planOf(rep *rillwright.Report, today schedule.Day) (planReply, error) {
	e := rep.Enclosure
	k, err := works.Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), e.Pool.DamTop-e.Pool.Floor)), today)
	if err != nil {
		return planReply{}, err
	}
	plan, lines, err := works.Planned(k)
	if err != nil {
		return planReply{}, err
	}
	lost := lostBy(e, k)
	start := k.Project.Start.Day()
	for i := range lines {
		start = min(start, lines[i].At().Day())
	}
	in := func(m schedule.Moment) float64 { return days(m - start.At(0)) }
	out := planReply{Days: in(plan.Finish), Ticks: []tick{}, Steps: []planStep{}, Next: []string{}, Taken: append([]string{}, k.Assumed...)}
	for i := range lines {
		l := &lines[i]
		s := planStep{
			ID: l.ID, Say: l.Say, When: l.At().Day().Named() + " " + l.At().Clock(), Pieces: [][2]float64{}, End: in(l.End), Finish: in(l.Finish), Slack: days(l.Slack),
			Sets: l.Sets, Comes: l.Comes, Done: l.Done, Under: l.Under, Tells: []told{}, Closes: l.Closes, Lost: append([]lostPart{}, lost[l.ID]...),
		}
		s.Mark, s.Before = markOf(k, l, today)
		for _, p := range l.Pieces {
			s.Pieces = append(s.Pieces, [2]float64{in(p.From), in(p.To)})
		}
		for _, t := range l.Tells() {
			if t.About != works.ClosesOff {
				s.Tells = append(s.Tells, told{t.About, t.Say})
			}
		}
		if since := l.Since(); since != "" {
			s.Tells = slices.Insert(s.Tells, min(len(s.Tells), 1), told{"after", since})
		}
		out.Days = max(out.Days, s.Finish)
		out.Steps = append(out.Steps, s)
	}
	if d := k.Project.Deadline; d != 0 {
		at := in(d)
		out.Deadline, out.Days = &at, max(out.Days, at+1)
	}
	out.Days = math.Ceil(out.Days)
	for d := start; float64(d-start) < out.Days; d++ {
		if d == start || d.Weekday() == 0 {
			out.Ticks = append(out.Ticks, tick{float64(d - start), d.Named()})
		}
	}
	for _, l := range works.Next(lines, planNext) {
		if !l.Comes {
			out.Next = append(out.Next, l.ID)
		}
	}
	out.Says, err = endOf(k, plan)
	return out, err
}

// markOf returns the edits that mark a step as done on a day, or take its mark away,
// and which steps are marked along with it.
func markOf(k *works.Work, l *works.Line, day schedule.Day) (edits []design.Edit, along []string) {
	edits, along = []design.Edit{}, []string{}
	number, _, begun := k.Marked(l.ID)
	switch {
	case l.Comes, l.Idle() && number == 0: // what only waits is over by itself
		return edits, along
	case number > 0 && !begun:
		return append(edits, design.Edit{Path: fmt.Sprintf("done[%d]", number), Kind: design.EditCut}), along
	}
	mark := func(id string) {
		if n, _, _ := k.Marked(id); n > 0 {
			edits = append(edits, design.Edit{Path: fmt.Sprintf("done[%d].on", n), To: day.String()})
			return
		}
		var s design.DoneStep
		_ = s.Step.Read(id, design.Pos{Line: 1}) // any text will do
		_ = s.On.Read(day.String(), design.Pos{Line: 1})
		edits = append(edits, design.Edit{Path: "done", Kind: design.EditAppend, To: document.Flow(&s)})
	}
	for _, id := range k.Before(l.ID) {
		mark(id)
		along = append(along, id)
	}
	mark(l.ID)
	return edits, along
}

// days is a length of time in days, to about a minute.
func days(m schedule.Moment) float64 {
	return math.Round(1e4*float64(m)/schedule.DayMinutes) / 1e4
}

func dayCount(m schedule.Moment) string {
	if n := m / schedule.DayMinutes; n != 1 {
		return fmt.Sprintf("%d days", n)
	}
	return "1 day"
}

// endOf tells when all is done, how sure that is, and what buys days.
func endOf(k *works.Work, plan *schedule.Plan) ([]string, error) {
	chances, err := schedule.Draw(k.Project, planDraws, planSeed)
	if err != nil {
		return nil, err
	}
	say := "Likely all done on " + plan.Finish.Day().Named()
	if late, ok := chances.Quantile(0.9); ok {
		say += ", nine times in ten by " + late.Day().Named() + " if one step's delay has nothing to do with another's"
	}
	out := []string{say + "."}
	if d := k.Project.Deadline; d != 0 {
		if plan.Late > 0 {
			say = "missed by " + dayCount(plan.Late+schedule.DayMinutes-1)
		} else {
			say = "met with " + dayCount(d-plan.Finish) + " left"
		}
		out = append(out, fmt.Sprintf("The deadline, %s, is likely %s; it is met %.0f times in 100.", d.Day().Named(), say, 100*chances.By(d)))
	}
	if m, ok := k.Moved(plan); ok && plan.Finish.Day() != m.Was.Day() {
		out = append(out, fmt.Sprintf("Before anything was done the end was on %s: it is %s.", m.Was.Day().Named(), works.Days(int(plan.Finish.Day()-m.Was.Day()))))
	}
	for _, c := range k.Short(plan) {
		out = append(out, fmt.Sprintf("%s stood for too short a time before %s was begun: look at it again before you go on.", c.Task, c.By))
	}
	gains, err := schedule.Gains(k.Project)
	if err != nil {
		return nil, err
	}
	for _, g := range gains[:min(len(gains), 3)] {
		out = append(out, fmt.Sprintf("Sooner by %.1f days: %s.", float64(g.Minutes)/schedule.DayMinutes, k.Buys(g)))
	}
	return out, nil
}
