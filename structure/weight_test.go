package structure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestWeightTable(t *testing.T) {
	for _, r := range rows(t, "weight_floor") {
		var parts []Part
		for _, s := range strings.Split(r.text("parts"), ";") {
			i := strings.IndexAny(s, "0123456789")
			var density, volume float64
			if _, err := fmt.Sscanf(s[i:], "%g kg/m3 x %g m3", &density, &volume); err != nil {
				t.Fatalf("%q: %v", s, err)
			}
			parts = append(parts, BoxPart(s[:i], density, Point{}, Point{1, 1, volume}))
		}
		all, err := Assemble("all", parts...)
		if err != nil {
			t.Fatal(err)
		}
		area := r.num("footprint_m2")
		r.want("mass_kg", all.Mass, five)
		r.want("weight_N", Weight(all.Mass), five)
		r.want("floor_pressure_kPa", FloorPressure(all.Mass, area)/1e3, five)
		r.want("kg_per_m2", all.Mass/area, five)
	}
}

// tipParts reads "60 kg at x=0.225 z=0.9; ...".
func tipParts(t *testing.T, text string) []Part {
	t.Helper()
	var parts []Part
	for _, s := range strings.Split(text, ";") {
		var p Part
		if _, err := fmt.Sscanf(strings.TrimSpace(s), "%g kg at x=%g z=%g", &p.Mass, &p.Centre.X, &p.Centre.Z); err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		parts = append(parts, p)
	}
	return parts
}

func TestTipTable(t *testing.T) {
	for _, r := range rows(t, "tip_over") {
		all, err := Assemble("all", tipParts(t, r.text("parts_kg_m"))...)
		if err != nil {
			t.Fatal(err)
		}
		r.want("mass_kg", all.Mass, five)
		r.want("x_cg_m", all.Centre.X, five)
		r.want("z_cg_m", all.Centre.Z, five)
		s := StandingOn(all, 0, r.num("pivot_inset_m"))
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		r.want("tilt_angle_deg", s.TiltAngle()*180/math.Pi, five)
		r.want("tip_push_N", s.TipPush(r.num("push_height_m")), five)
		r.want("energy_to_tip_J", s.TipEnergy(), five)
	}
}

func TestSloshTable(t *testing.T) {
	for _, r := range rows(t, "slosh") {
		w := FreeWater{Length: r.num("tank_length_m"), Depth: r.num("water_depth_m")}
		if err := w.Check(); err != nil {
			t.Error(err)
		}
		at := w.Tilt(r.num("tilt_deg") * math.Pi / 180)
		r.want("first_slosh_frequency_Hz", w.Frequency(), five)
		if at.Covered != (r.text("formula_valid") == "yes") {
			t.Errorf("%s: covered %v", r.text("case"), at.Covered)
		}
		if at.Covered {
			r.want("cg_shift_x_m", at.Shift, five)
			r.want("cg_rise_m", at.Rise, five)
			r.want("surface_rise_at_wall_m", at.WallRise, five)
		}
	}
}

// The closed forms against slices of the tilted water, floor dry or not, with
// its volume kept; a million slices leave 1e-6 of the box.
func TestTiltAgainstSlices(t *testing.T) {
	for _, w := range []FreeWater{{Length: 0.6, Depth: 0.2}, {Length: 0.6, Depth: 0.05}, {Length: 1.2, Depth: 0.01}} {
		for _, deg := range []float64{0, 1, 5, 15, 30, 60} {
			angle := deg * math.Pi / 180
			got := w.Tilt(angle)
			const n = 100000
			var area, mx, mz float64
			for i := range n {
				x := (float64(i) + 0.5) / n * w.Length // from the low wall
				h := max(w.Depth+got.WallRise-x*math.Tan(angle), 0)
				dA := h * w.Length / n
				area += dA
				mx += x * dA
				mz += h / 2 * dA
			}
			if !within(area, w.Length*w.Depth, 1e-6) {
				t.Errorf("%+v at %g: %g m2 of %g", w, deg, area, w.Length*w.Depth)
			}
			if d := math.Abs(w.Length/2 - mx/area - got.Shift); d > 1e-6 {
				t.Errorf("%+v at %g: shift %g, off by %g", w, deg, got.Shift, d)
			}
			if d := math.Abs(mz/area - w.Depth/2 - got.Rise); d > 1e-6 {
				t.Errorf("%+v at %g: rise %g, off by %g", w, deg, got.Rise, d)
			}
		}
	}
}

