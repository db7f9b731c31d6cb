package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/layout"
)

// layer is a slice of the pool between two heights: how much of its box is free,
// m2, and the zone it is, -1 for none.
type layer struct {
	from, to, free float64
	zone           int
}

// layers slices the pool up to a level, with its shares where the doubts are.
func (b *weigher) layers(v sides, shares map[int]int, top float64) []layer {
	c := b.e.Likely()
	for of, doubt := range shares {
		c[of] = v.of(doubt)
	}
	var out []layer
	for _, l := range PoolLayers(b.e, c) {
		s := layer{l.From, math.Min(l.To, top), l.Area, -1}
		if s.to <= s.from {
			continue
		}
		for i := range b.e.Pool.Zones {
			if z := &b.e.Pool.Zones[i]; z.From == l.From && z.To == l.To {
				s.zone = i
			}
		}
		out = append(out, s)
	}
	return out
}

// shares registers the pool's shares that are in doubt, by the enclosure's doubt.
func (b *weigher) shares() map[int]int {
	out := map[int]int{}
	add := func(f enclosure.Figure) {
		if i, ok := f.Doubt(); ok {
			d := &b.e.Doubts[i]
			out[i] = b.doubt(WeightDoubt{What: d.What, Band: massBand(d.Low, d.Likely, d.High), Unit: Share, Why: d.Why, Settle: d.Settle, Line: d.Pos.Line})
		}
	}
	add(b.e.Pool.Displaced)
	for i := range b.e.Pool.Zones {
		add(b.e.Pool.Zones[i].Displaced)
	}
	return out
}

// pool weighs its water, at its running level and to its brim, what takes up room
// in it and is not weighed by itself, and the waters hidden beside it. What stands
// in it reaches up to the running level, whatever the water does.
func (b *weigher) pool() {
	p := &b.e.Pool
	shares := b.shares()
	running := math.Max(b.st.PoolLevel, p.Floor)
	level := func(at Stage) float64 {
		if at == Brim {
			return math.Max(p.DamTop, running)
		}
		return running
	}
	box := p.Width * p.Depth
	middle := point(b.at.Pool.Box.Centre())
	b.add(Running, func(v sides, at Stage) Load {
		var volume, moment float64
		for _, l := range b.layers(v, shares, level(at)) {
			volume += l.free * (l.to - l.from)
			moment += l.free * (l.to - l.from) * (l.to + l.from) / 2
		}
		c := middle
		c.Z = b.at.Z(moment / math.Max(volume, 1e-12))
		return Load{
			Kind: PoolLoad, Name: "water in the pool", Mass: volume * b.st.Density, Centre: c, Line: p.Pos.Line,
			Across: p.Width, Deep: p.Depth, Depth: level(at) - p.Floor,
		}
	})
	for i := range p.Hidden {
		h := &p.Hidden[i]
		hidden := b.place(layout.KindHidden, h.Name)
		b.add(Running, func(_ sides, at Stage) Load {
			deep := math.Max(level(at)-h.Floor, 0)
			c := hidden
			c.Z = b.at.Z(h.Floor + deep/2)
			return Load{Kind: PoolLoad, Name: h.Name, Mass: h.Area * deep * b.st.Density, Centre: c, Line: h.Pos.Line}
		})
	}
	b.sunk(shares, running, box)
}

// sunk weighs what takes up room in the pool besides the pieces that were
// weighed, and what fills its zones.
func (b *weigher) sunk(shares map[int]int, top, box float64) {
	pieces := 0.0
	for i := range b.e.Design.Hardscape {
		if h := &b.e.Design.Hardscape[i]; h.On.Value == "pool" {
			pieces += float64(h.Mass.Value)
		}
	}
	for i := range b.e.Pool.Zones {
		z := &b.e.Pool.Zones[i]
		density := b.doubt(WeightDoubt{What: "density of what lies in the " + z.Name, Band: massBand(900, 2000, 2650), Unit: PerVolume, Why: "peat to stone, assumed, no source", Settle: "weigh a bucket of it, wet", Line: z.Pos.Line})
		b.add(Drained, func(v sides, _ Stage) Load {
			for _, l := range b.layers(v, shares, math.Inf(1)) {
				if l.zone == i {
					return b.sunken(z.Name, (box-l.free)*(l.to-l.from)*v.of(density), (l.from+l.to)/2, z.Pos.Line)
				}
			}
			return Load{}
		})
	}
	name, line := "wood and stone in the pool", b.e.Pool.Pos.Line
	stone := b.doubt(WeightDoubt{What: "density of the wood and stone in the pool", Band: massBand(1000, 1500, 2650), Unit: PerVolume, Why: "waterlogged wood to stone, from memory", Settle: "weigh the pieces, and list them under hardscape with on: pool"})
	rest := stone
	if pieces > 0 {
		name = "what else takes up room in the pool"
		rest = b.doubt(WeightDoubt{What: "density of " + name, Band: massBand(30, 500, 1000), Unit: PerVolume, Why: "foam to waterlogged wood, assumed, no source", Settle: "weigh every piece that stands in the pool, and list it under hardscape"})
	} else if b.e.Pool.Displaced.Value > 0 {
		b.assume("wood and stone in the pool by the room they take: hardscape with on: pool and weight would say it")
	}
	b.add(Drained, func(v sides, _ Stage) Load {
		var volume, moment float64
		for _, l := range b.layers(v, shares, top) {
			if l.zone < 0 {
				volume += (box - l.free) * (l.to - l.from)
				moment += (box - l.free) * (l.to - l.from) * (l.to + l.from) / 2
			}
		}
		if volume <= 0 {
			return Load{}
		}
		left := math.Max(volume-pieces/v.of(stone), 0)
		return b.sunken(name, left*v.of(rest), moment/volume, line)
	})
}

