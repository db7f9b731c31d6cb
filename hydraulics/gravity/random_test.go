package gravity

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// randomPool draws a pool with up to five drains of any mouth, with and without
// strainers, pipes and stacks, and up to three junctions.
func randomPool(t *rapid.T) *Pool {
	u := func(what string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
	law := func(what string, bore float64) *network.Conduit {
		c := network.NewConduit(u(what+" viscosity", 0.7e-6, 1.6e-6))
		c.AddPipe(bore, u(what+" length", 0.05, 5), 1.5e-6, 1)
		c.AddFitting(hydraulics.ConstantK(u(what+" K", 1, 20)), bore)
		return c
	}
	p := &Pool{Top: u("top", 0.2, 1)}
	junctions := rapid.IntRange(0, 3).Draw(t, "junctions")
	for j := range junctions {
		// Each joins an earlier one or ends freely, so that there is no circle.
		jn := Junction{
			Height: u("junction height", -1, 0.4), Tail: u("junction tail", -1.5, 0.4),
			Pipe: law("junction pipe", u("junction bore", 0.008, 0.06)), Joins: rapid.IntRange(-1, j-1).Draw(t, "joins"),
		}
		p.Junctions = append(p.Junctions, jn)
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "drains") {
		d := Drain{
			ID: fmt.Sprint(i), Mouth: Mouth(rapid.IntRange(0, 2).Draw(t, "mouth")), Lip: u("lip", 0, 1.1),
			Bore: u("bore", 0.006, 0.06), Intake: u("intake", 0.4, 0.9), Tail: u("tail", -1, 0.5),
			Joins: rapid.IntRange(-1, junctions-1).Draw(t, "to"),
		}
		if rapid.Bool().Draw(t, "stack") {
			d.Stack = u("stack bore", 0.01, 0.06)
		}
		if rapid.Bool().Draw(t, "screen") {
			d.Screen = network.Power{R: u("screen", 0, 1e6), N: 2}
		}
		for r := range rapid.IntRange(0, 2).Draw(t, "reaches") {
			d.Reaches = append(d.Reaches, Reach{ID: fmt.Sprint(r), Height: u("reach height", -1, 0.6), Law: law("reach", u("reach bore", 0.008, 0.06))})
		}
		p.Drains = append(p.Drains, d)
	}
	return p
}

// Mass is kept, the level lies where it may, and the flows are those of that
// level: an identity each, whatever the pool.
func TestSettleRandomPools(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomPool(t)
		inflow := math.Exp(rapid.Float64Range(-25, -4).Draw(t, "log inflow"))
		st := p.Settle(inflow)
		sum := st.Spill
		for i, q := range st.Flow {
			if !(q >= 0) || math.IsInf(q, 0) {
				t.Fatalf("drain %d takes %g", i, q)
			}
			if (q == 0) != (st.Limit[i].Kind == Dry) {
				t.Fatalf("drain %d takes %g, limit %+v", i, q, st.Limit[i])
			}
			sum += q
		}
		if !near(sum, inflow, 1e-12) {
			t.Fatalf("%g m3/s in, %g out", inflow, sum)
		}
		if !(st.Level >= p.starts() && st.Level <= p.Top) {
			t.Fatalf("level %g, lowest drain %g, top %g", st.Level, p.starts(), p.Top)
		}
		if st.Spills != (st.Spill > 0) || st.Spills && st.Level != p.Top {
			t.Fatalf("%+v", st)
		}
		// The drains take the inflow between a hair below the level and a
		// hair above it: 1e-12 of the rise over the lowest drain, and some
		// roundings of a head of about 1 m.
		hair := 1e-12*(st.Level-p.starts()) + 1e-14
		if !st.Spills && (p.Capacity(st.Level-hair, nil) > inflow*(1+1e-12) || p.Capacity(st.Level+hair, nil) < inflow*(1-1e-12)) {
			t.Fatalf("at %.17g m the drains take %g to %g of %g", st.Level, p.Capacity(st.Level-hair, nil), p.Capacity(st.Level+hair, nil), inflow)
		}
	})
}

