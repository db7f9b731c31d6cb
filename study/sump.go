package study

import (
	"math"

	"rillwright/hydraulics"
)

// fillLevels sets the level of each sump chamber when flow q passes from the
// first to the last, in which the pump stands at the given level. Under a
// baffle the water loses the velocity head of the gap (coefficient 0.6); over
// one it stands at least as high as the crest and the sheet of water on it.
func (b *supply) fillLevels(levels []float64, last, q float64) {
	n := len(levels)
	levels[n-1] = last
	for i := n - 2; i >= 0; i-- {
		c := &b.e.Sump.Chambers[i]
		down := levels[i+1]
		switch {
		case c.Under > 0:
			levels[i] = down + hydraulics.OrificeHead(0.6, c.Under*b.e.Sump.Depth, q)
		case c.Over > 0:
			// Sharp crest across the whole box.
			levels[i] = math.Max(down, b.e.Sump.Bottom+c.Over+hydraulics.SharpCrestHead(b.e.Sump.Depth, q))
		default:
			levels[i] = down
		}
	}
}

// held returns the water that the sump gives up from standing still to running:
// the pool's rise over its lowest lip, what fills the pipes on the supply side
// and the film on the wall. All of it comes back when the pump stops.
func (b *supply) held(st *State) float64 {
	e := b.e
	v := poolBetween(e, b.c, st.RestLevel, st.PoolLevel)
	return v + b.pipeVolume() + b.film(st.Outlets)
}

// film is the water on the wet wall while the outlets together give a flow.
func (b *supply) film(outlets float64) float64 {
	// The wall is wet throughout from some 20 L/h for each metre up (from memory
	// of the trade); below that its share of the film is taken.
	const wets = 20e-3 / 3600
	w := &b.e.Wall
	share := 1.0
	if full := wets * w.Width; outlets < full {
		share = outlets / full
	}
	return share * b.c.Of(b.e.FilmHoldUp) * w.Width * w.Height
}

// sumpVolume is the water in all chambers when flow q passes them and the pump's
// stands at a level. It never falls as either grows.
func (b *supply) sumpVolume(last, q float64) float64 {
	s := &b.e.Sump
	if len(s.Chambers) == 0 {
		return s.Width * s.Depth * (last - s.Bottom)
	}
	if b.levels == nil {
		b.levels = b.memory.floats.take(len(s.Chambers))
	}
	b.fillLevels(b.levels, last, q)
	v := 0.0
	for i, level := range b.levels {
		v += s.Chambers[i].Length * s.Depth * (level - s.Bottom)
	}
	return v
}

// sumpLevel returns the level in the pump's chamber at which the chambers hold a
// volume while flow q passes them: the inverse of sumpVolume. Without enough
// water it is the sump's bottom. Above the rim the walls are taken to go on, so
// that a flood shows by its height.
func (b *supply) sumpLevel(volume, q float64) float64 {
	s := &b.e.Sump
	if len(s.Chambers) == 0 {
		return math.Max(s.Bottom+volume/(s.Width*s.Depth), s.Bottom)
	}
	lo, hi := s.Bottom, s.Bottom+s.Height
	if b.sumpVolume(lo, q) >= volume {
		return lo
	}
	for b.sumpVolume(hi, q) < volume {
		hi += s.Height
	}
	for range 60 {
		mid := (lo + hi) / 2
		if b.sumpVolume(mid, q) < volume {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// pipeVolume is what runs and manifolds hold.
func (b *supply) pipeVolume() float64 {
	v := 0.0
	for i := range b.e.Runs {
		if b.isDrainRun(i) {
			continue
		}
		for k := range b.e.Runs[i].Pieces {
			p := &b.e.Runs[i].Pieces[k]
			v += p.Length * hydraulics.CircleArea(b.c.Of(p.Bore))
		}
	}
	for i := range b.e.Manifolds {
		m := &b.e.Manifolds[i]
		v += (m.Length + m.Ring) * hydraulics.CircleArea(b.c.Of(m.Bore))
	}
	return v
}
