package sheets

import (
	"fmt"
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/pieces"
	"rillwright/quantity"
)

const cutGroup = "Cut layouts"

// CutLayouts draws how everything is cut from stock: a sheet for each sheet of glass,
// plastic and lighting grid that something is cut from, cuts numbered in an order in
// which they can be made, and the lengths of pipe and hose together.
func CutLayouts(e *enclosure.Enclosure, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	l := pieces.Build(e, d.l)
	var out []drawing.Sheet
	for i := range l.Layouts.Glass {
		g := &l.Layouts.Glass[i]
		for k := range g.Plan.Sheets {
			if len(g.Plan.Sheets[k].Pieces) > 0 {
				out = append(out, d.glassCut(g, k))
			}
		}
	}
	for i := range l.Layouts.Grids {
		g := &l.Layouts.Grids[i]
		for k := range g.Plan.Sheets {
			if len(g.Plan.Sheets[k].Pieces) > 0 {
				out = append(out, d.gridCut(g, k))
			}
		}
	}
	return append(out, d.barCuts(l)...)
}

// laid is a rectangle on a sheet to be cut, m from its lower left corner.
type laid struct {
	x, y, w, h float64
	name, size string
	offcut     bool
}

// score is a cut across a sheet, from one place to another.
type score struct {
	x1, y1, x2, y2 float64
	trim           bool
}

// cutBoard draws one sheet with its pieces, offcuts and numbered cuts.
func (d *draft) cutBoard(title string, wide, high float64, list []laid, cuts []score, notes []string) drawing.Sheet {
	b := d.board(cutGroup, title, wide, high, around{left: 20, above: 10, right: 10, below: 18}, notes)
	b.sheet.Description = strings.Join(notes, " ")
	b.ink(drawing.Rectangle(b.frame, drawing.Thick, drawing.NoFill))
	box := func(r *laid) drawing.Box {
		p, q := b.at(r.x, r.y+r.h), b.at(r.x+r.w, r.y)
		return drawing.Box{Left: p.X, Top: p.Y, Right: q.X, Bottom: q.Y}
	}
	for i := range list {
		r := &list[i]
		o := box(r)
		if r.offcut {
			b.sheet.Add(drawing.Hatch([]drawing.Point{{X: o.Left, Y: o.Top}, {X: o.Right, Y: o.Top}, {X: o.Right, Y: o.Bottom}, {X: o.Left, Y: o.Bottom}}, 45, 6, drawing.Fine)...)
			continue
		}
		b.ink(drawing.Rectangle(o, drawing.Medium, drawing.Pale))
	}
	for i := range cuts {
		c := &cuts[i]
		pen := drawing.Heavy
		if c.trim {
			pen = drawing.Thin
		}
		b.ink(drawing.Line(b.at(c.x1, c.y1), b.at(c.x2, c.y2), pen))
	}
	side := drawing.Rows{Upright: true, First: b.frame.Left - 12, Outward: -1, Least: b.room.Top + 1, Most: b.room.Bottom - 1}
	side.Measures = []drawing.Measure{{From: b.frame.Bottom, To: b.frame.Top, Text: d.sized(high), FromEdge: b.frame.Left - 1, ToEdge: b.frame.Left - 1}}
	b.rows(side)
	below := drawing.Rows{First: b.frame.Bottom + 10, Outward: 1, Least: b.room.Left + 1, Most: b.room.Right - 1}
	below.Measures = []drawing.Measure{{From: b.frame.Left, To: b.frame.Right, Text: d.sized(wide), FromEdge: b.frame.Bottom + 1, ToEdge: b.frame.Bottom + 1}}
	b.rows(below)
	// Numbers of cuts stand on the cuts: a third of the way along, where pieces have
	// their names in the middle.
	n := 0
	for i := range cuts {
		c := &cuts[i]
		if c.trim {
			continue
		}
		n++
		p := b.at(c.x1+(c.x2-c.x1)/6, c.y1+(c.y2-c.y1)/6)
		b.badge(fmt.Sprint(n), p)
	}
	for i := range list {
		r := &list[i]
		o := box(r)
		words := []string{r.name, r.size}
		if r.offcut {
			words = []string{r.size}
		}
		if r.size != "" { // waste has none
			b.words(words, o)
		}
	}
	return b.sheet
}

