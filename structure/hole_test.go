package structure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rillwright/quantity"
	"rillwright/source"
)

func TestHoleStressTable(t *testing.T) {
	for _, r := range rows(t, "hole_stress_concentration") {
		s1, s2, nu := r.num("s1_MPa"), r.num("s2_MPa"), r.num("nu")
		r.want("peak_bending_thin_plate_MPa", WideHoleStress(s1, s2, nu), five)
		r.want("peak_bending_thin_plate_MPa", WideHoleStress(s2, s1, nu), five)
		r.want("kt_bending", WideHoleStress(s1, s2, nu)/s1, four)
		r.want("peak_membrane_or_small_hole_MPa", NarrowHoleStress(s1, s2), five)
		r.want("peak_membrane_or_small_hole_MPa", NarrowHoleStress(s2, s1), five)
		// The step in between ends at both.
		r.want("peak_membrane_or_small_hole_MPa", HoleStress(s1, s2, nu, 1e-9, 1), five)
		r.want("peak_bending_thin_plate_MPa", HoleStress(s1, s2, nu, 1e9, 1), five)
	}
}

// A wider hole in the same pane concentrates less, between the two ends.
func TestHoleStressFalls(t *testing.T) {
	last := NarrowHoleStress(5, 1)
	for d := 0.01; d < 100; d *= 1.1 {
		s := HoleStress(5, 1, 0.23, d, 1)
		if s > last || s < WideHoleStress(5, 1, 0.23) {
			t.Fatalf("d/t %g: %g after %g", d, s, last)
		}
		last = s
	}
}

// The factor bounds the stress beside one edge, solved by complex potentials,
// and by no more than the doc comment says. Far from the edge both are 1.
func TestEdgeFactor(t *testing.T) {
	for _, r := range rows(t, "edgehole") {
		ratio := r.num("radius_over_distance")
		got, want := EdgeFactor(2*ratio, 1), r.num("rim_over_pull")/3
		if got < want {
			t.Errorf("at %g: %g under %g", ratio, got, want)
		}
		if over := 1 - want/got; ratio <= 0.5 && over > 0.14 || ratio <= 0.7 && over > 0.38 {
			t.Errorf("at %g: %g over %g", ratio, got, want)
		}
	}
	if f := EdgeFactor(1, 1e9); !within(f, 1, 1e-9) {
		t.Errorf("far away %g", f)
	}
	for _, at := range []float64{0.5, 0.3, 0, -1} {
		if f := EdgeFactor(1, at); !math.IsInf(f, 1) {
			t.Errorf("a hole of 1 m at %g m from an edge: %g", at, f)
		}
	}
}

func TestHoleTable(t *testing.T) {
	rule := HoleRules()[0]
	for _, r := range rows(t, "glass_holes") {
		th, d := r.num("t_mm")/1e3, r.num("hole_diameter_mm")/1e3
		r.want("min_edge_mm", 1e3*rule.Edge(th, d), 1e-12)
		r.want("min_between_mm", 1e3*rule.Between(th, d, d), 1e-12)
		r.want("min_corner_mm", 1e3*rule.Corner(th, d), 1e-12)
		for col, c := range map[string]Clearance{
			"diameter_ok": {What: LeastHole, Have: d, Need: rule.Least(th)},
			"edge_ok":     {What: RimToEdge, Have: r.num("rim_to_edge_mm") / 1e3, Need: rule.Edge(th, d)},
			"between_ok":  {What: HoleToHole, Have: r.num("rim_to_rim_mm") / 1e3, Need: rule.Between(th, d, d)},
			"corner_ok":   {What: RimToCorner, Have: r.num("rim_to_corner_mm") / 1e3, Need: rule.Corner(th, d)},
		} {
			if c.Kept() != (r.text(col) == "yes") {
				t.Errorf("%s, %s: %v by %g", r.text("case"), col, c.Kept(), c.Margin())
			}
		}
	}
}

// The 3-4-5 triangle, by hand: a hole of 20 mm, 30 mm from one side and 40 mm
// from the other, in 6 mm glass; a second one of 10 mm, 50 mm further on.
func TestCheckHoles(t *testing.T) {
	list, err := CheckHoles(Sheet{0.4, 0.3, 0.006}, HoleRules(),
		Hole{X: 0.37, Y: 0.26, Diameter: 0.02}, Hole{X: 0.32, Y: 0.26, Diameter: 0.01})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][2]float64{ // mm
		"glazing, European rim to edge 0":         {20, 12},
		"glazing, European rim to corner 0":       {40, 36},
		"glazing, European rim to rim 0":          {35, 12},
		"glazing, European least hole 0":          {20, 6},
		"glazing, North American rim to edge 0":   {20, 12},
		"glazing, North American rim to corner 0": {40, 39},
		"glazing, North American rim to rim 0":    {35, 12},
		"glazing, North American largest hole 0":  {20, 100},
		"hobby rim to edge 0":                     {20, 20},
		"hobby rim to rim 0":                      {35, 25},
		"hobby rim to edge 1":                     {35, 10},
		"glazing, North American rim to edge 1":   {35, 12},
		"glazing, European rim to edge 1":         {35, 12},
	}
	found := 0
	for _, c := range list {
		if _, ok := source.Lookup(c.Source); !ok {
			t.Errorf("source %q", c.Source)
		}
		w, ok := want[fmt.Sprintf("%s %v %d", c.Rule, c.What, c.Hole)]
		if !ok {
			continue
		}
		found++
		if !within(c.Have*1e3, w[0], 1e-9) || !within(c.Need*1e3, w[1], 1e-9) || !c.Kept() {
			t.Errorf("%+v, want %v mm", c, w)
		}
	}
	if found != len(want) {
		t.Errorf("found %d of %d", found, len(want))
	}
	// Thin glass: an inch's parts count.
	if e := HoleRules()[1].Edge(0.003, 0.02); !within(e, 0.00635, 1e-12) {
		t.Errorf("edge of thin glass %g", e)
	}
}

