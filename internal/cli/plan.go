package cli

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"

	"rillwright"
	"rillwright/schedule"
	"rillwright/sheets"
	"rillwright/works"
)

type planCommand struct {
	Design   string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	At       string `help:"The day that counts as today: the first one if budget.start does not say, and that from which the rest is planned once a step is marked as done." placeholder:"DAY"`
	Table    bool   `help:"Print the table of steps that the plan is made by. Keep it beside a design, name it as budget.steps-file and edit it."`
	Next     bool   `help:"Only the next three things to do, with all that is to be known at the bench."`
	From     string `help:"With --next: of those that begin on this day or later; if left out, of all that are not done." placeholder:"DAY"`
	Format   string `enum:"text,csv,json,ics,svg,pdf" default:"text" help:"Print as text (if left out), csv, json, or ics: a calendar (iCalendar) with alarms. svg: a chart, on one sheet as large as it needs; pdf: chart, list and card on paper; with --next both the card alone, in large type." placeholder:"text|csv|json|ics|svg|pdf"`
	Issue    *int   `help:"With --format ics: which issue of the calendar it is, 0 the first. A calendar program takes the steps of a higher one in place of those that it has." placeholder:"NUMBER"`
	Replaces string `help:"With --format ics: the calendar that was read in before. The issue is the one after it, and what is no longer in the plan is cancelled." placeholder:"FILE"`
	Paper    string `enum:"a4,letter,auto" default:"auto" help:"The paper of svg and pdf: a4 or letter; if left out, letter for a design in US units and a4 for any other." placeholder:"a4|letter"`
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
	if err := dayFlag("--at", c.At, &today); err != nil {
		return refuse(std, err)
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
	if c.Table {
		_, err := fmt.Fprint(std.Out, works.Table(e))
		return err
	}
	w, plan, lines, err := works.PlanLikely(e, today)
	if err != nil {
		return refuse(std, fmt.Errorf("%s: %w", file, err))
	}
	o := &planOut{enclosure: e, work: w, plan: plan, lines: lines, print: sheets.Print{Paper: (&drawCommand{Paper: c.Paper}).paper(e.Units), Mark: mark(data)}}
	// A built-in design's dates are those of its story.
	if own := c.Design != "demo" && c.Design != "demo-us"; own && len(w.Project.Done) == 0 && w.Project.Start < today.At(0) {
		fmt.Fprintln(std.Err, "nothing is marked as done, and the first day is past: mark steps with rillwright done, or give a later budget.start")
	}
	if err := o.issued(c.Format, c.Issue, c.Replaces); err != nil {
		return refuse(std, err)
	}
	if c.Next {
		if err := o.from(c.From); err != nil {
			return refuse(std, err)
		}
		o.lines, o.next = works.Next(o.lines, works.AtOnce), true
	}
	if err := o.write(std.Out, c.Format); err != nil {
		return err
	}
	if plan.Late > 0 {
		return statusError(exitFails)
	}
	return nil
}

// text prints the steps by day, then what sets the end.
func (o *planOut) text(to io.Writer) error {
	b := bufio.NewWriter(to)
	fmt.Fprintf(b, "%s: order of work\n", o.name())
	last := schedule.Day(-1)
	for i := range o.lines {
		l := &o.lines[i]
		if d := l.At().Day(); d != last {
			last = d
			fmt.Fprintf(b, "\n%s\n", d.Named())
		}
		if l.Comes {
			fmt.Fprintf(b, "    %s\n", l.Say)
			continue
		}
		fmt.Fprintf(b, "%s %s %s%s\n", box(l), l.Start.Clock(), l.Say, hands(l))
		if l.Done {
			continue
		}
		for _, say := range says(l) {
			fmt.Fprintf(b, "      %s\n", say)
		}
	}
	fmt.Fprintf(b, "\nEND\n")
	if err := printEnd(b, o.work, o.plan); err != nil {
		return err
	}
	o.past(b)
	fmt.Fprintf(b, "\nTAKEN\n")
	for _, a := range o.work.Assumed {
		fmt.Fprintf(b, "  %s\n", a)
	}
	return b.Flush()
}

func dayCount(n schedule.Moment) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func hands(l *works.Line) string {
	if l.Hands > 1 {
		return " (two people)"
	}
	return ""
}

// says lists what is to be known of a step.
func says(l *works.Line) []string {
	var out []string
	for _, say := range [][2]string{{"why", l.Why}, {"after", l.Since()}, {"tools", l.Tools}, {"wet sealant", l.Skins()}, {"clean up", l.CleanUp}, {"closes off", l.Closes}} {
		if say[1] != "" {
			out = append(out, say[0]+": "+say[1])
		}
	}
	if l.Finish > l.End {
		out = append(out, stands(l))
	}
	if l.Slack >= schedule.DayMinutes {
		out = append(out, "may wait "+dayCount(l.Slack/schedule.DayMinutes))
	}
	return out
}

// stands tells until when a step then stands.
func stands(l *works.Line) string {
	say := fmt.Sprintf("then stands until %s, %s", l.Finish.Day().Named(), l.Finish.Clock())
	if l.By != "" {
		say += "; set by the sealant of " + l.By
	}
	return say
}

// printEnd tells when all is done, how sure that is, and what buys days.
func printEnd(b *bufio.Writer, w *works.Work, plan *schedule.Plan) error {
	chances, err := schedule.Draw(w.Project, draws, seed)
	if err != nil {
		return err
	}
	fmt.Fprintf(b, "  likely on %s", plan.Finish.Day().Named())
	if late, ok := chances.Quantile(0.9); ok {
		fmt.Fprintf(b, "; nine times in ten by %s, if one step's delay has nothing to do with another's", late.Day().Named())
	}
	fmt.Fprintln(b)
	if d := w.Project.Deadline; d != 0 {
		fmt.Fprintf(b, "  deadline %s: ", d.Day().Named())
		if plan.Late > 0 {
			fmt.Fprintf(b, "likely missed by %s; met %.0f times in 100\n", dayCount((plan.Late+schedule.DayMinutes-1)/schedule.DayMinutes), 100*chances.By(d))
			hopeless(b, w, d)
		} else {
			fmt.Fprintf(b, "likely met with %s left; met %.0f times in 100\n", dayCount((d-plan.Finish)/schedule.DayMinutes), 100*chances.By(d))
		}
	}
	fmt.Fprintf(b, "  set by: %s\n", strings.Join(plan.Chain(), ", "))
	gains, err := w.Gains()
	if err != nil {
		return err
	}
	for _, g := range gains[:min(len(gains), 3)] {
		fmt.Fprintf(b, "  sooner by %.1f days: %s\n", float64(g.Minutes)/schedule.DayMinutes, w.Buys(g))
	}
	for _, s := range w.Later {
		fmt.Fprintf(b, "  after that: %s\n", s.Stands())
	}
	return nil
}