// badge writes a number on white where nothing else stands, at or beside a point.
func (b *board) badge(text string, at drawing.Point) {
	items := b.place(text, small, true, []drawing.Point{at})
	for _, i := range items {
		if t, ok := i.(*drawing.Text); ok {
			b.sheet.Add(drawing.Rectangle(t.Bounds().Grown(0.6), drawing.Thin, drawing.Paper))
		}
	}
	b.sheet.Add(items...)
}

// words writes lines in the middle of a box if they fit there and nothing stands in
// the way: level, else with a size on two lines, else upright, else upright as one
// line; otherwise beside it.
func (b *board) words(lines []string, o drawing.Box) {
	one := strings.Join(lines, ", ")
	broken := strings.Split(strings.ReplaceAll(strings.Join(lines, "\n"), " x ", " x\n"), "\n")
	for _, try := range [][]*drawing.Text{within(lines, o, 0), within(broken, o, 0), within(lines, o, 90), within([]string{one}, o, 90)} {
		if !b.fits(try, o) {
			continue
		}
		for _, t := range try {
			b.sheet.Add(drawing.Rectangle(t.Bounds().Grown(0.4), drawing.NoPen, drawing.Paper), t)
			b.texts = append(b.texts, t.Bounds())
		}
		return
	}
	items := b.place(drawing.Fit(one, small, widest), small, true, []drawing.Point{{X: (o.Left + o.Right) / 2, Y: (o.Top + o.Bottom) / 2}})
	for _, i := range items {
		if t, ok := i.(*drawing.Text); ok {
			b.sheet.Add(drawing.Rectangle(t.Bounds().Grown(0.4), drawing.NoPen, drawing.Paper))
		}
	}
	b.sheet.Add(items...)
}

// within lays lines in the middle of a box, level or turned to be read from the right.
func within(lines []string, o drawing.Box, turned float64) []*drawing.Text {
	mid := drawing.Point{X: (o.Left + o.Right) / 2, Y: (o.Top + o.Bottom) / 2}
	out := make([]*drawing.Text, len(lines))
	for i, l := range lines {
		off := -tall(len(lines), small)/2 + small + float64(i)*lineOf*small
		at := drawing.Point{X: mid.X, Y: mid.Y + off}
		if turned != 0 {
			at = drawing.Point{X: mid.X + off, Y: mid.Y}
		}
		out[i] = &drawing.Text{Text: l, Height: small, At: at, Anchor: drawing.Middle, Rotation: turned}
	}
	return out
}

// fits reports whether texts lie in a box, clear of what is written already.
func (b *board) fits(list []*drawing.Text, o drawing.Box) bool {
	for _, t := range list {
		box := t.Bounds().Grown(0.5)
		if !box.Within(o) {
			return false
		}
		for _, x := range b.texts {
			if box.Overlaps(x) {
				return false
			}
		}
	}
	return true
}

