package hydraulics

import (
	"fmt"
	"math"
)

// Curve is a pump's head against flow: Head returns the head (m) at flow q
// (m3/s) and the slope dh/dq.
type Curve interface {
	Head(q float64) (h, dhdq float64)
}

// PowerCurve is the pump curve H = H0 - A q^C, in m and m3/s.
type PowerCurve struct {
	H0 float64 // head at no flow, m
	A  float64
	C  float64 // exponent, > 0
}

// Head returns the head and its slope at flow q. For q < 0 (water pushed back
// through the pump) the curve continues as H0 + A |q|^C, which keeps value,
// slope and sense; it is for a solver's iterates, not a statement about the
// pump. With C < 1 the slope at q = 0 is -Inf. Beyond ZeroHeadFlow the head is
// negative.
func (p PowerCurve) Head(q float64) (h, dhdq float64) {
	if q == 0 {
		switch {
		case p.C > 1:
			return p.H0, 0
		case p.C < 1:
			return p.H0, math.Inf(-1)
		}
		return p.H0, -p.A
	}
	x := math.Abs(q)
	t := p.A * math.Pow(x, p.C)
	return p.H0 - math.Copysign(t, q), -p.C * t / x
}

// Flow returns the flow at which the pump gives head h: the inverse of Head,
// 0 for h >= H0 (a check valve holds).
func (p PowerCurve) Flow(h float64) float64 {
	if h >= p.H0 {
		return 0
	}
	return math.Pow((p.H0-h)/p.A, 1/p.C)
}

// ZeroHeadFlow returns the flow at zero head, (H0/A)^(1/C).
func (p PowerCurve) ZeroHeadFlow() float64 { return p.Flow(0) }

// AtSpeed returns the curve at speed ratio s by the affinity laws: flow times s,
// head times s^2. They fail near shut-off for small magnetic-drive pumps.
func (p PowerCurve) AtSpeed(s float64) PowerCurve {
	return PowerCurve{H0: p.H0 * s * s, A: p.A * math.Pow(s, 2-p.C), C: p.C}
}

// FitPowerCurve returns the PowerCurve through the shut-off head h0 and the
// points (q1, h1), (q2, h2): C = ln[(h0-h2)/(h0-h1)]/ln(q2/q1), A =
// (h0-h1)/q1^C. It fails unless 0 < q1 < q2 and h0 > h1 > h2, all finite.
func FitPowerCurve(h0, q1, h1, q2, h2 float64) (PowerCurve, error) {
	for _, v := range []float64{h0, q1, h1, q2, h2} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return PowerCurve{}, fmt.Errorf("pump curve: %g is not a finite number", v)
		}
	}
	if !(0 < q1 && q1 < q2) {
		return PowerCurve{}, fmt.Errorf("pump curve: flows must satisfy 0 < q1 < q2, got %g and %g m3/s", q1, q2)
	}
	if !(h0 > h1 && h1 > h2) {
		return PowerCurve{}, fmt.Errorf("pump curve: heads must fall with flow, got %g, %g, %g m", h0, h1, h2)
	}
	c := math.Log((h0-h2)/(h0-h1)) / math.Log(q2/q1)
	return PowerCurve{H0: h0, A: (h0 - h1) / math.Pow(q1, c), C: c}, nil
}

// LabelCurve returns the curve of a pump of which only the largest head hMax
// (m, at no flow) and largest flow qMax (m3/s, at no head) are known: H =
// hMax [1 - (q/qMax)^exponent]. Real pumps lie between exponent 1 and 2; run
// both and report the spread. No source: an engineering assumption.
func LabelCurve(hMax, qMax, exponent float64) (PowerCurve, error) {
	if !(hMax > 0 && qMax > 0 && exponent > 0) || math.IsInf(hMax, 0) || math.IsInf(qMax, 0) || math.IsInf(exponent, 0) {
		return PowerCurve{}, fmt.Errorf("pump curve: largest head %g m, largest flow %g m3/s and exponent %g must be positive and finite", hMax, qMax, exponent)
	}
	return PowerCurve{H0: hMax, A: hMax / math.Pow(qMax, exponent), C: exponent}, nil
}

// HydraulicPower returns the power (W) that goes into the water: rho g q h. All
// the electrical power of a submerged pump ends as heat in the water; this part
// of it by way of friction.
func HydraulicPower(density, q, h float64) float64 { return density * G * q * h }
