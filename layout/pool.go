package layout

import (
	"rillwright/enclosure"
	"rillwright/geom"
)

// usualDam is the thickness that a dam is drawn with when the file has none, m:
// assumed, no source.
const usualDam = 0.006

// pool places the pool's water, the dam and water behind grid or foam.
func (l *Layout) pool() {
	e := l.e
	d := e.Design
	floor, brim := l.Z(e.Pool.Floor), l.Z(e.Pool.DamTop)
	x := middle(0, l.Inside.Max.X, e.Pool.Width)
	l.Pool.Box = geom.Box{Min: geom.Vec{X: x, Z: floor}, Max: geom.Vec{X: x + e.Pool.Width, Y: e.Pool.Depth, Z: brim}}
	if l.Inside.Max.X-e.Pool.Width > 2*same {
		l.Pool.Assumed = append(l.Pool.Assumed, Middle)
	}
	l.Pool.Assumed = append(l.Pool.Assumed, "from the back pane on")
	l.add(Part{Kind: KindPool, Name: "pool", Field: "pool", Line: d.Pool.Pos.Line, Solid: l.Pool.Box, Assumed: l.Pool.Assumed})
	for i := range d.Pool.Hidden {
		h := &d.Pool.Hidden[i]
		w, depth := float64(h.Width.Value), float64(h.Depth.Value)
		x := middle(0, l.Inside.Max.X, w)
		z := floor + float64(h.Floor.Value)
		l.add(Part{
			Kind: KindHidden, Name: h.Name.Value, Field: "pool.hidden[" + h.Name.Value + "]", Line: h.Pos.Line,
			Solid:   geom.BoxOf(geom.Vec{X: x, Z: z}, geom.Vec{X: x + w, Y: depth, Z: max(z, brim)}),
			Assumed: []string{"along the back pane, in the middle"},
		})
	}
	l.dam()
}

// dam places the dam at the end of the pool's depth.
func (l *Layout) dam() {
	d := l.e.Design
	if d.Dam.Pos.Line == 0 {
		return
	}
	part := Part{Kind: KindDam, Name: "dam", Field: "dam", Line: d.Dam.Pos.Line}
	t, floor := float64(d.Dam.Thickness.Value), l.Pool.Box.Min.Z
	glass := -1
	for i := range d.Enclosure.Panes {
		if at, _ := enclosure.PanePlace(&d.Enclosure.Panes[i]); at == "dam" {
			glass = i
		}
	}
	switch {
	case d.Dam.Thickness.Given():
	case glass >= 0:
		t = float64(d.Enclosure.Panes[glass].Thickness.Value)
	default:
		t = usualDam
		part.Assumed = append(part.Assumed, l.show(usualDam)+" thick, since the file does not say")
	}
	w := l.e.Pool.DamWidth
	x := middle(0, l.Inside.Max.X, w)
	y := l.Pool.Box.Max.Y
	l.Dam = geom.Box{Min: geom.Vec{X: x, Y: y, Z: floor}, Max: geom.Vec{X: x + w, Y: y + t, Z: floor + float64(d.Dam.Height.Value)}}
	l.HasDam = true
	part.Solid = l.Dam
	l.add(part)
	if glass < 0 {
		return
	}
	p := &d.Enclosure.Panes[glass]
	q := placed("dam", l.Dam)
	q.Name, q.Index, q.Field, q.Line, q.Part = p.Name.Value, glass, paneField(p, glass), p.Pos.Line, len(l.Parts)-1
	l.Panes = append(l.Panes, q)
}
