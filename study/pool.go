package study

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/gravity"
)

// drain settles the pool under the inflow.
func (st *State) drain(b *supply) {
	b.fillLevels(st.Chambers, st.SumpLevel, st.Inflow)
	pool := b.buildPool(st.Chambers)
	rest := &b.rest
	pool.SettleInto(rest, st.Inflow)
	st.PoolLevel, st.Spills, st.Spill = rest.Level, rest.Spills, rest.Spill
	for i := range pool.Drains {
		d := &pool.Drains[i]
		s := DrainState{Flow: rest.Flow[i], Limit: rest.Limit[i], Reaches: st.Drains[i].Reaches}
		s.Capacity, s.AtTop = d.Capacity(b.e.Pool.DamTop)
		s.Quiet = hydraulics.SelfVentingFlow(d.Bore)
		if s.Reaches == nil {
			s.Reaches = make([]string, len(d.Reaches))
		}
		for k := range d.Reaches {
			s.Reaches[k] = d.Reaches[k].ID
		}
		for k := range b.e.Drains[i].Pieces {
			p := &b.e.Drains[i].Pieces[k]
			s.Quiet = math.Min(s.Quiet, hydraulics.SelfVentingFlow(b.c.Of(p.Bore)))
		}
		s.Quiet = math.Min(s.Quiet, hydraulics.SelfVentingFlow(b.c.Of(b.e.Drains[i].Bulkhead)))
		s.Gulps = s.Quiet * hydraulics.StackFlow(d.Bore) / hydraulics.SelfVentingFlow(d.Bore)
		st.Drains[i] = s
	}
	st.Joined = st.Joined[:0]
	if len(pool.Junctions) > 0 {
		st.joined(b, pool)
	}
}

// joined gives drains that share a pipe their capacities together.
func (st *State) joined(b *supply, pool *gravity.Pool) {
	top := &b.rest
	pool.SettleInto(top, math.MaxFloat64)
	for i := range st.Drains {
		if pool.Drains[i].Joins >= 0 {
			st.Drains[i].Capacity, st.Drains[i].AtTop = top.Flow[i], top.Limit[i]
		}
	}
	for i := range b.e.Runs {
		u := &b.e.Runs[i]
		if !b.isDrainRun(i) {
			continue
		}
		j := JunctionState{Name: u.Name, Flow: st.through(b, u.From.Index), Quiet: math.Inf(1)}
		for k := range u.Pieces {
			j.Quiet = math.Min(j.Quiet, hydraulics.SelfVentingFlow(b.c.Of(u.Pieces[k].Bore)))
		}
		st.Joined = append(st.Joined, j)
	}
}

// through returns what drains and other tees bring to a tee.
func (st *State) through(b *supply, tee int) float64 {
	q := 0.0
	for i := range b.e.Drains {
		if to := b.e.Drains[i].To; to.Kind == enclosure.AtTee && to.Index == tee {
			q += st.Drains[i].Flow
		}
	}
	for i := range b.e.Runs {
		if u := &b.e.Runs[i]; b.isDrainRun(i) && u.To.Kind == enclosure.AtTee && u.To.Index == tee {
			q += st.through(b, u.From.Index)
		}
	}
	return q
}
