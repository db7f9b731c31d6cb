package answers

import (
	"math"
	"slices"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
)

// grip is something that a hand must get to.
type grip struct {
	name   string
	line   int
	far    float64 // m, from the plane of the opening
	under  string  // the panel it lies behind or under, "" if none or if a notch is before it
	keep   bool    // it must be serviced; else only cleaned now and then
	narrow float64 // the notch over it, m; +Inf if there is none
}

// grips lists what a hand must get to inside.
func (s *Survey) grips(l *layout.Layout) []grip {
	var out []grip
	add := func(name string, line int, at geom.Vec, keep bool) {
		g := grip{name: name, line: line, keep: keep}
		g.far, g.under, g.narrow = wayIn(l, at)
		out = append(out, g)
	}
	for i := range l.Parts {
		p := &l.Parts[i]
		b := p.Solid.Bounds()
		mid := b.Centre()
		switch p.Kind {
		case layout.KindStrainer, layout.KindStandpipe:
			if _, ok := l.Find(layout.KindStrainer, p.Name); ok && p.Kind == layout.KindStandpipe {
				continue // its strainer stands on it
			}
			add(strings.TrimPrefix(thing(p), "the "), p.Line, mid, true)
		case layout.KindFlange:
			if _, ok := l.Find(layout.KindStandpipe, p.Name); !ok {
				continue
			}
			add("bulkhead of the "+p.Name, p.Line, b.Centre(), false)
		case layout.KindManifold:
			ends := []geom.Vec{b.Centre().With(geom.X, b.Min.X), b.Centre().With(geom.X, b.Max.X)}
			slices.SortFunc(ends, func(v, w geom.Vec) int {
				x, _, _ := wayIn(l, v)
				y, _, _ := wayIn(l, w)
				if x > y {
					return -1
				}
				return 1
			})
			add("farther end of the "+p.Name, p.Line, ends[0], true)
		}
	}
	far, hidden := grip{far: -1}, grip{far: -1}
	pool := l.Pool.Box
	for _, x := range []float64{pool.Min.X, pool.Max.X} {
		for _, y := range []float64{pool.Min.Y, pool.Max.Y} {
			g := grip{line: s.E.Pool.Pos.Line}
			g.far, g.under, g.narrow = wayIn(l, geom.Vec{X: x, Y: y, Z: pool.Min.Z})
			if g.under == "" && g.far > far.far+1e-9 {
				far = g
			}
			if g.under != "" && g.far > hidden.far+1e-9 {
				hidden = g
			}
		}
	}
	far.name, hidden.name = "farthest bottom corner of the pool", "bottom corner of the pool under a panel"
	for _, g := range []grip{far, hidden} {
		if g.far >= 0 {
			out = append(out, g)
		}
	}
	return out
}

// wayIn returns how far a place is from the plane of the opening, m, over the dam
// where that is in the way and through the notch over it where it lies behind a
// panel; the panel that covers it, if no notch does; and how wide the notch is.
func wayIn(l *layout.Layout, at geom.Vec) (far float64, cover string, narrow float64) {
	narrow = math.Inf(1)
	for i := range l.Grids {
		g := &l.Grids[i]
		face := g.Box.Max.On(g.Face)
		if g.Out < 0 {
			face = g.Box.Min.On(g.Face)
		}
		if (at.On(g.Face)-face)*g.Out >= 0 || !covered(l, g, at) {
			continue
		}
		// A place beside the panel is reached through a notch in its edge too.
		before := g.Box.Nearest(at).With(g.Face, face)
		n, ok := overIt(g, before)
		if !ok {
			cover = g.Name
			continue
		}
		size := n.Size()
		for _, ax := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			if ax != g.Face {
				narrow = min(narrow, size.On(ax))
			}
		}
		return before.Dist(at) + overDam(l, before), "", narrow
	}
	return overDam(l, at), cover, narrow
}

// covered reports whether a panel lies before a place: it does if the place is
// behind it, or beside it with less than a hand's room between the panel and the
// glass or the dam.
func covered(l *layout.Layout, g *layout.Grid, at geom.Vec) bool {
	end := l.Inside.Max
	if l.HasDam && g.At == "floor" {
		end.Y = l.Dam.Min.Y
	}
	for _, ax := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		lo, hi := g.Box.Min.On(ax), g.Box.Max.On(ax)
		switch v := at.On(ax); {
		case ax == g.Face:
		case v < lo && lo >= handRoom, v > hi && end.On(ax)-hi >= handRoom:
			return false
		}
	}
	return true
}

func overIt(g *layout.Grid, at geom.Vec) (geom.Box, bool) {
	for i := range g.Notches {
		if g.Notches[i].Box.Has(at) {
			return g.Notches[i].Box, true
		}
	}
	return geom.Box{}, false
}

// overDam returns the shortest way from the opening to a place, m: straight, or
// over the upper edges of the dam if the straight way goes through it.
func overDam(l *layout.Layout, at geom.Vec) float64 {
	open := l.Opening.Box
	near := open.Nearest(at)
	if !l.HasDam || geom.SegmentBoxDist(near, at, l.Dam) > 0 || at.Y >= l.Dam.Max.Y {
		return near.Dist(at)
	}
	// The way bends at the dam's upper edge and is least for one place along it:
	// a sum of two distances, which has one least.
	edge := l.Dam.Min.With(geom.Z, l.Dam.Max.Z)
	if open.Min.Y > at.Y { // an opening in front also sees the dry edge; its part of the way is straight from there
		open.Min.Z = max(open.Min.Z, l.Dam.Max.Z)
		open.Max.Z = max(open.Max.Z, open.Min.Z)
	}
	way := func(x float64) float64 {
		p := edge.With(geom.X, x)
		return p.Dist(at) + open.Nearest(p).Dist(p)
	}
	lo, hi := l.Dam.Min.X, l.Dam.Max.X
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if way(a) < way(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return way((lo + hi) / 2)
}
