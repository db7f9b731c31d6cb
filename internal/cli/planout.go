package cli

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"rillwright/drawing"
	"rillwright/drawing/pdf"
	"rillwright/drawing/svg"
	"rillwright/enclosure"
	"rillwright/ics"
	"rillwright/schedule"
	"rillwright/sheets"
	"rillwright/works"
)

// planOut is a plan about to be written.
type planOut struct {
	enclosure *enclosure.Enclosure
	work      *works.Work
	plan      *schedule.Plan
	lines     []works.Line // what is shown of it
	next      bool         // only what comes next
	print     sheets.Print
	issue     ics.Issue // of its calendar
}

func (o *planOut) name() string { return o.enclosure.Name }

// write writes the plan in a format.
func (o *planOut) write(to io.Writer, format string) error {
	switch format {
	case "csv":
		return csv.NewWriter(to).WriteAll(works.Rows(o.lines))
	case "json":
		return printJSON(to, o.planned())
	case "ics":
		_, err := to.Write(o.calendar())
		return err
	case "svg", "pdf":
		return o.draw(to, format)
	}
	if o.next {
		return o.card(to)
	}
	return o.text(to)
}

// draw writes sheets: as SVG one, as large as it needs, as PDF all on paper.
func (o *planOut) draw(to io.Writer, format string) error {
	var list []drawing.Sheet
	switch {
	case o.next:
		list = sheets.BenchCards(o.enclosure, o.lines, o.print)
	case format == "svg":
		list = []drawing.Sheet{sheets.WholePlanChart(o.enclosure, o.work, o.lines, o.print)}
	default:
		list = sheets.PlanSheets(o.enclosure, o.work, o.lines, o.print)
	}
	if format == "svg" {
		return svg.Write(to, &list[0])
	}
	drawing.Number(list)
	return pdf.Write(to, o.name(), list)
}

// planned is a plan as JSON. Times are those of the clock on the wall, without zone.
type planned struct {
	Design   string        `json:"design"`
	Finish   string        `json:"finish"`
	Deadline string        `json:"deadline,omitempty"`
	Late     float64       `json:"late_days"`
	Chain    []string      `json:"set_by"`
	Steps    []plannedStep `json:"steps"`
	Assumed  []string      `json:"taken"`
}

type plannedStep struct {
	ID      string         `json:"id"`
	Say     string         `json:"say"`
	Start   string         `json:"start"`
	End     string         `json:"end"`
	Finish  string         `json:"finish"` // of what it then stands
	Pieces  [][2]string    `json:"pieces"` // its work, by sitting
	Slack   float64        `json:"slack_days"`
	Hands   int            `json:"hands"`
	Why     string         `json:"why,omitempty"`
	After   []plannedAfter `json:"after"`
	Tools   string         `json:"tools,omitempty"`
	CleanUp string         `json:"clean_up,omitempty"`
	Open    []float64      `json:"wet_sealant_minutes,omitempty"` // low and high end of how long it may be worked on
	Closes  string         `json:"closes_off,omitempty"`
	By      string         `json:"waits_for_sealant_of,omitempty"`
	Mark    string         `json:"times_from"`
	Done    bool           `json:"done,omitempty"`
	Under   bool           `json:"under_way,omitempty"`
}

// plannedAfter is a step that comes before, and why.
type plannedAfter struct {
	Step string `json:"step"`
	Why  string `json:"why,omitempty"`
}

func inDays(m schedule.Moment) float64 { return rounded(float64(m)/schedule.DayMinutes, 3) }

func (o *planOut) planned() planned {
	plan := o.plan
	p := planned{Design: o.name(), Finish: plan.Finish.String(), Late: inDays(plan.Late), Chain: plan.Chain(), Steps: []plannedStep{}, Assumed: o.work.Assumed}
	if d := o.work.Project.Deadline; d != 0 {
		p.Deadline = d.String()
	}
	for i := range o.lines {
		l := &o.lines[i]
		step := plannedStep{
			ID: l.ID, Say: l.Say, Start: l.Start.String(), End: l.End.String(), Finish: l.Finish.String(), Pieces: [][2]string{}, After: []plannedAfter{},
			Slack: inDays(l.Slack), Hands: l.Hands, Why: l.Why, Tools: l.Tools, CleanUp: l.CleanUp, Closes: l.Closes, By: l.By, Mark: l.Mark, Done: l.Done, Under: l.Under,
		}
		if l.Open.High > 0 {
			step.Open = []float64{float64(l.Open.Low) / 60, float64(l.Open.High) / 60}
		}
		for _, r := range l.After {
			for _, id := range r.Steps {
				step.After = append(step.After, plannedAfter{id, r.Why})
			}
		}
		for _, at := range l.Pieces {
			step.Pieces = append(step.Pieces, [2]string{at.From.String(), at.To.String()})
		}
		p.Steps = append(p.Steps, step)
	}
	return p
}

