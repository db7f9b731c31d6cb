package gravity

import (
	"math"
	"testing"

	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// pipeLaw is a pipe with fittings of K velocity heads, for water at 24 C.
func pipeLaw(t testing.TB, bore, length, k float64) *network.Conduit {
	t.Helper()
	c := network.NewConduit(kinematic(t, 24))
	c.AddPipe(bore, length, 1.5e-6, 1)
	c.AddFitting(hydraulics.ConstantK(k), bore)
	return c
}

// returnLine is a standpipe with an upright pipe and a flat run at its foot.
func returnLine(t testing.TB, lip, bore float64) Drain {
	d := standpipe(lip, bore)
	d.Stack = bore
	d.Reaches = []Reach{{Height: lip - 0.4, Law: pipeLaw(t, bore, 0.6, 2.4)}, {Height: lip - 0.45, Law: pipeLaw(t, bore, 3, 6)}}
	d.Tail = lip - 0.45
	return d
}

// Settle answers the same question as Capacity from the other side.
func TestSettleIsInverseOfCapacity(t *testing.T) {
	line := returnLine(t, 0.3, 0.02042)
	wall := standpipe(0.3, 0.03)
	wall.Mouth = InWall
	screened := returnLine(t, 0.3, 0.02613)
	screened.Screen = network.Power{R: 4e4, N: 2}
	drowned := returnLine(t, 0.3, 0.02613)
	drowned.Tail = 0.35
	bare := standpipe(0.3, 0.02)
	bare.Tail = 0.33
	for name, d := range map[string]Drain{"line": line, "wall": wall, "screened": screened, "drowned": drowned, "bare, drowned": bare} {
		p := Pool{Drains: []Drain{d}, Top: 2}
		for h := 1e-4; h < 1; h *= 1.07 {
			level := d.starts(d.Tail) + h
			q, limit := d.Capacity(level)
			if limit.Kind == Falling {
				continue // one flow over a range of levels
			}
			st := p.Settle(q)
			// The level is stored to about 1e-16 m, so that 1e-4 m of head
			// over a rim, and the flow with it, is good to some 1e-12.
			if math.Abs(st.Level-level) > 1e-12*h+4e-16 || st.Limit[0] != limit || st.Flow[0] != q {
				t.Errorf("%s: %g m over its start takes %g; that gives %+v", name, h, q, st)
			}
			two := Pool{Drains: []Drain{d, d}, Top: 2}
			if st := two.Settle(2 * q); math.Abs(st.Level-level) > 1e-12*h+1e-15 || !near(st.Flow[0], q, 1e-12) {
				t.Errorf("%s, two of them: %g m, %+v", name, h, st)
			}
		}
	}
}

// What a flow needs, put together by hand from the formulas of package
// hydraulics for the mouth and a friction loss worked out on its own.
func TestReachBacksUp(t *testing.T) {
	const bore, lip = 0.02, 0.5
	nu := kinematic(t, 24)
	d := standpipe(lip, bore)
	d.Reaches = []Reach{{ID: "run", Height: 0.35, Law: pipeLaw(t, bore, 4, 3)}}
	const q = 2.5e-4
	v := q / hydraulics.CircleArea(bore)
	f, _ := hydraulics.FrictionFactor(v*bore/nu, 1.5e-6/bore)
	want := 0.35 + (f*4/bore+3)*v*v/(2*hydraulics.G)
	level, limit := d.Level(q)
	if !near(level, want, 1e-12) || limit != (Limit{Backed, 0}) {
		t.Errorf("level %g, %+v, want %g", level, limit, want)
	}
	// Tail water above the end of the run lifts the level by as much.
	d.Tail = 0.35 + 0.06
	if level, _ := d.Level(q); !near(level, want+0.06, 1e-12) {
		t.Errorf("level %g with tail water, want %g", level, want+0.06)
	}
	// Tail water below it changes nothing.
	d.Tail = 0.2
	if level, _ := d.Level(q); !near(level, want, 1e-12) {
		t.Errorf("level %g with low tail water, want %g", level, want)
	}
}

func TestSpill(t *testing.T) {
	p := Pool{Drains: []Drain{returnLine(t, 0.3, 0.02042), standpipe(0.31, 0.015)}, Top: 0.33}
	most := p.Capacity(p.Top, nil)
	st := p.Settle(1.5 * most)
	if !st.Spills || st.Level != p.Top || !near(st.Spill, 0.5*most, 1e-12) || !near(st.Flow[0]+st.Flow[1], most, 1e-15) {
		t.Errorf("%+v, most %g", st, most)
	}
	if st := p.Settle(most); st.Spills || st.Level > p.Top || !near(st.Level, p.Top, 1e-12) {
		t.Errorf("just held: %+v", st)
	}
	// A lip above the dam is no drain at all; nor is a pool without any.
	for _, p := range []Pool{{Drains: []Drain{standpipe(0.4, 0.05)}, Top: 0.33}, {Top: 0.33}} {
		if st := p.Settle(1e-4); !st.Spills || st.Spill != 1e-4 || st.Level != 0.33 {
			t.Errorf("%+v", st)
		}
		if st := p.Settle(0); st.Spills || st.Level != 0.33 {
			t.Errorf("at rest: %+v", st)
		}
	}
}

func TestNoInflow(t *testing.T) {
	p := Pool{Drains: []Drain{standpipe(0.31, 0.02), standpipe(0.28, 0.02), standpipe(0.3, 0.02)}, Top: 0.5}
	st := p.Settle(0)
	if st.Level != 0.28 || st.Spills || st.Flow[0]+st.Flow[1]+st.Flow[2] != 0 || st.Limit[1].Kind != Dry {
		t.Errorf("%+v", st)
	}
	// Tail water above the lip holds the pool up.
	p.Drains[1].Tail = 0.29
	if st := p.Settle(0); st.Level != 0.29 {
		t.Errorf("with tail water at 0.29: %+v", st)
	}
	if level, limit := p.Drains[1].Level(0); level != 0.29 || limit.Kind != Dry {
		t.Errorf("%g, %+v", level, limit)
	}
}

// Beyond the stack limit a drain takes no more at any level; another takes the
// rest, or the water spills.
func TestStackLimit(t *testing.T) {
	d := returnLine(t, 0.3, 0.02042)
	d.Reaches = nil
	d.Tail = 0
	limit := hydraulics.StackFlow(0.02042)
	if q, l := d.Capacity(5); q != limit || l.Kind != Falling {
		t.Errorf("%g, %+v, want %g", q, l, limit)
	}
	if level, l := d.Level(1.01 * limit); !math.IsInf(level, 1) || l.Kind != Falling {
		t.Errorf("%g, %+v", level, l)
	}
	alone := Pool{Drains: []Drain{d}, Top: 5}
	if st := alone.Settle(1.25 * limit); !st.Spills || !near(st.Spill, 0.25*limit, 1e-12) {
		t.Errorf("%+v", st)
	}
	two := Pool{Drains: []Drain{d, standpipe(0.5, 0.02)}, Top: 5}
	if st := two.Settle(1.25 * limit); st.Spills || !near(st.Flow[0], limit, 1e-12) || !near(st.Flow[1], 0.25*limit, 1e-12) {
		t.Errorf("%+v", st)
	}
}

// joined is two drains that meet in one pipe, ending over water at 0.05 m.
func joined(t testing.TB, lips [2]float64, shared float64) Pool {
	p := Pool{Top: 1, Junctions: []Junction{{ID: "tee", Height: 0.1, Pipe: pipeLaw(t, shared, 2, 4), Tail: 0.05, Joins: -1}}}
	for _, lip := range lips {
		d := standpipe(lip, 0.02613)
		d.Reaches = []Reach{{Height: 0.1, Law: pipeLaw(t, 0.02613, 0.8, 3)}}
		d.Tail = 0.1
		d.Joins = 0
		p.Drains = append(p.Drains, d)
	}
	return p
}

// Two like drains in one narrow pipe share equally, and the state is that of
// one equation: level = tail + loss of the shared pipe + loss of one drain.
func TestJunctionHoldsBack(t *testing.T) {
	p := joined(t, [2]float64{0.4, 0.4}, 0.02042)
	const level = 0.47
	var st State
	const inflow = 1500 * litrePerHour
	p.SettleInto(&st, inflow)
	if !near(st.Flow[0], st.Flow[1], 1e-15) || !near(st.Flow[0]+st.Flow[1], inflow, 1e-14) {
		t.Errorf("%+v", st)
	}
	for i := range st.Limit {
		if st.Limit[i].Kind != JoinFull {
			t.Errorf("drain %d limited by %d", i, st.Limit[i].Kind)
		}
	}
	shared, _ := p.Junctions[0].Pipe.Loss(inflow)
	one, _ := p.Drains[0].Reaches[0].Law.Loss(inflow / 2)
	if want := 0.05 + shared + one; !near(st.Level, want, 1e-12) {
		t.Errorf("level %.15g, want %.15g", st.Level, want)
	}
	// A wide pipe holds nothing back: each drain as if it were alone.
	free := joined(t, [2]float64{0.4, 0.41}, 0.1)
	alone := free.Drains[0]
	alone.Joins = -1
	other := free.Drains[1]
	other.Joins = -1
	a, _ := alone.Capacity(level)
	b, _ := other.Capacity(level)
	if q := free.Capacity(level, nil); !near(q, a+b, 1e-14) {
		t.Errorf("%g, alone %g and %g", q, a, b)
	}
	// And a narrow one less than that, but more than one drain would.
	narrow := joined(t, [2]float64{0.4, 0.41}, 0.02042)
	both := narrow.Capacity(level, nil)
	one1 := narrow.Capacity(level, func(i int) bool { return i == 1 })
	if !(both < a+b && both > one1) {
		t.Errorf("both %g, one %g, free %g", both, one1, a+b)
	}
	// Tail water over the junction stands in its pipe at once.
	narrow.Junctions[0].Tail = 0.45
	if st := narrow.Settle(0); st.Level != 0.45 {
		t.Errorf("at rest under tail water: %+v", st)
	}
	// Rounding of the root leaves some 1e-17 m3/s.
	if q := narrow.Capacity(0.44, nil); q > 1e-15 {
		t.Errorf("%g m3/s against tail water", q)
	}
}

// A flow so small that the head that drives it is lost in the rounding of the
// levels is still a flow (found by a random pool).
func TestHairOfFlowThroughJunction(t *testing.T) {
	pipe := pipeLaw(t, 0.06, 1, 1)
	p := Pool{Top: 1, Junctions: []Junction{
		{Height: 0.4, Pipe: pipe, Tail: 0.4, Joins: -1},
		{Height: 0.4, Pipe: pipe, Tail: 0.4, Joins: 0},
	}}
	for j := range p.Junctions {
		d := standpipe(0.25, 0.06)
		d.Joins = j
		p.Drains = []Drain{d}
		for inflow := 1e-15; inflow < 1e-3; inflow *= 3 {
			if st := p.Settle(inflow); !near(st.Flow[0], inflow, 1e-14) || st.Level < 0.4 {
				t.Errorf("junction %d, %g m3/s: %+v", j, inflow, st)
			}
		}
	}
}

// A drain without any pipe of its own is held back at its mouth.
func TestJunctionAtMouth(t *testing.T) {
	p := Pool{Top: 1, Junctions: []Junction{{Height: 0.3, Pipe: pipeLaw(t, 0.015, 1, 2), Tail: 0, Joins: -1}}}
	d := standpipe(0.4, 0.04)
	d.Joins = 0
	p.Drains = []Drain{d}
	const inflow = 1200 * litrePerHour
	st := p.Settle(inflow)
	h, _ := p.Junctions[0].Pipe.Loss(inflow)
	want := h + hydraulics.OrificeHead(hydraulics.CdOutlet, hydraulics.CircleArea(0.04), inflow)
	if !near(st.Level, want, 1e-12) || st.Limit[0].Kind != JoinFull {
		t.Errorf("%+v, want level %g", st, want)
	}
}

// Junctions one behind the other: the same as one pipe of both lengths, if
// nothing joins between them and the upper one is the higher part of the loss.
func TestChainOfJunctions(t *testing.T) {
	one := joined(t, [2]float64{0.4, 0.42}, 0.02042)
	chain := joined(t, [2]float64{0.4, 0.42}, 0.02042)
	both := pipeLaw(t, 0.02042, 2, 4)
	both.AddPipe(0.02042, 1.5, 1.5e-6, 1)
	one.Junctions[0].Pipe = both
	chain.Junctions[0].Joins = 1
	chain.Junctions = append(chain.Junctions, Junction{Height: 0.05, Pipe: pipeLaw(t, 0.02042, 1.5, 0), Tail: 0.05, Joins: -1})
	for _, inflow := range []float64{200, 800, 1300, 1700} {
		a, b := one.Settle(inflow*litrePerHour), chain.Settle(inflow*litrePerHour)
		if !near(a.Level, b.Level, 1e-12) || !near(a.Flow[0], b.Flow[0], 1e-9) {
			t.Errorf("%g L/h: %+v and %+v", inflow, a, b)
		}
	}
}

// What cannot be built must still give a number.
func TestExtremes(t *testing.T) {
	for name, d := range map[string]Drain{
		"no bore":    standpipe(0.3, 0),
		"no intake":  {Lip: 0.3, Bore: 0.02, Joins: -1},
		"wall":       {Mouth: InWall, Lip: 0.3, Intake: 0.6, Joins: -1},
		"pipe alone": {Lip: 0.3, Stack: 0.02, Intake: 0.6, Joins: -1},
	} {
		if q, l := d.Capacity(1); q != 0 || l.Kind != Dry {
			t.Errorf("%s: %g, %+v", name, q, l)
		}
		if level, _ := d.Level(1e-4); !math.IsInf(level, 1) {
			t.Errorf("%s: level %g", name, level)
		}
		if st := (&Pool{Drains: []Drain{d}, Top: 0.5}).Settle(1e-4); !st.Spills || st.Spill != 1e-4 {
			t.Errorf("%s: %+v", name, st)
		}
	}
	d := returnLine(t, 0.3, 0.02)
	for _, level := range []float64{-1e6, -1, 0, 0.3} {
		if q, l := d.Capacity(level); q != 0 || l.Kind != Dry {
			t.Errorf("level %g: %g, %+v", level, q, l)
		}
	}
	for _, q := range []float64{1e-300, 1e-15, 1e3} {
		if level, _ := d.Level(q); math.IsNaN(level) {
			t.Errorf("flow %g: level %g", q, level)
		}
	}
	if q, _ := d.Capacity(1e9); !near(q, hydraulics.StackFlow(0.02), 1e-15) {
		t.Errorf("under a flood: %g", q)
	}
}

// FlowsAt undoes Settle: at the level where an inflow comes to rest the drains
// take that inflow.
func TestFlowsAtTheLevelOfRest(t *testing.T) {
	p := &Pool{Top: 0.2, Drains: []Drain{returnLine(t, 0.10, 0.0204), returnLine(t, 0.115, 0.0266), returnLine(t, 0.12, 0.0204)}}
	var rest, at State
	for _, inflow := range []float64{1e-6, 2e-5, 1e-4, 3e-4, 6e-4} {
		p.SettleInto(&rest, inflow)
		if rest.Spills {
			continue
		}
		sum := p.FlowsAt(&at, rest.Level)
		// The level is rounded; a wide rim takes much for little.
		if math.Abs(sum-inflow) > 1e-9*inflow+1e-14 {
			t.Errorf("%g comes to rest at %g, where the drains take %g", inflow, rest.Level, sum)
		}
	}
}
