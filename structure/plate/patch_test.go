package plate

import (
	"math"
	"testing"
)

// middle is a square patch at the middle of a pane.
func middle(p *Pane, wide, high, force float64) Load {
	return Load{Patches: []Patch{{
		X0: (p.Width - wide) / 2, X1: (p.Width + wide) / 2, Y0: (p.Height - high) / 2, Y1: (p.Height + high) / 2, Force: force,
	}}}
}

// A force on a small spot at the middle of a pane held all round, nu 0.3: the bow
// is alpha W b^2/(E t^3), with the factors of Roark, table 11.4, case 1b, as read in
// copies of it. To the last digit printed, and 0.2 % for a spot that is not a
// point.
func TestSpot(t *testing.T) {
	for ratio, want := range map[float64]float64{1: 0.1267, 1.2: 0.1478, 1.4: 0.1621, 1.6: 0.1715, 1.8: 0.1770, 2: 0.1805} {
		p := &Pane{Width: ratio, Height: 1, Thickness: 0.02, Young: 70e9, Poisson: 0.3, Edges: [4]Support{Held, Held, Held, Held}}
		r := mustSolve(t, p, middle(p, 0.02, 0.02, 100), Settings{Linear: true})
		th := p.Thickness
		near(t, "bow", r.Bow.Value*p.Young*th*th*th/100, want, 0.002, 0.00005)
		near(t, "sum", r.supported(), 100, 1e-9, 0)
	}
}

// A patch at the middle of a square pane held all round, nu 0.3: the stress is beta
// W/t^2. Source: Roark, table 11.4, case 1c, as read in copies of it. Two digits are
// printed, and the last is off by up to 2 (its value for the whole pane is 0.30,
// that of case 1a 0.2874).
func TestPatch(t *testing.T) {
	for _, c := range []struct{ wide, high, want float64 }{
		{0.2, 0.2, 1.28}, {0.4, 0.4, 0.84}, {0.6, 0.6, 0.60}, {0.8, 0.8, 0.42}, {1, 1, 0.30}, {0.2, 0.6, 0.90}, {0.4, 0.2, 1.07}, {1, 0.2, 0.63},
	} {
		p := &Pane{Width: 1, Height: 1, Thickness: 0.02, Young: 70e9, Poisson: 0.3, Edges: [4]Support{Held, Held, Held, Held}}
		r := mustSolve(t, p, middle(p, c.wide, c.high, 100), Settings{Linear: true})
		near(t, "stress", r.Stress.Value*p.Thickness*p.Thickness/100, c.want, 0, 0.02)
	}
}

// Anywhere on a pane held all round: the double series of Navier with the patch
// integrated over each term (Timoshenko & Woinowsky-Krieger 1959, from memory;
// the sum is taken here). The mesh of one part is within 0.5 % in bending.
func TestPatchAnywhere(t *testing.T) {
	p := glass(0.9, 0.6, 0.008, Held)
	q := Patch{0.5, 0.6, 0.35, 0.45, 250}
	var w, wxx, wyy float64
	x, y := 0.55, 0.4
	for m := 1; m < 600; m++ {
		for n := 1; n < 600; n++ {
			a, b := float64(m)*math.Pi/p.Width, float64(n)*math.Pi/p.Height
			load := 4 / (p.Width * p.Height) * q.pressure() *
				(math.Cos(a*q.X0) - math.Cos(a*q.X1)) / a * (math.Cos(b*q.Y0) - math.Cos(b*q.Y1)) / b
			term := load / (p.Rigidity() * (a*a + b*b) * (a*a + b*b)) * math.Sin(a*x) * math.Sin(b*y)
			w += term
			wxx -= a * a * term
			wyy -= b * b * term
		}
	}
	my := -p.Rigidity() * (wyy + p.Poisson*wxx)
	for refine, share := range map[int]float64{1: 5e-3, 2: 1e-3, 4: 1e-4} {
		r := mustSolve(t, p, Load{Patches: []Patch{q}}, Settings{Linear: true, Refine: refine})
		near(t, "bow", r.At(x, y).Deflection, w, share, 0)
		near(t, "moment", r.At(x, y).My, my, share, 0)
		near(t, "sum", r.supported(), 250, 1e-9, 0)
	}
}

// At a free edge: a beam with nothing held on its sides, which a patch as wide as
// the pane bends one way only: W L/4 (1 - c/(2 L)) at its middle.
func TestPatchOnBeam(t *testing.T) {
	p := &Pane{Width: 0.8, Height: 0.1, Thickness: 0.006, Young: 70e9, Edges: [4]Support{Free, Held, Free, Held}}
	r := mustSolve(t, p, middle(p, 0.1, 0.1, 50), Settings{Linear: true})
	want := 50 * 0.8 / 4 * (1 - 0.1/0.8/2) / 0.1
	near(t, "moment", r.At(0.4, 0.1).Mx, want, 1e-3, 0)
	near(t, "sum", r.supported(), 50, 1e-9, 0)
}

// Two patches act as both by themselves, one on its place and its twin as an even
// load on half of the pane, and what is pushed inwards turns its sign.
func TestPatchesAdd(t *testing.T) {
	p := glass(0.9, 0.3, 0.006, Free)
	one, two := Patch{0.1, 0.2, 0.2, 0.3, 250}, Patch{0.7, 0.8, 0.2, 0.3, 250}
	s := Settings{Linear: true, Refine: 4}
	a, b := mustSolve(t, p, Load{Patches: []Patch{one}}, s), mustSolve(t, p, Load{Patches: []Patch{two}}, s)
	both := mustSolve(t, p, Load{Patches: []Patch{one, two}}, s)
	if a.m.x.mirror || !both.m.x.mirror {
		t.Fatal("the wrong pane was halved")
	}
	for _, x := range []float64{0.15, 0.45, 0.6} {
		near(t, "sum of bows", a.At(x, 0.3).Deflection+b.At(x, 0.3).Deflection, both.At(x, 0.3).Deflection, 1e-4, 0)
		near(t, "mirror image", b.At(0.9-x, 0.25).Deflection, a.At(x, 0.25).Deflection, 1e-4, 0)
	}
	near(t, "sum", both.supported(), 500, 1e-9, 0)
	one.Force = -250
	in := mustSolve(t, p, Load{Patches: []Patch{one}}, s)
	near(t, "inwards", in.Bow.Value, -a.Bow.Value, 1e-9, 0)
}

func TestPatchIsChecked(t *testing.T) {
	p := glass(0.6, 0.4, 0.006, Held)
	for _, q := range []Patch{{0.5, 0.7, 0, 0.1, 1}, {0.2, 0.2, 0, 0.1, 1}, {0.1, 0.2, -0.1, 0.1, 1}, {0.1, 0.2, 0, 0.1, math.NaN()}} {
		if Validate(p, Load{Patches: []Patch{q}}) == nil {
			t.Errorf("%+v is taken", q)
		}
	}
}
