package cli

import (
	"cmp"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"rillwright/ics"
	"rillwright/schedule"
	"rillwright/works"
)

// print writes the plan in the format asked for.
func (c *planCommand) print(to io.Writer, name string, w *works.Work, plan *schedule.Plan) error {
	switch c.Format {
	case "csv":
		return csv.NewWriter(to).WriteAll(planRows(w, plan))
	case "json":
		return printJSON(to, plannedOf(name, w, plan))
	case "ics":
		_, err := to.Write(planCalendar(name, w, plan))
		return err
	}
	return printPlan(to, name, w, plan)
}

// isDelivery reports whether a step is something that comes, not something done.
func isDelivery(s *works.Step) bool { return s.Rule.ID == "delivery" }

// shownAt is where a step stands in a list by day: what is delivered when it comes,
// all else when it begins.
func shownAt(s *works.Step, it *schedule.Item) schedule.Moment {
	if isDelivery(s) {
		return it.Finish
	}
	return it.Start
}

// byTime returns the places of the steps in the order of a list by day.
func byTime(w *works.Work, plan *schedule.Plan) []int {
	order := make([]int, len(plan.Items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(x, y int) int {
		return cmp.Compare(shownAt(&w.Steps[x], &plan.Items[x]), shownAt(&w.Steps[y], &plan.Items[y]))
	})
	return order
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
	ID     string      `json:"id"`
	Say    string      `json:"say"`
	Start  string      `json:"start"`
	End    string      `json:"end"`
	Finish string      `json:"finish"` // of what it then stands
	Pieces [][2]string `json:"pieces"` // its work, by sitting
	Slack  float64     `json:"slack_days"`
	Hands  int         `json:"hands"`
	Why    string      `json:"why,omitempty"`
	Tools  string      `json:"tools,omitempty"`
	Closes string      `json:"closes_off,omitempty"`
	By     string      `json:"waits_for_sealant_of,omitempty"`
	Mark   string      `json:"times_from"`
}

func inDays(m schedule.Moment) float64 { return rounded(float64(m)/schedule.DayMinutes, 3) }

func plannedOf(name string, w *works.Work, plan *schedule.Plan) planned {
	p := planned{Design: name, Finish: plan.Finish.String(), Late: inDays(plan.Late), Chain: plan.Chain(), Steps: []plannedStep{}, Assumed: w.Assumed}
	if d := w.Project.Deadline; d != 0 {
		p.Deadline = d.String()
	}
	for _, i := range byTime(w, plan) {
		it, s := &plan.Items[i], &w.Steps[i]
		step := plannedStep{
			ID: it.Task, Say: s.Say, Start: it.Start.String(), End: it.End.String(), Finish: it.Finish.String(), Pieces: [][2]string{},
			Slack: inDays(it.Slack), Hands: s.Rule.Hands, Why: s.Rule.Why, Tools: s.Rule.Tools, Closes: s.Rule.Closes, Mark: s.Rule.Mark,
		}
		for _, at := range it.Pieces {
			step.Pieces = append(step.Pieces, [2]string{at.From.String(), at.To.String()})
		}
		if s.ByCure {
			step.By = s.Thing.By
		}
		p.Steps = append(p.Steps, step)
	}
	return p
}

// planRows is the plan as a table, a step a row.
func planRows(w *works.Work, plan *schedule.Plan) [][]string {
	rows := [][]string{{"id", "step", "start", "end", "stands until", "may wait (days)", "people", "tools", "why", "closes off", "times from"}}
	p := plannedOf("", w, plan)
	for i := range p.Steps {
		s := &p.Steps[i]
		rows = append(rows, []string{s.ID, s.Say, s.Start, s.End, s.Finish, strconv.FormatFloat(s.Slack, 'f', -1, 64), strconv.Itoa(s.Hands), s.Tools, s.Why, s.Closes, s.Mark})
	}
	return rows
}

// notice is how long before a sitting its alarm rings, to get out the tools.
const notice = 30 * time.Minute

// planCalendar is the plan as a calendar: an event for each sitting of a step, a
// moment where its waiting is over, a day for what is delivered. It is stamped with
// the first midnight of the plan, so that the same design gives the same file.
func planCalendar(name string, w *works.Work, plan *schedule.Plan) []byte {
	var events []ics.Event
	for _, i := range byTime(w, plan) {
		it, s := &plan.Items[i], &w.Steps[i]
		if isDelivery(s) {
			day := onWall(it.Finish.Day().At(0))
			events = append(events, ics.Event{ID: it.Task, Summary: name + ": " + s.Say, Start: day, End: day.AddDate(0, 0, 1), AllDay: true})
			continue
		}
		tell := strings.Join(says(s, it), "\n")
		for k, at := range it.Pieces {
			e := ics.Event{ID: it.Task, Summary: name + ": " + s.Say + hands(s), Tell: tell, Start: onWall(at.From), End: onWall(at.To), Busy: true, Alarms: []time.Duration{notice}}
			if len(it.Pieces) > 1 {
				e.ID += fmt.Sprintf(" part %d", k+1)
				e.Summary += fmt.Sprintf(" (%d of %d)", k+1, len(it.Pieces))
			}
			events = append(events, e)
		}
		if it.Finish > it.End {
			at := onWall(it.Finish)
			events = append(events, ics.Event{ID: it.Task + " stood", Summary: name + ": stood long enough: " + s.Say, Start: at, End: at, Alarms: []time.Duration{0}})
		}
	}
	return ics.Write("plan", name, events, onWall(w.Project.Start.Day().At(0)))
}

// onWall is a moment as the clock on the wall shows it.
func onWall(m schedule.Moment) time.Time { return time.Unix(60*int64(m), 0).UTC() }
