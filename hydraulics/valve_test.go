package hydraulics

import (
	"math"
	"testing"
)

// The tabled values themselves (Weisbach, from memory) and the ends.
func TestThrottledValves(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"cock open", CockK(1), 0.04},
		{"cock at 20 degrees", CockK(1 - 20.0/90), 1.56},
		{"cock at 45 degrees", CockK(0.5), 31.2},
		{"cock at 65 degrees", CockK(1 - 65.0/90), 486},
		{"cock shut", CockK(0), math.Inf(1)},
		{"gate half", GateK(0.5), 2.06},
		{"gate 7/8 down", GateK(1.0 / 8), 97.8},
		{"gate shut", GateK(0), math.Inf(1)},
	} {
		if c.got != c.want && math.Abs(c.got-c.want) > 1e-12*c.want {
			t.Errorf("%s: %g, want %g", c.name, c.got, c.want)
		}
	}
	lastC, lastG := math.Inf(1), math.Inf(1)
	for open := 0.001; open < 1; open += 0.001 {
		if k := CockK(open); k > lastC {
			t.Fatalf("cock loses more at %g than before", open)
		} else {
			lastC = k
		}
		if k := GateK(open); k > lastG {
			t.Fatalf("gate loses more at %g than before", open)
		} else {
			lastG = k
		}
	}
}
