package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
	"rillwright/hydraulics/network"
)

// buildPool makes the pool with its drains. chamber gives the water level of
// each sump chamber. The pool lives as long as the supply it is built from.
func (b *supply) buildPool(chamber []float64) *gravity.Pool {
	b.basin = gravity.Pool{Top: b.e.Pool.DamTop, Drains: b.basin.Drains[:0], Junctions: b.basin.Junctions[:0]}
	pool := &b.basin
	junction := b.memory.ints.take(len(b.e.Tees)) // by tee, -1 for none
	for t := range junction {
		junction[t] = -1
	}
	for i := range b.e.Runs {
		if u := &b.e.Runs[i]; b.isDrainRun(i) {
			junction[u.From.Index] = len(pool.Junctions)
			law, bore, _ := b.pieces(u.Pieces, b.e.Tees[u.From.Index].Bore, 0, u.Heads)
			law.AddFitting(hydraulics.ConstantK(hydraulics.ExitTurbulent), bore)
			pool.Junctions = append(pool.Junctions, gravity.Junction{
				ID: b.e.Tees[u.From.Index].Name, Height: b.e.Tees[u.From.Index].Height, Pipe: law,
				Tail: math.Max(u.EndHeight, level(chamber, u.To)), Joins: -1,
			})
		}
	}
	for i := range b.e.Runs {
		if u := &b.e.Runs[i]; b.isDrainRun(i) && u.To.Kind == enclosure.AtTee {
			pool.Junctions[junction[u.From.Index]].Joins = junction[u.To.Index]
		}
	}
	for i := range b.e.Drains {
		pool.Drains = append(pool.Drains, b.drain(i, chamber, junction))
	}
	return pool
}

func level(chamber []float64, p enclosure.Place) float64 {
	if p.Kind == enclosure.AtSump && p.Index < len(chamber) {
		return chamber[p.Index]
	}
	return math.Inf(-1)
}

// drain turns a drain into the places where its water may back up: the bulkhead
// first, then the end of each piece below it.
func (b *supply) drain(i int, chamber []float64, junction []int) gravity.Drain {
	d := &b.e.Drains[i]
	lip, bulk := b.c.Of(d.LipBore), b.c.Of(d.Bulkhead)
	out := gravity.Drain{
		ID: d.Name, Lip: d.Lip, Bore: lip, Intake: b.c.Of(d.Intake), Joins: -1,
		Tail: math.Max(d.End, level(chamber, d.To)),
	}
	end := d.End
	if d.To.Kind == enclosure.AtTee && junction[d.To.Index] >= 0 {
		out.Joins = junction[d.To.Index]
		end = b.e.Tees[d.To.Index].Height
		out.Tail = end
	}
	factor := b.c.Of(b.e.Fittings)
	law := b.memory.laws.Conduit(b.water.Kinematic, 1+len(d.Pieces))
	law.AddFitting(hydraulics.ConstantK(hydraulics.EntranceSharp), lip)
	switch d.Kind {
	case "wall opening":
		out.Mouth = gravity.InWall
	case "floor opening":
		out.Mouth = gravity.InFloor
	default:
		out.Mouth = gravity.Upright
		law.AddPipe(lip, math.Max(d.Lip-d.BulkheadAt, 0), hydraulics.RoughnessSmooth, b.c.Of(b.e.Friction))
		// The water turns from the standpipe into the bulkhead.
		law.AddFitting(hydraulics.Darby3K(800, 0.14, 4, bulk/0.0254).Times(factor), bulk)
	}
	switch {
	case bulk < lip:
		law.AddFitting(hydraulics.ConstantK(factor*hydraulics.Contraction(lip, bulk)), bulk)
	case bulk > lip:
		law.AddFitting(hydraulics.ConstantK(factor*hydraulics.Expansion(lip, bulk)), lip)
	}
	out.Screen = b.screen(d, lip)
	b.reaches(&out, d, law, bulk, end)
	return out
}

// screen returns the loss of a drain's strainer before its mouth.
func (b *supply) screen(d *enclosure.Drain, mouth float64) network.Law {
	r := d.StrainerLoss
	if r == 0 && d.StrainerArea > 0 {
		a := 0.6 * d.StrainerArea * hydraulics.CircleArea(mouth)
		r = 1 / (2 * hydraulics.G * a * a)
	}
	if r == 0 {
		return nil
	}
	return network.Power{R: r * b.c.Of(b.e.StrainerDirt), N: 2}
}

// reaches adds to a drain the places along its pieces. Pieces that say how much
// they fall do so; what height is left is shared by the others that have a
// length.
func (b *supply) reaches(out *gravity.Drain, d *enclosure.Drain, law *network.Conduit, bore, end float64) {
	height := d.BulkheadAt
	drop, upright := height-end, 0.0
	for k := range d.Pieces {
		p := &d.Pieces[k]
		drop -= p.Fall
		if p.Kind.HasLength() && !p.Flat {
			upright += p.Length
		}
	}
	out.Reaches = b.memory.reaches.room(1 + len(d.Pieces))
	add := func(name string, at, bore float64) {
		full := b.memory.laws.Clone(law)
		full.AddFitting(hydraulics.ConstantK(hydraulics.ExitTurbulent), bore)
		out.Reaches = append(out.Reaches, gravity.Reach{ID: name, Height: at, Law: full})
	}
	add("bulkhead", height, bore)
	for k := range d.Pieces {
		p := &d.Pieces[k]
		next := b.c.Of(p.Bore)
		b.add(law, d.Pieces[k:k+1], bore, 0, 0)
		bore = next
		switch {
		case p.Flat:
			height -= p.Fall
		case p.Kind.HasLength() && upright > 0 && drop > 0:
			// An upright pipe holds nothing back: overfull, it gulps and then
			// runs as a siphon, which takes more, not less. The limit for
			// vented stacks is therefore one for quiet, not for capacity.
			height -= drop * p.Length / upright
		}
		add(p.Name, height, bore)
	}
}
