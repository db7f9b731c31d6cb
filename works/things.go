package works

import (
	"fmt"
	"strings"

	"rillwright/enclosure"
	"rillwright/structure/cure"
	"rillwright/study"
)

// thinnest is the thickness (m) up to which a pane is arrissed and covered by
// itself: 4 mm. Assumed.
const thinnest = 0.0041

// Find lists what a design has to be built of, with the cure clock of each group
// of joints in the air given: the slowest of the group. Joints that were there
// before, as of a shop tank, need no cure. The error is about the air.
func Find(e *enclosure.Enclosure, joints study.Joints, air Season) (Things, error) {
	d := e.Design
	t := Things{"build": {{Name: e.Name}}}
	add := func(kind string, name string) { t[kind] = append(t[kind], Thing{Name: name}) }
	for _, p := range d.Enclosure.Panes {
		add("pane", p.Name.Value)
		if th := float64(p.Thickness.Value); th > 0 && th <= thinnest {
			add("thin", p.Name.Value)
		}
	}
	for _, dr := range d.Drains {
		if dr.Hole.Given() {
			add("hole", "the hole of "+dr.Name.Value)
		}
		if dr.Part.Given() {
			add("bulkhead", dr.Name.Value)
		}
	}
	for _, w := range d.Enclosure.Ways {
		if w.Pane.Given() {
			add("hole", w.Name.Value)
		}
	}
	for _, r := range d.Runs {
		add("plumbing", r.Name.Value)
	}
	for _, dr := range d.Drains {
		if len(dr.Pieces) > 0 {
			add("plumbing", dr.Name.Value)
		}
	}
	for _, r := range e.Runs {
		for _, p := range r.Pieces {
			if strings.Contains(p.Part.Name, "solvent") {
				add("solvent", r.Name)
				break
			}
		}
	}
	for _, r := range e.Drains {
		for _, p := range r.Pieces {
			if strings.Contains(p.Part.Name, "solvent") {
				add("solvent", r.Name)
				break
			}
		}
	}
	for _, g := range d.Grid {
		t["grid"] = append(t["grid"], Thing{Name: g.Name.Value, Spot: [2]float64{float64(g.Bond.Width.Value), float64(g.Bond.Height.Value)}})
		for _, n := range g.Notches {
			add("notch", n.For.Value)
		}
	}
	for _, f := range d.Foam {
		layers := 2
		if f.Layers.Given() {
			layers = f.Layers.Value
		}
		for k := range layers {
			add("layer", fmt.Sprintf("layer %d of %s", k+1, f.Name.Value))
		}
	}
	for _, p := range d.Plants {
		add("plants", p.What.Value)
	}
	for _, o := range d.Occupants {
		if o.Kind.Value != "" && !strings.HasPrefix(o.Kind.Value, "plants") {
			add("animals", o.Kind.Value)
		}
	}
	if d.Stand.Pos.Line > 0 {
		add("stand", "the stand")
	}
	add("sump", "the sump")
	if d.Enclosure.Made.Value == "from panes" {
		add("glass", "the panes")
	}
	if err := sealed(t, e, joints, air); err != nil {
		return nil, err
	}
	for _, c := range d.Coat {
		thick := 0.0015 // the middle of what is taken where the file says nothing
		if c.Thickness.Given() {
			thick = float64(c.Thickness.Value.High)
		}
		clock, err := air.clock(cure.Shape{Layer: thick}, cure.Coat)
		if err != nil {
			return nil, err
		}
		t["coat"] = append(t["coat"], Thing{Name: c.Name.Value, Clock: &clock, By: c.Name.Value})
	}
	return t, nil
}

// sealed finds the slowest joint of the panes and of the dam. Air reaches both
// edges of a bed; one of them through the fillet, where one is drawn for sure.
func sealed(t Things, e *enclosure.Enclosure, joints study.Joints, air Season) error {
	for _, kind := range []string{"joints", "dam"} {
		var clocks []cure.Clock
		var names []string
		for _, j := range joints.List {
			if j.Old || strings.HasPrefix(j.Name, "dam") != (kind == "dam") || j.Bite.Likely <= 0 {
				continue
			}
			use := cure.Fillet
			if j.Loaded {
				use = cure.Pane
			}
			s := cure.Shape{Bite: j.Bite.Likely, Edges: 2}
			if f := e.Design.Sealant.Fillet; f.Given() && j.Fillets[0] > 0 {
				s.Leg, s.Before = float64(f.Value), float64(f.Value)
			}
			c, err := air.clock(s, use)
			if err != nil {
				return fmt.Errorf("%s: %w", j.Name, err)
			}
			clocks, names = append(clocks, c), append(names, j.Name)
		}
		if k := cure.Slowest(clocks); k >= 0 {
			name := "the panes"
			if kind == "dam" {
				name = "the dam"
			}
			t[kind] = []Thing{{Name: name, Clock: &clocks[k], By: names[k]}}
		}
	}
	return nil
}
