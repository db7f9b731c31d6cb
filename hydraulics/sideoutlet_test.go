package hydraulics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

func TestPhiTable(t *testing.T) {
	for _, r := range rows(t, "phi") {
		r.want("phi", SideOutletPhi(r.num("eta")))
	}
}

// phiByQuadrature takes the defining integral with x = top sin^2(a), which makes
// the integrand smooth at both ends; for eta = 1 and below everywhere.
func phiByQuadrature(eta float64) float64 {
	top := min(eta, 1)
	return quad.Fixed(func(a float64) float64 {
		s, c := math.Sincos(a)
		x := top * s * s
		// dx = 2 top s c da; with top = eta, sqrt(eta-x) = sqrt(eta) c, and with
		// top = 1, sqrt(1-x) = c.
		return 2 * math.Sqrt(x*(1-x)*(eta-x)) * 2 * top * s * c
	}, 0, math.Pi/2, 400, nil, 0)
}

// The closed form, the two series and their joins against quadrature. With 400
// Gauss points the quadrature is good to about 1e-13 except next to eta = 1,
// where a square root comes within 1e-3 of the range; hence 1e-11 there.
func TestPhiAgainstQuadrature(t *testing.T) {
	for _, eta := range []float64{1e-6, 0.01, 0.0999, 0.1, 0.1001, 0.25, 0.5, 0.8, 0.95, 1, 1.05, 1.3, 2, 5, 12, 19.9, 20, 20.1, 60, 1000} {
		if got, want := SideOutletPhi(eta), phiByQuadrature(eta); !within(got, want, 1e-11) {
			t.Errorf("phi(%g) = %.14g, quadrature %.14g", eta, got, want)
		}
	}
	if got := SideOutletPhi(1); got != 8.0/15 {
		t.Errorf("phi(1) = %g, want 8/15", got)
	}
	if SideOutletPhi(0) != 0 || SideOutletPhi(-1) != 0 || SideOutletPhiSlope(0) != 0 {
		t.Error("a dry outlet must give 0")
	}
}

func TestPhiSlope(t *testing.T) {
	both := func(x float64) (float64, float64) { return SideOutletPhi(x), SideOutletPhiSlope(x) }
	for _, eta := range []float64{5e-4, 0.002, 0.05, 0.3, 0.7, 0.97, 1.03, 1.5, 4, 15, 25, 300} {
		checkSlope(t, "phi", eta, both)
	}
	// Continuous at 1: (1-m) K(m) goes to 0 like -m ln m.
	for _, eta := range []float64{1 - 1e-9, 1 + 1e-9} {
		if got := SideOutletPhiSlope(eta); !within(got, 2.0/3, 1e-7) {
			t.Errorf("slope at %g: %.10g, want 2/3", eta, got)
		}
	}
	// The series below 1e-3 and the closed form meet.
	if a, b := SideOutletPhiSlope(1e-3*(1-1e-12)), SideOutletPhiSlope(1e-3); !within(a, b, 1e-9) {
		t.Errorf("slope %.12g and %.12g at the join", a, b)
	}
}

// Beyond eta = 1.5 the orifice with the head at its centre is within 1 %
// (section 7 of the project's notes; derived).
func TestSideOutletBecomesOrifice(t *testing.T) {
	for _, eta := range []float64{1.5, 2, 5} {
		const d = 0.02
		if a, b := SideOutletFlow(0.6, d, eta*d), OrificeFlow(0.6, CircleArea(d), (eta-0.5)*d); !within(a, b, 0.01) {
			t.Errorf("eta %g: %g against %g", eta, a, b)
		}
	}
}
