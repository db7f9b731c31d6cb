package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
)

// chamberLevels returns the level of each sump chamber when flow q passes from
// the first to the last, in which the pump stands at the given level. Under a
// baffle the water loses the velocity head of the gap (coefficient 0.6); over
// one it stands at least as high as the crest and the sheet of water on it.
func (b *supply) chamberLevels(last, q float64) []float64 {
	n := len(b.e.Sump.Chambers)
	if n == 0 {
		return []float64{last}
	}
	levels := make([]float64, n)
	levels[n-1] = last
	for i := n - 2; i >= 0; i-- {
		c := &b.e.Sump.Chambers[i]
		down := levels[i+1]
		switch {
		case c.Under > 0:
			levels[i] = down + hydraulics.OrificeHead(0.6, c.Under*b.e.Sump.Depth, q)
		case c.Over > 0:
			// Sharp crest across the whole box: q = 0.62 2/3 sqrt(2 g) b h^1.5.
			k := 0.62 * 2 / 3 * math.Sqrt(2*hydraulics.G) * b.e.Sump.Depth
			levels[i] = math.Max(down, b.e.Sump.Bottom+c.Over+math.Pow(math.Max(q, 0)/k, 2.0/3))
		default:
			levels[i] = down
		}
	}
	return levels
}

// held returns the water that the sump gives up from standing still to running:
// the pool's rise over its lowest lip, what fills the pipes on the supply side,
// the film on the wall, and the chambers' rise upstream of the pump's.
func (b *supply) held(st *State) float64 {
	e := b.e
	area := e.Pool.Width * e.Pool.Depth * (1 - b.c.Of(e.Pool.Displaced))
	v := area * (st.PoolLevel - st.RestLevel)
	if st.Outlets > 0 {
		v += b.pipeVolume() + b.c.Of(e.FilmHoldUp)*e.Wall.Width*e.Wall.Height
	}
	for i := range e.Sump.Chambers {
		v += (st.Chambers[i] - st.SumpLevel) * e.Sump.Chambers[i].Length * e.Sump.Depth
	}
	return v
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

// PumpHead returns the head of a pump at a flow in a case, for plots.
func PumpHead(p *enclosure.Pump, c enclosure.Case, s Setting, q float64) float64 {
	speed := p.Speed * s.speed()
	k := caseCurve(&p.Curve, c)
	h, _ := hydraulics.PumpSet{Pump: k.curve, Speed: speed, Parallel: 1, Series: 1}.Head(q)
	return h
}