func randomParts(r *rand.Rand) []Part {
	parts := make([]Part, 1+r.IntN(8))
	for i := range parts {
		parts[i] = Part{"p", 0.1 + 50*r.Float64(), Point{r.Float64(), r.Float64(), r.Float64()}}
	}
	return parts
}

// The centre lies within the box around the parts' centres, and assembling part
// of them first changes nothing.
func TestAssembleProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		parts := randomParts(r)
		all, err := Assemble("all", parts...)
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := parts[0].Centre, parts[0].Centre
		for _, p := range parts {
			c := p.Centre
			lo = Point{min(lo.X, c.X), min(lo.Y, c.Y), min(lo.Z, c.Z)}
			hi = Point{max(hi.X, c.X), max(hi.Y, c.Y), max(hi.Z, c.Z)}
		}
		c := all.Centre
		const e = 1e-12
		if c.X < lo.X-e || c.X > hi.X+e || c.Y < lo.Y-e || c.Y > hi.Y+e || c.Z < lo.Z-e || c.Z > hi.Z+e {
			t.Fatalf("%v outside %v to %v", c, lo, hi)
		}
		cut := r.IntN(len(parts) + 1)
		a, _ := Assemble("a", parts[:cut]...)
		b, _ := Assemble("b", parts[cut:]...)
		both, _ := Assemble("all", a, b)
		if !within(both.Mass, all.Mass, 1e-12) || !within(both.Centre.X, c.X, 1e-12) || !within(both.Centre.Z, c.Z, 1e-12) {
			t.Fatalf("%+v, in two steps %+v", all, both)
		}
	}
	if _, err := Assemble("all", Part{Name: "hole", Mass: -1}); err == nil || !strings.Contains(err.Error(), "hole") {
		t.Errorf("a mass below nothing: %v", err)
	}
}