// More level never means less flow, more inflow never a lower level, one drain
// less never more flow, tail water never more flow.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomPool(t)
		// Roots inside are good to a few bits of flows up to the largest.
		tol := 1e-11 * p.Capacity(p.Top+1, nil)
		level, last := p.starts()-0.1, 0.0
		for range 12 {
			q := p.Capacity(level, nil)
			if !(q >= last-tol) {
				t.Fatalf("%g m3/s at %g m after %g", q, level, last)
			}
			last = q
			level += rapid.Float64Range(0, 0.1).Draw(t, "rise")
		}
		without := p.Capacity(level, func(i int) bool { return i == 0 })
		if most := p.Capacity(level, nil); without > most+tol {
			t.Fatalf("%g without drain 0, %g with it", without, most)
		}
		inflow, high := 0.0, math.Inf(-1)
		for range 6 {
			st := p.Settle(inflow)
			if st.Level < high-1e-12 {
				t.Fatalf("%g m3/s: level %g after %g", inflow, st.Level, high)
			}
			high = st.Level
			inflow += rapid.Float64Range(0, 3e-4).Draw(t, "more")
		}
		before := p.Capacity(level, nil)
		for j := range p.Junctions {
			p.Junctions[j].Tail += 0.2
		}
		for i := range p.Drains {
			p.Drains[i].Tail += 0.2
		}
		if after := p.Capacity(level, nil); after > before+tol {
			t.Fatalf("%g m3/s, %g with more tail water", before, after)
		}
	})
}

// Level and Capacity of one drain are each other's inverse, and the limit they
// name is the same.
func TestDrainInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &randomPool(t).Drains[0]
		level := d.starts(d.Tail) + math.Exp(rapid.Float64Range(-9, 0).Draw(t, "log head"))
		q, limit := d.Capacity(level)
		if !(q > 0) {
			t.Fatalf("%g m3/s at %g m", q, level)
		}
		if limit.Kind == Falling {
			if l, _ := d.Level(q); l > level*(1+1e-12) {
				t.Fatalf("needs %g m, had %g", l, level)
			}
			return
		}
		// Heads count from the lip: 1e-12 is what the wall opening's formula
		// is good to. The rest is the rounding of levels of about 1 m.
		back, limit2 := d.Level(q)
		if math.Abs(back-level) > 1e-12*(level-d.Lip)+2e-15 {
			t.Fatalf("%g m3/s: level %.17g comes back as %.17g (%+v, %+v)", q, level, back, limit, limit2)
		}
	})
}

// The inverse of the wall opening over its whole range, against the formula.
func TestWallHead(t *testing.T) {
	for lg := -6.0; lg < 3; lg += 0.01 {
		const bore = 0.03
		h := bore * math.Pow(10, lg)
		d := Drain{Mouth: InWall, Bore: bore, Intake: 0.6}
		q, _ := d.bareFlow(h)
		if got := wallHead(bore, q); !near(got, h, 3e-11) {
			// The slope used is good to about 1e-11, the flow to 1e-12.
			t.Errorf("%g bores: %g", h/bore, got/h-1)
		}
	}
}

func BenchmarkSettle(b *testing.B) {
	one := Pool{Drains: []Drain{returnLine(b, 0.3, 0.02613)}, Top: 0.4}
	wall := standpipe(0.32, 0.03)
	wall.Mouth = InWall
	three := Pool{Drains: []Drain{returnLine(b, 0.3, 0.02042), wall, standpipe(0.34, 0.02613)}, Top: 0.4}
	joint := joined(b, [2]float64{0.4, 0.41}, 0.02042)
	screened := three
	screened.Drains = append([]Drain(nil), three.Drains...)
	for i := range screened.Drains {
		screened.Drains[i].Screen = network.Power{R: 1e5, N: 2}
	}
	for _, c := range []struct {
		name   string
		p      Pool
		inflow float64
	}{{"one", one, 600}, {"three", three, 900}, {"three-screened", screened, 900}, {"junction", joint, 1500}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			var st State
			for b.Loop() {
				c.p.SettleInto(&st, c.inflow*litrePerHour)
			}
			if st.Spills {
				b.Fatal("spills")
			}
		})
	}
}

func BenchmarkCapacity(b *testing.B) {
	line := returnLine(b, 0.3, 0.02613)
	p := Pool{Drains: []Drain{line, standpipe(0.32, 0.02)}, Top: 0.4}
	first := func(i int) bool { return i == 0 }
	b.Run("drain", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			line.Capacity(0.33)
		}
	})
	b.Run("pool", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			p.Capacity(0.33, first)
		}
	})
}