func (d *draft) glassCut(g *pieces.GlassLayout, k int) drawing.Sheet {
	s := &g.Plan.Sheets[k]
	from := &g.Job.Stock[s.Stock]
	var list []laid
	for _, x := range s.Pieces {
		r := laid{x: x.X, y: x.Y, w: x.W, h: x.H, name: g.Job.Pieces[x.Piece].Name}
		r.size = d.size(x.W) + " x " + d.sized(x.H)
		list = append(list, r)
	}
	for _, o := range s.Offcuts {
		r := laid{x: o.X, y: o.Y, w: o.W, h: o.H, offcut: true}
		if r.size = d.size(o.W) + " x " + d.sized(o.H); !o.Reusable {
			r.size = ""
		}
		list = append(list, r)
	}
	var cuts []score
	say := make([]string, 0, len(s.Cuts))
	for _, c := range s.Cuts {
		x := score{trim: c.Trim}
		if c.Across {
			x.x1, x.y1, x.x2, x.y2 = c.Part.X, c.At, c.Part.X+c.Part.W, c.At
		} else {
			x.x1, x.y1, x.x2, x.y2 = c.At, c.Part.Y, c.At, c.Part.Y+c.Part.H
		}
		cuts = append(cuts, x)
		if !c.Trim {
			way := "from the left"
			if c.Across {
				way = "from below"
			}
			say = append(say, fmt.Sprintf("%d: %s %s", len(say)+1, d.sized(c.At), way))
		}
	}
	notes := []string{
		d.stockNote(&g.Stock[s.Stock]) + " What is hatched is left, what of it has a size is worth keeping.",
		"Cuts in this order, each right across what it divides, measured on the whole sheet: " + strings.Join(say, ", ") + ".",
		planNote(g.Least()) + " Score once, snap at once; gloves and glasses. Measure the box again before you cut what goes between two panes.",
	}
	return d.cutBoard(fmt.Sprintf("Cut layout: %s, sheet %d", g.What, k+1), from.Width, from.Height, list, cuts, notes)
}

func (d *draft) gridCut(g *pieces.GridLayout, k int) drawing.Sheet {
	s := &g.Plan.Sheets[k]
	from := &g.Job.Stock[s.Stock]
	m := func(n int) float64 { return float64(n) * g.Pitch }
	var list []laid
	for _, x := range s.Pieces {
		list = append(list, laid{x: m(x.Col), y: m(x.Row), w: m(x.Cols), h: m(x.Rows), name: g.Job.Pieces[x.Piece].Name, size: fmt.Sprintf("%d x %d cells", x.Cols, x.Rows)})
	}
	for _, o := range s.Offcuts {
		r := laid{x: m(o.Col), y: m(o.Row), w: m(o.Cols), h: m(o.Rows), offcut: true, size: fmt.Sprintf("%d x %d cells", o.Cols, o.Rows)}
		if !o.Reusable {
			r.size = ""
		}
		list = append(list, r)
	}
	var cuts []score
	say := make([]string, 0, len(s.Cuts))
	for _, c := range s.Cuts {
		// In the middle of the row or column that is lost.
		at := m(c.At) + g.Pitch/2
		if g.Job.Shared {
			at = m(c.At)
		}
		x := score{x1: m(c.Part.Col), y1: at, x2: m(c.Part.Col + c.Part.Cols), y2: at}
		way := "row"
		if !c.Across {
			x = score{x1: at, y1: m(c.Part.Row), x2: at, y2: m(c.Part.Row + c.Part.Rows)}
			way = "column"
		}
		cuts = append(cuts, x)
		say = append(say, fmt.Sprintf("%d: through %s %d", len(say)+1, way, c.At+1))
	}
	notes := []string{
		d.stockNote(&g.Stock[s.Stock]) + fmt.Sprintf(" %d x %d whole cells of %s; check with ten cells measured.", from.Cols, from.Rows, d.sized(g.Pitch)),
		"Cuts in this order, through the middle of cells, so that both parts keep their walls; columns count from the left, rows from below: " + strings.Join(say, ", ") + ".",
		planNote(g.Least()) + " Notches: see the cell map. Glasses on: snipped grid flies.",
	}
	return d.cutBoard(fmt.Sprintf("Cut layout: lighting grid, sheet %d", k+1), m(from.Cols), m(from.Rows), list, cuts, notes)
}

func (d *draft) stockNote(s *pieces.Stock) string {
	if s.OnHand {
		return fmt.Sprintf("From what is on hand: %s (line %d of the file).", s.Name, s.Line)
	}
	return "To buy: " + s.Name + ". Sizes sold are from memory: ask the shop."
}

