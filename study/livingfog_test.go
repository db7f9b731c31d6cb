package study

import "testing"

// The longest time of fog, through midnight too.
func TestLongestFog(t *testing.T) {
	const h = 3600.0
	for name, c := range map[string]struct{ from, to, want []float64 }{
		"none":             {nil, nil, []float64{-1, -1}},
		"a morning":        {[]float64{4 * h}, []float64{9 * h}, []float64{4 * h, 9 * h}},
		"through midnight": {[]float64{22 * h}, []float64{7 * h}, []float64{22 * h, 7 * h}},
		"the longer":       {[]float64{4 * h, 20 * h}, []float64{9 * h, 21 * h}, []float64{4 * h, 9 * h}},
		"the longer night": {[]float64{12 * h, 20 * h}, []float64{6 * h, 13 * h}, []float64{20 * h, 6 * h}},
	} {
		f := spells{from: c.from, to: c.to}
		if from, to := f.longest(); from != c.want[0] || to != c.want[1] {
			t.Errorf("%s: %g to %g h, want %g to %g", name, from/h, to/h, c.want[0]/h, c.want[1]/h)
		}
	}
}
