package sheets

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/drawing"
	"rillwright/enclosure"
)

// PaneSheets draws every pane of the file with its finished size, thickness,
// weight, openings from two edges, and which face is shown.
func PaneSheets(e *enclosure.Enclosure, p Print) []drawing.Sheet {
	d := newDraft(e, p)
	var out []drawing.Sheet
	for i := range e.Design.Enclosure.Panes {
		out = append(out, d.paneSheet(&e.Design.Enclosure.Panes[i]))
	}
	return out
}

func (d *draft) paneSheet(p *design.Pane) drawing.Sheet {
	name := p.Name.Value
	list := answers.Openings(d.e, name)
	permit := answers.MayDrill(d.e, name)
	stops := float64(len(list))
	notes := d.paneNotes(p, list, &permit)
	w, h := float64(p.Width.Value), float64(p.Height.Value)
	b := d.board("Panes", "Pane: "+name, w, h, around{left: 20 + 6*stops, above: 12, right: 12, below: 18 + 6*stops}, notes)
	b.sheet.Description = strings.Join(notes, " ")
	b.ink(drawing.Rectangle(b.frame, drawing.Thick, drawing.NoFill))
	pen := drawing.Medium
	if len(permit.Refused) > 0 {
		pen = drawing.Dashed
	}
	across := drawing.Rows{First: b.frame.Bottom + 8, Outward: 1, Least: b.room.Left + 1, Most: b.room.Right - 1}
	up := drawing.Rows{Upright: true, First: b.frame.Left - 5, Outward: -1, Least: b.room.Top + 1, Most: b.room.Bottom - 1}
	for i := range list {
		o := &list[i]
		c := b.at(o.X, o.Y)
		b.ink(outline(c, o.Width*b.k, o.Height*b.k, o.Corner*b.k, o.Round, pen))
		b.sheet.Add(drawing.Cross(c, max(o.Width, o.Height)*b.k/2+2, drawing.Fine)...)
		across.Measures = append(across.Measures, drawing.Measure{From: b.frame.Left, To: c.X, Text: d.size(o.X), FromEdge: b.frame.Bottom, ToEdge: c.Y + o.Height*b.k/2 + 2})
		up.Measures = append(up.Measures, drawing.Measure{From: b.frame.Bottom, To: c.Y, Text: d.size(o.Y), FromEdge: b.frame.Left, ToEdge: c.X - o.Width*b.k/2 - 2})
	}
	shorter := func(a, b drawing.Measure) int {
		la, lb := max(a.From-a.To, a.To-a.From), max(b.From-b.To, b.To-b.From)
		switch {
		case la < lb:
			return -1
		case la > lb:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(across.Measures, shorter)
	slices.SortStableFunc(up.Measures, shorter)
	across.Measures = append(across.Measures, drawing.Measure{From: b.frame.Left, To: b.frame.Right, Text: d.size(w), FromEdge: b.frame.Bottom, ToEdge: b.frame.Bottom})
	up.Measures = append(up.Measures, drawing.Measure{From: b.frame.Bottom, To: b.frame.Top, Text: d.size(h), FromEdge: b.frame.Left, ToEdge: b.frame.Left})
	b.rows(across)
	b.rows(up)
	for i := range list {
		o := &list[i]
		c, dx, dy := b.at(o.X, o.Y), o.Width*b.k/2, o.Height*b.k/2
		b.name(o.Name+", "+d.opening(o), drawing.Point{X: c.X + 0.7*dx, Y: c.Y - 0.7*dy}, drawing.Point{X: c.X - 0.7*dx, Y: c.Y - 0.7*dy}, drawing.Point{X: c.X + 0.7*dx, Y: c.Y + 0.7*dy})
	}
	b.name(map[bool]string{true: "outer face", false: "face shown: " + shownFace(d, p)}[shownFace(d, p) == "outer"], b.at(w/2, h/2))
	return b.sheet
}

// opening tells an opening's size.
func (d *draft) opening(o *answers.Marked) string {
	if o.Round {
		return "⌀ " + d.size(o.Width)
	}
	return d.size(o.Width) + " x " + d.size(o.Height)
}

// shownFace tells which face a pane's own coordinates look at.
func shownFace(d *draft, p *design.Pane) string {
	place := d.paneOf(p.Name.Value)
	switch {
	case place == nil:
		return "not known"
	case place.At == "bottom":
		return "upper, the inside"
	case place.At == "dam":
		return "front"
	}
	return "outer"
}

func (d *draft) paneNotes(p *design.Pane, list []answers.Marked, permit *answers.Permit) []string {
	n := max(1, p.Count.Value)
	m, taken := answers.PaneWeight(d.e, p.Name.Value)
	glass := p.Glass.Value
	switch glass {
	case "annealed", "toughened", "laminated":
		glass += " glass"
	case "not checked":
		glass = "glass that nobody has looked at"
	}
	weight := fmt.Sprintf("Each weighs %s, between %s and %s", m.Likely.Show(d.e.Units), m.Low.Show(d.e.Units), m.High.Show(d.e.Units))
	if m.Low == m.High {
		weight = "Each weighs " + m.Likely.Show(d.e.Units)
	}
	if taken {
		weight += ", taken as glass"
	}
	out := []string{fmt.Sprintf("Finished size %s x %s, thickness %s, %s; %d off. %s.", d.size(float64(p.Width.Value)), d.sized(float64(p.Height.Value)), p.Thickness.Text, glass, n, weight)}
	place := d.paneOf(p.Name.Value)
	seen := "Seen from outside, the inside face is the far one. "
	switch {
	case place == nil:
		seen = "The file does not say where it stands, nor which face is shown. "
	case place.At == "bottom":
		seen = "Seen from above, its front edge lowest: the face shown is the inside one. "
	case place.At == "top":
		seen = "Seen from above, its front edge lowest: the inside face is the far one. "
	case place.At == "dam":
		seen = "Seen from the front: the wet face is the far one. "
	case place.At == "back":
		seen = "Seen from behind, so that left and right are changed: the inside face is the far one. "
	case n > 1 && p.At.Value == "sides":
		seen = "The left one, seen from outside: the inside face is the far one. "
	}
	out = append(out, seen+d.units())
	var held []string
	for _, e := range []struct{ edge, as string }{
		{"bottom", p.Edges.Bottom.Value}, {"left", p.Edges.Left.Value}, {"right", p.Edges.Right.Value}, {"top", p.Edges.Top.Value},
	} {
		if e.as != "" {
			held = append(held, e.edge+" "+e.as)
		}
	}
	if len(held) > 0 {
		out = append(out, "Edges, seen from outside: "+strings.Join(held, ", ")+".")
	}
	for i := range list {
		o := &list[i]
		say := fmt.Sprintf("%s: %s, centre %s from the left and %s from the lower edge as drawn.", capital(o.Name), d.opening(o), d.size(o.X), d.size(o.Y))
		if !o.Edged {
			say += " The file does not say from which edge."
		}
		out = append(out, say)
	}
	if len(list) > 0 {
		for _, r := range permit.Refused {
			why := r.Why
			if r.Opening != "" {
				why = r.Opening + ": " + why
			}
			out = append(out, "Not to be drilled. "+why)
		}
	}
	return out
}
