package study

import (
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// manifold lays a manifold's pipe along its outlets and feed points.
func (b *supply) manifold(i int) {
	m := &b.e.Manifolds[i]
	at := b.positions(i)
	bore := b.c.Of(m.Bore)
	ints := &b.memory.ints
	nodes := ints.take(len(at))
	for k := range at {
		nodes[k] = b.free(m.Name, "")
	}
	b.along, b.alongNode = append(b.along, at), append(b.alongNode, nodes)
	guess := b.guess(i)
	chain := ints.room(len(at))
	var pipe *network.Conduit
	length := 0.0
	for k := 1; k < len(at); k++ {
		// Pieces of one length, the rule between outlets, share their law.
		if d := at[k] - at[k-1]; pipe == nil || math.Abs(d-length) > 1e-12 {
			pipe, length = b.plainPipe(bore, d, m.Roughness), d
		}
		chain = append(chain, b.link(network.Link{ID: m.Name, From: nodes[k-1], To: nodes[k], Guess: guess, Law: pipe}))
	}
	if m.Ring > 0 && len(at) > 1 {
		b.link(network.Link{ID: m.Name + " return leg", From: nodes[len(at)-1], To: nodes[0], Guess: guess, Law: b.plainPipe(bore, m.Ring, m.Roughness)})
	}
	laws := make([]network.Law, len(m.Groups))
	for g := range m.Groups {
		laws[g] = b.outlet(&m.Groups[g])
	}
	n := len(m.Outlets)
	taps := network.Taps{
		Bore: bore, Share: b.c.Of(b.e.WallTap),
		Outlet: ints.room(n), Left: ints.room(n), Right: ints.room(n),
	}
	links, joints := ints.room(n), ints.room(n)
	for j := range m.Outlets {
		o := &m.Outlets[j]
		k, _ := slices.BinarySearch(at, o.At)
		air := b.node("", "", OutletHeight(m, b.c, o.At))
		l := b.link(network.Link{
			ID: m.Name, From: nodes[k], To: air, OneWay: true, Guess: guess / float64(n), Law: laws[o.Group],
		})
		links, joints = append(links, l), append(joints, nodes[k])
		left, right := -1, -1
		if k > 0 {
			left = chain[k-1]
		}
		if k < len(chain) {
			right = chain[k]
		}
		taps.Outlet, taps.Left, taps.Right = append(taps.Outlet, l), append(taps.Left, left), append(taps.Right, right)
	}
	b.taps = append(b.taps, taps)
	b.chains = append(b.chains, chain)
	b.outletLink = append(b.outletLink, links)
	b.outletNode = append(b.outletNode, joints)
}

// OutletHeight returns the height of an outlet at distance x from a manifold's
// left end when the manifold hangs out of level, its right end high.
func OutletHeight(m *enclosure.Manifold, c enclosure.Case, x float64) float64 {
	if m.Length == 0 {
		return m.Height
	}
	return m.Height + c.Of(m.LevelError)*(x/m.Length-0.5)
}

// positions returns the distinct places along a manifold, from the left, at
// which something is joined to it.
func (b *supply) positions(i int) []float64 {
	m := &b.e.Manifolds[i]
	at := b.memory.floats.room(len(m.Outlets) + len(m.Feeds) + 1)
	for _, o := range m.Outlets {
		at = append(at, o.At)
	}
	for k := range b.e.Runs {
		u := &b.e.Runs[k]
		if u.To.Kind == enclosure.AtManifold && u.To.Index == i {
			at = append(at, u.At)
		}
		if u.From.Kind == enclosure.AtManifold && u.From.Index == i {
			at = append(at, u.FromAt)
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// guess returns a flow to begin with for a manifold.
func (b *supply) guess(i int) float64 {
	sum := 0.0
	for k := range b.curves {
		sum += b.curves[k].zeroHead
	}
	return max(0.3*sum/float64(len(b.e.Manifolds)), 1e-6)
}

func (b *supply) plainPipe(bore, length, roughness float64) *network.Conduit {
	c := b.memory.laws.Conduit(b.water.Kinematic, 1)
	c.AddPipe(bore, length, roughness, b.c.Of(b.e.Friction))
	return c
}

func (b *supply) outlet(g *enclosure.OutletGroup) network.Law {
	if g.EmitterK > 0 {
		return network.Emitter{K: g.EmitterK, X: g.EmitterX}
	}
	return network.NewHole(b.c.Of(g.Hole), b.water.Kinematic, b.c.Of(g.Discharge)/0.61)
}
