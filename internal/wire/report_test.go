package wire

import "testing"

func TestRound(t *testing.T) {
	for v, want := range map[float64]float64{0: 0, 249.35035624636987: 249.350, 1.5899999999999999: 1.59, -0.000123456789: -0.000123457, 1e300: 1e300} {
		if got := Round(v); got != want {
			t.Errorf("Round(%v) = %v, want %v", v, got, want)
		}
	}
}
