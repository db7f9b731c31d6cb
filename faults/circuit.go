package faults

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/study"
)

// circuit is the supply side as one fault leaves it, with what it gives at the
// levels it was asked for. Its flows are taken from a polynomial through six sump
// levels 10 mm apart, after a solved state half way between two has shown that
// this is good to 1e-7 of the flow; where it is not, as where an outlet just
// starts, the circuit is solved anew each time. Where a return ends under the
// pool's water, four pool levels are taken as well.
type circuit struct {
	mu     sync.Mutex
	solver *study.Circuit
	room   study.CircuitFlows
	base   float64 // sump level of node 0
	low    float64 // pool level of node 0: that of the lowest return; +Inf if none can drown
	nodes  map[place][]float64
	cells  map[place]*cell
	wide   int
}

// place counts nodes by sump and pool level; pool is flat where no return feels
// the pool.
type place struct{ sump, pool int }

const flat = -1

// cell is the stretch between neighbouring levels.
type cell struct {
	direct bool
	first  int             // pool level of the first row, in nodes
	node   [4][6][]float64 // one row alone where the pool is not felt
}

const (
	spacing = 0.010 // m
	agree   = 1e-7
)

// variant is what distinguishes one circuit from another.
type variant struct {
	stopped  []bool
	valve    []float64 // of runs: how far valves stand open that are not as planned, else NaN
	offAt    []float64 // of runs: height of the joint that came off, else NaN
	strainer []float64 // of pumps: share of the strainer that is clogged
}

func (v *variant) key() string {
	var b strings.Builder
	for _, x := range v.stopped {
		fmt.Fprintf(&b, "%t ", x)
	}
	for _, list := range [][]float64{v.valve, v.offAt, v.strainer} {
		for _, x := range list {
			fmt.Fprintf(&b, "%x ", math.Float64bits(x))
		}
	}
	return b.String()
}

// circuitFor returns the circuit of a variant, made once.
func (r *Rig) circuitFor(v *variant) (*circuit, error) {
	key := v.key()
	r.mu.Lock()
	defer r.mu.Unlock()
	if c := r.circuits[key]; c != nil {
		return c, nil
	}
	solver, err := study.NewCircuit(r.altered(v), r.Case, study.Setting{}, v.stopped)
	if err != nil {
		return nil, err
	}
	c := &circuit{
		solver: solver, room: solver.NewFlows(), base: r.E.Sump.Bottom, low: r.lowestReturn,
		nodes: map[place][]float64{}, cells: map[place]*cell{},
	}
	c.wide = len(c.room.Manifolds) + len(c.room.Runs)
	// The first state is found at the level of rest, whoever asks first.
	if err := solver.At(r.Start.SumpLevel, r.Start.PoolLevel, &c.room); err != nil {
		return nil, err
	}
	r.circuits[key] = c
	return c, nil
}

// altered returns the enclosure as a variant leaves it.
func (r *Rig) altered(v *variant) *enclosure.Enclosure {
	changed := false
	for i := range v.valve {
		changed = changed || !math.IsNaN(v.valve[i]) || !math.IsNaN(v.offAt[i])
	}
	for i := range v.strainer {
		changed = changed || v.strainer[i] > 0
	}
	if !changed {
		return r.E
	}
	e := r.E.Clone()
	for i, open := range v.valve {
		for k := range e.Runs[i].Pieces {
			if p := &e.Runs[i].Pieces[k]; !math.IsNaN(open) && p.Kind == catalogue.KindValve {
				p.Open = math.Max(p.Open, open)
			}
		}
	}
	for i, share := range v.strainer {
		// The speed through what is still open grows as that shrinks.
		by := 1 / ((1 - share) * (1 - share))
		e.Pumps[i].StrainerK *= by
		e.Pumps[i].StrainerLoss *= by
	}
	for i, at := range v.offAt {
		if math.IsNaN(at) {
			continue
		}
		u := &e.Runs[i]
		from, to := r.height(u.From, u), r.height(u.To, u)
		u.Pieces = cutAt(u.Pieces, from, to, at)
		u.To = enclosure.Place{Kind: enclosure.AtFloor, Name: "floor"}
		u.EndHeight = at
	}
	return e
}

