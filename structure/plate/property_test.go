package plate

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// draw invents a pane that something holds, and a load on it.
func draw(r *rand.Rand) (*Pane, Load) {
	p := &Pane{
		Width: 0.1 + 1.9*r.Float64(), Height: 0.1 + 1.4*r.Float64(), Thickness: 0.002 + 0.017*r.Float64(),
		Young: 2e9 + 70e9*r.Float64(), Poisson: 0.45 * r.Float64(),
	}
	kinds := []Support{Free, Held, Held, Held, Clamped}
	if r.IntN(5) == 0 {
		kinds = []Support{Free, Free, Free, Held} // often too little
	}
	for s := range p.Edges {
		p.Edges[s] = kinds[r.IntN(len(kinds))]
	}
	if r.IntN(3) > 0 {
		p.Edges[Left] = p.Edges[Right]
	}
	for s := Bottom; s <= Left; s++ {
		if p.Edges[s] == Free && r.IntN(3) == 0 {
			length := p.edgeLength(s)
			from := length * 0.6 * r.Float64()
			to := from + (length-from)*(0.1+0.9*r.Float64())
			if r.IntN(2) == 0 {
				from = length - to
			}
			if from < to {
				p.Braces = append(p.Braces, Brace{s, from, to, []float64{0, 1e5, 1e6, 1e7}[r.IntN(4)]})
			}
		}
	}
	for range max(0, r.IntN(6)-3) {
		x, y := p.Width*0.7*r.Float64(), p.Height*0.7*r.Float64()
		p.Beds = append(p.Beds, Bed{x, x + 0.3*p.Width, y, y + 0.3*p.Height, math.Pow(10, 5+3*r.Float64())})
	}
	l := Load{Weight: waterWeight, Inner: p.Height * 1.2 * r.Float64()}
	switch r.IntN(3) {
	case 0:
		l.Outer = p.Height * 1.2 * r.Float64()
	case 1:
		l.Uniform = 5000 * (r.Float64() - 0.3)
	}
	for range max(0, r.IntN(5)-2) {
		x, y := p.Width*0.7*r.Float64(), p.Height*0.7*r.Float64()
		l.Patches = append(l.Patches, Patch{x, x + 0.3*p.Width*r.Float64() + 1e-3, y, y + 0.3*p.Height*r.Float64() + 1e-3, 300*r.Float64() - 50})
	}
	return p, l
}

func (r *Result) supported() float64 {
	sum := 0.0
	for i := range r.Edges {
		sum += r.Edges[i].Total + r.Corners[i]
	}
	for _, b := range r.Braces {
		sum += b.Total
	}
	for _, b := range r.Beds {
		sum += b.Total
	}
	return sum
}

