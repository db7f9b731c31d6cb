package works

import (
	"fmt"

	"rillwright/schedule"
)

// draws is how many ends are drawn for the chances of a plan; any seed would do.
const (
	draws = 10000
	seed  = 1
)

// mostGains is how many ways to buy days are told.
const mostGains = 3

// End is when all is done, how sure that is, and what buys days.
type End struct {
	Likely   schedule.Moment
	Late     schedule.Moment // nine ends in ten lie before it; 0 if more than one in ten never comes
	Deadline schedule.Moment // 0 for none
	Left     schedule.Moment // from the likely end to the deadline; less than 0 if that is missed
	Met      float64         // how often it is met, 0 to 1
	// Soonest is the end with every step at its shortest, if that is after the deadline,
	// else 0.
	Soonest schedule.Moment
	Gains   []schedule.Gain // the largest first
}

// EndOf looks at the end of a plan. Errors are those of schedule.Draw and Gains.
func (w *Work) EndOf(plan *schedule.Plan) (End, error) {
	e := End{Likely: plan.Finish, Deadline: w.Project.Deadline}
	chances, err := schedule.Draw(w.Project, draws, seed)
	if err != nil {
		return e, fmt.Errorf("works: %w", err)
	}
	if late, ok := chances.Quantile(0.9); ok {
		e.Late = late
	}
	if e.Deadline != 0 {
		e.Left, e.Met = e.Deadline-plan.Finish, chances.By(e.Deadline)
		if e.Left < 0 {
			if best, err := w.Make(-1); err == nil && best.Finish > e.Deadline {
				e.Soonest = best.Finish
			}
		}
	}
	if e.Gains, err = w.Gains(); err != nil {
		return e, err
	}
	e.Gains = e.Gains[:min(len(e.Gains), mostGains)]
	return e, nil
}

// DayCount tells whole days, those begun counting if up says so.
func DayCount(m schedule.Moment, up bool) string {
	n := m / schedule.DayMinutes
	if up && m%schedule.DayMinutes != 0 {
		n++
	}
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
