package sheets

import (
	"fmt"

	"rillwright/drawing"
)

// ledger is a run of framed sheets that text and tables flow down, one after the
// other. A part that is too tall for what is left begins a new sheet.
type ledger struct {
	d            *draft
	group, title string
	sheets       []drawing.Sheet
	room         drawing.Box // inside the frame and its margins
	y            float64     // where the next part begins
	heads        []part      // repeated over a table that goes on
}

// Heights of capitals in a ledger, mm.
const (
	ledgerTitle = 6.0
	ledgerHead  = 4.0
	ledgerText  = 3.0

	ledgerPad = 4.0 // from the frame to the text
	cellPad   = 1.6 // round the words of a table
	ledgerGap = 4.0 // between parts
)

// part is some lines in one column of a row, or a drawing of a height in it.
type part struct {
	x, wide float64
	lines   []string
	height  float64                         // of capitals
	gap     float64                         // above it
	mark    bool                            // in a box of its own
	draw    func(g *ledger, x, top float64) // in place of lines
	tall    float64                         // of what draw draws
}

func (d *draft) ledger(group, title string) *ledger {
	g := &ledger{d: d, group: group, title: title}
	g.begin()
	return g
}

func (g *ledger) sheet() *drawing.Sheet { return &g.sheets[len(g.sheets)-1] }

func (g *ledger) begin() {
	s, room := g.d.p.Paper.Framed(g.d.block(g.title, ""))
	s.Group = g.group
	g.sheets = append(g.sheets, s)
	g.room = room.Grown(-ledgerPad)
	g.y = g.room.Top
}

// need begins a new sheet if a height does not fit on this one, unless it is empty.
func (g *ledger) need(h float64) {
	if g.y+h > g.room.Bottom && g.y > g.room.Top {
		g.begin()
		if g.heads != nil {
			g.cells(g.heads, drawing.Medium)
		}
	}
}

// done returns the sheets, numbered among themselves where there are several.
func (g *ledger) done() []drawing.Sheet {
	if n := len(g.sheets); n > 1 {
		for i := range g.sheets {
			s := &g.sheets[i]
			s.Title = fmt.Sprintf("%s, %d of %d", g.title, i+1, n)
			// The title block is drawn anew, since its words carry the title.
			again, _ := g.d.p.Paper.Framed(g.d.block(s.Title, ""))
			s.Items = append(again.Items, s.Items[len(again.Items):]...)
		}
	}
	return g.sheets
}

func (g *ledger) wide() float64 { return g.room.Right - g.room.Left }

// text writes paragraphs, each line where it fits.
func (g *ledger) text(height float64, paragraphs ...string) {
	for _, l := range wrapped(height, g.wide(), paragraphs...) {
		g.need(lineOf * height)
		g.sheet().Add(&drawing.Text{Text: l, Height: height, At: drawing.Point{X: g.room.Left, Y: g.y + height}})
		g.y += lineOf * height
	}
}

// head writes a heading that keeps some height under it on the same sheet.
func (g *ledger) head(text string, with float64) {
	if g.y > g.room.Top {
		g.y += ledgerGap
	}
	g.need(lineOf*ledgerHead + with)
	g.text(ledgerHead, text)
	g.y += 1.5
}

// cell is a part of wrapped text in a column; column is its left side and width as
// shares of the whole.
func (g *ledger) cell(x, wide float64, height float64, paragraphs ...string) part {
	w := wide*g.wide() - 2*cellPad
	return part{x: x * g.wide(), wide: wide * g.wide(), lines: wrapped(height, w, paragraphs...), height: height}
}

func (p *part) size() float64 {
	if p.draw != nil {
		return p.gap + p.tall
	}
	if len(p.lines) == 0 {
		return 0
	}
	return p.gap + tall(len(p.lines), p.height)
}

// row draws a row of a table, a line under it. Parts of the same x stand one below
// the other.
func (g *ledger) row(parts []part, pen drawing.Pen) {
	g.need(g.rowHeight(parts))
	g.cells(parts, pen)
}

func (g *ledger) rowHeight(parts []part) float64 {
	most := 0.0
	down := map[float64]float64{}
	for i := range parts {
		down[parts[i].x] += parts[i].size()
		most = max(most, down[parts[i].x])
	}
	return most + 2*cellPad
}

func (g *ledger) cells(parts []part, pen drawing.Pen) {
	h := g.rowHeight(parts)
	down := map[float64]float64{}
	for i := range parts {
		p := &parts[i]
		x, top := g.room.Left+p.x+cellPad, g.y+cellPad+down[p.x]+p.gap
		down[p.x] += p.size()
		if p.draw != nil {
			p.draw(g, x, top)
			continue
		}
		if p.mark && len(p.lines) > 0 {
			g.sheet().Add(drawing.Rectangle(drawing.Box{Left: x - cellPad/2, Top: top - 1, Right: x + p.wide - 1.5*cellPad, Bottom: top + tall(len(p.lines), p.height) + 0.8}, drawing.Thick, drawing.NoFill))
		}
		prose(g.sheet(), p.lines, p.height, x, top)
	}
	g.y += h
	if pen != drawing.NoPen {
		g.sheet().Add(drawing.Line(drawing.Point{X: g.room.Left, Y: g.y}, drawing.Point{X: g.room.Right, Y: g.y}, pen))
	}
}

// table sets what stands over the columns, on every sheet that the table reaches.
func (g *ledger) table(heads []part) {
	g.row(heads, drawing.Medium)
	g.heads = heads
}

func (g *ledger) endTable() { g.heads = nil }

// boxed writes text in a heavy box.
func (g *ledger) boxed(height float64, paragraphs ...string) {
	lines := wrapped(height, g.wide()-8, paragraphs...)
	h := tall(len(lines), height) + 6
	g.need(h)
	b := drawing.Box{Left: g.room.Left, Top: g.y, Right: g.room.Right, Bottom: g.y + h}
	g.sheet().Add(drawing.Rectangle(b, drawing.Thick, drawing.NoFill))
	prose(g.sheet(), lines, height, b.Left+4, b.Top+3)
	g.y = b.Bottom + 2
}

// blanks draws names with lines to write on, evenly across the sheet.
func (g *ledger) blanks(names ...string) {
	const h = 11.0
	g.need(h)
	g.y += h
	each := g.wide() / float64(len(names))
	for i, n := range names {
		x := g.room.Left + each*float64(i)
		g.sheet().Add(&drawing.Text{Text: n, Height: ledgerText, At: drawing.Point{X: x, Y: g.y - 1.5}})
		from := x + drawing.TextWidth(n, ledgerText) + 2
		g.sheet().Add(drawing.Line(drawing.Point{X: from, Y: g.y - 0.8}, drawing.Point{X: x + each - 4, Y: g.y - 0.8}, drawing.Thin))
	}
	g.y += 2
}

// tick draws a box to tick and a word beside it.
func tick(s *drawing.Sheet, x, top float64, word string) {
	const side = 4.0
	s.Add(drawing.Rectangle(drawing.Box{Left: x, Top: top, Right: x + side, Bottom: top + side}, drawing.Medium, drawing.NoFill))
	if word == "" {
		return
	}
	s.Add(&drawing.Text{Text: word, Height: small, At: drawing.Point{X: x + side + 1.5, Y: top + side - 0.6}})
}
