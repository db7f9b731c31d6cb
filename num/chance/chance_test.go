package chance

import (
	"math"
	"testing"
)

// Points of scipy 1.10.1, scipy.stats.qmc.Sobol(256, scramble=False, bits=32).
func TestPublishedPoints(t *testing.T) {
	n, err := NewNet(Dimensions, 0)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, Dimensions)
	for _, c := range []struct {
		i    uint32
		want [7]float64
	}{
		{0, [7]float64{0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0}},
		{1, [7]float64{0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5}},
		{2, [7]float64{0.75, 0.25, 0.25, 0.75, 0.25, 0.75, 0.75}},
		{3, [7]float64{0.25, 0.75, 0.75, 0.25, 0.75, 0.25, 0.25}},
		{7, [7]float64{0.125, 0.625, 0.375, 0.875, 0.125, 0.625, 0.125}},
		{100, [7]float64{0.4140625, 0.2578125, 0.7734375, 0.6953125, 0.1328125, 0.8828125, 0.5703125}},
		{1023, [7]float64{0.0009765625, 0.7529296875, 0.6123046875, 0.8505859375, 0.6982421875, 0.5302734375, 0.8427734375}},
	} {
		n.At(c.i, x)
		for k, d := range []int{0, 1, 2, 9, 39, 99, 255} {
			if have := math.Floor(x[d]*(1<<32)) / (1 << 32); have != c.want[k] {
				t.Errorf("point %d, dimension %d: %v, published %v", c.i, d, have, c.want[k])
			}
		}
	}
	if _, err := NewNet(0, 1); err == nil {
		t.Error("a sequence of no dimensions passes")
	}
}

// Any 2^m points stand once in each 2^-m of every dimension, shifted or not.
func TestEveryColumnIsEven(t *testing.T) {
	for _, seed := range []uint64{0, 1, 99} {
		n, _ := NewNet(Dimensions, seed)
		seen := make([][256]bool, Dimensions)
		x := make([]float64, Dimensions)
		for i := range uint32(256) {
			n.At(i, x)
			for d, v := range x {
				if seen[d][int(v*256)] {
					t.Fatalf("seed %d: two points in one strip of dimension %d", seed, d)
				}
				seen[d][int(v*256)] = true
			}
		}
	}
}

func TestSpreads(t *testing.T) {
	const n = 200_000
	for _, s := range []Spread{
		{Triangular, 1, 2, 5}, {Pert, 1, 2, 5}, {Uniform, 1, 2, 5}, {Triangular, 1, 1, 5}, {Triangular, 1, 5, 5}, {Pert, 1, 5, 5},
	} {
		mean, square, last := 0.0, 0.0, s.Low
		for i := range n {
			v := s.At((float64(i) + 0.5) / n)
			if v < last || v > s.High {
				t.Fatalf("%+v: %g after %g", s, v, last)
			}
			last = v
			mean += v / n
			square += v * v / n
		}
		if math.Abs(mean-s.Mean()) > 1e-6 || math.Abs(square-mean*mean-s.Variance()) > 1e-5 {
			t.Errorf("%+v: mean %g, variance %g; by formula %g, %g", s, mean, square-mean*mean, s.Mean(), s.Variance())
		}
	}
	if v := (Spread{Triangular, 3, 3, 3}).At(0.7); v != 3 {
		t.Errorf("a band without width gives %g", v)
	}
	c := Choice{Values: []float64{4, 7, 9}, Weights: []float64{1, 0, 3}}
	for u, want := range map[float64]float64{0: 4, 0.24: 4, 0.26: 9, 1: 9} {
		if have := c.At(u); have != want {
			t.Errorf("choice at %g: %g, expected %g", u, have, want)
		}
	}
}

func design(t *testing.T, k int, f func([]float64) float64) []Index {
	t.Helper()
	net, err := NewNet(2*k, 7)
	if err != nil {
		t.Fatal(err)
	}
	const n = 1 << 14
	x, room := make([]float64, k), make([]float64, 2*k)
	outs := make([][]float64, k+2)
	for p := range outs {
		for i := range uint32(n) {
			Mix(net, i, p-2, x, room)
			outs[p] = append(outs[p], f(x))
		}
	}
	return Indices(outs[0], outs[1], outs[2:])
}

