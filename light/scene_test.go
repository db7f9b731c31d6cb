package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rillwright/geom"
)

// tank is a box of 0.9 by 0.45 by 0.6 m with lamps under its lid.
func tank(reflect float64, lamps int) *Scene {
	s := &Scene{Room: &Room{Box: geom.Box{Max: geom.Vec{X: 0.9, Y: 0.45, Z: 0.6}}, Reflect: [6]float64{reflect, reflect, reflect, reflect, reflect, reflect}}}
	for i := range lamps {
		l := Lamp{Kind: Kind(i % 3), Flux: 20, At: geom.Vec{X: 0.1 + 0.08*float64(i), Y: 0.2, Z: 0.58}, Aim: down, Along: east, Length: 0.3, Width: 0.06, Beam: 1}
		s.Lamps = append(s.Lamps, l)
	}
	return s
}

// total sums a field over all faces of a room at n by n points each, by what is
// swallowed.
func total(f *Field, r *Room, n int, straight bool) (sum float64) {
	for s := LeastX; s <= MostZ; s++ {
		q := r.Face(s)
		a := q.Area() / float64(n*n)
		for i := range n {
			for j := range n {
				p := q.At(middle(i, n), middle(j, n))
				if straight {
					sum += a * f.Direct(p, s.Inward())
				} else {
					sum += a * (1 - r.Reflect[s]) * f.At(p, s.Inward())
				}
			}
		}
	}
	return sum
}

// What lamps send into a closed box falls on its faces, straight; and with bounces
// all of it is swallowed. Lamps at 2 cm under the lid and 60 points a side: 0.3 %;
// with pieces of a quarter of a face for what bounces: 3 %.
func TestLightGoesNowhereElse(t *testing.T) {
	for _, reflect := range []float64{0, 0.2, 0.5, 0.85} {
		s := tank(reflect, 3)
		f, err := NewField(s, All)
		if err != nil {
			t.Fatal(err)
		}
		if got := total(f, s.Room, 60, true); !within(got, 60, 3e-3) {
			t.Errorf("%g of 60 umol/s fall on the faces straight", got)
		}
		if got := total(f, s.Room, 24, false); !within(got, 60, 0.03) {
			t.Errorf("walls of %g swallow %g of 60 umol/s", reflect, got)
		}
	}
}

// More bounces never make it darker, and dark means zero.
func TestBouncesAdd(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := tank(rapid.Float64Range(0, 0.9).Draw(rt, "reflect"), rapid.IntRange(0, 4).Draw(rt, "lamps"))
		p := geom.Vec{X: rapid.Float64Range(0.05, 0.85).Draw(rt, "x"), Y: rapid.Float64Range(0.05, 0.4).Draw(rt, "y"), Z: rapid.Float64Range(0, 0.5).Draw(rt, "z")}
		n := []geom.Vec{up, down, east, {Y: -1}}[rapid.IntRange(0, 3).Draw(rt, "n")]
		last := -1.0
		for _, b := range []Bounces{Straight, One, All} {
			f, err := NewField(s, b)
			if err != nil {
				rt.Fatal(err)
			}
			e := f.At(p, n)
			if e < last*(1-1e-12) || math.IsNaN(e) {
				rt.Fatalf("%g became %g with more bounces", last, e)
			}
			if len(s.Lamps) == 0 && e != 0 {
				rt.Fatalf("%g umol/(m2 s) without a lamp", e)
			}
			last = e
		}
	})
}

func TestMapIsTheField(t *testing.T) {
	s := tank(0.3, 4)
	f, err := NewField(s, All)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range []Grid{
		{s.Room.Face(LeastZ), up, 40, 30},
		{s.Room.Face(MostY), geom.Vec{Y: -1}, 33, 17},
		{Quad{geom.Vec{X: 0.1, Y: 0.1, Z: 0.2}, geom.Vec{X: 0.5}, geom.Vec{Y: 0.2, Z: 0.1}}, unit(geom.Vec{Y: -0.1, Z: 0.2}), 3, 1},
	} {
		out := make([]float64, g.NU*g.NV)
		f.Map(g, out)
		most, off := 0.0, 0.0
		for j := range g.NV {
			for i := range g.NU {
				want := f.At(g.Quad.At(middle(i, g.NU), middle(j, g.NV)), g.Normal)
				most, off = max(most, want), max(off, math.Abs(out[j*g.NU+i]-want))
			}
		}
		// Between knots what bounces is taken as flat.
		if off > 0.005*most || most == 0 {
			t.Errorf("map is off by %g of %g", off, most)
		}
	}
}

