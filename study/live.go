package study

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
	"rillwright/hydraulics/network"
)

// Circuit is the supply side of an enclosure in one case, held ready to be
// solved at other levels again and again, as when something has gone wrong and
// the levels move. It is not for use by two goroutines at once.
type Circuit struct {
	b          *supply
	solver     *network.Solver
	runEnd     []int // node at the open end of each run, -1 for none
	head, flow []float64
}

// stoppedHeads is what water loses that runs back through a stopped pump, in
// velocity heads of its outlet: assumed, no source.
const stoppedHeads = 3

// NewCircuit makes a circuit ready. The pumps for which stopped is true stand
// still and let water pass; stopped may be nil.
func NewCircuit(e *enclosure.Enclosure, c enclosure.Case, s Setting, stopped []bool) (*Circuit, error) {
	s.Workspace = nil // what it is posed in must last
	b, err := buildSupply(e, c, s, e.Sump.Level, restLevel(e))
	if err != nil {
		return nil, err
	}
	for i, still := range stopped {
		if still {
			l := &b.p.Links[b.pumpLink[i]]
			l.Law, l.OneWay, l.Guess = network.Power{R: b.stoppedLoss(i), N: 2}, false, 0
		}
	}
	solver, err := network.NewSolver(&b.p, network.Settings{})
	if err != nil {
		return nil, fmt.Errorf("supply %w", err)
	}
	k := &Circuit{b: b, solver: solver, runEnd: make([]int, len(e.Runs))}
	for i := range e.Runs {
		k.runEnd[i] = -1
		if l := b.runLink[i]; l >= 0 && openEnd(&e.Runs[i]) {
			k.runEnd[i] = b.p.Links[l].To
		}
	}
	return k, nil
}

// openEnd reports whether a run ends in the open.
func openEnd(u *enclosure.Run) bool {
	return u.To.Kind == enclosure.AtPool || u.To.Kind == enclosure.AtSump || u.To.Kind == enclosure.AtFloor
}

// stoppedLoss is the loss of a stopped pump and its strainer for each square of
// the flow.
func (b *supply) stoppedLoss(i int) float64 {
	bore := b.outletBore(i)
	if bore == 0 {
		bore = 0.016 // as wide as small pumps mostly are
	}
	a := hydraulics.CircleArea(bore)
	return stoppedHeads/(2*hydraulics.G*a*a) + b.strainer(&b.e.Pumps[i], i)
}

// CircuitFlows is what runs in a circuit, m3/s.
type CircuitFlows struct {
	Pumps     []float64
	Manifolds []float64 // out of all outlets of each
	Runs      []float64 // 0 for the runs of drains
}

// At solves the circuit with the sump and the pool at the given levels, m above
// the room floor. It starts from the same state each time, so that what it finds
// does not depend, in its last digits, on what was asked before.
func (k *Circuit) At(sump, pool float64, out *CircuitFlows) error {
	b := k.b
	nodes := b.p.Nodes
	nodes[b.sump].Head, nodes[b.pool].Head = sump, pool
	for i, n := range k.runEnd {
		if n < 0 {
			continue
		}
		u := &b.e.Runs[i]
		switch nodes[n].Head = u.EndHeight; u.To.Kind {
		case enclosure.AtPool:
			nodes[n].Head = math.Max(u.EndHeight, pool)
		case enclosure.AtSump:
			nodes[n].Head = math.Max(u.EndHeight, sump)
		}
	}
	if k.head != nil {
		k.solver.Begin(k.head, k.flow)
	}
	res, err := k.solver.Solve()
	if err != nil {
		return fmt.Errorf("supply %w", err)
	}
	if res.Status != network.Converged {
		return fmt.Errorf("supply circuit: no state found with the sump at %.3f m (off by %.2g m of head)", sump, res.Residual)
	}
	if k.head == nil {
		k.head, k.flow = append(k.head, res.Head...), append(k.flow, res.Flow...)
	}
	for i, l := range b.pumpLink {
		out.Pumps[i] = clean(res.Flow[l])
	}
	for i, links := range b.outletLink {
		out.Manifolds[i] = 0
		for _, l := range links {
			out.Manifolds[i] += clean(res.Flow[l])
		}
	}
	for i, l := range b.runLink {
		if out.Runs[i] = 0; l >= 0 {
			out.Runs[i] = clean(res.Flow[l])
		}
	}
	return nil
}

// NewFlows returns room for the circuit's flows.
func (k *Circuit) NewFlows() CircuitFlows {
	e := k.b.e
	return CircuitFlows{Pumps: make([]float64, len(e.Pumps)), Manifolds: make([]float64, len(e.Manifolds)), Runs: make([]float64, len(e.Runs))}
}

