package sheets

import (
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/shopping"
)

// Shopping draws what to buy, by shop, each line with a box to tick.
func Shopping(e *enclosure.Enclosure, l *shopping.List, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	g := d.ledger("Shopping list", "Shopping list")
	g.text(ledgerTitle, "Shopping list")
	g.text(ledgerText, "Whole packs, less what is on hand. Three numbers are the low, likely and high end: buy the likely one, and the high one where the shop is far. Prices said to be about are generic ranges, not yours.")
	for _, shop := range shopping.Shops() {
		g.shop(l, shop)
	}
	if hold := l.OnHand(e.Units); len(hold) > 0 {
		g.head("On hand: look that it is there", 20)
		for _, s := range hold {
			g.line(g.cell(0.06, 0.94, ledgerText, s))
		}
		g.endTable()
	}
	g.head("Sum", 25)
	g.text(ledgerText, l.Sums()...)
	return g.done()
}

// shop draws the lines of one shop, if it has any.
func (g *ledger) shop(l *shopping.List, shop string) {
	first := true
	for i := range l.Items {
		it := &l.Items[i]
		if it.Shop != shop || it.Packs[2] == 0 {
			continue
		}
		if first {
			g.head(capital(shop), 30)
			g.table([]part{
				g.cell(0.06, 0.18, small, "Buy"), g.cell(0.24, 0.56, small, "What"), g.cell(0.80, 0.20, small, l.Currency),
			})
			first = false
		}
		more := g.cell(0.24, 0.56, small, strings.Join(it.Says(g.d.e.Units), "; "))
		more.gap = 1
		g.line(g.cell(0.06, 0.18, ledgerText, it.Wants()), g.cell(0.24, 0.56, ledgerText, it.Name), more, g.cell(0.80, 0.20, ledgerText, it.Costs("")))
	}
	g.endTable()
}

// line draws a row with a box to tick.
func (g *ledger) line(parts ...part) {
	box := part{wide: 0.06 * g.wide(), tall: 4, draw: func(g *ledger, x, top float64) { tick(g.sheet(), x, top, "") }}
	g.row(append([]part{box}, parts...), drawing.Fine)
}
