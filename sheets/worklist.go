package sheets

import (
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/works"
)

// PlanList draws the steps of a plan day by day, each with a box to tick and all that
// is to be known of it; what closes something off stands in a box. What was taken
// because the design file does not say it stands at the end.
func PlanList(e *enclosure.Enclosure, w *works.Work, lines []works.Line, p Print) []drawing.Sheet {
	g := newDraft(e, p).ledger(workGroup, "List by day")
	g.text(ledgerTitle, "List by day")
	g.text(ledgerText, "Hours and waiting are the likely ones; when one step is late, make the plan anew. What is marked by a heavy box cannot be reached or undone after the step.")
	for i := range lines {
		l := &lines[i]
		row := g.step(l)
		day, size := l.At().Day().Named(), g.rowHeight(row)
		switch {
		case i == 0 || lines[i-1].At().Day() != l.At().Day():
			g.head(day, size)
		case g.y+size > g.room.Bottom:
			g.begin()
			g.head(day+" (continued)", size)
		}
		g.row(row, drawing.Fine)
	}
	if len(w.Later) > 0 || len(w.Assumed) > 0 {
		g.head("After that, and what was taken", 12)
	}
	for i := range w.Later {
		g.text(ledgerText, w.Later[i].Stands())
	}
	for _, a := range w.Assumed {
		g.text(ledgerText, capital(a)+".")
	}
	return g.done()
}

// Columns of the list, as shares of the whole.
const (
	listTime = 0.05
	listSay  = 0.16
)

// step is a step as a row of the list.
func (g *ledger) step(l *works.Line) []part {
	if l.Comes {
		return []part{g.cell(listSay, 1-listSay, ledgerText, l.Say)}
	}
	row := []part{
		{wide: listTime * g.wide(), tall: 4, draw: func(g *ledger, x, top float64) {
			tick(g.sheet(), x, top, "")
			if l.Done {
				g.sheet().Add(drawing.Line(drawing.Point{X: x + 0.7, Y: top + 2}, drawing.Point{X: x + 1.7, Y: top + 3.3}, drawing.Thick), drawing.Line(drawing.Point{X: x + 1.7, Y: top + 3.3}, drawing.Point{X: x + 3.4, Y: top + 0.6}, drawing.Thick))
			}
		}},
		g.cell(listTime, listSay-listTime, ledgerText, l.Start.Clock()),
		g.cell(listSay, 1-listSay, ledgerText, l.Say),
	}
	var know []string
	closes := part{}
	for _, t := range l.Tells() {
		if t.About == works.ClosesOff {
			closes = g.cell(listSay, 1-listSay, small, t.About+": "+t.Say)
			closes.mark, closes.gap = true, 2
			continue
		}
		know = append(know, capital(t.About)+": "+t.Say+".")
	}
	tells := g.cell(listSay, 1-listSay, small, strings.Join(know, " "))
	tells.gap = 1
	return append(row, tells, closes)
}

// PlanSheets are all sheets of a plan: chart, list by day, the card of what comes
// next. Without lines there are none.
func PlanSheets(e *enclosure.Enclosure, w *works.Work, lines []works.Line, p Print) []drawing.Sheet {
	if len(lines) == 0 {
		return nil
	}
	out := append(PlanChart(e, w, lines, p), PlanList(e, w, lines, p)...)
	return append(out, BenchCards(e, works.Next(lines, works.AtOnce), p)...)
}
