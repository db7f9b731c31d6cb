package plate

import (
	"math"
	"testing"
)

// A pane held all round on a full bed: the double series of Navier with the
// bed's stiffness in each term (Timoshenko & Woinowsky-Krieger 1959, from
// memory; the sum is taken here).
func TestFullBed(t *testing.T) {
	p := glass(0.9, 0.6, 0.008, Held)
	const q, k = 3000.0, 5e6
	p.Beds = []Bed{{0, 0.9, 0, 0.6, k}}
	r := mustSolve(t, p, Load{Uniform: q}, Settings{Linear: true})
	want := 0.0
	for m := 1; m < 400; m += 2 {
		for n := 1; n < 400; n += 2 {
			a, b := float64(m)*math.Pi/0.9, float64(n)*math.Pi/0.6
			term := 16 * q / (math.Pi * math.Pi * float64(m*n)) / (p.Rigidity()*(a*a+b*b)*(a*a+b*b) + k)
			if (m+n)%4 != 2 { // sin(m pi/2) sin(n pi/2)
				term = -term
			}
			want += term
		}
	}
	near(t, "bow at the middle", r.At(0.45, 0.3).Deflection, want, 1e-5, 0)
	if r.Beds[0].Total < 0.1*r.Load {
		t.Errorf("the bed takes %g N of %g", r.Beds[0].Total, r.Load)
	}
	near(t, "sum", r.supported(), r.Load, 1e-9, 0)

	// Nothing but the bed: it goes down evenly and no stress is left.
	p.Edges = [4]Support{}
	r = mustSolve(t, p, Load{Uniform: q}, Settings{})
	near(t, "bow on the bed alone", r.Bow.Value, q/k, 1e-9, 0)
	near(t, "pressure", r.Beds[0].Peak, q, 1e-9, 0)
	near(t, "least pressure", r.Beds[0].Least, q, 1e-9, 0)
	if r.Stress.Value > 1 {
		t.Errorf("stress on the bed alone is %g Pa", r.Stress.Value)
	}
}

// Without Poisson's effect a pane on two springs is a beam: it goes down by the
// load over the springs, and bends as a beam does.
func TestBeamOnBraces(t *testing.T) {
	const q, k, h = 1000.0, 2e5, 0.5
	p := &Pane{Width: 0.3, Height: h, Thickness: 0.006, Young: 70e9, Braces: []Brace{{Bottom, 0, 0.3, k}, {Top, 0, 0.3, k}}}
	r := mustSolve(t, p, Load{Uniform: q}, Settings{Linear: true})
	near(t, "bow", r.Bow.Value, q*h/2/k+5./384*q*h*h*h*h/p.Rigidity(), 1e-8, 0)
	near(t, "stress", r.Stress.Value, q*h*h/8*6/(0.006*0.006), 1e-8, 0)
	near(t, "brace", r.Braces[0].Peak, q*h/2, 1e-8, 0)
	near(t, "brace in all", r.Braces[1].Total, q*h/2*0.3, 1e-8, 0)
	near(t, "end", r.At(0.1, h).Deflection, q*h/2/k, 1e-8, 0)
}

// A brace all along the top lies between a free and a held edge, and comes to
// one or the other as its stiffness goes.
func TestBraceLimits(t *testing.T) {
	l := Load{Inner: 0.4, Weight: waterWeight}
	held := mustSolve(t, glass(0.9, 0.4, 0.008, Held), l, Settings{Linear: true})
	free := mustSolve(t, glass(0.9, 0.4, 0.008, Free), l, Settings{Linear: true})
	last := free.Bow.Value
	for _, k := range []float64{1, 1e4, 1e6, 1e8, 0} {
		p := glass(0.9, 0.4, 0.008, Free)
		p.Braces = []Brace{{Top, 0, 0.9, k}}
		r := mustSolve(t, p, l, Settings{Linear: true})
		if r.Bow.Value > last {
			t.Errorf("stiffness %g: bow grows from %g to %g", k, last, r.Bow.Value)
		}
		last = r.Bow.Value
		switch k {
		case 1:
			near(t, "bow with a soft brace", r.Bow.Value, free.Bow.Value, 1e-3, 0)
		case 0:
			near(t, "bow with a bare brace", r.Bow.Value, held.Bow.Value, 2e-3, 0)
			near(t, "stress with a bare brace", r.Stress.Value, held.Stress.Value, 2e-3, 0)
			near(t, "brace", r.Braces[0].Total, held.Edges[Top].Total+held.Corners[TopLeft]+held.Corners[TopRight]-r.Corners[TopLeft]-r.Corners[TopRight], 5e-3, 0)
		}
	}
}

