package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/fluid"
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
	"rillwright/hydraulics/network"
)

// supply is the pressurised side of an enclosure as a circuit, and where in it
// each thing stands.
type supply struct {
	e     *enclosure.Enclosure
	c     enclosure.Case
	s     Setting
	water fluid.Water
	p     network.Problem

	sump, pool int   // fixed nodes: the sump's surface, and the air or water over the pool
	pumpOut    []int // node after each pump
	pumpIn     []int // node before each pump
	pumpLink   []int
	tees       []int
	along      [][]float64 // of each manifold: where something is joined to it
	alongNode  [][]int     // and the node there
	outletLink [][]int     // of each manifold, by outlet
	outletNode [][]int
	runLink    []int
	taps       []network.Taps // of each manifold
	chains     [][]int        // links along each manifold
	closed     []string       // runs shut by a valve
	curves     []pumpCurve    // of each pump
	laws       []pumpLaw
	levels     []float64 // scratch, of sump chambers

	basin  gravity.Pool // what buildPool returns
	rest   gravity.State
	memory memory
}

// begin empties b for another circuit but keeps its memory: all that was built
// in it before must not be used again.
func (b *supply) begin(e *enclosure.Enclosure, c enclosure.Case, s Setting, water fluid.Water) {
	b.memory.reset()
	*b = supply{
		e: e, c: c, s: s, water: water,
		p: network.Problem{Nodes: b.p.Nodes[:0], Links: b.p.Links[:0], Couplings: b.p.Couplings[:0]},

		pumpOut: b.pumpOut[:0], pumpIn: b.pumpIn[:0], pumpLink: b.pumpLink[:0], curves: b.curves[:0],
		tees: b.tees[:0], runLink: b.runLink[:0], closed: b.closed[:0],
		along: b.along[:0], alongNode: b.alongNode[:0], chains: b.chains[:0],
		outletLink: b.outletLink[:0], outletNode: b.outletNode[:0],
		// Links and couplings point into these two.
		laws:  slices.Grow(b.laws[:0], len(e.Pumps)),
		taps:  slices.Grow(b.taps[:0], len(e.Manifolds)),
		basin: b.basin, rest: b.rest, memory: b.memory,
	}
	n := 2 + 2*len(e.Pumps) + len(e.Tees) + len(e.Runs)
	for i := range e.Manifolds {
		n += 2*len(e.Manifolds[i].Outlets) + 3
	}
	b.p.Nodes, b.p.Links = slices.Grow(b.p.Nodes, n), slices.Grow(b.p.Links, n)
}

// buildSupply poses the circuit for the two levels. It lives in the setting's
// Workspace, if there is one, until the next is built there.
func buildSupply(e *enclosure.Enclosure, c enclosure.Case, s Setting, sumpLevel, poolLevel float64) (*supply, error) {
	b, err := waterOnly(e, c, s)
	if err != nil {
		return nil, err
	}
	b.sump = b.node("sump surface", "", sumpLevel)
	b.pool = b.node("pool surface", "", poolLevel)
	b.pumps()
	for i := range e.Tees {
		b.tees = append(b.tees, b.free("tee ", e.Tees[i].Name))
	}
	for i := range e.Manifolds {
		b.manifold(i)
	}
	for i := range e.Runs {
		b.run(i, poolLevel, sumpLevel)
	}
	b.teeCouplings()
	b.pumpLinks()
	for i := range b.taps {
		if len(b.taps[i].Outlet) > 0 {
			b.p.Couplings = append(b.p.Couplings, &b.taps[i])
		}
	}
	return b, nil
}

// waterOnly returns a supply without nodes or links, for the laws of its parts.
func waterOnly(e *enclosure.Enclosure, c enclosure.Case, s Setting) (*supply, error) {
	t := c.Of(e.WaterTemperature)
	water, ok := fluid.AtCelsius(t)
	if !ok {
		return nil, fmt.Errorf("water at %.1f C is outside 0 to 40 C", t)
	}
	b := &supply{}
	if s.Workspace != nil {
		b = &s.Workspace.supply
	}
	b.begin(e, c, s, water)
	return b, nil
}

