package catalogue

import (
	"fmt"

	"rillwright/quantity"
)

// The flow units of the data files, in m3/s. Source of the US gallon: 231 cubic
// inches exactly, NIST Handbook 44.
const (
	litrePerHour    = 1e-3 / 3600
	usGallonPerHour = 231 * inch * inch * inch / 3600
	foot            = 12 * inch
)

// flow returns the flow in two cells, a number and its unit.
func (t *table) flow() quantity.Flow {
	v := t.num("flow")
	switch u := t.text("flow_unit"); u {
	case "L/h":
		return quantity.Flow(v * litrePerHour)
	case "US gal/h":
		return quantity.Flow(v * usGallonPerHour)
	default:
		t.fail(fmt.Errorf("flow unit %q", u))
	}
	return 0
}

// head returns the head in two cells, a number and its unit.
func (t *table) head() quantity.Length {
	v := t.num("head")
	switch u := t.text("head_unit"); u {
	case "m":
		return quantity.Length(v)
	case "ft":
		return quantity.Length(v * foot)
	default:
		t.fail(fmt.Errorf("head unit %q", u))
	}
	return 0
}

func (b *builder) pumps(t *table) {
	p := Part{
		Name: "pump " + t.text("flow") + " " + t.text("flow_unit") + " " + t.text("head") + " " + t.text("head_unit"),
		Kind: KindPump, Family: "pump",
		Label: Label{t.flow(), t.head()}, Loss: Loss{Method: LossNone},
		Note:   "Largest flow at no lift and largest lift at no flow: neither is a working point. Outlet, watts and least water: read the box.",
		Source: "from-memory", Mark: FromMemory,
	}
	b.add(&p, t.text("head_unit") == "ft")
}

// pumpCurves adds one point to the pump of the row's name, which follow each
// other.
func (b *builder) pumpCurves(t *table) {
	name := t.text("name")
	point := Point{t.flow(), t.head()}
	if n := len(b.parts) - 1; n >= 0 && b.parts[n].Name == name {
		p := &b.parts[n]
		p.Curve = append(p.Curve, point)
		return
	}
	p := Part{
		Name: name, Kind: KindPump, Loss: Loss{Method: LossNone}, Curve: []Point{point},
		Note: t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}
	if point.Flow == 0 {
		p.Label.Head = point.Head
	}
	b.add(&p, t.text("head_unit") == "ft")
}

func (b *builder) emitters(t *table) {
	b.add(&Part{
		Name: t.text("name"), Kind: KindEmitter, Loss: Loss{Method: LossNone},
		Emitter: Emitter{
			Flow:     quantity.Flow(t.num("flow_lph") * litrePerHour),
			AtHead:   t.length("at_head_m", 1),
			Exponent: t.num("exponent"), Cv: t.num("cv"),
			MinHead: t.length("min_head_m", 1),
		},
		Note: t.text("note"), Source: t.text("source"), Mark: Mark(t.text("mark")),
	}, false)
}
