package sparse

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// system is a random network: conductances between nodes and to ground.
type system struct {
	n          int
	rows, cols []int32
	ground     []float64
	between    []float64
}

func randomSystem(r *rand.Rand, n, extra int) system {
	s := system{n: n, ground: make([]float64, n)}
	add := func(i, j int) {
		if i == j {
			return
		}
		w := math.Exp(6 * r.NormFloat64())
		s.rows = append(s.rows, int32(i))
		s.cols = append(s.cols, int32(j))
		s.between = append(s.between, w)
	}
	for i := 1; i < n; i++ {
		add(i, r.IntN(i))
	}
	for range extra {
		add(r.IntN(n), r.IntN(n))
	}
	s.ground[r.IntN(n)] += 1
	return s
}

func (s system) mul(x []float64) []float64 {
	y := make([]float64, s.n)
	for i, g := range s.ground {
		y[i] = g * x[i]
	}
	for e, w := range s.between {
		i, j := s.rows[e], s.cols[e]
		y[i] += w * (x[i] - x[j])
		y[j] += w * (x[j] - x[i])
	}
	return y
}

// The check is an identity: A times the solution must give the right-hand side
// back. The tolerance is relative to |A||x|, the backward error a stable
// factorisation keeps near rounding (a few times n times 2^-53).
func TestSolveGivesBackRightHandSide(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for trial := range 300 {
		n := 1 + r.IntN(60)
		s := randomSystem(r, n, r.IntN(2*n+1))
		f := Analyze(n, s.rows, s.cols)
		if err := f.Factor(s.ground, s.between); err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		b := make([]float64, n)
		for i := range b {
			b[i] = r.NormFloat64()
		}
		x := slices.Clone(b)
		f.Solve(x)
		ax := s.mul(x)
		xmax := 0.0
		for _, v := range x {
			xmax = max(xmax, math.Abs(v))
		}
		weight := slices.Max(append(s.between, s.ground...))
		for i := range b {
			if d := math.Abs(ax[i] - b[i]); d > 1e-12*(weight*xmax+1) {
				t.Fatalf("trial %d n=%d row %d: residual %g", trial, n, i, d)
			}
		}
	}
}

func TestOrderIsPermutation(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		n := 1 + r.IntN(200)
		s := randomSystem(r, n, r.IntN(3*n))
		p := minimumDegree(n, s.rows, s.cols)
		slices.Sort(p)
		for k, i := range p {
			if int(i) != k {
				t.Fatalf("n=%d: %v", n, p)
			}
		}
	}
}

// A tree eliminated from its leaves has no fill (George & Liu 1981, Computer
// Solution of Large Sparse Positive Definite Systems, ch. 5; from memory).
func TestTreeHasNoFill(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		n := 2 + r.IntN(300)
		s := randomSystem(r, n, 0)
		if f := Analyze(n, s.rows, s.cols); f.Fill() != n-1 {
			t.Fatalf("n=%d: %d entries below the diagonal, want %d", n, f.Fill(), n-1)
		}
	}
}

func TestFloating(t *testing.T) {
	f := Analyze(2, []int32{0}, []int32{1})
	if err := f.Factor([]float64{0, 0}, []float64{1}); !errors.Is(err, ErrFloating) {
		t.Fatalf("got %v", err)
	}
	if err := f.Factor([]float64{1, math.NaN()}, []float64{1}); !errors.Is(err, ErrFloating) {
		t.Fatalf("NaN: got %v", err)
	}
}

// A chain of strong conductances that hangs on ground by a conductance 1e20
// times weaker: a flow of 1e-14 through it lifts every node by exactly 1.
// Subtracting on the diagonal would lose the weak one altogether.
func TestWeakGround(t *testing.T) {
	const n = 50
	var rows, cols []int32
	between := make([]float64, 0, n)
	ground := make([]float64, n)
	ground[n/3] = 1e-14
	for i := range n - 1 {
		rows = append(rows, int32(i))
		cols = append(cols, int32(i+1))
		between = append(between, 1e6*(1+float64(i%7)))
	}
	f := Analyze(n, rows, cols)
	if err := f.Factor(ground, between); err != nil {
		t.Fatal(err)
	}
	b := make([]float64, n)
	b[n-1] = 1e-14
	f.Solve(b)
	for i, x := range b {
		if math.Abs(x-1) > 1e-12 {
			t.Errorf("node %d at %.17g, want 1", i, x)
		}
	}
}

func grid(side int) system {
	s := system{n: side * side, ground: make([]float64, side*side)}
	add := func(i, j int) {
		s.rows = append(s.rows, int32(i))
		s.cols = append(s.cols, int32(j))
		s.between = append(s.between, 1)
	}
	for y := range side {
		for x := range side {
			i := y*side + x
			if x+1 < side {
				add(i, i+1)
			}
			if y+1 < side {
				add(i, i+side)
			}
		}
	}
	s.ground[0]++
	return s
}

// Fill on a 100 by 100 five-point grid must stay near that of nested
// dissection, about 31/4 n log2 n (George 1973, SIAM J. Numer. Anal. 10, 345;
// constant from memory); a band ordering would need a million entries.
func TestGridFill(t *testing.T) {
	s := grid(100)
	f := Analyze(s.n, s.rows, s.cols)
	if f.Fill() > 400_000 {
		t.Errorf("fill %d", f.Fill())
	}
	t.Logf("fill %d", f.Fill())
}

func BenchmarkAnalyzeGrid100(b *testing.B) {
	s := grid(100)
	for b.Loop() {
		Analyze(s.n, s.rows, s.cols)
	}
}

func BenchmarkFactorGrid100(b *testing.B) {
	s := grid(100)
	f := Analyze(s.n, s.rows, s.cols)
	b.ReportAllocs()
	for b.Loop() {
		if err := f.Factor(s.ground, s.between); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSolveGrid100(b *testing.B) {
	s := grid(100)
	f := Analyze(s.n, s.rows, s.cols)
	if err := f.Factor(s.ground, s.between); err != nil {
		b.Fatal(err)
	}
	rhs := make([]float64, s.n)
	rhs[17] = 1
	b.ReportAllocs()
	for b.Loop() {
		f.Solve(rhs)
	}
}
