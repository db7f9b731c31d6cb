package cli

import (
	"fmt"
	"io"
	"path/filepath"
	"time"

	"rillwright"
	"rillwright/enclosure"
	"rillwright/ics"
	"rillwright/keeping"
	"rillwright/quantity"
	"rillwright/record"
)

type keepCommand struct {
	Design   string `arg:"" help:"A design file whose log stands beside it."`
	At       string `help:"The time to look from, if not now: 2026-11-26." placeholder:"TIME"`
	Calendar string `help:"Also write the chores as a calendar (iCalendar, .ics) into this file. Where it holds them already, the new issue moves them in a calendar program, and cancels what is no longer there." placeholder:"FILE"`
	JSON     bool   `name:"json" help:"Print JSON."`
}

// Help tells where the figures come from.
func (*keepCommand) Help() string {
	return "Tells what is due by the design and the log, where the flow is going and when it will have fallen by 15 %, what spares to have, and what the last year came to. A chore counts as done when something about it is noted: cleaned strainer, breaker ok. How often is from memory of the trade.\n" + exitHelp
}

// kept is what the command shows.
type kept struct {
	Design string          `json:"design"`
	Due    []dueJSON       `json:"due"`
	Trends []trendJSON     `json:"trends"`
	Spares []keeping.Spare `json:"spares"`
	Year   keeping.Year    `json:"year"`
}

type dueJSON struct {
	ID   string     `json:"id"`
	What string     `json:"what"`
	How  string     `json:"how"`
	Days int        `json:"days"`
	From string     `json:"from"`
	Last *time.Time `json:"last,omitempty"`
	Next time.Time  `json:"next"`
	Late int        `json:"late"` // days; less than 0 for those left
}

type trendJSON struct {
	keeping.Trend
	Month *float64 `json:"month,omitempty"` // change in a month as a share of the first
	Doubt *float64 `json:"doubt,omitempty"`
}

// Run prints what an enclosure wants.
func (c *keepCommand) Run(std *Streams) error {
	now := time.Now()
	if c.At != "" {
		var err error
		if now, err = record.ParseTime(c.At, now.Location()); err != nil {
			return refuse(std, err)
		}
	}
	r, log, err := openLog(std, c.Design)
	if err != nil {
		return err
	}
	chores, lacks := rillwright.Chores(r.Enclosure, log.Readings, now)
	due := keeping.DueAt(chores, log.Readings, now)
	k := kept{Design: r.File, Spares: keeping.Spares(r.Enclosure), Year: keeping.YearTo(log.Readings, now), Due: []dueJSON{}, Trends: []trendJSON{}}
	for i := range due {
		d := &due[i]
		j := dueJSON{ID: d.ID, What: d.What, How: d.How, Days: d.Days, From: d.From, Next: d.Next, Late: int(d.Late(now))}
		if !d.Last.IsZero() {
			j.Last = &d.Last
		}
		k.Due = append(k.Due, j)
	}
	for _, t := range keeping.Trends(log.Readings) {
		j := trendJSON{Trend: t}
		if t.Month == t.Month { // a number
			m, d := rounded(t.Month, 3), rounded(t.Doubt, 2)
			j.Month, j.Doubt = &m, &d
		}
		k.Trends = append(k.Trends, j)
	}
	if c.Calendar != "" {
		is, err := issueAfter(c.Calendar)
		if err != nil {
			return refuse(std, err)
		}
		is.Stamp = now
		if err := save(std, c.Calendar, keeping.Calendar(r.Name, due, is)); err != nil {
			return refuse(std, err)
		}
	}
	if c.JSON {
		return printJSON(std.Out, k)
	}
	printKept(std.Out, r.Name, r.Enclosure, &k, now)
	if lacks != "" {
		fmt.Fprintln(std.Out, lacks)
	}
	return nil
}

// issueAfter is the issue of a calendar after that in a file, the first where there is
// none. What is no calendar of chores is not written over.
func issueAfter(file string) (is ics.Issue, err error) {
	if !exists(file) {
		return is, nil
	}
	data, err := readFile(file, "give another")
	if err != nil {
		return is, err
	}
	if is.Before, is.Number, err = ics.Read(data, keeping.Maker); err != nil {
		return is, fmt.Errorf("%s is there and is no calendar of chores: %w\n  do: give the calendar another name", filepath.ToSlash(file), err)
	}
	is.Number++
	return is, nil
}

// soon is how many days ahead a chore is shown with its how.
const soon = 14

func printKept(w io.Writer, name string, e *enclosure.Enclosure, k *kept, now time.Time) {
	fmt.Fprintf(w, "%s, as of %s\n", name, now.Format(time.DateOnly))
	for i := range k.Due {
		d := &k.Due[i]
		when := "due " + d.Next.Format(time.DateOnly)
		if d.Late > 0 {
			when = fmt.Sprintf("LATE by %s", keeping.CountDays(d.Late))
		}
		last := "never noted"
		if d.Last != nil {
			last = "last " + d.Last.Format(time.DateOnly)
		}
		fmt.Fprintf(w, "  %s: %s, %s [%s]\n", d.What, when, last, d.ID)
		if d.Late > -soon {
			fmt.Fprintf(w, "    %s\n", d.How)
		}
		if d.From != keeping.Memory {
			fmt.Fprintf(w, "    every %s: %s\n", keeping.CountDays(d.Days), d.From)
		}
	}
	if len(k.Trends) > 0 {
		fmt.Fprintln(w, "Where it is going")
	}
	for i := range k.Trends {
		printTrend(w, &k.Trends[i].Trend, e.Units, now)
	}
	fmt.Fprintln(w, "Spares to have")
	for _, s := range k.Spares {
		fmt.Fprintf(w, "  %s: %s\n", s.What, s.Why)
	}
	first, rest := k.Year.Words(e.Units)
	fmt.Fprintln(w, first)
	for _, l := range rest {
		fmt.Fprintln(w, "  "+l)
	}
}

func printTrend(w io.Writer, t *keeping.Trend, sys quantity.System, now time.Time) {
	first, then := t.Words(sys, now)
	fmt.Fprintf(w, "  %s\n    %s\n", first, then)
}
