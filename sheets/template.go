package sheets

import (
	"fmt"
	"math"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/layout"
)

const templateGroup = "Drilling templates"

// Templates draws a template at full size for every drain's hole and every other
// opening of the panes, tiled where it is larger than the paper. Where drilling is
// refused there is a sheet with the reasons in its place.
func Templates(e *enclosure.Enclosure, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	var out []drawing.Sheet
	for i := range e.Design.Enclosure.Panes {
		pane := &e.Design.Enclosure.Panes[i]
		list := answers.Openings(e, pane.Name.Value)
		if len(list) == 0 {
			continue
		}
		permit := answers.MayDrill(e, pane.Name.Value)
		for k := range list {
			out = append(out, d.template(pane, &permit, &list[k])...)
		}
	}
	return out
}

// template draws one opening, or says why not.
func (d *draft) template(pane *design.Pane, permit *answers.Permit, o *answers.Marked) []drawing.Sheet {
	title := fmt.Sprintf("Template: %s in %s", o.Name, pane.Name.Value)
	var why []string
	for _, r := range permit.Refused {
		// A fault of one opening is none of its neighbours'.
		if r.Opening == "" || r.Opening == o.Name {
			why = append(why, r.Why)
		}
	}
	place := d.paneOf(pane.Name.Value)
	if !o.Placed || place == nil {
		why = append(why, fmt.Sprintf("The file does not say where pane %q stands: write enclosure.panes[%s].at, then it is known which face this sheet lies on.", pane.Name.Value, pane.Name.Value))
	}
	if len(why) > 0 {
		return []drawing.Sheet{d.refusal(title, why)}
	}
	t := &template{draft: d, pane: place, o: o, notes: d.templateNotes(place, permit, o), boxed: boxedWords(permit, o)}
	return t.draw(title)
}

// paneOf returns the first placed pane of a name, nil if there is none.
func (d *draft) paneOf(name string) *layout.Pane {
	for i := range d.l.Panes {
		if d.l.Panes[i].Name == name {
			return &d.l.Panes[i]
		}
	}
	return nil
}

func (d *draft) refusal(title string, why []string) drawing.Sheet {
	s, room := d.p.Paper.Framed(d.block("No t"+title[1:], ""))
	s.Group = templateGroup
	left, wide := room.Left+12, room.Right-room.Left-24
	y := prose(&s, []string{"No template"}, 8, left, room.Top+14)
	y = prose(&s, wrapped(4, wide, "This opening is not to be drilled as the design stands:"), 4, left, y+6)
	for _, w := range why {
		lines := wrapped(4, wide-6, w)
		s.Add(&drawing.Circle{Centre: drawing.Point{X: left + 1.5, Y: y + 6.5}, Radius: 0.9, Fill: drawing.Solid})
		y = prose(&s, lines, 4, left+6, y+4.5)
	}
	prose(&s, wrapped(3.2, wide, "Change the design file and draw this sheet anew. Nothing on it is to be measured from."), 3.2, left, y+8)
	s.Description = "No template: " + why[0]
	return s
}

func (d *draft) templateNotes(place *layout.Pane, permit *answers.Permit, o *answers.Marked) []string {
	what := fmt.Sprintf("Hole %s.", d.sized(o.Width))
	switch {
	case !o.Round:
		what = fmt.Sprintf("Opening %s x %s, corners %s.", d.size(o.Width), d.sized(o.Height), d.sized(o.Corner))
	case o.Flange > 0 && o.FlangeTaken:
		what = fmt.Sprintf("Hole %s. The flange, taken as %s, is assumed: measure yours.", d.sized(o.Width), d.sized(o.Flange))
	case o.Flange > 0:
		what = fmt.Sprintf("Hole %s, flange %s.", d.sized(o.Width), d.sized(o.Flange))
	}
	face := "outer face"
	switch place.At {
	case "bottom":
		face = "upper face, the inside"
	case "dam":
		face = "front face"
	}
	notes := []string{
		what + " Lay this sheet on the " + face + " of the pane, heavy lines on its edges. Drill to the fitting in your hand, never to its name.",
		"Print at 100 %, not fitted to the page, and measure both bars before you mark.",
	}
	if !o.Edged {
		notes = append(notes, "The file does not say which edge the opening's distance counts from: check it before you mark.")
	}
	return append(notes, permit.Cautions...)
}

