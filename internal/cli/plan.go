package cli

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"rillwright"
	"rillwright/schedule"
	"rillwright/study"
	"rillwright/works"
)

type planCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	At     string `help:"The first day, if budget.start does not say and it is not today: 2026-11-26." placeholder:"DAY"`
	Format string `enum:"text,csv,json,ics" default:"text" help:"Print as text (if left out), csv, json, or ics: a calendar (iCalendar) with alarms." placeholder:"text|csv|json|ics"`
}

// Help tells where the figures come from.
func (*planCommand) Help() string {
	return "Puts the steps that a design takes in order and into your hours (week, off, helper, deliveries, start and deadline of budget): what to do on which day, how long it then stands, what it closes off, and what sets the end. Hours and waiting are common practice or assumed, cure times from the widths of the joints and the air of budget.workshop.\n" + `
Exit status: 0 the plan was printed; 1 the deadline is likely missed; 2 the command or a file is wrong; 3 anything else.
`
}

// draws is how many ends are drawn for the chances; any seed would do.
const (
	draws = 10000
	seed  = 1
)

// Run prints the plan.
func (c *planCommand) Run(std *Streams) error {
	y, m, d := time.Now().Date()
	today, _ := schedule.DayOf(y, int(m), d)
	if c.At != "" {
		var err error
		if today, err = schedule.ParseDay(c.At); err != nil {
			return refuse(std, fmt.Errorf("--at: %w", err))
		}
	}
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return refuse(std, err)
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{Format: "text"}).refuseDesign(std, file, r.Findings)
	}
	e := r.Enclosure
	w, err := works.Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), e.Pool.DamTop-e.Pool.Floor)), today)
	if err != nil {
		return refuse(std, fmt.Errorf("%s: %w", file, err))
	}
	plan, err := w.Make(0)
	if err != nil {
		return refuse(std, fmt.Errorf("%s: %w", file, err))
	}
	if err := c.print(std.Out, r.Name, w, plan); err != nil {
		return err
	}
	if plan.Late > 0 {
		return statusError(exitFails)
	}
	return nil
}

// printPlan prints the steps by day, then what sets the end.
func printPlan(to io.Writer, name string, w *works.Work, plan *schedule.Plan) error {
	b := bufio.NewWriter(to)
	fmt.Fprintf(b, "%s: order of work\n", name)
	last := schedule.Day(-1)
	for _, i := range byTime(w, plan) {
		it, s := &plan.Items[i], &w.Steps[i]
		if d := shownAt(s, it).Day(); d != last {
			last = d
			fmt.Fprintf(b, "\n%s\n", dayName(d))
		}
		if isDelivery(s) {
			fmt.Fprintf(b, "    %s\n", s.Say)
			continue
		}
		fmt.Fprintf(b, "[ ] %s %s%s\n", it.Start.String()[len("2026-11-26 "):], s.Say, hands(s))
		for _, say := range says(s, it) {
			fmt.Fprintf(b, "      %s\n", say)
		}
	}
	fmt.Fprintf(b, "\nEND\n")
	if err := printEnd(b, w, plan); err != nil {
		return err
	}
	fmt.Fprintf(b, "\nTAKEN\n")
	for _, a := range w.Assumed {
		fmt.Fprintf(b, "  %s\n", a)
	}
	return b.Flush()
}

func dayName(d schedule.Day) string {
	return []string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}[d.Weekday()] + " " + d.String()
}

func dayCount(n schedule.Moment) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func hands(s *works.Step) string {
	if s.Rule.Hands > 1 {
		return " (two people)"
	}
	return ""
}

// says lists what is to be known of a step.
func says(s *works.Step, it *schedule.Item) []string {
	var out []string
	if s.Rule.Why != "" {
		out = append(out, "why: "+s.Rule.Why)
	}
	if s.Rule.Tools != "" {
		out = append(out, "tools: "+s.Rule.Tools)
	}
	if s.Rule.Closes != "" {
		out = append(out, "closes off: "+s.Rule.Closes)
	}
	if it.Finish > it.End {
		say := fmt.Sprintf("then stands until %s, %s", dayName(it.Finish.Day()), it.Finish.String()[len("2026-11-26 "):])
		if s.ByCure {
			say += "; set by the sealant of " + s.Thing.By
		}
		out = append(out, say)
	}
	if it.Slack >= schedule.DayMinutes {
		out = append(out, "may wait "+dayCount(it.Slack/schedule.DayMinutes))
	}
	return out
}

// printEnd tells when all is done, how sure that is, and what buys days.
func printEnd(b *bufio.Writer, w *works.Work, plan *schedule.Plan) error {
	chances, err := schedule.Draw(w.Project, draws, seed)
	if err != nil {
		return err
	}
	fmt.Fprintf(b, "  likely on %s", dayName(plan.Finish.Day()))
	if late, ok := chances.Quantile(0.9); ok {
		fmt.Fprintf(b, "; nine times in ten by %s, if one step's delay has nothing to do with another's", dayName(late.Day()))
	}
	fmt.Fprintln(b)
	if d := w.Project.Deadline; d != 0 {
		fmt.Fprintf(b, "  deadline %s: ", dayName(d.Day()))
		if plan.Late > 0 {
			fmt.Fprintf(b, "likely missed by %s; met %.0f times in 100\n", dayCount((plan.Late+schedule.DayMinutes-1)/schedule.DayMinutes), 100*chances.By(d))
		} else {
			fmt.Fprintf(b, "likely met with %s left; met %.0f times in 100\n", dayCount((d-plan.Finish)/schedule.DayMinutes), 100*chances.By(d))
		}
	}
	fmt.Fprintf(b, "  set by: %s\n", strings.Join(plan.Chain(), ", "))
	gains, err := schedule.Gains(w.Project)
	if err != nil {
		return err
	}
	for _, g := range gains[:min(len(gains), 3)] {
		what := g.Task + " at its shortest"
		if g.Resource != "" {
			what = "the " + g.Resource + " on " + dayName(schedule.Day(4 + g.Weekday))[:3] + " as long as on the longest day"
		}
		fmt.Fprintf(b, "  sooner by %.1f days: %s\n", float64(g.Minutes)/schedule.DayMinutes, what)
	}
	for _, s := range w.Later {
		fmt.Fprintf(b, "  after that: %s, %.0f to %.0f days\n", s.Say, s.Task.Wait.Low/86400, s.Task.Wait.High/86400)
	}
	return nil
}
