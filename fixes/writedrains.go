package fixes

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
	"rillwright/quantity"
)

// secondName is that of a second drain.
const secondName = "second drain"

// grownEdits writes what grow does to a drain, at a path: that of the drain, or of
// another like it with its lip higher by rise, m.
func (f *finder) grownEdits(drain int, path string, rise float64, next catalogue.Part) []design.Edit {
	d := &f.s.E.Drains[drain]
	have := &f.s.E.Design.Drains[drain]
	size := next.Size.Text
	out := partEdits(path, next.Name, have.Bore.Given())
	if next.Hole.High > 0 && have.Hole.Given() {
		out = append(out, put(path+".hole.size", lengthText(float64(next.Hole.Likely), f.s.E.Units)))
	}
	if have.Kind.Value == "wall opening" && have.Hole.Given() { // its lip is the bore's lowest point
		rise += (float64(next.Bore.Likely) - d.Bulkhead.Value) / 2
		out = append(out, put(path+".hole.up", lengthText(float64(have.Hole.Up.Value)+rise, f.s.E.Units)))
	}
	if pipe, ok := f.sized(d.Standpipe, size); ok {
		out = append(out, put(path+".standpipe", pipe.Name))
		if have.LipBore.Given() {
			out = append(out, cut(path+".lip-bore"))
		}
	}
	for k := range d.Pieces {
		if p, ok := f.sized(d.Pieces[k].Part, size); ok {
			out = append(out, partEdits(fmt.Sprintf("%s.pieces[%d]", path, k+1), p.Name, have.Pieces[k].Bore.Given())...)
		}
	}
	return out
}

// lipUnknown tells why a drain of another size cannot be written down: its lip is that of a
// pipe which the catalogue does not have in another size.
func (f *finder) lipUnknown(drain int, next catalogue.Part) string {
	d := &f.s.E.Drains[drain]
	have := &f.s.E.Design.Drains[drain]
	if _, ok := f.sized(d.Standpipe, next.Size.Text); !ok && (have.Standpipe.Given() || have.LipBore.Given()) {
		return "which standpipe it then has is yours to choose"
	}
	return ""
}

// secondEdits adds a drain like the first with its lip at a height over the
// pool's floor. Its hole is the first one's, at the other end of the pane.
func (f *finder) secondEdits(lip float64) ([]design.Edit, string) {
	n := f.s.E.Design.Drains[0]
	rise := lip - float64(n.Lip.Value)
	newText(&n.Name, secondName)
	newText(&n.Lip, quantity.Length(lip).Show(f.s.E.Units))
	switch {
	case n.Kind.Value == "floor opening":
		return nil, "what makes its lip is yours to choose"
	case n.Hole.Given():
		edge, ok := f.otherEdge(&n.Hole)
		if !ok {
			return nil, "where its hole goes is yours to choose"
		}
		newText(&n.Hole.Edge, edge)
		if n.Kind.Value == "wall opening" {
			newText(&n.Hole.Up, lengthText(float64(n.Hole.Up.Value)+rise, f.s.E.Units))
		}
	}
	return []design.Edit{add("drains", document.Block(&n))}, ""
}

// otherEdge returns the edge of a hole's pane from which another may have the same
// distance, if three diameters lie between the two: more than glaziers ask, from
// memory. The pane must be listed, and the first hole's edge named.
func (f *finder) otherEdge(h *design.Hole) (string, bool) {
	edge, ok := map[string]string{"left": "right", "right": "left", "rear": "front", "front": "rear"}[h.Edge.Value]
	if !ok {
		return "", false
	}
	panes := f.s.E.Design.Enclosure.Panes
	for i := range panes {
		p := &panes[i]
		if p.Name.Value == h.Pane.Value {
			apart := p.Width.Value - 2*h.In.Value
			return edge, p.Count.Value <= 1 && apart >= 3*h.Size.Value
		}
	}
	return "", false
}

// damEdits makes the dam higher, and its pane if that is as high as the dam.
func (f *finder) damEdits(height string) []design.Edit {
	d := f.s.E.Design
	out := []design.Edit{put("dam.height", height)}
	for i := range d.Enclosure.Panes {
		p := &d.Enclosure.Panes[i]
		if p.At.Value == "dam" && p.Name.Given() && same(float64(p.Height.Value), float64(d.Dam.Height.Value)) {
			out = append(out, put("enclosure.panes["+p.Name.Value+"].height", height))
		}
	}
	return out
}

// reservoirEdits adds a top-up out of a canister to the last chamber; flow in
// m3/s, the level in m over the sump's bottom, what it holds in m3.
func (f *finder) reservoirEdits(flow, level, holds float64) []design.Edit {
	sys := f.s.E.Units
	var t design.TopUp
	newText(&t.Flow, flowText(flow, sys))
	newText(&t.Level, quantity.Length(level).Show(sys))
	newText(&t.From, "reservoir")
	newText(&t.Holds, quantity.Volume(holds).Show(sys))
	if n := len(f.s.E.Sump.Chambers); n > 0 {
		newText(&t.Into, f.s.E.Sump.Chambers[n-1].Name)
	}
	return []design.Edit{put("top-up", document.Flow(&t))}
}
