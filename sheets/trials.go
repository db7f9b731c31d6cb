package sheets

import (
	"fmt"

	"rillwright/commission"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/quantity"
)

const trialGroup = "Tests"

// LeakSheet draws the leak test with its marks, hours, tissue points and room to
// sign.
func LeakSheet(e *enclosure.Enclosure, l commission.Leak, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	g := d.ledger(trialGroup, "Leak test")
	g.text(ledgerTitle, "Leak test")
	g.text(ledgerText,
		"When: the sealant cured by its label, bulkheads in, their mouths plugged. Before grid, foam or anything else hides a joint. Outdoors or over a tray if it can be carried.",
		"How: wipe every joint dry and lay a strip of dry tissue under each point listed. Fill to a mark, write the time, look at every tissue after the hours given. Go on only if all are dry.",
		"If not: drain, dry for a day, mark the place, cut the bead out on both sides of it and seal anew on clean glass. New sealant over old does not hold. Then begin again.")
	g.y += 2
	g.table([]part{
		g.cell(0, 0.25, small, "Fill the pool to (above its floor)"), g.cell(0.25, 0.12, small, "Water, about"), g.cell(0.37, 0.12, small, "Stands"),
		g.cell(0.49, 0.17, small, "Filled (day, time)"), g.cell(0.66, 0.17, small, "Looked (day, time)"), g.cell(0.83, 0.17, small, "All dry"),
	})
	for _, m := range l.Marks {
		cell := g.cell(0.83, 0.17, small)
		cell.tall, cell.draw = 7, func(g *ledger, x, top float64) {
			tick(g.sheet(), x, top, "dry")
		}
		g.row([]part{
			g.cell(0, 0.25, ledgerHead, d.sized(m.Height)), g.cell(0.25, 0.12, ledgerText, quantity.Volume(m.Volume).Show(e.Units)),
			g.cell(0.37, 0.12, ledgerText, fmt.Sprintf("%g h", m.Hours)), cell,
		}, drawing.Thin)
	}
	g.endTable()
	g.y += 2
	last := l.Marks[len(l.Marks)-1]
	g.text(small, fmt.Sprintf("Over the last %g hours the level may fall by %s at most: what open water loses to the air at its bad end, with what cannot be read off a mark. A film over the pool keeps it from that.", last.Hours, d.sized(l.Drop)), "Hours: "+l.From+".")
	g.head("Tissue points", 30)
	g.table([]part{
		g.cell(0, 0.05, small, "No."), g.cell(0.05, 0.53, small, "Under or at"),
		g.cell(0.58, 0.14, small, "A quarter"), g.cell(0.72, 0.14, small, "A half"), g.cell(0.86, 0.14, small, "Full"),
	})
	for i, name := range l.Points {
		row := []part{g.cell(0, 0.05, ledgerText, fmt.Sprint(i+1)), g.cell(0.05, 0.53, ledgerText, name)}
		for k := range 3 {
			row = append(row, part{x: (0.58 + 0.14*float64(k)) * g.wide(), tall: 4, draw: func(g *ledger, x, top float64) { tick(g.sheet(), x, top, "dry") }})
		}
		g.row(row, drawing.Fine)
	}
	g.endTable()
	g.blanks("Tested by", "Signed", "Date")
	return g.done()
}