// Feet carry the weight and its moments; three have one answer only, which
// WorstFoot's threes then have too.
func TestFeet(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	standing := 0
	for range 500 {
		feet := make([]Point, 3+r.IntN(4))
		for i := range feet {
			feet[i] = Point{X: r.Float64(), Y: r.Float64()}
		}
		p := Part{"p", 10, Point{0.3 + 0.4*r.Float64(), 0.3 + 0.4*r.Float64(), 1}}
		loads, err := FeetLoads(p, feet...)
		if err != nil {
			continue
		}
		standing++
		var w, mx, my, most float64
		for i, l := range loads {
			w, mx, my, most = w+l, mx+l*feet[i].X, my+l*feet[i].Y, max(most, l)
		}
		want := Weight(p.Mass)
		if !within(w, want, 1e-9) || !within(mx, want*p.Centre.X, 1e-9) || !within(my, want*p.Centre.Y, 1e-9) {
			t.Fatalf("%g N, moments %g, %g", w, mx, my)
		}
		worst := WorstFoot(p, feet...)
		if len(feet) == 3 && !within(worst, most, 1e-9) {
			t.Fatalf("three feet: %g, worst %g", most, worst)
		}
		if worst < most*(1-1e-9) && len(feet) == 4 {
			t.Fatalf("four feet: %g, worst %g", most, worst)
		}
	}
	if standing < 100 {
		t.Errorf("only %d stood", standing)
	}
	square := []Point{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {1, 1, 0}}
	mid := Part{"p", 40, Point{0.5, 0.5, 1}}
	if l, err := FeetLoads(mid, square...); err != nil || !within(l[2], Weight(10), 1e-12) {
		t.Errorf("square: %v, %v", l, err)
	}
	if w := WorstFoot(mid, square...); !within(w, Weight(20), 1e-12) { // it rocks on two
		t.Errorf("square: worst %g", w)
	}
	for name, feet := range map[string][]Point{"two": square[:2], "line": {{0, 0, 0}, {1, 1, 0}, {2, 2, 0}}, "aside": {{1, 1, 0}, {2, 1, 0}, {1, 2, 0}}} {
		if _, err := FeetLoads(mid, feet...); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// Free water never helps; with no depth of it to speak of it is a load. The tilt
// found is where the moment is nil, and from there on it falls.
func TestTipWithWater(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 500 {
		dry := Standing{Mass: 20 + 200*r.Float64(), Reach: 0.05 + 0.5*r.Float64(), Height: 0.1 + r.Float64()}
		wet := dry
		wet.Water = []FreeWater{{Length: 0.2 + r.Float64(), Depth: 0.02 + 0.4*r.Float64(), Mass: dry.Mass * r.Float64()}}
		if err := wet.Check(); err != nil {
			t.Fatal(err)
		}
		a := wet.TiltAngle()
		if a > dry.TiltAngle() || !(a > 0) || wet.TipPush(1) != dry.TipPush(1) || wet.TipEnergy() > dry.TipEnergy()*(1+1e-12) || wet.TipEnergy() < 0 {
			t.Fatalf("%+v: %g rad, %g J; dry %g, %g", wet, a, wet.TipEnergy(), dry.TiltAngle(), dry.TipEnergy())
		}
		// The energy is the work of the moment that holds it up.
		const n = 2000
		work := 0.0
		for i := range n {
			at := a * (float64(i) + 0.5) / n
			x, z := wet.centre(at)
			work += Weight(wet.Mass) * (x*math.Cos(at) - z*math.Sin(at)) * a / n
		}
		if !within(work, wet.TipEnergy(), 1e-5) {
			t.Fatalf("%+v: %g J, by its moment %g", wet, wet.TipEnergy(), work)
		}
		// Twice the size tips at the same tilt.
		big := Standing{Mass: 8 * wet.Mass, Reach: 2 * wet.Reach, Height: 2 * wet.Height, Water: []FreeWater{{2 * wet.Water[0].Length, 2 * wet.Water[0].Depth, 8 * wet.Water[0].Mass}}}
		if !within(big.TiltAngle(), a, 1e-9) {
			t.Fatalf("scaled: %g, %g", big.TiltAngle(), a)
		}
	}
}

func TestStandingCheck(t *testing.T) {
	good := Standing{Mass: 100, Reach: 0.2, Height: 0.6}
	if err := good.Check(); err != nil {
		t.Error(err)
	}
	for name, change := range map[string]func(*Standing){
		"no mass":      func(s *Standing) { s.Mass = 0 },
		"outside":      func(s *Standing) { s.Reach = -0.1 },
		"no number":    func(s *Standing) { s.Height = math.NaN() },
		"bad water":    func(s *Standing) { s.Water = []FreeWater{{Length: 1}} },
		"mostly water": func(s *Standing) { s.Water = []FreeWater{{1, 0.2, 150}} },
	} {
		s := good
		change(&s)
		if s.Check() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A page works out 33 kg for two men, 21 kg for two women and 37.5 and 24 kg for
// three, cut to whole or half kilograms.
func TestLift(t *testing.T) {
	for _, c := range []struct {
		people    int
		low, high float64
	}{{1, 16, 25}, {2, 21, 33}, {3, 24, 37.5}} {
		f, ok := LiftLimit(c.people)
		checkFigure(t, "lift", f)
		if !ok || f.Low < c.low || f.Low > c.low+0.5 || f.High < c.high || f.High > c.high+0.5 {
			t.Errorf("%d people: %v", c.people, f.Band)
		}
	}
	for mass, people := range map[float64]int{10: 1, 16: 1, 17: 2, 22: 3, 30: 0} {
		if n := PeopleToLift(mass, -1); n != people {
			t.Errorf("%g kg: %d people", mass, n)
		}
	}
	last := 1
	for m := 1.0; m < 37; m++ {
		if n := PeopleToLift(m, 1); n < last {
			t.Errorf("%g kg: %d people after %d", m, n, last)
		} else {
			last = n
		}
	}
	if _, ok := LiftLimit(0); ok {
		t.Error("nobody lifts")
	}
}