// cutAt returns the pieces of a run up to the height of a joint, its hose and
// pipe taken to rise evenly.
func cutAt(pieces []enclosure.Piece, from, to, joint float64) []enclosure.Piece {
	total := 0.0
	for k := range pieces {
		total += pieces[k].Length
	}
	left := total
	if to != from {
		left *= math.Min(math.Max((joint-from)/(to-from), 0), 1)
	}
	var out []enclosure.Piece
	for k := range pieces {
		p := pieces[k]
		if p.Length >= left && p.Length > 0 {
			p.Length = math.Max(left, 1e-3)
			return append(out, p)
		}
		left -= p.Length
		out = append(out, p)
	}
	return out
}

// at sets out to the flows of manifolds, then of runs, with the sump and the
// pool at the given levels.
func (c *circuit) at(sump, pool float64, out []float64) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	x := (sump - c.base) / spacing
	at := place{int(math.Floor(x)), flat}
	y := 0.0
	if pool > c.low {
		y = (pool - c.low) / spacing
		at.pool = int(y)
	}
	cl, err := c.cell(at)
	if err != nil {
		return err
	}
	if cl.direct {
		return c.solve(sump, pool, out)
	}
	cl.between(at, x-float64(at.sump), y, out)
	return nil
}

func (c *circuit) solve(sump, pool float64, out []float64) error {
	if err := c.solver.At(sump, pool, &c.room); err != nil {
		return err
	}
	n := copy(out, c.room.Manifolds)
	copy(out[n:], c.room.Runs)
	return nil
}

// poolAt is the pool level of a node.
func (c *circuit) poolAt(k float64) float64 {
	if k < 0 {
		return math.Min(c.low, 1e3) // anything that no return feels
	}
	return c.low + k*spacing
}

// node returns the flows at a node.
func (c *circuit) node(at place) ([]float64, error) {
	if f := c.nodes[at]; f != nil {
		return f, nil
	}
	f := make([]float64, c.wide)
	if err := c.solve(c.base+float64(at.sump)*spacing, c.poolAt(float64(at.pool)), f); err != nil {
		return nil, err
	}
	c.nodes[at] = f
	return f, nil
}

// cell returns the stretch from a node to the next, in sump and pool.
func (c *circuit) cell(at place) (*cell, error) {
	if cl := c.cells[at]; cl != nil {
		return cl, nil
	}
	cl := &cell{}
	rows, middle := 1, float64(flat)
	if at.pool != flat {
		// No row below the return's end, where the flows have a corner.
		rows, cl.first, middle = len(cl.node), max(at.pool-1, 0), float64(at.pool)+0.5
	}
	for j := range rows {
		for i := range cl.node[j] {
			n := place{at.sump - 2 + i, flat}
			if at.pool != flat {
				n.pool = cl.first + j
			}
			f, err := c.node(n)
			if err != nil {
				return nil, err
			}
			cl.node[j][i] = f
		}
	}
	half, guess := make([]float64, c.wide), make([]float64, c.wide)
	if err := c.solve(c.base+(float64(at.sump)+0.5)*spacing, c.poolAt(middle), half); err != nil {
		return nil, err
	}
	cl.between(at, 0.5, middle, guess)
	for i := range half {
		if math.Abs(half[i]-guess[i]) > agree*math.Max(math.Abs(half[i]), 1e-8) {
			cl.direct = true
		}
	}
	c.cells[at] = cl
	return cl, nil
}

// between takes the flows at a share t of the cell in the sump and y nodes up in
// the pool, by Lagrange's polynomials through the nodes about it.
func (c *cell) between(at place, t, y float64, out []float64) {
	var w [6]float64
	for i := range w {
		w[i] = 1
		for j := range w {
			if j != i {
				w[i] *= (t - float64(j-2)) / float64(i-j)
			}
		}
	}
	v := [4]float64{1}
	rows := 1
	if at.pool != flat {
		rows = len(v)
		for i := range v {
			v[i] = 1
			for j := range v {
				if j != i {
					v[i] *= (y - float64(c.first+j)) / float64(i-j)
				}
			}
		}
	}
	for k := range out {
		sum := 0.0
		for j := range rows {
			for i := range w {
				sum += v[j] * w[i] * c.node[j][i][k]
			}
		}
		out[k] = sum
	}
}
