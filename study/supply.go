package study

import (
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/fluid"
	"rillwright/hydraulics"
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
	levels     []float64      // scratch, of sump chambers
}

// pumpLaw is a pump as a law: the head it gives is a head not lost.
type pumpLaw struct{ set hydraulics.PumpSet }

// Loss implements network.Law.
func (p pumpLaw) Loss(q float64) (h, slope float64) {
	h, slope = p.set.Head(q)
	return -h, -slope
}

func buildSupply(e *enclosure.Enclosure, c enclosure.Case, s Setting, sumpLevel, poolLevel float64) (*supply, error) {
	b, err := waterOnly(e, c, s)
	if err != nil {
		return nil, err
	}
	b.reserve()
	b.sump = b.node("sump surface", sumpLevel)
	b.pool = b.node("pool surface", poolLevel)
	b.pumps()
	for i := range e.Tees {
		b.tees = append(b.tees, b.free("tee "+e.Tees[i].Name))
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
			b.p.Couplings = append(b.p.Couplings, b.taps[i])
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
	return &supply{e: e, c: c, s: s, water: water}, nil
}

// reserve makes room for all nodes and links at once.
func (b *supply) reserve() {
	n := 2 + 2*len(b.e.Pumps) + len(b.e.Tees) + len(b.e.Runs)
	for i := range b.e.Manifolds {
		n += 2*len(b.e.Manifolds[i].Outlets) + 3
	}
	b.p.Nodes = make([]network.Node, 0, n)
	b.p.Links = make([]network.Link, 0, n)
}

func (b *supply) node(id string, head float64) int {
	b.p.Nodes = append(b.p.Nodes, network.Node{ID: id, Fixed: true, Head: head})
	return len(b.p.Nodes) - 1
}

func (b *supply) free(id string) int {
	b.p.Nodes = append(b.p.Nodes, network.Node{ID: id})
	return len(b.p.Nodes) - 1
}

func (b *supply) link(l network.Link) int {
	b.p.Links = append(b.p.Links, l)
	return len(b.p.Links) - 1
}

func (b *supply) pumps() {
	for i := range b.e.Pumps {
		p := &b.e.Pumps[i]
		in := b.sump
		if !p.InSump {
			in = b.free(p.Name + " inlet")
		}
		b.pumpIn = append(b.pumpIn, in)
		b.pumpOut = append(b.pumpOut, b.free(p.Name+" outlet"))
	}
}

// pumpLinks joins each pump's two sides, with the loss of its strainer.
func (b *supply) pumpLinks() {
	for i := range b.e.Pumps {
		p := &b.e.Pumps[i]
		curve := b.curve(p)
		law := network.Law(pumpLaw{hydraulics.PumpSet{Pump: curve.curve, Speed: p.Speed * b.s.speed(), Parallel: 1, Series: 1}})
		if r := b.strainer(p, i); r > 0 {
			law = network.Series{law, network.Power{R: r, N: 2}}
		}
		b.pumpLink = append(b.pumpLink, b.link(network.Link{
			ID: p.Name, From: b.pumpIn[i], To: b.pumpOut[i], Law: law, OneWay: true, Guess: 0.35 * curve.zeroHead,
		}))
	}
}

// strainer returns the loss of a pump's strainer for each square of the flow.
func (b *supply) strainer(p *enclosure.Pump, i int) float64 {
	r := p.StrainerLoss
	if p.StrainerK > 0 {
		bore := p.OutletBore
		for k := range b.e.Runs {
			if u := &b.e.Runs[k]; bore == 0 && u.From.Kind == enclosure.AtPump && u.From.Index == i && len(u.Pieces) > 0 {
				bore = b.c.Of(u.Pieces[0].Bore)
			}
		}
		if bore > 0 {
			a := hydraulics.CircleArea(bore)
			r += p.StrainerK / (2 * hydraulics.G * a * a)
		}
	}
	return r * b.c.Of(b.e.StrainerDirt)
}

type pumpCurve struct {
	curve    hydraulics.Curve
	zeroHead float64 // flow without lift
}

// curve returns a pump's curve in this case. Curves were checked by Resolve.
func (b *supply) curve(p *enclosure.Pump) pumpCurve {
	return caseCurve(&p.Curve, b.c)
}

func caseCurve(c *enclosure.Curve, k enclosure.Case) pumpCurve {
	if c.Label {
		curve, err := hydraulics.LabelCurve(c.HMax, c.QMax, k.Of(c.Shape))
		if err == nil {
			return pumpCurve{curve, c.QMax}
		}
	}
	curve, err := hydraulics.NewTableCurve(c.Flow, c.Head)
	if err != nil {
		return pumpCurve{hydraulics.PowerCurve{C: 1}, 0}
	}
	return pumpCurve{curve, c.Flow[len(c.Flow)-1]}
}

// manifold lays a manifold's pipe along its outlets and feed points.
func (b *supply) manifold(i int) {
	m := &b.e.Manifolds[i]
	at := b.positions(i)
	bore := b.c.Of(m.Bore)
	nodes := make([]int, len(at))
	for k := range at {
		nodes[k] = b.free(m.Name)
	}
	b.along, b.alongNode = append(b.along, at), append(b.alongNode, nodes)
	guess := b.guess(i)
	chain := make([]int, 0, len(at))
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
		Outlet: make([]int, 0, n), Left: make([]int, 0, n), Right: make([]int, 0, n),
	}
	links, joints := make([]int, 0, n), make([]int, 0, n)
	for j := range m.Outlets {
		o := &m.Outlets[j]
		k, _ := slices.BinarySearch(at, o.At)
		air := b.node("", OutletHeight(m, b.c, o.At))
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
	at := make([]float64, 0, len(m.Outlets)+len(m.Feeds)+1)
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
	for k := range b.e.Pumps {
		sum += b.curve(&b.e.Pumps[k]).zeroHead
	}
	return max(0.3*sum/float64(len(b.e.Manifolds)), 1e-6)
}

func (b *supply) plainPipe(bore, length, roughness float64) *network.Conduit {
	c := network.NewConduit(b.water.Kinematic)
	c.AddPipe(bore, length, roughness, b.c.Of(b.e.Friction))
	return c
}

func (b *supply) outlet(g *enclosure.OutletGroup) network.Law {
	if g.EmitterK > 0 {
		return network.Emitter{K: g.EmitterK, X: g.EmitterX}
	}
	return network.NewHole(b.c.Of(g.Hole), b.water.Kinematic, b.c.Of(g.Discharge)/0.61)
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
		l.To, l.OneWay = b.node(u.Name+" end", math.Max(u.EndHeight, poolLevel)), true
	case enclosure.AtSump:
		l.To, l.OneWay = b.node(u.Name+" end", math.Max(u.EndHeight, sumpLevel)), true
	case enclosure.AtFloor:
		l.To, l.OneWay = b.node(u.Name+" end", u.EndHeight), true
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
	for k := range b.e.Pumps {
		sum += b.curve(&b.e.Pumps[k]).zeroHead
	}
	return 0.3 * sum
}

// isDrainRun reports whether a run carries drains that join to the sump.
func (b *supply) isDrainRun(i int) bool {
	u := &b.e.Runs[i]
	return u.From.Kind == enclosure.AtTee && drainTee(b.e, u.From.Index)
}

// drainTee reports whether drains run into a tee.
func drainTee(e *enclosure.Enclosure, tee int) bool {
	for k := range e.Drains {
		if e.Drains[k].To.Kind == enclosure.AtTee && e.Drains[k].To.Index == tee {
			return true
		}
	}
	for k := range e.Runs {
		u := &e.Runs[k]
		if u.To.Kind == enclosure.AtTee && u.To.Index == tee && u.From.Kind == enclosure.AtTee && u.From.Index != tee && drainTee(e, u.From.Index) {
			return true
		}
	}
	return false
}

// feedCoupling makes a tee of a feed point that lies within a manifold.
func (b *supply) feedCoupling(i int, at float64, run int) {
	m := &b.e.Manifolds[i]
	k, _ := slices.BinarySearch(b.along[i], at)
	if k == 0 || k >= len(b.chains[i]) {
		return
	}
	b.p.Couplings = append(b.p.Couplings, network.Tee{
		Runs:   [2]network.TeeLeg{{Link: b.chains[i][k-1], Into: 1}, {Link: b.chains[i][k], Into: -1}},
		Branch: network.TeeLeg{Link: run, Into: 1}, Bore: b.c.Of(m.Bore), Factor: b.c.Of(b.e.TeeLoss),
	})
}

// teeCouplings gives each tee of three legs its losses.
func (b *supply) teeCouplings() {
	for t := range b.e.Tees {
		var runs []network.TeeLeg
		var branch network.TeeLeg
		found := false
		for i := range b.e.Runs {
			if b.runLink[i] < 0 {
				continue
			}
			u := &b.e.Runs[i]
			leg := network.TeeLeg{Link: b.runLink[i]}
			switch {
			case u.To.Kind == enclosure.AtTee && u.To.Index == t:
				leg.Into = 1
			case u.From.Kind == enclosure.AtTee && u.From.Index == t:
				leg.Into = -1
			default:
				continue
			}
			if u.Name == b.e.Tees[t].Branch {
				branch, found = leg, true
			} else {
				runs = append(runs, leg)
			}
		}
		if found && len(runs) == 2 {
			b.p.Couplings = append(b.p.Couplings, network.Tee{
				Runs: [2]network.TeeLeg{runs[0], runs[1]}, Branch: branch, Bore: b.e.Tees[t].Bore, Factor: b.c.Of(b.e.TeeLoss),
			})
		}
	}
}