func near(t *testing.T, what string, have []Index, first, total []float64) {
	t.Helper()
	for j := range have {
		if math.Abs(have[j].First-first[j]) > 0.01 || math.Abs(have[j].Total-total[j]) > 0.01 {
			t.Errorf("%s: input %d has %.4f and %.4f, analytic %.4f and %.4f", what, j, have[j].First, have[j].Total, first[j], total[j])
		}
	}
}

// Ishigami & Homma 1990, a = 7, b = 0.1; the analytic variances in closed form.
func TestIshigami(t *testing.T) {
	const a, b = 7, 0.1
	have := design(t, 3, func(u []float64) float64 {
		var x [3]float64
		for i := range x {
			x[i] = math.Pi * (2*u[i] - 1)
		}
		return math.Sin(x[0]) + a*math.Sin(x[1])*math.Sin(x[1]) + b*x[2]*x[2]*x[2]*x[2]*math.Sin(x[0])
	})
	p4 := math.Pow(math.Pi, 4)
	v1, v2, v13 := (1+b*p4/5)*(1+b*p4/5)/2, float64(a*a)/8, b*b*p4*p4*8/225
	v := v1 + v2 + v13
	near(t, "Ishigami", have, []float64{v1 / v, v2 / v, 0}, []float64{(v1 + v13) / v, v2 / v, v13 / v})
}

// The g-function of Saltelli & Sobol 1995.
func TestG(t *testing.T) {
	a := []float64{0, 1, 4.5, 9, 99}
	have := design(t, len(a), func(u []float64) float64 {
		p := 1.0
		for i := range a {
			p *= (math.Abs(4*u[i]-2) + a[i]) / (1 + a[i])
		}
		return p
	})
	part := func(i int) float64 { return 1 / (3 * (1 + a[i]) * (1 + a[i])) }
	all := 1.0
	for i := range a {
		all *= 1 + part(i)
	}
	var first, total []float64
	for i := range a {
		first = append(first, part(i)/(all-1))
		total = append(total, part(i)*all/(1+part(i))/(all-1))
	}
	near(t, "g", have, first, total)
}

// A sum of independent figures: means and variances add, and so do the indices.
func TestLinear(t *testing.T) {
	s := []Spread{{Triangular, 1, 2, 4}, {Pert, -3, 0, 1}, {Uniform, 0, 0, 2}, {Uniform, 5, 5, 5}}
	w := []float64{2, -1, 0.5, 3}
	f := func(u []float64) (sum float64) {
		for i := range s {
			sum += w[i] * s[i].At(u[i])
		}
		return sum
	}
	mean, variance := 0.0, 0.0
	for i := range s {
		mean += w[i] * s[i].Mean()
		variance += w[i] * w[i] * s[i].Variance()
	}
	net, _ := NewNet(len(s), 3)
	x := make([]float64, len(s))
	var y []float64
	for i := range uint32(1 << 13) {
		net.At(i, x)
		y = append(y, f(x))
	}
	sum := Sum(y)
	if math.Abs(sum.Mean-mean) > 1e-3 || math.Abs(sum.Variance/variance-1) > 0.01 {
		t.Errorf("mean %g, variance %g; analytic %g, %g", sum.Mean, sum.Variance, mean, variance)
	}
	var share []float64
	for i := range s {
		share = append(share, w[i]*w[i]*s[i].Variance()/variance)
	}
	near(t, "sum", design(t, len(s), f), share, share)
	for _, ix := range Indices([]float64{2, 2}, []float64{2, 2}, [][]float64{{2, 2}}) {
		if ix != (Index{}) {
			t.Errorf("an output that does not vary has %+v", ix)
		}
	}
}

func TestSummary(t *testing.T) {
	s := Sum([]float64{4, 1, 3, 2})
	if s.Mean != 2.5 || math.Abs(s.Variance-5.0/3) > 1e-12 || s.Quantile(0) != 1 || s.Quantile(0.5) != 2.5 || s.Quantile(1) != 4 {
		t.Errorf("%+v", s)
	}
	if x := ShareOf(100, 100); x.P != 1 || !(x.Error > 0) {
		t.Errorf("%+v: a hundred of a hundred is no proof", x)
	}
	if x := ShareOf(2500, 10000); x.P != 0.25 || math.Abs(x.Error-0.00433) > 1e-4 {
		t.Errorf("%+v", x)
	}
}

// The first outputs for seed 1234567 as widely published (from memory).
func TestGenerator(t *testing.T) {
	state := uint64(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973} {
		if have := next(&state); have != want {
			t.Errorf("%d, published %d", have, want)
		}
	}
}
