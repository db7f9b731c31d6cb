package sheets

import (
	"fmt"
	"time"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/keeping"
	"rillwright/record"
)

const upkeepGroup = "Keeping it"

// tickings is how many times a chore may be noted on the sheet, one less where the next
// day stands beside.
const tickings = 3

// Upkeep draws what is to be done again and again, with room for the days on which it
// was, and the spares to have; where readings were taken, also where they are going and
// what the year up to the last one came to. Readings must be in order of time. What keeps
// the list from being whole stands under it; "" for nothing.
func Upkeep(e *enclosure.Enclosure, chores []keeping.Chore, readings []record.Reading, lacks string, p Print) []drawing.Sheet {
	g := newDraft(e, p).ledger(upkeepGroup, "Keeping it running")
	g.text(ledgerTitle, "Keeping it running")
	g.text(ledgerText, "Pull the plug before you reach in or take anything apart. Write the day beside what you did. How often is from memory of the trade where it does not say more: do it oftener where leaves fall, water is hard or the flow goes down.")
	due := map[string]time.Time{}
	if n := len(readings); n > 0 {
		last := readings[n-1].Time
		for _, d := range keeping.DueAt(chores, readings, last) {
			due[d.ID] = d.Next
		}
		g.text(ledgerText, "Next days are by the log as it stood on "+last.Format(time.DateOnly)+".")
	}
	g.y += 2
	const what, often, next = 0.46, 0.12, 0.17
	heads := []part{g.cell(0, what, small, "What and how"), g.cell(what, often, small, "How often")}
	boxes, ticks := what+often, tickings
	if len(due) > 0 {
		heads = append(heads, g.cell(boxes, next, small, "Next"))
		boxes, ticks = boxes+next, ticks-1
	}
	wide := (1 - boxes) / float64(ticks)
	for k := range ticks {
		heads = append(heads, g.cell(boxes+wide*float64(k), wide, small, "Done on"))
	}
	g.table(heads)
	for i := range chores {
		c := &chores[i]
		how := []string{c.What + ". " + c.How}
		if c.From != keeping.Memory {
			how = append(how, "How often: "+c.From+".")
		}
		row := []part{g.cell(0, what, ledgerText, how...), g.cell(what, often, ledgerText, "every "+every(c.Days))}
		if at, ok := due[c.ID]; ok {
			row = append(row, g.cell(what+often, next, ledgerText, at.Format(time.DateOnly)))
		}
		for k := range ticks {
			row = append(row, part{x: (boxes + wide*float64(k)) * g.wide(), tall: 9, draw: func(g *ledger, x, top float64) {
				g.sheet().Add(drawing.Line(drawing.Point{X: x, Y: top + 8}, drawing.Point{X: x + wide*g.wide() - 2, Y: top + 8}, drawing.Fine))
			}})
		}
		g.row(row, drawing.Fine)
	}
	g.endTable()
	if lacks != "" {
		g.text(small, lacks)
	}
	g.head("Spares to have", 20)
	for _, s := range keeping.Spares(e) {
		g.text(ledgerText, s.What+": "+s.Why+".")
	}
	if len(readings) == 0 {
		return g.done()
	}
	now := readings[len(readings)-1].Time
	if trends := keeping.Trends(readings); len(trends) > 0 {
		g.head("Where it is going", 16)
		for i := range trends {
			first, then := trends[i].Words(e.Units, now)
			g.text(ledgerText, first+"; "+then+".")
		}
	}
	year := keeping.YearTo(readings, now)
	first, rest := year.Words(e.Units)
	g.head(fmt.Sprintf("%s, to %s", first, now.Format(time.DateOnly)), 12)
	for _, l := range rest {
		g.text(ledgerText, capital(l)+".")
	}
	return g.done()
}

// every is a number of days as people say it, where that is exact enough.
func every(days int) string {
	switch days {
	case 7:
		return "week"
	case 14:
		return "2 weeks"
	case 30:
		return "month"
	case 91:
		return "3 months"
	case 182:
		return "half year"
	case 365:
		return "year"
	}
	return keeping.CountDays(days)
}