// Whatever the pane: forces at supports sum to the load, no NaN, or an error
// that says why.
func TestRandom(t *testing.T) {
	solved, stretched, loose := 0, 0, 0
	seeds := uint64(150)
	if testing.Short() {
		seeds = 40
	}
	for seed := range seeds {
		r := rand.New(rand.NewPCG(seed, 11))
		p, l := draw(r)
		res, err := Solve(p, l, Settings{})
		if err != nil {
			loose++
			if !strings.Contains(err.Error(), "hold") {
				t.Errorf("seed %d: %v", seed, err)
			}
			continue
		}
		solved++
		switch res.Status {
		case Stretched:
			stretched++
		case Stalled:
			t.Errorf("seed %d: stalled with %g after %d steps", seed, res.Residual, res.Iterations)
		}
		// Water on both faces may all but cancel; so beside what presses on one.
		pressed := p.Width * p.Height * (math.Abs(l.Uniform) + waterWeight*max(l.Inner, l.Outer))
		for _, q := range l.Patches {
			pressed += math.Abs(q.Force)
		}
		// Nothing but braces as stiff as the pane leaves corners that swing far while
		// the braces hardly move; their force is a difference with fewer digits.
		share := 1e-9
		if p.Edges == [4]Support{} && slices.ContainsFunc(p.Braces, func(b Brace) bool { return b.Stiffness == 0 }) {
			share = 1e-7
		}
		if off := math.Abs(res.supported() - res.Load); !(off <= share*pressed) {
			t.Errorf("seed %d: supports take %.12g N of %.12g", seed, res.supported(), res.Load)
		}
		for _, v := range []float64{res.Bow.Value, res.Stress.Value, res.BendingBow, res.BendingStress, res.BowError, res.StressError, res.ReactionError} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("seed %d: %+v", seed, res)
			}
		}
		for range 20 {
			q := res.At(p.Width*r.Float64(), p.Height*r.Float64())
			if math.Abs(q.Deflection) > math.Abs(res.Bow.Value)*(1+1e-6) || max(q.Outer, q.Inner) > res.Stress.Value*1.005 {
				t.Errorf("seed %d: %+v lies above the peaks %g m, %g Pa", seed, q, res.Bow.Value, res.Stress.Value)
			}
		}
	}
	if solved < int(seeds)/2 || stretched < int(seeds)/8 || loose == 0 {
		t.Errorf("%d solved, %d stretched, %d not held: too few of some kind", solved, stretched, loose)
	}
	t.Logf("%d solved, %d stretched, %d not held", solved, stretched, loose)
}

// A thicker pane never bows more.
func TestThickerBowsLess(t *testing.T) {
	seeds := uint64(8)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		p, l := draw(rand.New(rand.NewPCG(seed, 12)))
		// A bare brace's stiffness is a matter of the pane's own thickness.
		for i := range p.Braces {
			p.Braces[i].Stiffness = 1e6
		}
		last := math.Inf(1)
		for p.Thickness = 0.003; p.Thickness < 0.02; p.Thickness *= 1.04 {
			res, err := Solve(p, l, Settings{Refine: 1})
			if err != nil {
				break
			}
			if b := math.Abs(res.Bow.Value); b > last {
				t.Errorf("seed %d: %g m thick bows %g, a thinner one %g", seed, p.Thickness, b, last)
			} else {
				last = b
			}
		}
	}
}

// With the same supports left and right the field is even, and solving the
// whole pane instead of half of it changes nothing.
func TestEven(t *testing.T) {
	p := glass(0.9, 0.5, 0.006, Free)
	p.Braces = []Brace{{Top, 0.4, 0.5, 1e6}}
	p.Beds = []Bed{{0.1, 0.2, 0.1, 0.2, 1e6}, {0.7, 0.8, 0.1, 0.2, 1e6}}
	l := Load{Inner: 0.45, Weight: waterWeight}
	half := mustSolve(t, p, l, Settings{Refine: 4})
	if !half.m.x.mirror {
		t.Fatal("the pane was not halved")
	}
	p.Beds[1].Stiffness *= 1 + 1e-10
	whole := mustSolve(t, p, l, Settings{Refine: 4})
	if whole.m.x.mirror {
		t.Fatal("the pane was halved")
	}
	near(t, "bow", whole.Bow.Value, half.Bow.Value, 1e-4, 0)
	near(t, "stress", whole.Stress.Value, half.Stress.Value, 1e-3, 0)
	near(t, "bottom", whole.Edges[Bottom].Total, half.Edges[Bottom].Total, 1e-3, 0)
	near(t, "right", whole.Edges[Right].Total, half.Edges[Right].Total, 1e-3, 0)
	near(t, "corner", whole.Corners[BottomRight], half.Corners[BottomRight], 0.01, 0)
	near(t, "top corner", whole.Corners[TopRight], half.Corners[TopRight], 0.01, 0)
	near(t, "brace", whole.Braces[0].Total, half.Braces[0].Total, 1e-3, 0)
	near(t, "bed", whole.Beds[1].Total, half.Beds[1].Total, 1e-3, 0)
	for _, x := range []float64{0, 0.1, 0.33, 0.45} {
		for _, y := range []float64{0, 0.2, 0.5} {
			a, b := half.At(x, y), half.At(0.9-x, y)
			b.Mxy, b.Nxy = -b.Mxy, -b.Nxy
			if x == 0.45 {
				b.Mxy, b.Nxy = a.Mxy, a.Nxy
			}
			near(t, "even deflection", b.Deflection, a.Deflection, 1e-9, 1e-12)
			near(t, "even moment", b.Mx, a.Mx, 1e-9, 1e-9)
			near(t, "odd twist", b.Mxy, a.Mxy, 1e-9, 1e-9)
			c := whole.At(x, y)
			near(t, "deflection", c.Deflection, a.Deflection, 1e-4, 1e-7)
		}
	}
}