// A hood between lamp and floor takes its light away, one beside does not.
func TestShades(t *testing.T) {
	for _, kind := range []Kind{Point, Strip, Panel} {
		s := &Scene{Lamps: []Lamp{{Kind: kind, Flux: 10, At: geom.Vec{Z: 1}, Aim: down, Along: east, Length: 0.2, Width: 0.1, Beam: 1}}}
		f, err := NewField(s, Straight)
		if err != nil {
			t.Fatal(err)
		}
		free := f.At(geom.Vec{}, up)
		for _, c := range []struct {
			shade Quad
			share float64
		}{
			{Quad{geom.Vec{X: -1, Y: -1, Z: 0.5}, geom.Vec{X: 2}, geom.Vec{Y: 2}}, 0},
			{Quad{geom.Vec{X: 0.5, Y: -1, Z: 0.5}, geom.Vec{X: 2}, geom.Vec{Y: 2}}, 1},
			{Quad{geom.Vec{X: -1, Y: -1, Z: -0.5}, geom.Vec{X: 2}, geom.Vec{Y: 2}}, 1},
			{Quad{geom.Vec{X: 0.0001, Y: -1, Z: 0.5}, geom.Vec{X: 2}, geom.Vec{Y: 2}}, 0.5},
		} {
			s.Shades = []Quad{c.shade}
			f, err := NewField(s, Straight)
			if err != nil {
				t.Fatal(err)
			}
			want := c.share * free
			if kind == Point && c.share == 0.5 {
				want = free
			}
			if got := f.At(geom.Vec{}, up); !within(got, want, 1e-9) {
				t.Errorf("kind %d: %g past a hood, want %g", kind, got, want)
			}
		}
	}
}

// A wall right under the line of a strip gets nothing of it; moved forward it does.
func TestWallUnderTheStrip(t *testing.T) {
	l := Lamp{Kind: Strip, Flux: 40, At: geom.Vec{Z: 0.6}, Aim: down, Along: east, Length: 0.6, Beam: 1}
	wall := geom.Vec{Y: -1}
	if e := l.On(geom.Vec{Z: 0.2}, wall); e != 0 {
		t.Errorf("%g on the wall under the lamp", e)
	}
	l.At.Y = -0.1
	if e := l.On(geom.Vec{Z: 0.2}, wall); !(e > 1) {
		t.Errorf("%g on the wall behind the lamp", e)
	}
	l.Lid, l.LidNormal = NewLid(1.52, 10, 0.004), up
	free := l
	free.Lid = nil
	p := geom.Vec{Y: -0.1, Z: 0.2}
	if share := l.On(p, up) / free.On(p, up); !within(share, 0.88219, 1e-4) {
		t.Errorf("a lid lets through %g straight down", share)
	}
}

func TestRefuses(t *testing.T) {
	good := tank(0.2, 3)
	for name, change := range map[string]func(*Scene){
		"kind":    func(s *Scene) { s.Lamps[0].Kind = 7 },
		"flux":    func(s *Scene) { s.Lamps[0].Flux = -1 },
		"beam":    func(s *Scene) { s.Lamps[0].Beam = math.NaN() },
		"aim":     func(s *Scene) { s.Lamps[0].Aim = geom.Vec{Z: -2} },
		"along":   func(s *Scene) { s.Lamps[1].Along = down },
		"width":   func(s *Scene) { s.Lamps[2].Width = 0 },
		"lid":     func(s *Scene) { s.Lamps[0].Lid = new(Lid) },
		"mirror":  func(s *Scene) { s.Room.Reflect[2] = 1 },
		"no room": func(s *Scene) { s.Room.Box.Max.X = 0 },
	} {
		s := &Scene{Lamps: append([]Lamp(nil), good.Lamps...)}
		room := *good.Room
		s.Room = &room
		change(s)
		if _, err := NewField(s, All); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := Radiosity([]float64{0, 1, 1, 0}, []float64{1, 1}, []float64{1, 1}); err == nil {
		t.Error("two mirrors passed")
	}
}

func benchmarkMap(b *testing.B, how Bounces) {
	s := tank(0.3, 10)
	g := Grid{s.Room.Face(MostY), geom.Vec{Y: -1}, 100, 100}
	out := make([]float64, 100*100)
	b.ReportAllocs()
	for b.Loop() {
		f, err := NewField(s, how)
		if err != nil {
			b.Fatal(err)
		}
		f.Map(g, out)
	}
}

func BenchmarkMapOneBounce(b *testing.B)  { benchmarkMap(b, One) }
func BenchmarkMapAllBounces(b *testing.B) { benchmarkMap(b, All) }