func (b *weigher) sunken(name string, mass, height float64, line int) Load {
	c := point(b.at.Pool.Box.Centre())
	c.Z = b.at.Z(height)
	return Load{Kind: SunkLoad, Name: name, Mass: mass, Centre: c, Line: line}
}

// pieces weighs the wood and rock that the file lists.
func (b *weigher) pieces() {
	for i := range b.e.Design.Hardscape {
		h := &b.e.Design.Hardscape[i]
		l := Load{Kind: PieceLoad, Name: h.Name.Value, Mass: float64(h.Mass.Value), Line: h.Pos.Line, Centre: b.place(layout.KindHardscape, h.Name.Value)}
		if h.On.Value != "pool" {
			l.On = h.On.Value
		}
		b.fixed(Drained, l)
	}
}

// sump weighs the box with its pumps, and its water while it runs.
func (b *weigher) sump() {
	s := &b.e.Sump
	skin := s.Width*s.Depth + 2*(s.Width+s.Depth)*s.Height
	box := b.doubt(WeightDoubt{What: "weight of the sump's walls", Band: massBand(3, 8, 20), Unit: PerArea, Why: "thin plastic to 8 mm glass, assumed, no source", Settle: "weigh it empty", Line: s.Pos.Line})
	pump := b.doubt(WeightDoubt{What: "weight of each pump", Band: massBand(0.3, 0.8, 2), Unit: Kilograms, Why: "assumed, no source", Settle: "weigh it"})
	c := b.place(layout.KindSump, "sump")
	b.add(Drained, func(v sides, _ Stage) Load {
		c.Z = b.at.Z(s.Bottom + s.Height/3)
		return Load{Kind: SumpLoad, Name: "sump, empty, with its pumps", Mass: skin*v.of(box) + float64(len(b.e.Pumps))*v.of(pump), Centre: c, Line: s.Pos.Line}
	})
	var volume, moment float64
	water := func(length, level float64) {
		deep := math.Max(level-s.Bottom, 0)
		volume += length * s.Depth * deep
		moment += length * s.Depth * deep * (s.Bottom + deep/2)
	}
	if len(s.Chambers) == 0 {
		water(s.Width, b.st.SumpLevel)
	}
	for i := range s.Chambers {
		water(s.Chambers[i].Length, b.st.Chambers[i])
	}
	if volume > 0 {
		c.Z = b.at.Z(moment / volume)
		b.fixed(Running, Load{
			Kind: SumpWaterLoad, Name: "water in the sump", Mass: volume * b.st.Density, Centre: c, Line: s.Pos.Line,
			Across: s.Width, Deep: s.Depth, Depth: volume / (s.Width * s.Depth),
		})
	}
}

// stand weighs what it stands on.
func (b *weigher) stand() {
	s := &b.e.Design.Stand
	switch {
	case !s.Given():
		b.Left = append(b.Left, "the stand")
		return
	case s.Mass.Given():
		b.fixed(Bare, Load{Kind: StandLoad, Name: "stand", Mass: float64(s.Mass.Value), Centre: b.place(layout.KindStand, "stand"), Line: s.Mass.Pos.Line})
	default:
		m := b.doubt(WeightDoubt{What: "weight of the stand", Band: massBand(10, 25, 50), Unit: Kilograms, Why: "assumed, no source", Settle: "weigh it, and write stand.weight", Line: s.Pos.Line})
		b.add(Bare, func(v sides, _ Stage) Load {
			return Load{Kind: StandLoad, Name: "stand", Mass: v.of(m), Centre: b.place(layout.KindStand, "stand"), Line: s.Pos.Line}
		})
		b.assume("the stand's weight: stand.weight would say it")
	}
}