// Turning a pane a quarter turns its results.
func TestTurned(t *testing.T) {
	p := &Pane{Width: 0.8, Height: 0.5, Thickness: 0.006, Young: 70e9, Poisson: 0.23, Edges: [4]Support{Held, Clamped, Free, Held}}
	q := *p
	q.Width, q.Height = p.Height, p.Width
	q.Edges = [4]Support{p.Edges[Right], p.Edges[Top], p.Edges[Left], p.Edges[Bottom]} // clockwise
	a, b := mustSolve(t, p, Load{Uniform: 3000}, Settings{Refine: 4}), mustSolve(t, &q, Load{Uniform: 3000}, Settings{Refine: 4})
	near(t, "bow", b.Bow.Value, a.Bow.Value, 1e-6, 0)
	for s := Bottom; s <= Left; s++ {
		near(t, s.String(), b.Edges[s].Total, a.Edges[(s+1)%4].Total, 1e-3, 1e-3)
	}
}

// Bending alone obeys its laws of scale to rounding.
func TestScales(t *testing.T) {
	p, l := glass(0.9, 0.5, 0.008, Free), Load{Inner: 0.4, Weight: waterWeight}
	s := Settings{Linear: true}
	a := mustSolve(t, p, l, s)
	check := func(what string, q *Pane, k Load, bow, stress, force float64) {
		b := mustSolve(t, q, k, s)
		near(t, what+": bow", b.Bow.Value, bow*a.Bow.Value, 1e-9, 0)
		near(t, what+": stress", b.Stress.Value, stress*a.Stress.Value, 1e-9, 0)
		near(t, what+": reaction", b.Edges[Bottom].Peak, force*a.Edges[Bottom].Peak, 1e-8, 0)
	}
	check("twice as thick", glass(0.9, 0.5, 0.016, Free), l, 1./8, 1./4, 1)
	check("twice as heavy", p, Load{Inner: 0.4, Weight: 2 * waterWeight}, 2, 2, 2)
	check("twice as large", glass(1.8, 1, 0.008, Free), Load{Inner: 0.8, Weight: waterWeight}, 32, 8, 4)
	stiff := glass(0.9, 0.5, 0.008, Free)
	stiff.Young *= 3
	check("three times as stiff", stiff, l, 1./3, 1, 1)
	both := Load{Inner: 0.4, Outer: 0.2, Weight: waterWeight}
	one := mustSolve(t, p, Load{Outer: 0.2, Weight: waterWeight}, s)
	sum := mustSolve(t, p, both, s)
	// Two loads add; their meshes differ by where the water stands.
	near(t, "sum", sum.At(0.45, 0.5).Deflection, a.At(0.45, 0.5).Deflection+one.At(0.45, 0.5).Deflection, 1e-5, 0)
}

