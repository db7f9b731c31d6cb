package joint

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A plate b wide and h high: 6 M/(b h^2) of a lever outwards, V/A of shear, and
// for a lever sideways T r/J with J = b h (b^2 + h^2)/12. Sources: any handbook of
// statics, for sections and for brackets with fillet welds or bolts.
func TestBondPlate(t *testing.T) {
	const b, h, v = 0.3, 0.4, 200.0
	plate := []Patch{{1, 2, b, h}}
	s, err := Bond(1, plate, Hang{Down: v, X: 1.15, Y: 2.2, Z: 0.25})
	if err != nil {
		t.Fatal(err)
	}
	if !within(s.Mean, v/(b*h), 1e-12) || !within(s.Shear, s.Mean, 1e-12) || !within(s.Tension, 6*v*0.25/(b*h*h), 1e-12) {
		t.Errorf("outwards: %+v", s)
	}
	if !within(s.Worst, math.Hypot(s.Shear, s.Tension), 1e-12) || !within(s.Y, 2.4, 1e-12) {
		t.Errorf("worst: %+v", s)
	}
	s, err = Bond(0.5, plate, Hang{Down: v, X: 1.15 + 0.5, Y: 0, Z: 0})
	j := b * h * (b*b + h*h) / 12
	want := 2 * math.Hypot(v*0.5*h/2/j, v/(b*h)+v*0.5*b/2/j)
	if err != nil || !within(s.Shear, want, 1e-12) || s.Tension != 0 {
		t.Errorf("sideways, half bonded: %+v, %v, want %g", s, err, want)
	}
	s, err = Bond(1, plate, Hang{Out: v, X: 1.15, Y: 2.2})
	if err != nil || !within(s.Tension, v/(b*h), 1e-12) || s.Shear != 0 {
		t.Errorf("pulled: %+v", s)
	}
}

// Four small patches at the corners of 3 by 4: each bears a quarter, and a lever
// of V Z is carried by the upper pair, V Z/(2 x 4).
func TestBondCorners(t *testing.T) {
	const e = 1e-3
	var list []Patch
	for _, c := range [][2]float64{{0, 0}, {3, 0}, {0, 4}, {3, 4}} {
		list = append(list, Patch{c[0] - e/2, c[1] - e/2, e, e})
	}
	s, err := Bond(1, list, Hang{Down: 80, X: 1.5, Z: 0.5})
	// The patches' own size makes up to e/4 of it.
	if err != nil || !within(s.Shear*e*e, 20, 1e-9) || !within(s.Tension*e*e, 80*0.5/8, 1e-3) {
		t.Errorf("%+v, %v", s, err)
	}
}

// Cutting a patch in two changes nothing, nor does where the axes start; twice
// the load bears twice; loads add up to their resultant; more lever or less
// bonded area never bears less.
func TestBondProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 500 {
		var list, cut, moved []Patch
		for range 1 + r.IntN(5) {
			p := Patch{r.Float64(), r.Float64(), 0.01 + 0.1*r.Float64(), 0.01 + 0.1*r.Float64()}
			list = append(list, p)
			k := 0.2 + 0.6*r.Float64()
			cut = append(cut, Patch{p.X, p.Y, p.Width * k, p.Height}, Patch{p.X + p.Width*k, p.Y, p.Width * (1 - k), p.Height})
			moved = append(moved, Patch{p.X + 2, p.Y - 1, p.Width, p.Height})
		}
		l := Hang{Down: 100 * r.Float64(), Out: 20 * r.Float64(), X: r.Float64(), Y: r.Float64(), Z: r.Float64()}
		bond := func(list []Patch, l ...Hang) BondStress {
			s, err := Bond(0.8, list, l...)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		a := bond(list, l)
		same := func(what string, b BondStress, k float64) {
			if !within(b.Shear, k*a.Shear, 1e-8) || !within(b.Tension, k*a.Tension, 1e-8) || !within(b.Worst, k*a.Worst, 1e-8) {
				t.Fatalf("%s: %+v, not %g times %+v", what, b, k, a)
			}
		}
		same("cut", bond(cut, l), 1)
		same("moved", bond(moved, Hang{l.Down, l.Out, l.X + 2, l.Y - 1, l.Z}), 1)
		same("twice", bond(list, l, l), 2)
		half := l
		half.Down, half.Out = l.Down/2, l.Out/2
		same("halves", bond(list, half, half), 1)
		if a.Worst < a.Mean || a.Worst > math.Hypot(a.Shear, a.Tension)*(1+1e-12) || a.Worst < max(a.Shear, a.Tension) {
			t.Fatalf("%+v", a)
		}
		less, _ := Bond(0.4, list, l)
		same("half bonded", less, 2)
	}
}

func TestBondErrors(t *testing.T) {
	p := []Patch{{0, 0, 1, 1}}
	for name, f := range map[string]func() error{
		"nothing":   func() error { _, err := Bond(1, nil); return err },
		"no size":   func() error { _, err := Bond(1, []Patch{{0, 0, 1, 0}}); return err },
		"no share":  func() error { _, err := Bond(0, p); return err },
		"over all":  func() error { _, err := Bond(1.1, p); return err },
		"no number": func() error { _, err := Bond(1, p, Hang{Down: math.NaN()}); return err },
	} {
		if f() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
