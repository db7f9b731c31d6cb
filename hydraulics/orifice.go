package hydraulics

import (
	"math"

	"rillwright/fluid"
)

// Discharge coefficients where no better figure is at hand.
const (
	// CdSharp is the large-Reynolds value of a sharp hole in thin wall; use it
	// for the capacity of drilled holes. Measured 0.603 to 0.620 (Encyclopaedia
	// Britannica, 11th ed., "Hydraulics").
	CdSharp = 0.61
)

// CircleArea returns the area of a circle of diameter d.
func CircleArea(d float64) float64 { return math.Pi / 4 * d * d }

// OrificeReynolds returns the Reynolds number d sqrt(2 g h)/nu on which ThinHoleCd and
// ThickHoleCd are based: that of the ideal jet. It is 0 for head <= 0.
func OrificeReynolds(d, head, kinematic float64) float64 {
	if head <= 0 {
		return 0
	}
	return d * math.Sqrt(2*G*head) / kinematic
}

// CdOpening is the discharge coefficient of a sharp opening between two waters,
// under a baffle or in a pane. Source: Idelchik, Handbook of Hydraulic Resistance
// (from memory): 0.60 to 0.62.
const CdOpening = 0.6

// OpeningFlow returns the flow (m3/s) through an opening between two waters under a
// head difference of either sign (m). Within the head still (m, over 0) the flow
// turns from growing with the root of the head to growing with the head itself,
// as slow flow does; without it the slope at no head has no end.
func OpeningFlow(area, head, still float64) float64 {
	return CdOpening * area * math.Sqrt(2*G) * head / math.Sqrt(math.Abs(head)+still)
}

// OrificeFlow returns the free discharge of a hole of the given area (m2) under
// head (m) above its outlet, m3/s: cd A sqrt(2 g h). It is 0 for head <= 0.
func OrificeFlow(cd, area, head float64) float64 {
	if head <= 0 {
		return 0
	}
	return cd * area * math.Sqrt(2*G*head)
}

// OrificeHead returns the head (m) that drives flow q through a hole: the
// inverse of OrificeFlow, 0 for q <= 0.
func OrificeHead(cd, area, q float64) float64 {
	if q <= 0 {
		return 0
	}
	v := q / (cd * area)
	return v * v / (2 * G)
}

// ThinHoleCd returns the discharge coefficient of a thin sharp hole and its
// derivative dCd/dRe, at re = OrificeReynolds:
//
//	Cd = 0.61 [1 + 1.07 exp(-0.126 sqrt Re) - 2.07 exp(-0.246 sqrt Re)]
//
// It starts from 0 at Re = 0 with unbounded slope (0 and +Inf for re <= 0),
// peaks near Re 120 and tends to 0.61.
//
// Source: Wu, Burton & Schoenau 2002, Int. J. Fluid Power 3(3), from memory;
// the basis of Re in the paper was not read again. For a drilled pipe wall
// (length 0.7 to 2 diameters) the jet may attach or not and the flow differs by
// 30 % from hole to hole.
func ThinHoleCd(re float64) (cd, dcddre float64) {
	if re <= 0 {
		return 0, math.Inf(1)
	}
	const c, a1, a2, k1, k2 = 0.61, 1.07, 2.07, 0.126, 0.246
	r := math.Sqrt(re)
	e1 := a1 * math.Exp(-k1*r)
	e2 := a2 * math.Exp(-k2*r)
	return c * (1 + e1 - e2), c * (k2*e2 - k1*e1) / (2 * r)
}

// ThinHoleFlow returns the flow (m3/s) of a thin sharp hole of diameter d under
// head h (m), and dq/dh. Both are 0 for head <= 0. Close above zero head the
// slope grows without bound as h^-1/4; a solver needs its own patch there.
func ThinHoleFlow(d, head, kinematic float64) (q, dqdh float64) {
	if head <= 0 {
		return 0, 0
	}
	v := math.Sqrt(2 * G * head)
	re := d * v / kinematic
	cd, dcd := ThinHoleCd(re)
	area := CircleArea(d)
	return cd * area * v, area * (cd + re*dcd) * G / v
}

// ThickHoleCd returns the discharge coefficient of a square-edged hole of length
// lOverD diameters that runs full, at re = OrificeReynolds:
//
//	1/Cd = 1/Cu + (20/Re)(1 + 2.25 L/d) - 0.005 (L/d)/(1 + 7.5 (log10 0.00015 Re)^2)
//	Cu = 0.827 - 0.0085 L/d
//
// ok is false outside 2 <= L/d <= 10 and 10 <= Re <= 2e4; the figure is
// returned all the same.
//
// Source: Lichtarowicz, Duggins & Markland 1965, J. Mech. Eng. Sci. 7:210, from
// memory.
func ThickHoleCd(re, lOverD float64) (cd float64, ok bool) {
	cu := 0.827 - 0.0085*lOverD
	lg := math.Log10(0.00015 * re)
	inv := 1/cu + 20/re*(1+2.25*lOverD) - 0.005*lOverD/(1+7.5*lg*lg)
	return 1 / inv, lOverD >= 2 && lOverD <= 10 && re >= 10 && re <= 2e4
}

// CapillaryHead returns the head (m) below which a hole of diameter d in a wall
// does not start to run: 4 sigma/(rho g d). Flag a working head under twice
// this.
//
// Source: Laplace pressure of a hemispherical cap on the hole's edge.
func CapillaryHead(d float64, w fluid.Water) float64 {
	return 4 * w.SurfaceTension / (w.Density * G * d)
}