// template is one opening at full size. The plate's y runs down, the pane's up.
type template struct {
	*draft
	pane  *layout.Pane
	o     *answers.Marked
	notes []string
	boxed []string // rules that the builder overrides, with the words

	plate       drawing.Sheet
	left, low   bool    // the datum edges
	farX, farY  bool    // an edge that is too far off to be on the sheet
	cx, cy, r   float64 // of the opening on the plate, mm; r holds it and its flange
	edgeX       float64 // of the datum edges on the plate
	edgeY       float64
	width, high float64
}

// Sizes about a template, mm.
const (
	edgeRoom    = 9.0  // beyond the pane's edges
	aroundHole  = 12.0 // round the opening
	rowsRoom    = 10.0 // for the row of dimensions
	mostTiles   = 4    // of a template; with more, the farther edge is measured by tape
	templateBar = 26.0 // height of what stands at each foot
)

func (t *template) draw(title string) []drawing.Sheet {
	o := t.o
	t.left, t.low = o.X <= t.pane.Width/2, o.Y <= t.pane.Height/2
	t.r = math.Max(mm(o.Flange)/2, math.Max(mm(o.Width), mm(o.Height))/2)
	fromX, fromY := mm(o.X), mm(o.Y)
	if !t.left {
		fromX = mm(t.pane.Width - o.X)
	}
	if !t.low {
		fromY = mm(t.pane.Height - o.Y)
	}
	cut := drawing.Tiling{Paper: t.p.Paper, Title: t.block(title, "1:1"), Foot: t.foot}
	rest := t.r + aroundHole + rowsRoom
	near := t.half(true)
	count := func() {
		t.width, t.high = edgeRoom+fromX+rest, edgeRoom+fromY+rest
		if t.farX {
			t.width = 2*near + rowsRoom
		}
		if t.farY {
			t.high = 2*near + rowsRoom
		}
	}
	count()
	for !t.farX || !t.farY {
		if across, down, _ := cut.Count(t.width, t.high); across*down <= mostTiles {
			break
		}
		if !t.farX && (fromX >= fromY || t.farY) {
			t.farX = true
		} else {
			t.farY = true
		}
		count()
	}
	// The datum corner is at the plate's left or right, bottom or top.
	along := func(far bool, from, size float64, low bool) (edge, centre float64) {
		edge, centre = edgeRoom, edgeRoom+from
		if far {
			centre = near
		}
		if !low {
			edge, centre = size-edge, size-centre
		}
		return edge, centre
	}
	t.edgeX, t.cx = along(t.farX, fromX, t.width, t.left)
	t.edgeY, t.cy = along(t.farY, fromY, t.high, !t.low)
	t.plate = drawing.Sheet{
		Title: title, Group: templateGroup, Scale: 1, Width: t.width, Height: t.high,
		Description: fmt.Sprintf("Template at full size: centre %s from the %s edge and %s from the %s edge.", t.sized(fromX/1000), t.edgeName(false), t.sized(fromY/1000), t.edgeName(true)),
	}
	t.edges()
	t.opening()
	t.measures(fromX/1000, fromY/1000)
	return cut.Cut(&t.plate)
}

// half is how far to either side of the centre the template reaches, mm: at least so
// far along an edge that is far off that the words along the other have room.
func (t *template) half(far bool) float64 {
	if far {
		return math.Max(t.r+aroundHole, 48)
	}
	return t.r + aroundHole
}

// edgeName names a datum edge as it is on the sheet.
func (t *template) edgeName(upright bool) string {
	if upright {
		switch {
		case t.pane.Lies() && t.low:
			return "front"
		case t.pane.Lies():
			return "rear"
		case t.low:
			return "lower"
		}
		return "upper"
	}
	switch {
	case t.pane.At == "left" || t.pane.At == "right":
		// Seen from outside a left side has its rear edge on the left.
		if t.left == (t.pane.At == "left") {
			return "rear"
		}
		return "front"
	case t.left:
		return "left"
	}
	return "right"
}