// planNote says how good a layout is.
func planNote(l pieces.Least) string {
	if l.Proven {
		return "No layout buys less: proven."
	}
	return fmt.Sprintf("At most %.1f %% more is bought than the least possible.", 100*l.Gap)
}

// barCuts draws pipe and hose as strips, one for each length that something is cut
// from.
func (d *draft) barCuts(l *pieces.List) []drawing.Sheet {
	empty := true
	g := d.ledger(cutGroup, "Cut layouts: pipe and hose")
	g.text(ledgerText, "Lengths are end to end, before they are joined. Cut the longest first. What is marked to be trimmed is cut long and shortened when all is fitted dry.")
	for i := range l.Layouts.Bars {
		x := &l.Layouts.Bars[i]
		for k := range x.Plan.Bars {
			s := &x.Plan.Bars[k]
			if len(s.Cuts) == 0 {
				continue
			}
			empty = false
			from := &x.Stock[s.Stock]
			hand := "to buy"
			if from.OnHand {
				hand = "on hand"
			}
			g.head(fmt.Sprintf("%s: from %s, %s", x.Part, from.Name, hand), 30)
			whole := x.Job.Stock[s.Stock].Length
			g.row([]part{{wide: g.wide(), tall: 14, draw: func(g *ledger, left, top float64) { g.strip(whole, s, left, top) }}}, drawing.NoPen)
			for n, c := range s.Cuts {
				p := &x.Job.Pieces[c.Piece]
				trim := ""
				if l.Lengths[x.Lengths[c.Piece]].Trim {
					trim = "; trim it when fitted dry"
				}
				g.text(ledgerText, fmt.Sprintf("%d  %s: %s, from %s to %s%s", n+1, p.Name, d.sized(p.Length), d.size(c.From), d.sized(c.To), trim))
			}
			if s.Reusable {
				g.text(ledgerText, "Left: "+quantity.Length(s.Offcut).Show(d.e.Units))
			}
		}
		if n := len(x.Plan.Missing); n > 0 {
			empty = false
			g.head(x.Part, 10)
			g.text(ledgerText, fmt.Sprintf("%d lengths are longer than any that is on hand or sold: join two with a coupling, or ask for longer pipe.", n))
		}
	}
	if empty {
		return nil
	}
	return g.done()
}

// strip draws a length of pipe with its cuts and what is left of it.
func (g *ledger) strip(whole float64, s *pieces.BarCuts, left, top float64) {
	const high = 8.0
	k := (g.wide() - 2*cellPad) / whole
	sheet := g.sheet()
	box := func(from, to float64) drawing.Box {
		return drawing.Box{Left: left + from*k, Top: top + 2, Right: left + to*k, Bottom: top + 2 + high}
	}
	o := box(0, whole)
	end := s.Cuts[len(s.Cuts)-1].To
	rest := box(end, whole)
	sheet.Add(drawing.Hatch([]drawing.Point{{X: rest.Left, Y: rest.Top}, {X: rest.Right, Y: rest.Top}, {X: rest.Right, Y: rest.Bottom}, {X: rest.Left, Y: rest.Bottom}}, 45, 4, drawing.Fine)...)
	sheet.Add(drawing.Rectangle(o, drawing.Thick, drawing.NoFill))
	for n, c := range s.Cuts {
		b := box(c.From, c.To)
		sheet.Add(drawing.Rectangle(b, drawing.Medium, drawing.Pale))
		t := &drawing.Text{Text: fmt.Sprint(n + 1), Height: ledgerText, At: drawing.Point{X: (b.Left + b.Right) / 2, Y: (b.Top+b.Bottom)/2 + ledgerText/2}, Anchor: drawing.Middle}
		if t.Bounds().Within(b) {
			sheet.Add(t)
		}
	}
}
