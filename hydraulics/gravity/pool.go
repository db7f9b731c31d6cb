package gravity

import "math"

// Pool is a body of water with its drains.
type Pool struct {
	Drains    []Drain
	Junctions []Junction
	// Top is the level at which the water runs over the dam.
	Top float64
}

// State is where a pool comes to rest under a steady inflow.
type State struct {
	Level  float64
	Flow   []float64 // of each drain
	Limit  []Limit
	Spill  float64 // flow over the dam: what the drains cannot take at Top
	Spills bool
}

// Settle returns the level at which the drains take the inflow, or, if they
// cannot, the state at the top of the dam with what spills there. The inflow
// must not be negative. A pool without inflow stands at its lowest lip.
func (p *Pool) Settle(inflow float64) State {
	st := State{Flow: make([]float64, len(p.Drains)), Limit: make([]Limit, len(p.Drains))}
	lowest := p.Top
	for i := range p.Drains {
		lowest = min(lowest, p.Drains[i].Lip)
	}
	if most := p.flows(p.Top, st.Flow, st.Limit); most < inflow {
		st.Level, st.Spill, st.Spills = p.Top, inflow-most, true
		return st
	}
	if inflow <= 0 {
		p.flows(lowest, st.Flow, st.Limit)
		st.Level = lowest
		return st
	}
	if len(p.Drains) == 1 && p.Drains[0].Joins < 0 {
		st.Level, st.Limit[0] = p.Drains[0].Level(inflow)
		st.Flow[0] = inflow
		return st
	}
	rise := root(p.Top-lowest, func(h float64) float64 {
		return p.flows(lowest+h, st.Flow, st.Limit) - inflow
	})
	st.Level = lowest + rise
	p.flows(st.Level, st.Flow, st.Limit)
	return st
}

// Capacity returns the flow that all drains together take at a level, leaving
// out those for which without returns true (nil leaves out none).
func (p *Pool) Capacity(level float64, without func(i int) bool) float64 {
	kept := Pool{Junctions: p.Junctions, Top: p.Top}
	for i := range p.Drains {
		if without == nil || !without(i) {
			kept.Drains = append(kept.Drains, p.Drains[i])
		}
	}
	return kept.flows(level, make([]float64, len(kept.Drains)), make([]Limit, len(kept.Drains)))
}

// flows fills in what each drain takes at a level and returns the sum.
func (p *Pool) flows(level float64, flow []float64, limit []Limit) float64 {
	sum := 0.0
	for i := range p.Drains {
		d := &p.Drains[i]
		if d.Joins < 0 {
			flow[i], limit[i] = d.flow(level, d.Tail)
			sum += flow[i]
		}
	}
	for j := range p.Junctions {
		if p.Junctions[j].Joins < 0 {
			sum += p.junction(j, level, p.Junctions[j].Tail, flow, limit)
		}
	}
	return sum
}

// junction returns the flow through junction j when the head where its pipe
// ends is tail, and fills in the flows of the drains above it. The head at the
// junction is its own height while its pipe runs part full, and higher once
// the pipe is full and holds the drains back.
func (p *Pool) junction(j int, level, tail float64, flow []float64, limit []Limit) float64 {
	jn := &p.Junctions[j]
	arriving := func(head float64) float64 {
		sum := 0.0
		for i := range p.Drains {
			if d := &p.Drains[i]; d.Joins == j {
				flow[i], limit[i] = d.flow(level, head)
				sum += flow[i]
			}
		}
		for k := range p.Junctions {
			if p.Junctions[k].Joins == j {
				sum += p.junction(k, level, head, flow, limit)
			}
		}
		return sum
	}
	// Head that the pipe needs at the junction to carry q.
	needed := func(q float64) float64 {
		h, _ := jn.Pipe.Loss(q)
		return max(jn.Height, tail+h)
	}
	q := arriving(jn.Height)
	if needed(q) <= jn.Height || level <= jn.Height {
		return q
	}
	// More head at the junction lets the pipe take more and the drains give
	// less: the two meet once.
	rise := root(math.Max(level-jn.Height, 0), func(h float64) float64 {
		return jn.Height + h - needed(arriving(jn.Height+h))
	})
	return arriving(jn.Height + rise)
}