// notice is how long before a sitting its alarm rings, to get out the tools.
const notice = 30 * time.Minute

// calendar is the plan as a calendar: an event for each sitting of a step, a
// moment where its waiting is over, a day for what is delivered. What is done stands
// where it was done, and rings no more. It is stamped with the first midnight of the
// plan, or with the day from which the rest is planned, so that the same design gives
// the same file.
func (o *planOut) calendar() []byte {
	name, now := o.name(), max(o.work.Project.Start.Day().At(0), o.work.Project.Now)
	var events []ics.Event
	for i := range o.lines {
		l := &o.lines[i]
		if l.Comes {
			day := onWall(l.Finish.Day().At(0))
			events = append(events, ics.Event{ID: l.ID, Summary: name + ": " + l.Say, Start: day, End: day.AddDate(0, 0, 1), AllDay: true})
			continue
		}
		events = append(events, sittings(name, l)...)
		if l.Finish > l.End {
			e := ics.Event{ID: l.ID + " stood", Summary: name + ": stood long enough: " + l.Say, Start: onWall(l.Finish), End: onWall(l.Finish)}
			if l.Finish >= now {
				e.Alarms = []time.Duration{0}
			}
			events = append(events, e)
		}
	}
	is := o.issue
	is.Stamp = onWall(now)
	return ics.Write(planMaker, name, events, is)
}

// sittings are the events of a step. The first has the step's own ID however many
// there are, so that a later issue moves it.
func sittings(name string, l *works.Line) []ics.Event {
	say := name + ": " + l.Say
	if l.Done && !l.Idle() {
		return []ics.Event{{ID: l.ID, Summary: say + " (done)", Start: onWall(l.Start), End: onWall(l.End)}}
	}
	tell := strings.Join(says(l), "\n")
	var out []ics.Event
	for k, at := range l.Pieces {
		e := ics.Event{ID: l.ID, Summary: say + hands(l), Tell: tell, Start: onWall(at.From), End: onWall(at.To), Busy: true, Alarms: []time.Duration{notice}}
		if k > 0 {
			e.ID += fmt.Sprintf(" part %d", k+1)
		}
		if len(l.Pieces) > 1 {
			e.Summary += fmt.Sprintf(" (%d of %d)", k+1, len(l.Pieces))
		}
		out = append(out, e)
	}
	return out
}

// planMaker is what calendars of plans say they are made by.
const planMaker = "plan"

// issued takes over which issue of its calendar a plan is, and what the one before held.
func (o *planOut) issued(format string, number *int, before string) error {
	if format != "ics" && (number != nil || before != "") {
		return errors.New("--issue and --replaces are about a calendar\n  do: write --format ics as well")
	}
	if before != "" {
		data, err := readFile(before, "leave out --replaces for the first issue")
		if err != nil {
			return err
		}
		if o.issue.Before, o.issue.Number, err = ics.Read(data, planMaker); err != nil {
			return fmt.Errorf("%s is no calendar of a plan: %w\n  do: name the file that rillwright plan --format ics wrote before", filepath.ToSlash(before), err)
		}
		o.issue.Number++
	}
	if number == nil {
		return nil
	}
	if *number < o.issue.Number {
		return fmt.Errorf("--issue %d: a calendar program keeps the issue with the highest number\n  do: write %d or more", *number, o.issue.Number)
	}
	o.issue.Number = *number
	return nil
}

// onWall is a moment as the clock on the wall shows it.
func onWall(m schedule.Moment) time.Time { return time.Unix(60*int64(m), 0).UTC() }