// A brace shorter than the edge holds less than one all along it, and the
// stress is where thin plates would have none: the mesh must say so.
func TestBraceInTheMiddle(t *testing.T) {
	l := Load{Inner: 0.4, Weight: waterWeight}
	bow := math.Inf(1)
	for _, half := range []float64{0.02, 0.05, 0.2, 0.45} {
		p := glass(0.9, 0.4, 0.008, Free)
		p.Braces = []Brace{{Top, 0.45 - half, 0.45 + half, 0}}
		r := mustSolve(t, p, l, Settings{})
		if r.Bow.Value > bow {
			t.Errorf("a brace of %g m: bow grows from %g to %g", 2*half, bow, r.Bow.Value)
		}
		bow = r.Bow.Value
		fine := mustSolve(t, p, l, Settings{Refine: 4})
		near(t, "bow", r.Bow.Value, fine.Bow.Value, 0.001, 0)
		near(t, "stress", r.Stress.Value, fine.Stress.Value, max(0.01, r.StressError), 0)
		near(t, "sum", r.supported(), r.Load, 1e-9, 0)
	}
}

// Square, clamped all round, uniform load: 0.00126 q a^4/D at the middle, moments
// 0.0231 q a^2 there and -0.0513 q a^2 at the middle of the edges, nu 0.3.
// Source: Timoshenko & Woinowsky-Krieger 1959, table 35 (from memory), to the
// last digit given.
func TestClamped(t *testing.T) {
	c := Clamped
	p := &Pane{Width: 1, Height: 1, Thickness: 0.01, Young: 70e9, Poisson: 0.3, Edges: [4]Support{c, c, c, c}}
	r := mustSolve(t, p, Load{Uniform: 100}, Settings{Linear: true})
	q := r.At(0.5, 0.5)
	near(t, "bow", q.Deflection*p.Rigidity()/100, 0.00126, 0, 0.00001)
	near(t, "moment", q.Mx/100, 0.0231, 0, 0.0002)
	near(t, "moment at the edge", r.At(0, 0.5).Mx/100, -0.0513, 0, 0.0001)
	if !r.Inner {
		t.Error("the largest tension of a clamped pane is not at the inner face")
	}
	for c, f := range r.Corners {
		if math.Abs(f) > 0.002*r.Load {
			t.Errorf("corner %d takes %g N of %g", c, f, r.Load)
		}
	}
}

// Largest line loads under a uniform load: 0.420 q b for a square to 0.505 q b at
// sides 5 to 1, nu 0.3. Source: Roark, table 11.4, case 1a (the two ends as read
// there). 0.5 %: three digits.
func TestUniformReactions(t *testing.T) {
	for _, c := range []struct{ ratio, want float64 }{{1, 0.420}, {5, 0.505}} {
		p := &Pane{Width: c.ratio, Height: 1, Thickness: 0.01, Young: 70e9, Poisson: 0.3, Edges: [4]Support{Held, Held, Held, Held}}
		r := mustSolve(t, p, Load{Uniform: 100}, Settings{Linear: true})
		near(t, "line load", r.Edges[Bottom].Peak/100, c.want, 0.005, 0)
	}
}
