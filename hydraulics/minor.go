package hydraulics

import "math"

const inch = 0.0254 // m

// Loss coefficients of pipe ends, on the velocity in the pipe.
const (
	// EntranceSharp is a pipe flush with the wall, square edge. Source: Crane
	// TP-410; Rennels & Hudson 2012 give 0.57 (both from memory).
	EntranceSharp = 0.5
	// ExitTurbulent is the velocity head lost in a tank or in the open. Source:
	// energy argument.
	ExitTurbulent = 1.0
)

// KModel is a loss coefficient that falls with the Reynolds number,
//
//	K = K1/Re + KInf
//
// both on the bore the fitting is referred to. In drip lines Re is 500 to
// 10 000, where a constant K is far too low.
type KModel struct {
	K1, KInf float64
}

// At returns K and dK/dRe at Reynolds number re > 0.
func (m KModel) At(re float64) (k, dkdre float64) {
	x := m.K1 / re
	return x + m.KInf, -x / re
}

// Plus returns the model of both fittings one after the other in the same bore.
func (m KModel) Plus(n KModel) KModel {
	return KModel{m.K1 + n.K1, m.KInf + n.KInf}
}

// Times returns the model of n such fittings in the same bore.
func (m KModel) Times(n float64) KModel {
	return KModel{m.K1 * n, m.KInf * n}
}

// ConstantK returns the model of a coefficient that does not depend on Re.
func ConstantK(k float64) KModel { return KModel{KInf: k} }

// Hooper2K returns the two-constant model K = k1/Re + kInf (1 + 1/D), D the
// bore in inches.
//
// Source: Hooper 1981, Chem. Eng., 24 August. Against Darby3K it differs by up
// to 40 %: that is the honest uncertainty of fittings at these bores.
func Hooper2K(k1, kInf, boreInches float64) KModel {
	return KModel{K1: k1, KInf: kInf * (1 + 1/boreInches)}
}

// Darby3K returns the three-constant model K = k1/Re + ki (1 + kd/Dn^0.3), Dn
// the nominal size in inches.
//
// Source: Darby 2001, Chemical Engineering Fluid Mechanics, ch. 7.
func Darby3K(k1, ki, kd, nominalInches float64) KModel {
	return KModel{K1: k1, KInf: ki * (1 + kd/math.Pow(nominalInches, 0.3))}
}

// Contraction returns K of a sudden contraction between bores d1 and d2, on the
// velocity in the smaller. The order of the two does not matter; equal bores
// give 0.
//
// Source: Rennels & Hudson 2012, Pipe Flow, sharp-edged contraction.
func Contraction(d1, d2 float64) float64 {
	b := min(d1, d2) / max(d1, d2)
	b2 := b * b
	b5 := b2 * b2 * b
	l := 1 + 0.622*(1-0.215*b2-0.785*b5)
	return 0.0696*(1-b5)*l*l + (l-1)*(l-1)
}

// Expansion returns K of a sudden expansion between bores d1 and d2, on the
// velocity in the smaller: (1 - b^2)^2 with b = smaller/larger (Borda-Carnot).
// The order of the two does not matter; equal bores give 0.
func Expansion(d1, d2 float64) float64 {
	b := min(d1, d2) / max(d1, d2)
	x := 1 - b*b
	return x * x
}

// InsertFitting returns K of an insert (barbed) fitting in a hose: contraction
// into the barb bore and expansion out of it, on the velocity in the hose. The
// friction of the barb bore itself is to be added as a length of pipe. A barb as
// wide as the hose or wider gives 0.
//
// Source: composition of Contraction and Expansion. Treat +-30 % as the band
// in bores under 15 mm.
func InsertFitting(dHose, dBarb float64) float64 {
	if dBarb >= dHose {
		return 0
	}
	return ReferTo(Contraction(dHose, dBarb)+Expansion(dBarb, dHose), dBarb, dHose)
}

// ReferTo returns the coefficient on the velocity in bore dTo of a loss whose
// coefficient k is on the velocity in bore dFrom: k (dTo/dFrom)^4.
func ReferTo(k, dFrom, dTo float64) float64 {
	r := dTo / dFrom
	r *= r
	return k * r * r
}

// ValveK returns K, on the velocity in bore d (m), of a valve with flow
// coefficient kv: its flow of water in m3/h at a loss of 1 bar.
//
// Source: definition of Kv, K = 1.6e9 d^4/kv^2. The factor is the customary
// rounding of 2e5 * 3600^2 (pi/4)^2 / 1000 = 1.599e9.
func ValveK(kv, d float64) float64 {
	d2 := d * d
	return 1.6e9 * d2 * d2 / (kv * kv)
}
