package sheets

import (
	"fmt"
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/works"
)

// Sizes on the chart of the plan, mm.
const (
	chartNames   = 80.0 // column of what is done
	chartText    = 2.8
	chartRow     = 5.6 // least height of a row
	leastDay     = 2.0 // below it the days are spread over several sheets
	wideDay      = 4.0 // a day on a sheet that may be as large as it needs
	chartTitle   = 4.0
	chartKey     = 12.0 // what the signs mean, at the foot
	dayMinutes   = 1440
	weekDays     = 7
	mostNameRows = 3 // lines of what is done
)

// workChart is the chart of a plan about to be laid out.
type workChart struct {
	d     *draft
	w     *works.Work
	lines []works.Line
	names [][]string // what is done, wrapped
	first int        // the first day, a Monday, in days as schedule counts
	days  int
}

// page is one sheet of a chart: some days and some rows.
type chartPage struct {
	from, days int
	rows       []int
}

// PlanChart draws a plan, days across and steps down: what is done solid, what then
// stands hatched, by how much it may slip as a thin line, what sets the end bold; the
// deadline and what is delivered as lines across. What does not fit on one sheet goes
// on on others: some weeks on each, with the steps that have something to do in them.
func PlanChart(e *enclosure.Enclosure, w *works.Work, lines []works.Line, p Print) []drawing.Sheet {
	c := newWorkChart(e, w, lines, p)
	if len(lines) == 0 {
		return nil
	}
	var best []chartPage
	var paper drawing.Format
	for _, f := range []drawing.Format{c.d.p.Paper.Turned(), c.d.p.Paper} {
		if pages := c.layout(f); best == nil || len(pages) < len(best) {
			best, paper = pages, f
		}
	}
	return c.draw(paper, best)
}

// WholePlanChart draws the same on one sheet that is as large as it needs.
func WholePlanChart(e *enclosure.Enclosure, w *works.Work, lines []works.Line, p Print) drawing.Sheet {
	c := newWorkChart(e, w, lines, p)
	all := chartPage{from: c.first, days: c.days}
	high := 0.0
	for i := range lines {
		all.rows = append(all.rows, i)
		high += c.rowHeight(i)
	}
	_, room := drawing.Format{Width: 1000, Height: 1000}.Framed(c.d.block("", ""))
	around := drawing.Format{Width: 1000 - (room.Right - room.Left) + 2*ledgerPad, Height: 1000 - (room.Bottom - room.Top) + 2*ledgerPad}
	paper := drawing.Format{
		Width:  max(around.Width+chartNames+wideDay*float64(c.days), 210),
		Height: around.Height + c.above(all) + high + chartKey,
	}
	return c.draw(paper, []chartPage{all})[0]
}

func newWorkChart(e *enclosure.Enclosure, w *works.Work, lines []works.Line, p Print) *workChart {
	c := &workChart{d: newDraft(e, p), w: w, lines: lines}
	last := 0
	for i := range lines {
		l := &lines[i]
		if d := int(l.Start.Day()); i == 0 || d < c.first {
			c.first = d
		}
		last = max(last, int(l.Finish.Day()))
		names := drawing.Wrap(l.Say, chartText, chartNames-3)
		if len(names) > mostNameRows {
			names = append(names[:mostNameRows-1], drawing.Fit(names[mostNameRows-1]+" …", chartText, chartNames-3))
		}
		c.names = append(c.names, names)
	}
	if d := w.Project.Deadline; d != 0 {
		last = max(last, int(d.Day()))
	}
	c.first -= (c.first%weekDays + weekDays + 3) % weekDays // back to a Monday: day 0 was a Thursday
	c.days = max(last+1-c.first, 1)
	return c
}

func (c *workChart) rowHeight(i int) float64 {
	return max(chartRow, tall(len(c.names[i]), chartText)+1.6)
}

// room is the part of a sheet within its frame.
func (c *workChart) room(f drawing.Format) drawing.Box {
	_, room := f.Framed(c.d.block("", ""))
	return room.Grown(-ledgerPad)
}

// layout spreads weeks and rows over sheets of a format.
func (c *workChart) layout(f drawing.Format) []chartPage {
	room := c.room(f)
	wide := room.Right - room.Left - chartNames
	days := c.days
	if most := int(wide / leastDay); days > most {
		most -= most % weekDays
		n := (days + most - 1) / most
		days = (days + n - 1) / n
		days += (weekDays - days%weekDays) % weekDays
	}
	var out []chartPage
	for from := c.first; from < c.first+c.days; from += days {
		p := chartPage{from: from, days: days}
		y := 0.0
		for i := range c.lines {
			if !c.within(i, p) {
				continue
			}
			h := c.rowHeight(i)
			if y+h > room.Bottom-room.Top-chartKey-c.above(p) && len(p.rows) > 0 {
				out = append(out, p)
				p.rows, y = nil, 0
			}
			p.rows = append(p.rows, i)
			y += h
		}
		if len(p.rows) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// within reports whether a row has something to show in the days of a page.
func (c *workChart) within(i int, p chartPage) bool {
	l := &c.lines[i]
	return int(l.Start.Day()) < p.from+p.days && int((l.Finish+l.Slack).Day()) >= p.from
}

// mark is a line across the chart, with its words over it.
type chartMark struct {
	minute int
	say    string
	pen    drawing.Pen
}

// marks are the lines across a page, by time.
func (c *workChart) marks(p chartPage) []chartMark {
	var out []chartMark
	add := func(minute int, say string, pen drawing.Pen) {
		if minute >= p.from*dayMinutes && minute <= (p.from+p.days)*dayMinutes {
			out = append(out, chartMark{minute, say, pen})
		}
	}
	for i := range c.lines {
		if l := &c.lines[i]; l.Comes {
			add(int(l.Finish), l.Say, drawing.DashDots)
		}
	}
	if d := c.w.Project.Deadline; d != 0 {
		add(int(d), "deadline "+d.Day().Named(), drawing.LongDashes)
	}
	return out
}

// above is the height of what stands over the rows.
func (c *workChart) above(p chartPage) float64 {
	return tall(1, chartTitle) + 2 + lineOf*small*float64(len(c.marks(p))) + 6
}

// end is the title: when all is done.
func (c *workChart) end() string {
	done := c.lines[0].Finish
	for i := range c.lines {
		done = max(done, c.lines[i].Finish)
	}
	say := "Order of work: likely done " + done.Day().Named()
	if d := c.w.Project.Deadline; d != 0 {
		word := "in time for"
		if done > d {
			word = "too late for"
		}
		say += ", " + word + " " + d.Day().Named()
	}
	return say
}

// said tells the chart in words.
func (c *workChart) said(p chartPage) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s.", c.end())
	for _, i := range p.rows {
		l := &c.lines[i]
		fmt.Fprintf(&b, " %s: %s", l.Say, l.Start)
		if l.Finish > l.Start {
			fmt.Fprintf(&b, " to %s", l.Finish)
		}
		b.WriteString(".")
	}
	return b.String()
}
