package takeoff

import (
	"fmt"
	"strings"

	"rillwright/design"
	"rillwright/quantity"
)

// glass counts the panes to be cut, the tank that others came with and a saw for
// each size of hole.
func (t *taker) glass() {
	e := &t.d.Enclosure
	if e.Made.Value == "from a tank" {
		b := &e.Outside
		n := Need{
			Name: "shop tank", Key: "shop tank", Group: Glass, Unit: CubicMetres, Field: "enclosure", Line: e.Pos.Line,
			Note: "look whether its bottom is toughened before you pay",
		}
		n.add("outside", exactly(float64(b.Width.Value)*float64(b.Depth.Value)*float64(b.Height.Value)))
		t.list = append(t.list, n)
	}
	for i := range e.Panes {
		p := &e.Panes[i]
		if p.Was.Given() {
			continue
		}
		n := Need{
			Name: "glass: " + p.Name.Value, Key: "glass", Group: Glass,
			Square: float64(p.Width.Value) * float64(p.Height.Value), Thick: float64(p.Thickness.Value),
			Field: "enclosure.panes[" + p.Name.Value + "]", Line: p.Pos.Line,
		}
		n.Holes = t.holesIn(p.Name.Value)
		n.Note = fmt.Sprintf("%s x %s x %s, %s, edges %s", p.Width.Text, p.Height.Text, p.Thickness.Text, p.Glass.Text, edges(p))
		if n.Holes > 0 {
			n.Note += fmt.Sprintf(", holes as in the template: %d", n.Holes)
		}
		t.piece(n, p.Name.Value, count(p.Count))
	}
	if t.d.Dam.Pos.Line > 0 && !hasDam(e) {
		d := &t.d.Dam
		width := d.Width
		if !width.Given() {
			width = t.d.Pool.Width
		}
		t.piece(Need{
			Name: "glass: dam", Key: "glass", Group: Glass, Square: float64(width.Value) * float64(d.Height.Value), Thick: float64(d.Thickness.Value),
			Note:  width.Text + " x " + d.Height.Text + " x " + d.Thickness.Text + ", annealed, edges seamed, the top polished; an offcut of the shop will do",
			Field: "dam", Line: d.Pos.Line,
		}, "dam", 1)
	}
	t.saws()
}

func hasDam(e *design.Enclosure) bool {
	for i := range e.Panes {
		if e.Panes[i].At.Value == "dam" {
			return true
		}
	}
	return false
}

// edges says how the glass counter should finish a pane: seamed where it is bonded,
// polished where a hand or water meets it. Common practice, no source.
func edges(p *design.Pane) string {
	switch p.At.Value {
	case "door":
		return "polished all round"
	case "dam":
		return "seamed, the top polished; an offcut of the shop will do"
	}
	return "seamed"
}

func (t *taker) holesIn(pane string) int {
	n := 0
	for i := range t.d.Drains {
		if h := &t.d.Drains[i].Hole; h.Given() && h.Pane.Value == pane {
			n++
		}
	}
	for i := range t.d.Enclosure.Ways {
		if w := &t.d.Enclosure.Ways[i]; w.Size.Given() && w.Pane.Value == pane {
			n++
		}
	}
	return n
}

// saws counts one diamond saw for each size of round hole.
func (t *taker) saws() {
	add := func(size design.Field[quantity.Length], of string) {
		if size.Given() {
			name := "hole saw " + strings.TrimSpace(size.Value.Show(t.e.Units))
			if i, ok := t.parts[name]; ok {
				t.list[i].From = append(t.list[i].From, Share{of, Band{}}) // the same saw
				return
			}
			t.piece(Need{Name: name, Key: "hole saw", Group: Consumable, Line: size.Pos.Line, Note: "diamond, used wet, for annealed glass only"}, of, 1)
		}
	}
	for i := range t.d.Drains {
		d := &t.d.Drains[i]
		add(d.Hole.Size, "hole of the "+d.Name.Value)
	}
	for i := range t.d.Enclosure.Ways {
		w := &t.d.Enclosure.Ways[i]
		add(w.Size, w.Name.Value)
	}
}
