package fixes

import (
	"fmt"
	"math"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// pumps tries the pumps on the shelf and the next classes of the catalogue.
func (f *finder) pumps(bigger bool) []change {
	if len(f.s.E.Pumps) != 1 || !f.s.E.Pumps[0].Curve.Label {
		return nil
	}
	have := f.s.E.Pumps[0].Curve
	var out []change
	add := func(name string, price cost, edit string, curve enclosure.Curve, edits []design.Edit) {
		if curve.Label && bigger != (curve.QMax*curve.HMax > have.QMax*have.HMax) {
			return
		}
		out = append(out, change{
			do: name, edit: edit, edits: edits, cost: price,
			apply: func(e *enclosure.Enclosure) bool {
				pumping(e, &curve)
				return true
			},
		})
	}
	sys := f.s.E.Units
	for i := range f.s.E.Shelf {
		p := &f.s.E.Shelf[i]
		label := quantity.Flow(p.Curve.QMax).Show(sys) + " / " + showHead(p.Curve.HMax, sys)
		add(fmt.Sprintf("take the %s pump from the shelf (%s)", p.Name, label), f.money(p.Price), "pumps: label of the "+p.Name, p.Curve, f.shelfEdits(f.shelfPump(p.Name)))
	}
	n := 0
	for _, p := range f.classes(bigger, have) {
		if f.onShelf(&p) {
			continue
		}
		if n++; n > 2 {
			break
		}
		add("take a "+p.Name, f.price(&p, 0), "pumps: part: "+p.Name, enclosure.Curve{HMax: float64(p.Label.Head), QMax: float64(p.Label.Flow), Label: true}, f.classEdits(&p))
	}
	return out
}

// pumping gives the pump another curve; of one by its label the doubt about its shape
// stays.
func pumping(e *enclosure.Enclosure, curve *enclosure.Curve) {
	p := &e.Pumps[0]
	if curve.Label {
		p.Curve.HMax, p.Curve.QMax = curve.HMax, curve.QMax
	} else {
		p.Curve = *curve
	}
}

// onShelf reports whether a class is one of the pumps on the shelf.
func (f *finder) onShelf(p *catalogue.Part) bool {
	for i := range f.s.E.Shelf {
		c := &f.s.E.Shelf[i].Curve
		if math.Abs(c.QMax/float64(p.Label.Flow)-1) < 0.02 && math.Abs(c.HMax/float64(p.Label.Head)-1) < 0.02 {
			return true
		}
	}
	return false
}

func showHead(h float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.1f ft", h/0.3048)
	}
	return fmt.Sprintf("%.1f m", h)
}

// classes returns the pump classes next to one, in the builder's units.
func (f *finder) classes(bigger bool, have enclosure.Curve) []catalogue.Part {
	var out []catalogue.Part
	all := f.cat.PumpsAtLeast(0, 0)
	if bigger {
		all = f.cat.PumpsAtLeast(quantity.Flow(have.QMax), quantity.Length(have.HMax))
	}
	for _, p := range all {
		// Of ours, the classes of the builder's own market; of the builder's, all.
		us := p.Price.Currency == "USD"
		if !f.cat.IsUser(p.Name) && p.Price.Given() && us != (f.s.E.Units == quantity.US) {
			continue
		}
		q, h := float64(p.Label.Flow), float64(p.Label.Head)
		if bigger && (q > have.QMax*1.001 || h > have.HMax*1.001) || !bigger && q < have.QMax*0.999 && h <= have.HMax {
			out = append(out, p)
		}
	}
	if !bigger {
		for i, k := 0, len(out)-1; i < k; i, k = i+1, k-1 {
			out[i], out[k] = out[k], out[i]
		}
	}
	return out
}
