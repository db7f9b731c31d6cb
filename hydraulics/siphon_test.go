package hydraulics

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A hose over a rim: crest 50 mm over the running level 0, intake 300 mm below
// it, outlet 700 mm below it.
func rimSiphon(t testing.TB, breakHole float64) Siphon {
	t.Helper()
	p, err := NewPipe(1.8, 0.0127, RoughnessVinylHose, 1e-6, ConstantK(2.5))
	if err != nil {
		t.Fatal(err)
	}
	s := Siphon{Pipe: p, Crest: 0.05, Intake: -0.3, Outlet: -0.7, Break: breakHole}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return s
}

// The table is of another program; see testdata.
func TestSiphonAgainstTable(t *testing.T) {
	for _, r := range rows(t, "siphon") {
		d := r.num("D_m")
		s := Siphon{
			Pipe: pipe(t, r.num("L_m"), d, r.num("t_C"), r.num("K")), Crest: r.num("z_c_m"),
			Intake: -0.2, Outlet: -r.num("H_m"), Break: -0.2,
		}
		up := pipe(t, r.num("L_up_m"), d, r.num("t_C"), 1)
		r.want("Q_Lh", s.Flow(0, math.Inf(-1))/litrePerHour)
		crest := s.CrestHead(0, math.Inf(-1), up)
		r.want("crest_gauge_head_m", crest)
		r.want("margin_to_vapour_m", SiphonMargin(crest, StandardAtmosphere, water(t, r.num("t_C"))))
		// A drowned outlet counts from the lower surface.
		s.Outlet -= 0.15
		r.want("Q_Lh", s.Flow(0, -r.num("H_m"))/litrePerHour)
	}
}

func TestSiphonStop(t *testing.T) {
	for _, c := range []struct {
		what               string
		brk, outlet, lower float64
		want               float64
	}{
		{"intake uncovered", -1, -0.7, -2, -0.3},
		{"break hole less a bore", -0.02, -0.7, -2, -0.0327},
		{"outlet", -1, -0.25, -2, -0.25},
		{"levels equal", -1, -0.7, -0.1, -0.1},
	} {
		s := rimSiphon(t, c.brk)
		s.Outlet = c.outlet
		if got := s.Stop(c.lower); math.Abs(got-c.want) > 1e-15 {
			t.Errorf("%s: stops at %g, want %g", c.what, got, c.want)
		}
		if q := s.Flow(c.want, c.lower); q != 0 {
			t.Errorf("%s: flow %g at the stop", c.what, q)
		}
		if q := s.Flow(c.want+1e-6, c.lower); !(q > 0) {
			t.Errorf("%s: flow %g just over the stop", c.what, q)
		}
	}
}

// Monotone, never negative, and no step: over a micrometre of level the flow
// moves by no more than the steepest slope allows. That is the laminar one,
// g A D^2/(32 nu L) in m2/s, plus the fading's Q/D.
func TestSiphonProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		s := rimSiphon(t, -0.4+0.4*rnd.Float64())
		s.Outlet = -0.8 + 0.8*rnd.Float64()
		lower := -1 + rnd.Float64()
		const step = 1e-6
		d, q1 := s.Pipe.bore, s.Pipe.Flow(1)
		steepest := G*s.Pipe.area*d*d/(32*1e-6*1.8) + q1/d
		at := s.Stop(lower)
		for _, z := range []float64{at - step, at, at + step, at + 0.9999*d, at + d, at + rnd.Float64()*0.1} {
			a, b := s.Flow(z, lower), s.Flow(z+step, lower)
			if a < 0 || b < a || b-a > 1.001*steepest*step {
				t.Fatalf("%+v: flow %g then %g at %g", s, a, b, z)
			}
			if c := s.Flow(z, lower+step); c > a {
				t.Fatalf("%+v: more flow for a higher lower water", s)
			}
		}
	}
}

func TestSiphonStart(t *testing.T) {
	w := water(t, 20)
	s := rimSiphon(t, -1)
	wide := CapillaryRise(s.Pipe.bore, 0, w)
	if s.StartsAlone(0, wide) || !s.StartsAlone(0.051, wide) {
		t.Error("a 12.7 mm hose must start only with water over its crest")
	}
	// A bore of 0.5 mm lifts clean water 59 mm, more than the 50 mm wanted.
	fine := CapillaryRise(0.0005, 0, w)
	if !s.StartsAlone(0, fine) || s.StartsAlone(-0.31, 1) {
		t.Error("a fine bore fills itself, but not when its mouth hangs in air")
	}
	// Jurin's law as commonly quoted: 1.48e-5 m2 over the radius, at 20 C.
	if !within(fine, 1.48e-5/0.00025, 0.01) {
		t.Errorf("rise %g m", fine)
	}
	if r := CapillaryRise(0.0005, math.Pi*2/3, w); !within(r, -fine/2, 1e-12) {
		t.Errorf("at 120 degrees the rise is %g", r)
	}
}

func TestSiphonCheck(t *testing.T) {
	good := rimSiphon(t, -1)
	for _, spoil := range []func(*Siphon){
		func(s *Siphon) { s.Pipe = Pipe{} },
		func(s *Siphon) { s.Crest = math.NaN() },
		func(s *Siphon) { s.Break = math.Inf(1) },
		func(s *Siphon) { s.Crest = s.Intake - 0.1 },
		func(s *Siphon) { s.Outlet = s.Crest + 0.1 },
	} {
		s := good
		spoil(&s)
		if s.Check() == nil {
			t.Errorf("%+v passed", s)
		}
	}
}

func FuzzSiphon(f *testing.F) {
	f.Add(0.0, -1.0, 0.1, -0.3, -0.7, -0.1)
	f.Add(math.Inf(1), math.Inf(-1), 0.0, 0.0, 0.0, 0.0)
	f.Add(math.NaN(), 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e308, -1e308, 1e308, -1e308, -1e308, -1e308)
	f.Fuzz(func(t *testing.T, upper, lower, crest, intake, outlet, brk float64) {
		s := rimSiphon(t, -1)
		s.Crest, s.Intake, s.Outlet, s.Break = crest, intake, outlet, brk
		if q := s.Flow(upper, lower); !(q >= 0) {
			t.Errorf("flow %g", q)
		}
	})
}

func TestSiphonAllocatesNothing(t *testing.T) {
	s := rimSiphon(t, -1)
	if n := testing.AllocsPerRun(100, func() { sink = s.Flow(-0.01, -0.5) + s.Stop(-0.5) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

func BenchmarkSiphonFlow(b *testing.B) {
	s := rimSiphon(b, -1)
	b.ReportAllocs()
	for i := range b.N {
		sink = s.Flow(-0.001*float64(i&63), -0.5)
	}
}
