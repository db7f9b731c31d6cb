package plate

import (
	"math"
	"testing"
)

func TestGauss(t *testing.T) {
	for _, points := range []int{4, 6} {
		for power := range 2 * points {
			sum, want := 0.0, 0.0
			for _, g := range gaussRule(points) {
				sum += g[1] * math.Pow(g[0], float64(power))
			}
			if power%2 == 0 {
				want = 2 / float64(power+1)
			}
			if math.Abs(sum-want) > 1e-14 {
				t.Errorf("%d points: x^%d gives %.16g, want %.16g", points, power, sum, want)
			}
		}
	}
}

// Splines add up to 1, reproduce x, and their derivatives are those of their
// values, on spans of any length and knots of any multiplicity.
func TestShape(t *testing.T) {
	a := newAxis([]float64{0, 0.1, 0.15, 0.4, 1}, []int{1, 1, 3, 2, 1}, false)
	if a.n != 4+degree+2+1 {
		t.Fatalf("%d functions", a.n)
	}
	var b, lo, hi shape
	for _, x := range []float64{0, 0.03, 0.12, 0.2, 0.39, 0.7, 1} {
		s := a.span(x)
		a.shape(s, x, &b)
		sum, mean, slope := 0.0, 0.0, 0.0
		for i := range order {
			sum += b[0][i]
			mean += b[0][i] * a.centre[a.first[s]+i]
			slope += b[1][i] * a.centre[a.first[s]+i]
		}
		if math.Abs(sum-1) > 1e-14 || math.Abs(mean-x) > 1e-14 || math.Abs(slope-1) > 1e-12 {
			t.Errorf("at %g: sum %g, mean %g, slope %g", x, sum, mean, slope)
		}
		const h = 1e-5
		a.shape(s, x-h, &lo) // a piece of a polynomial, also outside its span
		a.shape(s, x+h, &hi)
		for i := range order {
			if got := (hi[0][i] - lo[0][i]) / (2 * h); math.Abs(got-b[1][i]) > 1e-5*(1+math.Abs(b[1][i])) {
				t.Errorf("at %g: slope %g, differences give %g", x, b[1][i], got)
			}
			if got := (hi[1][i] - lo[1][i]) / (2 * h); math.Abs(got-b[2][i]) > 1e-4*(1+math.Abs(b[2][i])) {
				t.Errorf("at %g: second derivative %g, differences give %g", x, b[2][i], got)
			}
		}
	}
}

func TestBand(t *testing.T) {
	// A is B' B for a band B, so it is positive, and x is known.
	const n, reach = 23, 4
	entry := func(i, j int) float64 { return 1 / (1 + math.Abs(float64(i-j))) }
	m := newBand(n, reach)
	x, b := make([]float64, n), make([]float64, n)
	for i := range n {
		x[i] = math.Sin(float64(3 * i))
	}
	for i := range n {
		for j := max(0, i-reach); j <= min(n-1, i+reach); j++ {
			v := entry(i, j)
			if i == j {
				v += 4
			}
			if j <= i {
				m.row(i)[j-i+reach] = v
			}
			b[i] += v * x[j]
		}
	}
	if !m.factor() {
		t.Fatal("not factored")
	}
	m.solve(b)
	for i := range x {
		if math.Abs(b[i]-x[i]) > 1e-14 {
			t.Errorf("x[%d] is %g, want %g", i, b[i], x[i])
		}
	}
	flat := newBand(2, 1)
	copy(flat.a, []float64{0, 1, 1, 1})
	if flat.factor() {
		t.Error("a singular matrix was factored")
	}
}
