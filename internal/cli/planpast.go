package cli

import (
	"bufio"
	"fmt"
	"strings"

	"rillwright/schedule"
	"rillwright/works"
)

// box is the tick before a step.
func box(l *works.Line) string {
	switch {
	case l.Done:
		return "[x]"
	case l.Under:
		return "[~]"
	}
	return "[ ]"
}

// past tells what came of what is done: what moved, waitings that were cut short,
// and measured facts that stand in place of the plan.
func (o *planOut) past(b *bufio.Writer) {
	if m, ok := o.work.Moved(o.plan); ok {
		fmt.Fprintf(b, "\nMOVED, against the plan before anything was done\n")
		printMoved(b, m, o.plan)
	}
	if cuts := o.work.Short(o.plan); len(cuts) > 0 {
		fmt.Fprintf(b, "\nCUT SHORT\n")
		for _, c := range cuts {
			sure := "than is likely wanted"
			if c.Sure {
				sure = "than the least that is wanted"
			}
			fmt.Fprintf(b, "  %s stood %s less %s before %s was begun: look at it again before you go on\n", c.Task, lasted(c.Short), sure, c.By)
		}
	}
	if facts := o.enclosure.Design.Overrides(); len(facts) > 0 {
		fmt.Fprintf(b, "\nMEASURED\n")
		for _, f := range facts {
			planned := "nothing was planned"
			if f.Planned != "" {
				planned = "planned " + f.Planned
			}
			fmt.Fprintf(b, "  %s: %s (%s), line %d\n", f.Path, f.Measured, planned, f.Pos.Line)
		}
	}
}

func printMoved(b *bufio.Writer, m works.Moved, plan *schedule.Plan) {
	if d := int(plan.Finish.Day() - m.Was.Day()); d != 0 {
		fmt.Fprintf(b, "  the end %s: %s, not %s\n", works.Days(d), plan.Finish.Day().Named(), m.Was.Day().Named())
	} else {
		fmt.Fprintf(b, "  the end stays on %s\n", plan.Finish.Day().Named())
	}
	for _, s := range m.Shifts {
		fmt.Fprintf(b, "  %s: %s\n", works.Days(s.Days), strings.Join(s.Steps, ", "))
	}
}

// lasted tells minutes as hours or days.
func lasted(m schedule.Moment) string {
	if m < 2*schedule.DayMinutes {
		return fmt.Sprintf("%d h", (m+59)/60)
	}
	return fmt.Sprintf("%.1f days", float64(m)/schedule.DayMinutes)
}
