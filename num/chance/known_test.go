package chance

import (
	"math"
	"testing"
)

// Analytic: an output of one input alone; of the sum of two, over a bound; of neither.
func TestKnown(t *testing.T) {
	const n = 1 << 14
	net, err := NewNet(3, 11)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, 3)
	in := make([][]float64, 3)
	var alone, both, weighted, level []float64
	for i := range uint32(n) {
		net.At(i, x)
		for d := range in {
			in[d] = append(in[d], x[d])
		}
		hit := func(yes bool) float64 {
			if yes {
				return 1
			}
			return 0
		}
		alone = append(alone, hit(x[0] < 0.25))
		both = append(both, hit(x[0]+x[1] < 1))
		weighted = append(weighted, 3*x[0]-x[1])
		level = append(level, 5)
	}
	for _, c := range []struct {
		name string
		y    []float64
		want [3]float64
	}{
		{"one alone", alone, [3]float64{1, 0, 0}},
		// The mean at one input is 1-u, of variance 1/12; all have 1/4.
		{"sum over a bound", both, [3]float64{1.0 / 3, 1.0 / 3, 0}},
		{"weighted sum", weighted, [3]float64{0.9, 0.1, 0}},
		{"level", level, [3]float64{0, 0, 0}},
	} {
		for d := range in {
			if have := Known(in[d], c.y, 20); math.Abs(have-c.want[d]) > 0.005 {
				t.Errorf("%s: input %d makes %.4f, analytic %.4f", c.name, d, have, c.want[d])
			}
		}
	}
	// Few draws show nothing where there is nothing: without the correction, 20 bins of
	// five would show a fifth.
	sum := 0.0
	state := uint64(5)
	const tries = 200
	for range tries {
		var u, y []float64
		for range 100 {
			u = append(u, float64(next(&state)>>11)/(1<<53))
			y = append(y, float64(next(&state)>>11)/(1<<53))
		}
		sum += Known(u, y, 20) / tries
	}
	if sum > 0.06 {
		t.Errorf("inputs without effect seem to make %.3f", sum)
	}
}

// Beyond the published dimensions numbers are even as random ones are, and none goes
// with another, nor with a published one.
func TestBeyondThePublished(t *testing.T) {
	const dims, points = Dimensions + 6, 1 << 14
	net, err := NewNet(dims, 3)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, dims)
	var mean [7]float64
	var with [7][7]float64
	for i := range uint32(points) {
		net.At(i, x)
		for a, u := range x[Dimensions-1:] {
			mean[a] += u / points
			for b, v := range x[Dimensions-1:] {
				with[a][b] += 12 * (u - 0.5) * (v - 0.5) / points
			}
		}
	}
	for a := range mean {
		if math.Abs(mean[a]-0.5) > 0.01 {
			t.Errorf("dimension %d has a mean of %g", Dimensions-1+a, mean[a])
		}
		for b := range mean {
			want := 0.0
			if a == b {
				want = 1
			}
			if math.Abs(with[a][b]-want) > 0.04 {
				t.Errorf("dimensions %d and %d go together by %g", Dimensions-1+a, Dimensions-1+b, with[a][b])
			}
		}
	}
}
