package answers

import (
	"math"
	"slices"

	"rillwright/geom"
	"rillwright/layout"
)

// meeting is two things that must keep clear of each other.
type meeting struct {
	a, b   *layout.Part
	gap    float64 // m, below 0 for an overlap
	placed bool    // nothing of the place or size of either was assumed
}

// nearest is the least gap, m; +Inf without any.
func nearest(list []meeting) float64 {
	v := math.Inf(1)
	for _, m := range list {
		v = min(v, m.gap)
	}
	return v
}

// meetings returns every pair that must keep clear, with the grid as the bars that
// its notches leave.
func meetings(l *layout.Layout) []meeting {
	bars := map[*layout.Part][]geom.Box{}
	for i := range l.Grids {
		bars[&l.Parts[l.Grids[i].Part]] = l.Grids[i].Bars()
	}
	own := map[string]string{} // the pane that each drain's hole is in
	for _, d := range l.Panes {
		for _, h := range l.All(layout.KindHole) {
			if geom.Gap(d.Box, h.Solid) < -drawnSame {
				own[h.Name+"\x00"+d.Name] = d.Name
			}
		}
	}
	leans := map[[2]*layout.Part]bool{} // a brace, and what it goes through or meets
	for i := range l.GridBraces {
		b := &l.GridBraces[i]
		leans[[2]*layout.Part{&l.Parts[b.Part], &l.Parts[l.Grids[b.Grid].Part]}] = true
		leans[[2]*layout.Part{&l.Parts[b.Part], &l.Parts[b.To]}] = true
	}
	var out []meeting
	for i := range l.Parts {
		for k := i + 1; k < len(l.Parts); k++ {
			p, q := &l.Parts[i], &l.Parts[k]
			if !mayNot(p.Kind, q.Kind) || ofDrain(p.Kind) && ofDrain(q.Kind) && p.Name == q.Name {
				continue
			}
			if own[p.Name+"\x00"+q.Name] != "" || own[q.Name+"\x00"+p.Name] != "" {
				continue // a fitting touches the pane it stands in
			}
			if leans[[2]*layout.Part{p, q}] || leans[[2]*layout.Part{q, p}] {
				continue // [cells] looks at its slot
			}
			gap := math.Inf(1)
			for _, x := range pieces(p, bars) {
				for _, y := range pieces(q, bars) {
					gap = min(gap, geom.Gap(x, y))
				}
			}
			if !math.IsInf(gap, 1) {
				out = append(out, meeting{p, q, gap, certain(l, p, q, gap)})
			}
		}
	}
	return out
}

func pieces(p *layout.Part, bars map[*layout.Part][]geom.Box) []geom.Solid {
	list, ok := bars[p]
	if !ok {
		return []geom.Solid{p.Solid}
	}
	out := make([]geom.Solid, len(list))
	for i := range list {
		out[i] = list[i]
	}
	return out
}

func ofDrain(k layout.Kind) bool {
	return slices.Contains([]layout.Kind{layout.KindFlange, layout.KindNut, layout.KindElbow, layout.KindStandpipe, layout.KindStrainer}, k)
}

// mayNot reports whether things of two kinds must keep clear of each other. Panes
// and dam meet in joints, which sizesAgree looks at; rims and braces lie on panes.
func mayNot(a, b layout.Kind) bool {
	glass := func(k layout.Kind) bool { return k == layout.KindPane || k == layout.KindDam }
	frame := func(k layout.Kind) bool { return k == layout.KindRim || k == layout.KindBrace }
	inside := func(k layout.Kind) bool {
		return ofDrain(k) || k == layout.KindGrid || k == layout.KindGridBrace || k == layout.KindManifold || k == layout.KindTail
	}
	if inside(b) {
		a, b = b, a
	}
	switch {
	case !inside(a):
		return false
	case a == layout.KindTail || b == layout.KindTail:
		// A hose ends on its manifold and passes its own pane; it gives way a little.
		other := a
		if a == layout.KindTail {
			other = b
		}
		return other == layout.KindGrid || other == layout.KindGridBrace || other == layout.KindDam || other == layout.KindBrace
	case inside(b):
		return true
	case b == layout.KindStand:
		return a == layout.KindNut
	}
	return glass(b) || frame(b)
}

// certain reports whether two things overlap wherever the file may mean them to
// be: nothing of their places or sizes was assumed but what cannot free them.
func certain(l *layout.Layout, p, q *layout.Part, gap float64) bool {
	x, y := p.Solid.Bounds().Size(), q.Solid.Bounds().Size()
	for _, part := range []*layout.Part{p, q} {
		for _, text := range part.Assumed {
			switch text {
			case layout.Middle: // too wide together to pass each other
				if x.X+y.X > l.Inside.Size().X+drawnSame {
					continue
				}
			case layout.OnLine: // half its height up or down at most
				if -gap > part.Solid.Bounds().Size().Z/2 {
					continue
				}
			}
			return false
		}
	}
	return true
}
