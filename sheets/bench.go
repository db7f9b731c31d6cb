package sheets

import (
	"strconv"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/works"
)

// Heights of capitals on a card for the bench, mm: what to do is read at arm's
// length with one eye, what is to be known of it a little nearer.
const (
	benchSay    = 6.5  // at most
	benchRatio  = 1.45 // of it to what is to be known
	benchWhen   = 4.0
	benchBadge  = 7.0
	benchIndent = 14.0 // of the words, behind the number
	benchLabel  = 33.0 // column of what a line is about
	mostSay     = 4    // lines of what to do
)

// Cards of the bench are bound under this heading with the rest of the plan.
const workGroup = "Order of work"

// BenchCards draws what comes next, in large type: what to do and when, why, with
// which tools and hands, how long fresh sealant may be worked on, what is closed off
// and what to clean up. Three things to do go on one sheet where they fit with
// capitals of 3 mm or more; one that is longer than a sheet is cut.
func BenchCards(e *enclosure.Enclosure, next []works.Line, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	for text := 5.0; text > ledgerText; text -= 0.1 {
		if out := d.benchCards(next, text); len(out) == 1 {
			return out
		}
	}
	return d.benchCards(next, ledgerText)
}

func (d *draft) benchCards(next []works.Line, text float64) []drawing.Sheet {
	g := d.ledger(workGroup, "Bench card: what comes next")
	g.text(ledgerTitle, "Next at the bench")
	g.y += 2
	if len(next) == 0 {
		g.text(benchSay, "Nothing is left to do.")
	}
	n := 0
	for i := range next {
		l := &next[i]
		if l.Idle() {
			g.text(min(benchWhen, text), l.At().Day().Named()+": "+l.Say+".")
			g.y += 1
			continue
		}
		n++
		g.action(l, n, text)
	}
	return g.done()
}

// action draws one thing to do in a box of its own.
func (g *ledger) action(l *works.Line, n int, text float64) {
	const pad = 3.5
	big := min(benchSay, benchRatio*text)
	wide := g.wide() - benchIndent - 2*pad
	say := drawing.Wrap(l.Say, big, wide)
	if len(say) > mostSay {
		say = append(say[:mostSay-1], drawing.Fit(say[mostSay-1]+" …", big, wide))
	}
	type block struct {
		about string
		lines []string
	}
	var blocks []block
	h := 2*pad + tall(1, benchWhen) + 2.2 + tall(len(say), big) + 2
	for _, t := range l.Tells() {
		b := block{t.About, drawing.Wrap(t.Say, text, wide-benchLabel)}
		blocks = append(blocks, b)
		h += lineOf * text * float64(len(b.lines))
	}
	g.need(h)
	box := drawing.Box{Left: g.room.Left, Top: g.y, Right: g.room.Right, Bottom: min(g.y+h, g.room.Bottom)}
	s := g.sheet()
	s.Add(drawing.Rectangle(box, drawing.Thick, drawing.NoFill))
	x, y := box.Left+pad+benchIndent, box.Top+pad
	s.Add(&drawing.Text{Text: strconv.Itoa(n), Height: benchBadge, At: drawing.Point{X: box.Left + pad, Y: y + benchBadge}})
	tick(s, box.Left+pad, y+benchBadge+4, "")
	y = prose(s, []string{l.Start.Day().Named() + ", " + l.Start.Clock()}, benchWhen, x, y) + 2.2
	y = prose(s, say, big, x, y) + 2
	for _, b := range blocks {
		for k, line := range b.lines {
			if y+tall(1, text) > box.Bottom-1 {
				break
			}
			if k == 0 {
				s.Add(&drawing.Text{Text: b.about, Height: min(text, ledgerText), At: drawing.Point{X: x, Y: y + text}})
			}
			s.Add(&drawing.Text{Text: line, Height: text, At: drawing.Point{X: x + benchLabel, Y: y + text}})
			if b.about == works.ClosesOff { // a bar beside what cannot be undone
				bar := x + benchLabel - 2.2
				s.Add(drawing.Line(drawing.Point{X: bar, Y: y - 0.3*text}, drawing.Point{X: bar, Y: y + 1.35*text}, drawing.Heavy))
			}
			y += lineOf * text
		}
	}
	g.y = box.Bottom + 3.5
}
