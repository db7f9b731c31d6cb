package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// reserve makes the slices of a state, all figures in one block, unless it has
// them from the turn before.
func (st *State) reserve(b *supply) {
	if len(st.linkFlow) == len(b.p.Links) {
		return
	}
	e := b.e
	n := len(b.p.Links) + len(b.p.Nodes) + max(1, len(e.Sump.Chambers))
	for i := range b.outletLink {
		n += 2 * len(b.outletLink[i])
	}
	figures := slab[float64]{make([]float64, 0, n)}
	st.linkFlow, st.nodeHead = figures.take(len(b.p.Links)), figures.take(len(b.p.Nodes))
	st.Chambers = figures.take(max(1, len(e.Sump.Chambers)))
	st.Pumps, st.Runs, st.Drains = make([]PumpState, len(e.Pumps)), make([]RunState, len(e.Runs)), make([]DrainState, len(e.Drains))
	st.Manifolds = make([]ManifoldState, len(e.Manifolds))
	for i := range st.Manifolds {
		m, n := &st.Manifolds[i], len(b.outletLink[i])
		m.Flow, m.Head = figures.take(n), figures.take(n)
	}
}

func (st *State) readSupply(b *supply, res network.Result) {
	st.Inflow, st.Outlets = 0, 0
	for i, l := range b.pumpLink {
		q := clean(res.Flow[l])
		st.Pumps[i] = PumpState{Flow: q, Head: b.pumpHead(i, q)}
		for k := range b.e.Manifolds {
			st.Pumps[i].Lift = math.Max(st.Pumps[i].Lift, b.e.Manifolds[k].Height-res.Head[b.pumpIn[i]])
		}
	}
	for i := range b.e.Manifolds {
		st.readManifold(b, res, i)
		st.Outlets += st.Manifolds[i].Total
	}
	st.Inflow = st.Outlets * (1 - b.c.Of(b.e.WaterLost))
	for i := range b.e.Runs {
		if l := b.runLink[i]; l >= 0 {
			st.readRun(b, res, i, l)
			if b.e.Runs[i].To.Kind == enclosure.AtPool {
				st.Inflow += st.Runs[i].Flow
			}
		}
	}
}

func (st *State) readManifold(b *supply, res network.Result, i int) {
	m := &st.Manifolds[i]
	m.Total = 0
	links := b.outletLink[i]
	extra := b.memory.floats.take(len(b.p.Links))
	b.taps[i].Add(res.Flow, extra, extra)
	for k, l := range links {
		q := clean(res.Flow[l])
		air := b.p.Links[l].To
		h := res.Head[b.outletNode[i][k]] - res.Head[air] - extra[l]
		m.Flow[k], m.Head[k] = q, h
		m.Total += q
		if k == 0 {
			m.HeadMin, m.HeadMax = h, h
		}
		m.HeadMin, m.HeadMax = math.Min(m.HeadMin, h), math.Max(m.HeadMax, h)
	}
}

// clean drops the traces that one-way links let through.
func clean(q float64) float64 {
	if math.Abs(q) < 1e-12 {
		return 0
	}
	return q
}

func (st *State) readRun(b *supply, res network.Result, i, l int) {
	r := &st.Runs[i]
	u := &b.e.Runs[i]
	*r = RunState{
		Flow: clean(res.Flow[l]), Shut: b.p.Links[l].Closed,
		Loss: res.Head[b.p.Links[l].From] - res.Head[b.p.Links[l].To],
	}
	narrow := math.Inf(1)
	for k := range u.Pieces {
		p := &u.Pieces[k]
		bore := b.c.Of(p.Bore)
		r.Speed = math.Max(r.Speed, network.Velocity(r.Flow, bore))
		if p.Kind.HasLength() && bore < narrow {
			narrow = bore
			r.Reynolds = network.Velocity(r.Flow, bore) * bore / st.Kinematic
		}
	}
	if b.s.Pieces {
		r.Pieces = b.pieceLosses(u.Pieces, r.Flow)
	}
}

// pieceLosses returns what each piece of a run loses at a flow.
func (b *supply) pieceLosses(list []enclosure.Piece, q float64) []float64 {
	out := make([]float64, len(list))
	before := 0.0
	for k := range list {
		law, bore, _ := b.pieces(list[k:k+1], before, 0, 0)
		out[k], _ = law.Loss(q)
		before = bore
	}
	return out
}
