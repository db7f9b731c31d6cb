package layout

import (
	"fmt"

	"rillwright/design"
	"rillwright/geom"
)

// rims places the flat part of each rim as four strips in the plane of its face,
// from the enclosure's outside inwards.
func (l *Layout) rims() {
	list := l.e.Design.Enclosure.Rims
	for i := range list {
		r := &list[i]
		flat, wall := float64(r.Flat.Value), float64(r.Wall.Value)
		at := r.At.Value
		b, thin := l.Outside, geom.Y
		if at == "top" || at == "bottom" {
			thin = geom.Z
		}
		if at == "top" || at == "front" {
			b.Min = b.Min.With(thin, b.Max.On(thin)-wall)
		} else {
			b.Max = b.Max.With(thin, b.Min.On(thin)+wall)
		}
		other := geom.Z
		if thin == geom.Z {
			other = geom.Y
		}
		hole := b
		for _, a := range []geom.Axis{geom.X, other} {
			hole.Min, hole.Max = hole.Min.With(a, b.Min.On(a)+flat), hole.Max.With(a, b.Max.On(a)-flat)
		}
		for _, strip := range without(b, hole) {
			l.add(Part{
				Kind: KindRim, Name: "rim at the " + at, Field: fmt.Sprintf("enclosure.rims[%d]", i+1), Line: r.Pos.Line, Solid: strip,
				Assumed: []string{"level with the enclosure's outside"},
			})
		}
	}
}

// braces places each strip on the inside of the pane it holds, level with the edge
// that it holds.
func (l *Layout) braces() {
	list := l.e.Design.Enclosure.Braces
	for i := range list {
		b := &list[i]
		field := "enclosure.braces[" + b.Name.Value + "]"
		held, ok := l.paneBy(b.Pane.Value)
		if !ok {
			l.left(b.Name.Value, field, b.Pos.Line, "the pane it holds has no place")
			continue
		}
		reach, opposite := float64(b.Width.Value), true
		if b.Runs.Value == "across" {
			reach, opposite = l.throw(held, b.To.Value)
		}
		if !opposite {
			l.left(b.Name.Value, field, b.Pos.Line, field+".to")
			continue
		}
		box, assumed := strip(held, b, reach)
		l.add(Part{Kind: KindBrace, Name: b.Name.Value, Field: field, Line: b.Pos.Line, Solid: box, Assumed: assumed})
	}
}

// paneBy returns the pane of a name, or the dam: of the dam's section if the file
// lists no pane for it.
func (l *Layout) paneBy(name string) (*Pane, bool) {
	for i := range l.Panes {
		if p := &l.Panes[i]; p.Name == name || name == "dam" && p.At == "dam" {
			return p, true
		}
	}
	if name == "dam" && l.HasDam {
		p := placed("dam", l.Dam)
		p.Name = "dam"
		return &p, true
	}
	return nil, false
}

// throw returns how far it is from the inside of one pane to the pane opposite, m.
func (l *Layout) throw(from *Pane, to string) (float64, bool) {
	p, ok := l.paneBy(to)
	if !ok {
		return 0, false
	}
	return geom.Gap(from.Box, p.Box), true
}

// strip returns the box of a brace that reaches some way (m) from the inside of
// its pane. One that runs along lies flat, its width inwards.
func strip(p *Pane, b *design.Brace, reach float64) (geom.Box, []string) {
	edge := b.Edge.Value
	long, deep := p.Width, p.Height // along the edge, and away from it
	if edge == "left" || edge == "right" {
		long, deep = p.Height, p.Width
	}
	length := float64(b.Width.Value)
	if b.Runs.Value == "along" {
		length = long
		if b.Length.Given() {
			length = float64(b.Length.Value)
		}
	}
	from := float64(b.From.Value)
	var assumed []string
	if !b.From.Given() {
		from = (long - length) / 2
		if length < long {
			assumed = append(assumed, "in the middle of its edge")
		}
	}
	thick := float64(b.Thickness.Value)
	off := deep - thick // its lower face from the pane's lower or left edge
	if edge == "left" || edge == "bottom" {
		off = 0
	}
	assumed = append(assumed, "level with that edge")
	u0, v0, u1, v1 := from, off, from+length, off+thick
	if edge == "left" || edge == "right" {
		u0, v0, u1, v1 = off, from, off+thick, from+length
	}
	return geom.BoxOf(p.World(u0, v0, p.Thick), p.World(u1, v1, p.Thick+reach)), assumed
}
