package fit

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// line is a straight line through readings with doubts of 1.
func line(x, y []float64) Problem {
	return Problem{Parameters: 2, Residuals: len(x), Of: func(p, r []float64) error {
		for i := range r {
			r[i] = p[0] + p[1]*x[i] - y[i]
		}
		return nil
	}}
}

// drawnLine draws readings of a line, at least five places apart.
func drawnLine(t *rapid.T) (x, y []float64, a, b float64) {
	a, b = rapid.Float64Range(-5, 5).Draw(t, "a"), rapid.Float64Range(-5, 5).Draw(t, "b")
	for i := range rapid.IntRange(8, 20).Draw(t, "n") {
		x = append(x, float64(i))
		y = append(y, a+b*float64(i)+rapid.Float64Range(-0.5, 0.5).Draw(t, "noise"))
	}
	return x, y, a, b
}

// A line has a closed form: slope Sxy/Sxx, its variance 1/Sxx.
func TestLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y, _, _ := drawnLine(t)
		res, err := Solve(line(x, y), []float64{0, 0}, Settings{})
		if err != nil || res.Status != Converged {
			t.Fatal(res, err)
		}
		n, mx, my, sxx, sxy := float64(len(x)), 0.0, 0.0, 0.0, 0.0
		for i := range x {
			mx += x[i] / n
			my += y[i] / n
		}
		for i := range x {
			sxx += (x[i] - mx) * (x[i] - mx)
			sxy += (x[i] - mx) * (y[i] - my)
		}
		if math.Abs(res.P[1]-sxy/sxx) > 1e-7 || math.Abs(res.P[0]-(my-mx*sxy/sxx)) > 1e-6 || math.Abs(res.Cov[1][1]*sxx-1) > 1e-6 {
			t.Fatalf("%v, variance %g; want slope %g, variance %g", res.P, res.Cov[1][1], sxy/sxx, 1/sxx)
		}
	})
}

// A reading that is far out is named, and named alone; with Huber's weights it
// hardly moves the line.
func TestOutlier(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y, a, b := drawnLine(t)
		bad := rapid.IntRange(0, len(x)-1).Draw(t, "bad")
		y[bad] += 30
		res, err := Solve(line(x, y), []float64{0, 0}, Settings{Huber: 1.345})
		if err != nil {
			t.Fatal(err)
		}
		out := res.Outliers(len(x), 3)
		if len(out) == 0 || out[0].Index != bad {
			t.Fatalf("outliers %v, want %d", out, bad)
		}
		plain, err := Solve(line(x, y), []float64{0, 0}, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		off := func(p []float64) float64 {
			m := x[len(x)-1] / 2
			return math.Abs(p[0] + p[1]*m - a - b*m)
		}
		if off(res.P) > 0.7*off(plain.P) {
			t.Fatalf("off by %g with weights, %g without", off(res.P), off(plain.P))
		}
	})
}

