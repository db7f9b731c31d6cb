package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics/vessel"
)

// PoolLayers returns the pool's free area by height in a case: the box less what
// is displaced, zone by zone, up to the top of the dam.
func PoolLayers(e *enclosure.Enclosure, c enclosure.Case) []vessel.Layer {
	p := &e.Pool
	box := p.Width * p.Depth
	plain := box * (1 - c.Of(p.Displaced))
	out := make([]vessel.Layer, 0, 1+2*len(p.Zones))
	at := p.Floor
	for i := range p.Zones {
		z := &p.Zones[i]
		if z.From > at {
			out = append(out, vessel.Layer{From: at, To: z.From, Area: plain})
		}
		out = append(out, vessel.Layer{From: z.From, To: z.To, Area: box * (1 - c.Of(z.Displaced))})
		at = z.To
	}
	if top := math.Max(p.DamTop, p.Floor+0.01); at < top {
		out = append(out, vessel.Layer{From: at, To: top, Area: plain})
	}
	return out
}

// poolBetween is the water between two levels of the pool, m3, that in hidden
// waters with it.
func poolBetween(e *enclosure.Enclosure, c enclosure.Case, low, high float64) float64 {
	p := &e.Pool
	v := 0.0
	if len(p.Zones) == 0 {
		v = p.Width * p.Depth * (1 - c.Of(p.Displaced)) * (high - low)
	} else {
		for _, l := range PoolLayers(e, c) {
			v += l.Area * math.Max(math.Min(high, l.To)-math.Max(low, l.From), 0)
		}
	}
	for i := range p.Hidden {
		h := &p.Hidden[i]
		sill := math.Max(h.Floor, p.Floor)
		v += h.Area * math.Max(high-math.Max(low, sill), 0)
	}
	return v
}