// Parts are the laws of single parts of an enclosure in one case.
type Parts struct{ b *supply }

// NewParts makes the laws of parts of e in a case.
func NewParts(e *enclosure.Enclosure, c enclosure.Case, s Setting) (*Parts, error) {
	s.Workspace = nil
	b, err := waterOnly(e, c, s)
	if err != nil {
		return nil, err
	}
	return &Parts{b}, nil
}

// Kinematic returns the water's kinematic viscosity, m2/s.
func (p *Parts) Kinematic() float64 { return p.b.water.Kinematic }

// SurfaceTension returns the water's surface tension, N/m.
func (p *Parts) SurfaceTension() float64 { return p.b.water.SurfaceTension }

// Density returns the water's density, kg/m3.
func (p *Parts) Density() float64 { return p.b.water.Density }

// Run returns the law of a run of the supply side from end to end, entrance and
// exit with it, and whether a shut valve closes it.
func (p *Parts) Run(i int) (law *network.Conduit, shut bool) {
	u := &p.b.e.Runs[i]
	law, bore, shut := p.b.pieces(u.Pieces, 0, 0, u.Heads)
	law.AddFitting(hydraulics.ConstantK(hydraulics.ExitTurbulent), bore)
	return law, shut
}

// Stopped returns the law of a stopped pump that water runs back through.
func (p *Parts) Stopped(i int) network.Law { return network.Power{R: p.b.stoppedLoss(i), N: 2} }

// Pump returns the head of a pump and its slope at a flow, the loss of its
// strainer taken off.
func (p *Parts) Pump(i int) func(q float64) (h, slope float64) {
	pump := &p.b.e.Pumps[i]
	law := pumpLaw{set: caseCurve(&pump.Curve, p.b.c).at(pump.Speed * p.b.s.speed()), strainer: p.b.strainer(pump, i) + pump.OutletLoss, air: pump.AirHead}
	return func(q float64) (float64, float64) {
		h, slope := law.Loss(q)
		return -h, -slope
	}
}

// Film returns the water on the wet wall, m3, while the outlets together give a
// flow.
func (p *Parts) Film(outlets float64) float64 { return p.b.film(outlets) }

// Outflow is the gravity side of an enclosure in one case: the drains with where
// each one's water ends. Not for use by two goroutines at once.
type Outflow struct {
	b     *supply
	pool  *gravity.Pool
	into  []int // sump chamber of each drain
	tails []tail
	state gravity.State
}

// tail is the lower end of a drain or of the pipe after a junction.
type tail struct {
	head    *float64
	end     float64
	chamber int
}

// NewOutflow makes the drains of e ready.
func NewOutflow(e *enclosure.Enclosure, c enclosure.Case) (*Outflow, error) {
	b, err := waterOnly(e, c, Setting{})
	if err != nil {
		return nil, err
	}
	o := &Outflow{b: b}
	dry := make([]float64, max(1, len(e.Sump.Chambers)))
	for i := range dry {
		dry[i] = math.Inf(-1)
	}
	o.pool = b.buildPool(dry)
	k := 0
	for i := range e.Runs {
		if u := &e.Runs[i]; b.isDrainRun(i) {
			if u.To.Kind == enclosure.AtSump {
				o.tails = append(o.tails, tail{&o.pool.Junctions[k].Tail, u.EndHeight, u.To.Index})
			}
			k++
		}
	}
	for i := range e.Drains {
		d := &e.Drains[i]
		o.into = append(o.into, o.chamber(d.To, 0))
		if d.To.Kind == enclosure.AtSump {
			o.tails = append(o.tails, tail{&o.pool.Drains[i].Tail, d.End, d.To.Index})
		}
	}
	return o, nil
}

// chamber follows tees down to the sump chamber that a place leads to.
func (o *Outflow) chamber(p enclosure.Place, depth int) int {
	if p.Kind == enclosure.AtTee && depth < 100 {
		for i := range o.b.e.Runs {
			if u := &o.b.e.Runs[i]; u.From.Kind == enclosure.AtTee && u.From.Index == p.Index && o.b.isDrainRun(i) {
				return o.chamber(u.To, depth+1)
			}
		}
	}
	if p.Kind == enclosure.AtSump {
		return p.Index
	}
	return 0
}

// Into returns the sump chamber in which a drain's water ends.
func (o *Outflow) Into(drain int) int { return o.into[drain] }

// At returns what each drain takes, m3/s, with the pool and the sump chambers at
// the given levels. The slice is used again by the next call.
func (o *Outflow) At(pool float64, chambers []float64) []float64 {
	for i := range o.tails {
		t := &o.tails[i]
		*t.head = math.Max(t.end, chambers[t.chamber])
	}
	o.pool.FlowsAt(&o.state, pool)
	return o.state.Flow
}