// Mirroring and turning the sheet changes nothing; scaling all scales all, where
// no rule has inches in it.
func TestHolesProperties(t *testing.T) {
	rules := HoleRules()
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		s := Sheet{0.2 + r.Float64(), 0.2 + r.Float64(), 0.004 + 0.01*r.Float64()}
		h := Hole{r.Float64() * s.Width, r.Float64() * s.Height, 0.01 + 0.05*r.Float64()}
		o := Hole{r.Float64() * s.Width, r.Float64() * s.Height, 0.01 + 0.05*r.Float64()}
		mirror := func(h Hole) Hole { return Hole{s.Width - h.X, h.Y, h.Diameter} }
		turn := func(h Hole) Hole { return Hole{h.Y, s.Width - h.X, h.Diameter} }
		k := 0.5 + 2*r.Float64()
		scale := func(h Hole) Hole { return Hole{k * h.X, k * h.Y, k * h.Diameter} }
		a, err := CheckHoles(s, rules, h, o)
		if err != nil {
			t.Fatal(err)
		}
		b, _ := CheckHoles(s, rules, mirror(h), mirror(o))
		c, _ := CheckHoles(Sheet{s.Height, s.Width, s.Thickness}, rules, turn(h), turn(o))
		d, _ := CheckHoles(Sheet{k * s.Width, k * s.Height, k * s.Thickness}, rules, scale(h), scale(o))
		for i := range a {
			if !within(a[i].Margin(), b[i].Margin(), 1e-9) || !within(a[i].Margin(), c[i].Margin(), 1e-9) {
				if math.Abs(a[i].Margin()-b[i].Margin()) > 1e-12 || math.Abs(a[i].Margin()-c[i].Margin()) > 1e-12 {
					t.Fatalf("%+v, mirrored %+v, turned %+v", a[i], b[i], c[i])
				}
			}
			if a[i].Rule != rules[1].Name && math.Abs(k*a[i].Margin()-d[i].Margin()) > 1e-12 {
				t.Fatalf("%+v, scaled by %g %+v", a[i], k, d[i])
			}
		}
	}
}

func TestCheckHolesErrors(t *testing.T) {
	good := Sheet{1, 1, 0.006}
	for name, c := range map[string]struct {
		s Sheet
		h Hole
	}{
		"no thickness": {Sheet{1, 1, 0}, Hole{0.5, 0.5, 0.1}},
		"no diameter":  {good, Hole{0.5, 0.5, 0}},
		"off":          {good, Hole{1.5, 0.5, 0.1}},
		"no number":    {good, Hole{math.NaN(), 0.5, 0.1}},
	} {
		if _, err := CheckHoles(c.s, HoleRules(), c.h); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestFittings(t *testing.T) {
	if c := FlangeClearance(0.05, 0.056, 0.01); !within(c, 0.012, 1e-12) {
		t.Errorf("flange %g", c)
	}
	if c := NutClearance(0.04, 0.06, NutRoom); !within(c, -0.015, 1e-12) {
		t.Errorf("nut %g", c)
	}
	// A 3/4 in bulkhead measured 1.44 in: a saw of 1 1/2 in is right.
	const in = 0.0254
	d, ok := HoleForThread(1.44*in, 2.25*in, 0.005)
	if !ok || !(d.Low <= 1.5*in && 1.5*in <= d.High) {
		t.Errorf("hole %v", d)
	}
	if saw, ok := SawFor(d, 1.25*in, 1.75*in, 1.5*in); !ok || saw != 1.5*in {
		t.Errorf("saw %g", saw)
	}
	if _, ok := SawFor(d, 1.25*in, 1.75*in); ok {
		t.Error("a saw that does not fit")
	}
	if saw, _ := SawFor(quantity.Band[float64]{Low: 1, Likely: 2, High: 3}, 1.5, 2.5, 1); saw != 2.5 {
		t.Errorf("of two as near %g", saw)
	}
	if _, ok := HoleForThread(0.03, 0.035, 0.005); ok {
		t.Error("a flange with no seat left")
	}
	if d := RoundOpening(0.03, 0.04, 0.002); !within(d, 0.054, 1e-12) {
		t.Errorf("opening %g", d)
	}
}

func TestHoleNames(t *testing.T) {
	seen := map[string]bool{}
	for w := RimToEdge; w <= LeastHole; w++ {
		if seen[w.String()] {
			t.Errorf("%v twice", w)
		}
		seen[w.String()] = true
	}
}