// Leaving a reading out and fitting anew foretells it as the leverage says.
func TestOutlierIsLeftOut(t *testing.T) {
	x, y := []float64{0, 1, 2, 3, 4, 5, 6}, []float64{0.1, 1.2, 1.8, 3.3, 9, 5.1, 5.9}
	res, err := Solve(line(x, y), []float64{0, 0}, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	out := res.Outliers(len(x), 2)
	if len(out) == 0 || out[0].Index != 4 {
		t.Fatalf("outliers %v", out)
	}
	rest, err := Solve(line(append(append([]float64{}, x[:4]...), x[5:]...), append(append([]float64{}, y[:4]...), y[5:]...)), []float64{0, 0}, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	miss := rest.P[0] + rest.P[1]*x[4] - y[4]
	doubt := math.Sqrt(1 + rest.Cov[0][0] + 2*x[4]*rest.Cov[0][1] + x[4]*x[4]*rest.Cov[1][1])
	if math.Abs(miss/doubt-out[0].T) > 1e-5 {
		t.Errorf("T %g, anew %g", out[0].T, miss/doubt)
	}
}

// Two parameters of which only the sum is read cannot be told apart; what is told
// of neither way has no finite variance.
func TestBlends(t *testing.T) {
	sum := Problem{Parameters: 3, Residuals: 4, Of: func(p, r []float64) error {
		for i := range r {
			r[i] = (p[0]+p[1])*float64(i+1) - 3*float64(i+1) + p[2]
		}
		return nil
	}}
	res, err := Solve(sum, []float64{1, 1, 1}, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	b := res.Blends(4, []float64{1, 1, 1}, 0.01)
	if res.Rank != 2 || len(b) != 1 || math.Abs(math.Abs(b[0].Share[0])-math.Sqrt2/2) > 1e-6 || math.Abs(b[0].Share[0]+b[0].Share[1]) > 1e-6 || math.Abs(b[0].Share[2]) > 1e-6 {
		t.Errorf("rank %d, blends %+v", res.Rank, b)
	}
	if !math.IsInf(res.Cov[0][0], 1) || math.IsInf(res.Cov[2][2], 1) || math.Abs(res.P[0]+res.P[1]-3) > 1e-8 {
		t.Errorf("covariance %v at %v", res.Cov, res.P)
	}
}

func TestRefused(t *testing.T) {
	if _, err := Solve(line([]float64{1}, []float64{1}), []float64{0, 0}, Settings{}); err == nil {
		t.Error("two parameters from one reading")
	}
	no := errors.New("no")
	if _, err := Solve(Problem{Parameters: 1, Residuals: 1, Of: func([]float64, []float64) error { return no }}, []float64{0}, Settings{}); !errors.Is(err, no) {
		t.Errorf("out of range from the start: %v", err)
	}
	if _, err := Solve(Problem{Parameters: 1, Residuals: 1, Of: func(_, r []float64) error { r[0] = math.NaN(); return nil }}, []float64{0}, Settings{}); err == nil {
		t.Error("NaN is taken")
	}
	// Out of range on one side only: the least lies at the edge.
	res, err := Solve(Problem{Parameters: 1, Residuals: 1, Of: func(p, r []float64) error {
		if p[0] < 1 {
			return no
		}
		r[0] = p[0] + 1
		return nil
	}}, []float64{2}, Settings{})
	if err != nil || math.Abs(res.P[0]-1) > 1e-4 {
		t.Errorf("%+v, %v: want 1", res, err)
	}
}

func BenchmarkSolve(b *testing.B) {
	x, y := make([]float64, 20), make([]float64, 20)
	for i := range x {
		x[i], y[i] = float64(i), math.Exp(-0.1*float64(i))
	}
	p := Problem{Parameters: 2, Residuals: 20, Of: func(p, r []float64) error {
		for i := range r {
			r[i] = p[0]*math.Exp(-p[1]*x[i]) - y[i]
		}
		return nil
	}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Solve(p, []float64{2, 0.3}, Settings{}); err != nil {
			b.Fatal(err)
		}
	}
}

// An answer next to 0 is as well known as any other: its slopes are found by steps
// of what moves the readings, and it settles.
func TestNextToNothing(t *testing.T) {
	for _, a := range []float64{0, 9.3e-10, -9.8e-5} {
		x, y := make([]float64, 20), make([]float64, 20)
		for i := range x {
			x[i], y[i] = float64(i), a+float64(i)
		}
		res, err := Solve(line(x, y), []float64{0, 0}, Settings{})
		if err != nil || res.Status != Converged || math.Abs(res.P[0]-a) > 1e-9 || math.Abs(res.Cov[1][1]*665-1) > 1e-7 {
			t.Errorf("%g: %v, status %d, variance %g, want 1/665; %v", a, res.P, res.Status, res.Cov[1][1], err)
		}
	}
}
