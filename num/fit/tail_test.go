package fit

import (
	"math"
	"testing"
)

// Rows of the table of upper critical values of the chi-square distribution in the
// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (from memory), which
// gives three places.
func TestBeyond(t *testing.T) {
	for _, row := range []struct {
		n         int
		at, share float64
	}{
		{1, 3.841, 0.05},
		{1, 6.635, 0.01},
		{5, 11.070, 0.05},
		{10, 23.209, 0.01},
		{30, 43.773, 0.05},
	} {
		if got := Beyond(row.at, row.n); math.Abs(got-row.share) > 2e-5 {
			t.Errorf("%d squares beyond %g: %g, table %g", row.n, row.at, got, row.share)
		}
	}
	// Two squares have an exponential tail.
	if got, want := Beyond(3, 2), math.Exp(-1.5); math.Abs(got-want) > 1e-14 {
		t.Errorf("%g, want %g", got, want)
	}
	if Beyond(0, 3) != 1 || Beyond(-1, 3) != 1 || Beyond(5, 0) != 1 {
		t.Error("nothing is never unusual")
	}
}