// seen says from where left and right are told, where that may be mistaken.
func (t *template) seen() string {
	if t.pane.At == "back" {
		return ", seen from behind"
	}
	return ""
}

// edges draws the pane's edges and how near to them a rim may come.
func (t *template) edges() {
	dx, dy := 1.0, -1.0 // from the edges inwards
	if !t.left {
		dx = -1
	}
	if !t.low {
		dy = 1
	}
	endX, endY := t.cx+dx*t.half(t.farX), t.cy+dy*t.half(t.farY)
	beginX, beginY := t.edgeX, t.edgeY
	if t.farX {
		beginX = t.cx - dx*t.half(true)
	}
	if t.farY {
		beginY = t.cy - dy*t.half(true)
	}
	least := mm(t.o.Edge)
	say := fmt.Sprintf("no rim past this line, %s", t.sized(t.o.Edge))
	if !t.farX {
		t.plate.Add(drawing.Line(drawing.Point{X: t.edgeX, Y: beginY}, drawing.Point{X: t.edgeX, Y: endY}, drawing.Heavy))
		x := t.edgeX + dx*least
		t.plate.Add(drawing.Line(drawing.Point{X: x, Y: beginY}, drawing.Point{X: x, Y: endY}, drawing.Dashed))
		t.along(t.edgeName(false)+" edge of the pane"+t.seen(), t.edgeX-dx*1.6, -dx, (beginY+endY)/2)
		if math.Abs(endY-beginY) > drawing.TextWidth(say, small)+least+4 {
			t.along(say, x+dx*1.6, dx, (beginY+dy*least+endY)/2)
		}
	}
	if !t.farY {
		t.plate.Add(drawing.Line(drawing.Point{X: beginX, Y: t.edgeY}, drawing.Point{X: endX, Y: t.edgeY}, drawing.Heavy))
		y := t.edgeY + dy*least
		t.plate.Add(drawing.Line(drawing.Point{X: beginX, Y: y}, drawing.Point{X: endX, Y: y}, drawing.Dashed))
		t.level(t.edgeName(true)+" edge of the pane", (beginX+endX)/2, t.edgeY-dy*1.6, -dy)
		if math.Abs(endX-beginX) > drawing.TextWidth(say, small)+least+4 {
			t.level(say, (beginX+dx*least+endX)/2, y+dy*1.6, dy)
		}
	}
}

// along writes words up the sheet beside a line at x, on the side that dx tells,
// in the middle about y.
func (t *template) along(text string, x, dx, y float64) {
	if dx > 0 {
		x += small
	}
	t.plate.Add(&drawing.Text{Text: text, Height: small, At: drawing.Point{X: x, Y: y}, Anchor: drawing.Middle, Rotation: 90})
}

// level is along for a level line at y.
func (t *template) level(text string, x, y, dy float64) {
	if dy > 0 {
		y += small
	}
	t.plate.Add(&drawing.Text{Text: text, Height: small, At: drawing.Point{X: x, Y: y}, Anchor: drawing.Middle})
}

func (t *template) opening() {
	c := drawing.Point{X: t.cx, Y: t.cy}
	t.plate.Add(outline(c, mm(t.o.Width), mm(t.o.Height), mm(t.o.Corner), t.o.Round, drawing.Thick))
	if t.o.Flange > 0 {
		t.plate.Add(&drawing.Circle{Centre: c, Radius: mm(t.o.Flange) / 2, Pen: drawing.LongDashes})
		// Where the flange lies, told along its lower side.
		y := c.Y + (mm(t.o.Flange)+mm(t.o.Width))/4 + small/2
		if mm(t.o.Flange-t.o.Width)/2 > small+2 {
			x := &drawing.Text{Text: "flange", Height: small, At: drawing.Point{X: c.X + 2, Y: y}}
			t.plate.Add(drawing.Rectangle(x.Bounds(), drawing.NoPen, drawing.Paper), x)
		}
	}
	t.plate.Add(drawing.Cross(c, t.r+5, drawing.Fine)...)
	t.plate.Add(drawing.Cross(c, 4, drawing.Thin)...)
	t.plate.Add(&drawing.Circle{Centre: c, Radius: 1.5, Pen: drawing.Thin})
	name := "⌀ " + t.sized(t.o.Width)
	if !t.o.Round {
		name = t.size(t.o.Width) + " x " + t.sized(t.o.Height)
	}
	wide := drawing.TextWidth(name, small)
	if mm(t.o.Width) > wide+10 && mm(t.o.Height) > 16 {
		x := &drawing.Text{Text: name, Height: small, At: drawing.Point{X: c.X, Y: c.Y - mm(t.o.Height)/4 + small/2}, Anchor: drawing.Middle}
		t.plate.Add(drawing.Rectangle(x.Bounds(), drawing.NoPen, drawing.Paper), x)
	}
}