// Splines of degree 5 gain six powers of the mesh in w and four in its second
// derivatives where the solution is smooth. Logarithms at the corners, where the
// pressure is not 0, may cost one in w.
func TestConverges(t *testing.T) {
	p, l := glass(0.9, 0.6, 0.006, Held), Load{Inner: 0.6, Weight: waterWeight}
	var bow, stress [4]float64
	for i, refine := range []int{1, 2, 4, 8} {
		r := mustSolve(t, p, l, Settings{Refine: refine, Linear: true})
		q := r.At(0.31, 0.23)
		bow[i], stress[i] = q.Deflection, q.Outer
	}
	for _, c := range []struct {
		name  string
		v     [4]float64
		order float64
	}{{"bow", bow, 5}, {"stress", stress, 4}} {
		e1, e2 := math.Abs(c.v[0]-c.v[3]), math.Abs(c.v[1]-c.v[3])
		if got := math.Log2(e1 / e2); got < c.order {
			t.Errorf("%s gains %.2f powers of the mesh, want %g: errors %g, %g", c.name, got, c.order, e1, e2)
		} else {
			t.Logf("%s gains %.2f powers of the mesh", c.name, got)
		}
	}
}

func TestLoose(t *testing.T) {
	plain := func(change func(*Pane)) *Pane {
		p := glass(0.6, 0.4, 0.006, Free)
		p.Edges = [4]Support{}
		change(p)
		return p
	}
	water := Load{Inner: 0.3, Weight: waterWeight}
	for _, c := range []struct {
		p    *Pane
		l    Load
		says string
	}{
		{plain(func(*Pane) {}), water, "nothing holds the pane"},
		{plain(func(p *Pane) { p.Edges[Bottom] = Held }), water, "bottom edge only and can swing"},
		{plain(func(p *Pane) { p.Braces = []Brace{{Top, 0, 0.1, 0}, {Top, 0.5, 0.6, 0}} }), water, "top edge only and can swing"},
		{plain(func(p *Pane) { p.Edges[Top] = Held; p.Braces = []Brace{{Top, 0, 0.1, 0}} }), water, "held already"},
		{plain(func(p *Pane) { p.Braces = []Brace{{Top, 0, 0.1, 0}, {Top, 0.05, 0.6, 0}} }), water, "lie over each other"},
		{plain(func(p *Pane) { p.Braces = []Brace{{Left, 0.3, 0.5, 0}} }), water, "no stretch of the left edge"},
		{plain(func(p *Pane) { p.Beds = []Bed{{0, 0.7, 0, 0.1, 1e6}} }), water, "no rectangle inside"},
		{plain(func(p *Pane) { p.Beds = []Bed{{0, 0.1, 0, 0.1, 0}} }), water, "more than 0 Pa/m"},
		{plain(func(p *Pane) { p.Poisson = 0.5 }), water, "Poisson"},
		{plain(func(p *Pane) { p.Thickness = math.NaN() }), water, "thickness"},
		{plain(func(p *Pane) { p.Width = 100 }), water, "strip"},
		{glass(0.6, 0.4, 0.006, Free), Load{Inner: 0.3}, "weight of water"},
		{glass(0.6, 0.4, 0.006, Free), Load{Uniform: math.Inf(1)}, "not all numbers"},
	} {
		_, err := Solve(c.p, c.l, Settings{})
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error is %v, want one that says %q", err, c.says)
		}
	}
	for _, held := range []func(*Pane){
		func(p *Pane) { p.Edges[Left] = Clamped },
		func(p *Pane) { p.Edges[Left], p.Edges[Right] = Held, Held },
		func(p *Pane) { p.Edges[Bottom] = Held; p.Braces = []Brace{{Top, 0.25, 0.35, 0}} },
		func(p *Pane) { p.Beds = []Bed{{0, 0.6, 0, 0.4, 1e7}} },
	} {
		if _, err := Solve(plain(held), water, Settings{}); err != nil {
			t.Errorf("%v", err)
		}
	}
	if errors.Is(Validate(glass(1, 1, 0.01, Free), water), ErrSingular) {
		t.Error("a sound pane is called singular")
	}
}