// node adds a node of given head, free one without; its name is in two parts.
func (b *supply) node(name, rest string, head float64) int {
	k := b.free(name, rest)
	b.p.Nodes[k].Fixed, b.p.Nodes[k].Head = true, head
	return k
}

func (b *supply) free(name, rest string) int {
	k := len(b.p.Nodes)
	was := ""
	if k < cap(b.p.Nodes) {
		was = b.p.Nodes[:k+1][k].ID
	}
	b.p.Nodes = append(b.p.Nodes, network.Node{ID: join(name, rest, was)})
	return k
}

// join returns name and rest in one word: was itself if it is that, as the node
// in the same place of the circuit before mostly is.
func join(name, rest, was string) string {
	if strings.HasPrefix(was, name) && was[len(name):] == rest {
		return was
	}
	return name + rest
}

func (b *supply) link(l network.Link) int {
	b.p.Links = append(b.p.Links, l)
	return len(b.p.Links) - 1
}

// end returns the node at one end of a run.
func (b *supply) end(p enclosure.Place, at float64, out bool) int {
	switch p.Kind {
	case enclosure.AtPump:
		if out {
			return b.pumpOut[p.Index]
		}
		return b.pumpIn[p.Index]
	case enclosure.AtTee:
		return b.tees[p.Index]
	case enclosure.AtManifold:
		k, _ := slices.BinarySearch(b.along[p.Index], at)
		return b.alongNode[p.Index][k]
	case enclosure.AtSump:
		return b.sump
	}
	return b.pool
}

// run joins the two ends of a run with the law of its pieces.
func (b *supply) run(i int, poolLevel, sumpLevel float64) {
	u := &b.e.Runs[i]
	if b.isDrainRun(i) {
		b.runLink = append(b.runLink, -1)
		return
	}
	from, to := b.end(u.From, u.FromAt, true), b.end(u.To, u.At, false)
	l := network.Link{ID: u.Name, From: from, To: to}
	last := 0.0
	switch u.To.Kind {
	case enclosure.AtPool:
		l.To, l.OneWay = b.node(u.Name, " end", math.Max(u.EndHeight, poolLevel)), true
	case enclosure.AtSump:
		l.To, l.OneWay = b.node(u.Name, " end", math.Max(u.EndHeight, sumpLevel)), true
	case enclosure.AtFloor:
		l.To, l.OneWay = b.node(u.Name, " end", u.EndHeight), true
	case enclosure.AtManifold:
		last = b.c.Of(b.e.Manifolds[u.To.Index].Bore)
	case enclosure.AtTee:
		last = b.e.Tees[u.To.Index].Bore
	}
	first := 0.0
	switch u.From.Kind {
	case enclosure.AtPump:
		first = b.e.Pumps[u.From.Index].OutletBore
	case enclosure.AtTee:
		first = b.e.Tees[u.From.Index].Bore
	case enclosure.AtManifold:
		first = b.c.Of(b.e.Manifolds[u.From.Index].Bore)
	}
	law, bore, shut := b.pieces(u.Pieces, first, last, u.Heads)
	if openEnd(u) {
		law.AddFitting(hydraulics.ConstantK(hydraulics.ExitTurbulent), bore)
	}
	if shut {
		l.Closed = true
		b.closed = append(b.closed, u.Name)
	}
	for k := range u.Pieces {
		l.OneWay = l.OneWay || u.Pieces[k].OneWay
	}
	l.Law, l.Guess = law, b.guessRun()
	b.runLink = append(b.runLink, b.link(l))
	if u.To.Kind == enclosure.AtManifold {
		b.feedCoupling(u.To.Index, u.At, b.runLink[i])
	}
}

func (b *supply) guessRun() float64 {
	sum := 0.0
	for k := range b.curves {
		sum += b.curves[k].zeroHead
	}
	return 0.3 * sum
}