// measures are the two distances from the edges; of an edge that is not on the
// sheet, the line to be measured to.
func (t *template) measures(fromX, fromY float64) {
	row := drawing.Rows{Least: 0, Most: t.width, Outward: -1, First: t.cy - t.r - aroundHole}
	if !t.low {
		row.Outward, row.First = 1, t.cy+t.r+aroundHole
	}
	m := drawing.Measure{From: t.edgeX, To: t.cx, Text: t.sized(fromX), FromEdge: t.cy + row.Outward*(t.r+aroundHole-4), ToEdge: t.cy + row.Outward*(t.r+3)}
	if !t.farX {
		row.Measures = []drawing.Measure{m}
		items, _ := row.Draw()
		t.plate.Add(items...)
	} else {
		t.tape(fmt.Sprintf("%s from the %s edge%s", t.sized(fromX), t.edgeName(false), t.seen()), drawing.Point{X: t.cx, Y: row.First + row.Outward*2}, 0)
	}
	row = drawing.Rows{Upright: true, Least: 0, Most: t.high, Outward: 1, First: t.cx + t.r + aroundHole}
	if !t.left {
		row.Outward, row.First = -1, t.cx-t.r-aroundHole
	}
	m = drawing.Measure{From: t.edgeY, To: t.cy, Text: t.sized(fromY), FromEdge: t.cx + row.Outward*(t.r+aroundHole-4), ToEdge: t.cx + row.Outward*(t.r+3)}
	if !t.farY {
		row.Measures = []drawing.Measure{m}
		items, _ := row.Draw()
		t.plate.Add(items...)
	} else {
		t.tape(fmt.Sprintf("%s from the %s edge", t.sized(fromY), t.edgeName(true)), drawing.Point{X: row.First + row.Outward*2, Y: t.cy}, 90)
	}
}

// tape writes to which line a distance is to be measured by tape.
func (t *template) tape(text string, at drawing.Point, turned float64) {
	c := drawing.Point{X: t.cx, Y: t.cy}
	t.plate.Add(drawing.Line(c, at, drawing.Thin))
	if turned == 0 {
		at.Y -= 1
	} else {
		at.X -= 1
	}
	x := &drawing.Text{Text: text, Height: small, At: at, Anchor: drawing.Middle, Rotation: turned}
	t.plate.Add(drawing.Rectangle(x.Bounds(), drawing.NoPen, drawing.Paper), x)
}

// outline is the line of an opening about its centre, lengths in mm on the sheet.
func outline(c drawing.Point, w, h, corner float64, round bool, pen drawing.Pen) drawing.Item {
	if round {
		return &drawing.Circle{Centre: c, Radius: w / 2, Pen: pen}
	}
	corner = math.Min(corner, math.Min(w, h)/2)
	p := &drawing.Path{Closed: true, Pen: pen}
	const parts = 12
	for q := range 4 {
		sx, sy := [4]float64{1, -1, -1, 1}[q], [4]float64{1, 1, -1, -1}[q]
		m := drawing.Point{X: c.X + sx*(w/2-corner), Y: c.Y + sy*(h/2-corner)}
		if corner <= 0 {
			p.Points = append(p.Points, m)
			continue
		}
		p.Arcs = append(p.Arcs, drawing.Arc{From: len(p.Points), To: len(p.Points) + parts, Centre: m, Radius: corner})
		for k := range parts + 1 {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(q) + float64(k)/parts))
			p.Points = append(p.Points, drawing.Point{X: m.X + corner*cos, Y: m.Y + corner*sin})
		}
	}
	return p
}
