package network

import (
	"math"
	"testing"

	"rillwright/hydraulics"
)

// Loss is the inverse of hydraulics.ThinHoleFlow, a direct formula, from a
// creep to far beyond any drip outlet. Flows come back to 1e-13: a few roundings
// and, at Re under 1, the cancellation of 1 + 1.07 - 2.07 in the formula, which
// costs it digits as 1/sqrt Re; hence the second term.
func TestHoleIsInverseOfFlow(t *testing.T) {
	const d, nu = 0.002, 1e-6
	o := NewHole(d, nu, 1)
	for lg := -14.0; lg < 4; lg += 0.013 {
		head := math.Exp(lg * math.Ln10)
		q, dqdh := hydraulics.ThinHoleFlow(d, head, nu)
		re := hydraulics.OrificeReynolds(d, head, nu)
		tol := 1e-13 + 1e-14/math.Sqrt(re)
		h, slope := o.Loss(q)
		if math.Abs(h-head) > 4*tol*head {
			t.Errorf("head %g m (Re %g): %g, off by %g", head, re, h, h/head-1)
		}
		if math.Abs(slope*dqdh-1) > 40*tol {
			t.Errorf("head %g m (Re %g): slope %g, want %g", head, re, slope, 1/dqdh)
		}
		back, s := o.Loss(-q)
		if back != -h || s != slope {
			t.Errorf("head %g m: %g and %g for reverse flow", head, back, s)
		}
	}
	if h, s := o.Loss(0); h != 0 || s != 0 {
		t.Errorf("at rest %g, %g", h, s)
	}
}

func BenchmarkHole(b *testing.B) {
	o := NewHole(0.002, 0.9e-6, 1)
	b.ReportAllocs()
	q := 2e-6
	for b.Loop() {
		q = 2e-6 + 1e-8*q
		h, _ := o.Loss(q)
		q = h
	}
}

func BenchmarkConduit(b *testing.B) {
	c := NewConduit(0.9e-6)
	c.AddPipe(0.0127, 1, 1.5e-6, 1)
	c.AddFitting(hydraulics.ConstantK(3), 0.0127)
	b.ReportAllocs()
	q := 1e-4
	for b.Loop() {
		h, _ := c.Loss(q)
		q = 1e-4 + 1e-8*h
	}
}
