package gravity

// Pool is a body of water with its drains.
type Pool struct {
	Drains []Drain
	// Junctions are where drains meet. Joins of drains and junctions must lead
	// to one that ends freely, without going in a circle.
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
// must not be negative. A pool without inflow stands where its lowest drain
// starts to run. The flows and the spill add up to the inflow.
func (p *Pool) Settle(inflow float64) State {
	var st State
	p.SettleInto(&st, inflow)
	return st
}

// SettleInto is Settle that uses the slices of st again, if they are long
// enough, so that it allocates nothing.
func (p *Pool) SettleInto(st *State, inflow float64) {
	n := len(p.Drains)
	if cap(st.Flow) < n || cap(st.Limit) < n {
		st.Flow, st.Limit = make([]float64, n), make([]Limit, n)
	}
	st.Flow, st.Limit = st.Flow[:n], st.Limit[:n]
	st.Spill, st.Spills = 0, false
	lowest := p.starts()
	if inflow <= 0 {
		st.Level = lowest
		p.flows(lowest, st, nil)
		return
	}
	if most := p.flows(p.Top, st, nil); most < inflow {
		st.Level, st.Spill, st.Spills = p.Top, inflow-most, true
		return
	}
	if n == 1 && p.Drains[0].Joins < 0 {
		st.Level, st.Limit[0] = p.Drains[0].Level(inflow)
		// Rounding must not lift it over a dam that just holds.
		st.Level = min(st.Level, p.Top)
		st.Flow[0] = inflow
		return
	}
	_, rise := root(p.Top-lowest, func(h float64) float64 {
		return p.flows(lowest+h, nil, nil) - inflow
	})
	st.Level = min(lowest+rise, p.Top)
	// The sum is not below the inflow, since the upper end was taken, but a rim
	// takes a good share of a small flow within the rounding of the level. That
	// must not make water.
	by := inflow / p.flows(st.Level, st, nil)
	for i := range st.Flow {
		st.Flow[i] *= by
	}
}

// FlowsAt sets st to what each drain takes with the pool at a level, and returns
// the sum. It allocates nothing if st has been used with this pool before.
func (p *Pool) FlowsAt(st *State, level float64) float64 {
	n := len(p.Drains)
	if cap(st.Flow) < n || cap(st.Limit) < n {
		st.Flow, st.Limit = make([]float64, n), make([]Limit, n)
	}
	st.Flow, st.Limit = st.Flow[:n], st.Limit[:n]
	st.Level, st.Spill, st.Spills = level, 0, false
	return p.flows(level, st, nil)
}

// starts returns the level above which some drain runs, at most Top.
func (p *Pool) starts() float64 {
	lowest := p.Top
	for i := range p.Drains {
		d := &p.Drains[i]
		tail := d.Tail
		if d.Joins >= 0 {
			tail = p.restHead(d.Joins)
		}
		lowest = min(lowest, d.starts(tail))
	}
	return lowest
}

// restHead returns the head at a junction through which nothing flows.
func (p *Pool) restHead(j int) float64 {
	jn := &p.Junctions[j]
	if jn.Joins >= 0 {
		return max(jn.Height, p.restHead(jn.Joins))
	}
	return max(jn.Height, jn.Tail)
}

// Capacity returns the flow that all drains together take at a level, leaving
// out those for which without returns true (nil leaves out none).
func (p *Pool) Capacity(level float64, without func(i int) bool) float64 {
	return p.flows(level, nil, without)
}

// flows returns the sum of what the drains take at a level, and puts each one's
// share into st unless that is nil.
func (p *Pool) flows(level float64, st *State, without func(i int) bool) float64 {
	sum := p.arriving(-1, level, 0, st, without)
	for j := range p.Junctions {
		if p.Junctions[j].Joins < 0 {
			sum += p.junction(j, level, p.Junctions[j].Tail, st, without)
		}
	}
	return sum
}

// arriving returns what the drains that run straight into junction j bring to
// it when the head there is head; with j = -1, what those bring that end freely.
func (p *Pool) arriving(j int, level, head float64, st *State, without func(i int) bool) float64 {
	sum := 0.0
	for i := range p.Drains {
		d := &p.Drains[i]
		if d.Joins != j && (d.Joins >= 0 || j >= 0) {
			continue
		}
		q, limit := 0.0, Limit{Kind: Dry}
		if without == nil || !without(i) {
			tail := head
			if d.Joins < 0 {
				tail = d.Tail
			}
			q, limit = d.flow(level, tail)
		}
		if st != nil {
			st.Flow[i], st.Limit[i] = q, limit
		}
		sum += q
	}
	return sum
}

// junction returns the flow through junction j when the head where its pipe
// ends is tail, and fills in the flows of the drains above it. The head at the
// junction is its own height while its pipe runs part full, and higher once
// the pipe is full and holds the drains back.
func (p *Pool) junction(j int, level, tail float64, st *State, without func(i int) bool) float64 {
	jn := &p.Junctions[j]
	arriving := func(head float64, st *State) float64 {
		sum := p.arriving(j, level, head, st, without)
		for k := range p.Junctions {
			if p.Junctions[k].Joins == j {
				sum += p.junction(k, level, head, st, without)
			}
		}
		return sum
	}
	// Without flow the water stands as high in the pipe as where it ends.
	rest := max(jn.Height, tail)
	free := arriving(rest, st)
	// Head that the pipe needs at the junction to carry q.
	needed := func(q float64) float64 {
		h, _ := jn.Pipe.Loss(q)
		return max(jn.Height, tail+h)
	}
	if free == 0 || needed(free) <= rest {
		return free
	}
	// More flow means more head at the junction, and that lets the drains give
	// less: the two meet once. The flow is sought and not the head, which
	// would have to be known to many more digits where the drains are wide.
	// At the lower end the drains bring more than q, be it ever so little.
	q, _ := root(free, func(q float64) float64 { return q - arriving(needed(q), nil) })
	if st != nil {
		p.scale(j, q/arriving(needed(q), st), st)
	}
	return q
}

// scale multiplies the flows of all drains that end up in junction j.
func (p *Pool) scale(j int, by float64, st *State) {
	for i := range p.Drains {
		if p.Drains[i].Joins == j {
			st.Flow[i] *= by
		}
	}
	for k := range p.Junctions {
		if p.Junctions[k].Joins == j {
			p.scale(k, by, st)
		}
	}
}
