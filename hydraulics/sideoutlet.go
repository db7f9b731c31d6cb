package hydraulics

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Between these fills the closed form of SideOutletPhi is accurate to 1e-12;
// outside it loses digits by cancellation and a series takes over.
const (
	phiSeriesBelow = 0.1
	phiSeriesAbove = 20
)

// SideOutletPhi returns phi of a circular opening in a vertical wall, eta = level
// above the invert over the bore:
//
//	phi = integral from 0 to min(eta, 1) of 2 sqrt(x(1-x)) sqrt(eta-x) dx
//
// in closed form with complete elliptic integrals of parameter m:
//
//	eta < 1: (4/15) [2(1-eta+eta^2) E(m) - (2-3 eta+eta^2) K(m)], m = eta
//	eta > 1: (4/15) sqrt(eta) [2(1-eta+eta^2) E(m) - (eta-1)(2 eta-1) K(m)], m = 1/eta
//
// phi(1) = 8/15. It is 0 for eta <= 0.
//
// Source: derived; the second form is the reciprocal-modulus transformation of
// the first. Checked against quadrature.
func SideOutletPhi(eta float64) float64 {
	switch {
	case eta <= 0:
		return 0
	case eta <= phiSeriesBelow:
		return phiSmall(eta)
	case eta < 1:
		return 4.0 / 15 * (2*(1-eta+eta*eta)*mathext.CompleteE(eta) - (1-eta)*(2-eta)*mathext.CompleteK(eta))
	case eta == 1:
		return 8.0 / 15
	case eta < phiSeriesAbove:
		m := 1 / eta
		return 4.0 / 15 * math.Sqrt(eta) * (2*(1-eta+eta*eta)*mathext.CompleteE(m) - (eta-1)*(2*eta-1)*mathext.CompleteK(m))
	}
	// Mean of sqrt(head) over the disc, with x = 1/(head at the centre)^2.
	head := eta - 0.5
	x := 1 / (head * head)
	return math.Pi / 4 * math.Sqrt(head) * (1 - x*(1.0/128+x*(5.0/16384+x*105.0/4194304)))
}

// phiSmall sums phi = 2 eta^2 sum c_n B(n+3/2, 3/2) eta^n, c_n the binomial
// coefficients of sqrt(1-x), for small eta.
func phiSmall(eta float64) float64 {
	term := math.Pi / 8
	sum := term
	for n := 1.0; n < 40; n++ {
		term *= eta * (n - 1.5) / n * (n + 0.5) / (n + 2)
		sum += term
		if math.Abs(term) < 1e-17 {
			break
		}
	}
	return 2 * eta * eta * sum
}

// SideOutletPhiSlope returns dphi/deta, in closed form as SideOutletPhi:
//
//	eta < 1: (2/3) [(2 eta-1) E(m) + (1-eta) K(m)], m = eta
//	eta > 1: (2/3) sqrt(eta) [(2 eta-1) E(m) - 2(eta-1) K(m)], m = 1/eta
//
// It is 0 for eta <= 0 and good to about 1e-11.
func SideOutletPhiSlope(eta float64) float64 {
	switch {
	case eta <= 0:
		return 0
	case eta < 1e-3:
		// pi eta/2 (1 - 3 eta/16 ...), the derivative of phiSmall
		return math.Pi / 2 * eta * (1 - eta*(3.0/8)*(1+eta*5.0/24))
	case eta < 1:
		return 2.0 / 3 * ((2*eta-1)*mathext.CompleteE(eta) + (1-eta)*mathext.CompleteK(eta))
	case eta == 1:
		return 2.0 / 3
	case eta < phiSeriesAbove:
		m := 1 / eta
		return 2.0 / 3 * math.Sqrt(eta) * ((2*eta-1)*mathext.CompleteE(m) - 2*(eta-1)*mathext.CompleteK(m))
	}
	head := eta - 0.5
	x := 1 / (head * head)
	return math.Pi / 8 / math.Sqrt(head) * (1 + x*(3.0/128+x*(35.0/16384+x*1155.0/4194304)))
}

// SideOutletFlow returns the flow (m3/s) through a circular opening of bore d in
// a vertical wall, with the level h above its invert: cd sqrt(2g) d^2.5
// phi(h/d). It is a weir while h < d and an orifice above. cd is about 0.60
// (CdOutlet); a pipe behind it must pass its own limit as well.
func SideOutletFlow(cd, d, h float64) float64 {
	return cd * math.Sqrt(2*G*d) * d * d * SideOutletPhi(h/d)
}

// SideOutletHead returns the level (m) above the invert for flow q: the inverse
// of SideOutletFlow, 0 for q <= 0.
func SideOutletHead(cd, d, q float64) float64 {
	if q <= 0 {
		return 0
	}
	target := q / (cd * math.Sqrt(2*G*d) * d * d)
	lo, hi := 0.0, 1.0
	for SideOutletPhi(hi) < target {
		lo, hi = hi, hi*2
	}
	for range 200 {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			break
		}
		if SideOutletPhi(mid) < target {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2 * d
}
