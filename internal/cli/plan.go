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
			if beside := l.Beside(); beside != "" && !l.Done {
				fmt.Fprintf(b, "      until then: %s\n", beside)
			}
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
	if beside := l.Beside(); beside != "" {
		out = append(out, "meanwhile: "+beside)
	}
	if l.Slack >= schedule.DayMinutes {
		out = append(out, "may wait "+works.DayCount(l.Slack, false))
	}
	return out
}

// stands tells until when a step then stands.
func stands(l *works.Line) string {
	say := fmt.Sprintf("then stands until %s, %s", l.Finish.Day().Named(), l.Finish.Clock())
	if l.By != "" {
		say += "; set by the sealant of " + l.By
	}
	if cures := l.Cures(); cures != "" {
		say += "; " + cures
	}
	return say
}

// printEnd tells when all is done, how sure that is, and what buys days.
func printEnd(b *bufio.Writer, w *works.Work, plan *schedule.Plan) error {
	end, err := w.EndOf(plan)
	if err != nil {
		return err
	}
	fmt.Fprintf(b, "  likely on %s", end.Likely.Day().Named())
	if end.Late != 0 {
		fmt.Fprintf(b, "; nine times in ten by %s, if one step's delay has nothing to do with another's", end.Late.Day().Named())
	}
	fmt.Fprintln(b)
	if end.Deadline != 0 {
		say := "met with " + works.DayCount(end.Left, false) + " left"
		if end.Left < 0 {
			say = "missed by " + works.DayCount(-end.Left, true)
		}
		fmt.Fprintf(b, "  deadline %s: likely %s; met %.0f times in 100\n", end.Deadline.Day().Named(), say, 100*end.Met)
	}
	if end.Soonest != 0 {
		fmt.Fprintf(b, "  it cannot be met as things stand: with every step at its shortest the end is on %s, too late by %s\n", end.Soonest.Day().Named(), works.DayCount(end.Soonest-end.Deadline, true))
	}
	fmt.Fprintf(b, "  set by: %s\n", strings.Join(plan.Chain(), ", "))
	for _, g := range end.Gains {
		fmt.Fprintf(b, "  sooner by %.1f days: %s\n", float64(g.Minutes)/schedule.DayMinutes, w.Buys(g))
	}
	for _, s := range w.Later {
		fmt.Fprintf(b, "  after that: %s\n", s.Stands())
	}
	return nil
}
