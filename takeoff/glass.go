package takeoff

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rillwright/design"
	"rillwright/pieces"
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
	for _, p := range pieces.Sizes(t.e, t.l).Pieces {
		if p.Had {
			continue
		}
		n := Need{
			Name: "glass: " + p.Name, Key: "glass", Group: Glass, Square: p.Width.Cut * p.Height.Cut, Thick: p.Thickness,
			Holes: len(p.Holes), Field: p.Field, Line: p.Line,
		}
		switch p.Material {
		case "acrylic", "polycarbonate", "aluminium", "steel":
			n.Name, n.Key = p.Material+": "+p.Name, p.Material
		}
		n.Note = fmt.Sprintf("%s x %s x %s, %s, %s", t.size(p.Width.Cut), t.size(p.Height.Cut), t.size(p.Thickness), p.Material, pieces.Finishes(&p))
		if n.Holes > 0 {
			n.Note += fmt.Sprintf(", holes as in the template: %d", n.Holes)
		}
		if p.Kind == pieces.Dam {
			n.Note += "; an offcut of the shop will do"
		}
		t.piece(n, p.Name, max(p.Count, 1))
	}
	t.saws()
}

// size shows a length as the shop cuts it: in mm, or inches and sixteenths.
func (t *taker) size(v float64) string {
	if t.e.Units == quantity.US {
		return quantity.Sixteenths(v/0.0254) + " in"
	}
	return strconv.FormatFloat(math.Round(v*1e4)/10, 'f', -1, 64) + " mm"
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
