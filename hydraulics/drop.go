package hydraulics

import (
	"math"

	"rillwright/fluid"
)

// DropVolume returns the volume (m3) of a drop that falls from a wetted tip of
// radius r (m): the outer radius if the end face is wetted.
//
//	V = 2 pi r sigma psi(y)/(rho g), y = r/V^(1/3)
//
// ok is false when y comes out at 1.2 or more (a radius over about 7 mm in clean
// water), beyond the fit of psi, or r is not positive; the volume is then 0.
//
// Source: Harkins & Brown 1919, J. Am. Chem. Soc. 41:499, with psi as fitted by
// Lee, Chan & Pogaku 2008, Chem. Eng. Res. Des. 86 (from memory).
func DropVolume(r float64, w fluid.Water) (v float64, ok bool) {
	if !(r > 0) || math.IsInf(r, 1) {
		return 0, false
	}
	tate := TateVolume(r, w)
	// y solves y^3 psi(y) = r^3/tate; the left side rises on 0 to 1.2.
	target := r * r * r / tate
	lo, hi := 0.0, 1.2
	if hi*hi*hi*harkinsBrown(hi) <= target {
		return 0, false
	}
	for range 60 {
		y := (lo + hi) / 2
		if y*y*y*harkinsBrown(y) < target {
			lo = y
		} else {
			hi = y
		}
	}
	return tate * harkinsBrown((lo+hi)/2), true
}

// TateVolume returns the volume (m3) of the largest drop that surface tension
// could carry at a tip of radius r: 2 pi r sigma/(rho g). Real drops leave part
// of it behind; see DropVolume.
func TateVolume(r float64, w fluid.Water) float64 {
	return 2 * math.Pi * r * w.SurfaceTension / (w.Density * G)
}

// harkinsBrown returns the fraction psi of Tate's volume that falls.
func harkinsBrown(y float64) float64 {
	return 1 + y*(-0.9121+y*(-2.109+y*(13.38+y*(-27.29+y*(27.53+y*(-13.58+y*2.593))))))
}

// Jetting is the limit between dripping and jetting of a tube that points down.
type Jetting struct {
	BondBore float64 // sqrt(rho g D^2/(2 sigma)) on the bore
	BondTip  float64 // the same on the outside diameter
	Weber    float64 // critical rho V^2 D/sigma on the bore
	Velocity float64 // critical mean velocity in the bore, m/s
	Flow     float64 // critical flow, m3/s: above it the tube jets
}

// JettingLimit returns the limit at which a tube of the given bore and outside
// diameter (m), pointing down, goes from dripping to jetting:
//
//	We = 4 (Bo_o/Bo) [1 + x - sqrt((1+x)^2 - 1)]^2, x = 0.37 Bo_o Bo
//
// For water in air; not for holes that face sideways.
//
// Source: Clanet & Lasheras 1999, J. Fluid Mech. 383:307 (formula from memory).
func JettingLimit(bore, outside float64, w fluid.Water) Jetting {
	const k = 0.37
	bo := math.Sqrt(w.Density * G / (2 * w.SurfaceTension))
	j := Jetting{BondBore: bo * bore, BondTip: bo * outside}
	x := k * j.BondBore * j.BondTip
	y := 1 + x - math.Sqrt(x*(x+2))
	j.Weber = 4 * j.BondTip / j.BondBore * y * y
	j.Velocity = math.Sqrt(j.Weber * w.SurfaceTension / (w.Density * bore))
	j.Flow = j.Velocity * CircleArea(bore)
	return j
}
