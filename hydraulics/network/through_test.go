package network

import (
	"math"
	"testing"

	"rillwright/hydraulics"
)

// Through undoes Loss, in both directions, over eight decades of flow.
func TestThroughUndoesLoss(t *testing.T) {
	c := NewConduit(1e-6)
	c.AddPipe(0.016, 2.8, 1.5e-6, 1)
	c.AddFitting(hydraulics.ConstantK(4), 0.016)
	for name, law := range map[string]Law{"hose": c, "hole": Power{R: 1e6, N: 2}, "both": Series{c, Power{R: 1e5, N: 2}}} {
		for q := 1e-10; q < 1e-2; q *= 1.3 {
			for _, q := range []float64{q, -q} {
				h, _ := law.Loss(q)
				for _, guess := range []float64{0, 1e-9, 1} {
					if got := Through(law, h, guess); math.Abs(got-q) > 1e-11*math.Abs(q) {
						t.Errorf("%s: head %g drives %g from %g, want %g", name, h, got, guess, q)
					}
				}
			}
		}
	}
	if Through(c, 0, 1) != 0 {
		t.Error("flow without head")
	}
}

func BenchmarkThrough(b *testing.B) {
	c := NewConduit(1e-6)
	c.AddPipe(0.016, 2.8, 1.5e-6, 1)
	b.ReportAllocs()
	for b.Loop() {
		Through(c, 1.3, 0)
	}
}
