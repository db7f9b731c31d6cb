package fixes

import (
	"slices"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
)

// shelfEdits puts a pump of the shelf in the place of the one in use, by whatever
// the file knows it: label, curve or part.
func (f *finder) shelfEdits(p *design.Pump) []design.Edit {
	have := &f.s.E.Design.Pumps[0]
	at := "pumps[" + have.Name.Value + "]"
	var out []design.Edit
	way := "part"
	switch {
	case p.Label.Given():
		way, out = "label", labelEdits(have, at, p.Label.Flow.Text, p.Label.Head.Text)
	case len(p.Curve) > 0:
		way = "curve"
		var points []string
		for i := range p.Curve {
			points = append(points, document.Flow(&p.Curve[i]))
		}
		out = append(out, put(at+".curve", "[ "+strings.Join(points, ", ")+" ]"))
	case p.CurveFile.Given():
		way, out = "curve-file", append(out, put(at+".curve-file", p.CurveFile.Text))
	default:
		out = append(out, put(at+".part", p.Part.Text))
	}
	out = append(out, f.otherWays(have, at, way)...)
	return append(out, theirs(at+".price", p.Price.Text), theirs(at+".power", p.Power.Text))
}

// classEdits is shelfEdits for a class of the catalogue: by its label if the file
// knows the pump in use by one, since that is the builder's way.
func (f *finder) classEdits(p *catalogue.Part) []design.Edit {
	have := &f.s.E.Design.Pumps[0]
	at := "pumps[" + have.Name.Value + "]"
	var out []design.Edit
	if sys := f.s.E.Units; have.Label.Given() || len(p.Curve) > 1 {
		out = labelEdits(have, at, flowText(float64(p.Label.Flow), sys), headText(float64(p.Label.Head), sys))
		out = append(out, f.otherWays(have, at, "label")...)
	} else {
		out = append(out, put(at+".part", p.Name))
		out = append(out, f.outlet(have, at)...)
	}
	return append(out, cut(at+".price"), cut(at+".power"))
}

func labelEdits(have *design.Pump, at, flow, head string) []design.Edit {
	if have.Label.Given() {
		return []design.Edit{put(at+".label.flow", flow), put(at+".label.head", head)}
	}
	return []design.Edit{put(at+".label", "{ flow: "+flow+", head: "+head+" }")}
}

// otherWays takes out what else the file knows the pump in use by.
func (f *finder) otherWays(have *design.Pump, at, way string) []design.Edit {
	var out []design.Edit
	if have.Label.Given() && way != "label" {
		out = append(out, cut(at+".label"))
	}
	if have.Part.Given() {
		out = append(out, f.outlet(have, at)...)
		if way != "part" {
			out = append(out, cut(at+".part"))
		}
	}
	return out
}

// outlet writes down the outlet that a part gave and another may not: the change
// was tried with it.
func (f *finder) outlet(have *design.Pump, at string) []design.Edit {
	if end := f.s.E.Pumps[0].Outlet; !have.Outlet.Given() && end != (catalogue.End{}) {
		return []design.Edit{put(at+".outlet", end.String())}
	}
	return nil
}

// theirs puts what is known of a new part in the place of what was of the old.
func theirs(path, text string) design.Edit {
	if text == "" {
		return cut(path)
	}
	return put(path, text)
}

// shelfPump is a pump of the shelf as the file has it.
func (f *finder) shelfPump(name string) *design.Pump {
	shelf := f.s.E.Design.Shelf
	return &shelf[max(0, slices.IndexFunc(shelf, func(p design.Pump) bool { return p.Name.Value == name }))]
}