// TrialSheets draws the tests of the running enclosure, with what passes printed in
// advance and room for what is measured.
func TrialSheets(e *enclosure.Enclosure, stages []commission.Stage, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	g := d.ledger(trialGroup, "Flow and other tests")
	g.text(ledgerTitle, "Flow and other tests")
	rate := "L/h = 3600 x litres / seconds"
	if e.Units == quantity.US {
		rate = "US gal/h = 3600 x gallons / seconds"
	}
	g.text(ledgerText, "Top to bottom, clean water, everything watched. "+rate+". Write what you measure, not what you hope for.")
	g.blanks("Bucket holds", "Water at", "Date", "By")
	for i := range stages {
		st := &stages[i]
		g.head(st.Name+": "+st.When, 45)
		g.table([]part{
			g.cell(0, 0.36, small, "Test and how"), g.cell(0.36, 0.25, small, "Passes"),
			g.cell(0.61, 0.16, small, "Measured"), g.cell(0.77, 0.23, small, "If not"),
		})
		for k := range st.Checks {
			g.check(&st.Checks[k], e.Units)
		}
		g.endTable()
		if st.ID == "flow" {
			g.y += 2
			g.cups(e)
			g.text(small, "Where it is held back: bare pump, with hose, with manifold, on the wall. The step at which the flow falls below its range first is where to look. Two flows at two heights give the pump's true curve; the rest is hose or holes.")
		}
	}
	g.blanks("Tested by", "Signed", "Date")
	return g.done()
}

// cups draws a box for what each outlet gives.
func (g *ledger) cups(e *enclosure.Enclosure) {
	const wide, high = 15.0, 9.0
	across := int(g.wide() / wide)
	for i := range e.Manifolds {
		m := &e.Manifolds[i]
		g.need(lineOf*small + high + 2)
		g.text(small, fmt.Sprintf("Cups of the %s, from its left end, all for the same time:", m.Name))
		for k := 0; k < len(m.Outlets); k += across {
			g.need(high)
			for c := range min(across, len(m.Outlets)-k) {
				x := g.room.Left + wide*float64(c)
				g.sheet().Add(drawing.Rectangle(drawing.Box{Left: x, Top: g.y, Right: x + wide, Bottom: g.y + high}, drawing.Thin, drawing.NoFill),
					&drawing.Text{Text: fmt.Sprint(k + c + 1), Height: small, At: drawing.Point{X: x + 1, Y: g.y + small + 1}})
			}
			g.y += high
		}
		g.y += 3
	}
}

// check draws one test as a row.
func (g *ledger) check(c *commission.Check, sys quantity.System) {
	how := g.cell(0, 0.36, small, c.How)
	how.gap = 1.5
	from := "From: " + c.From
	if text := c.ExpectText(sys); text != "" {
		from = "Computed: " + text + ". " + from
	}
	origin := g.cell(0.36, 0.25, small, from)
	origin.gap = 1.5
	row := []part{
		g.cell(0, 0.36, ledgerText, c.Name), how,
		g.cell(0.36, 0.25, ledgerText, c.PassText(sys)), origin,
		readings(g, c), g.cell(0.77, 0.23, small, c.IfNot),
	}
	if c.Hold == "" {
		g.row(row, drawing.Thin)
		return
	}
	// What must be read before the test stands with it on one sheet.
	hold := g.cell(0, 1, small, c.Hold)
	hold.mark = true
	g.need(g.rowHeight(row) + g.rowHeight([]part{hold}) + 1)
	g.y++
	g.cells([]part{hold}, drawing.NoPen)
	g.cells(row, drawing.Thin)
}

// readings is the room for what is measured.
func readings(g *ledger, c *commission.Check) part {
	const step = 7.0
	p := part{x: 0.61 * g.wide(), wide: 0.16 * g.wide()}
	var names []string
	for i := range c.Readings {
		names = append(names, fmt.Sprint(i+1))
	}
	if c.Readings > 1 {
		names = append(names, "mean")
	}
	if len(names) == 1 {
		names[0] = ""
	}
	p.tall = step*float64(len(names)) + 6
	p.draw = func(g *ledger, x, top float64) {
		for i, n := range names {
			y := top + step*float64(i+1) - 2
			from := x
			if n != "" {
				g.sheet().Add(&drawing.Text{Text: n, Height: small, At: drawing.Point{X: x, Y: y - 0.6}})
				from += drawing.TextWidth("mean", small) + 1
			}
			g.sheet().Add(drawing.Line(drawing.Point{X: from, Y: y}, drawing.Point{X: x + p.wide - 2*cellPad, Y: y}, drawing.Thin))
		}
		tick(g.sheet(), x, top+step*float64(len(names))+0.5, "passes")
	}
	return p
}
