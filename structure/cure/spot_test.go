package cure

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A spot between two faces that let nothing through cures from its rim; through, after
// the square of half its lesser side over k squared. With k of 2.5 mm in the root of a
// day that is 23 days for 24 mm, 64 for 40 mm and 144 for 60 mm (derived with the trade's
// figures for wide beds).
func TestSpots(t *testing.T) {
	for side, days := range map[float64]float64{0.024: 23.04, 0.040: 64, 0.060: 144} {
		d, err := SpotDepth(side, 3*side, 1)
		if got := (d / 0.0025) * (d / 0.0025); err != nil || !within(got, days, 1e-9) {
			t.Errorf("%g m: %g days, %v", side, got, err)
		}
	}
	// What is left in the middle has the area that has not cured, counted by itself.
	rapid.Check(t, func(t *rapid.T) {
		w, h, s := rapid.Float64Range(1e-3, 1).Draw(t, "w"), rapid.Float64Range(1e-3, 1).Draw(t, "h"), rapid.Float64Range(0, 1).Draw(t, "share")
		d, err := SpotDepth(w, h, s)
		if err != nil || d < 0 || d > min(w, h)/2*(1+1e-12) || math.Abs((w-2*d)*(h-2*d)-(1-s)*w*h) > 1e-9*w*h {
			t.Errorf("%g deep: %v", d, err)
		}
	})
	for _, c := range [][3]float64{{0, 1, 0.5}, {1, 2, 0.5}, {math.NaN(), 1, 0.5}, {1, 1, -0.1}, {1, 1, 1.1}} {
		if d, err := SpotDepth(c[0], c[1], c[2]); !errors.Is(err, ErrInput) {
			t.Errorf("%v: %g, %v", c, d, err)
		}
	}
}
