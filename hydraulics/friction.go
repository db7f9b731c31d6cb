package hydraulics

import "math"

// Limits of the flow regimes in a pipe, as Reynolds numbers on the bore.
const (
	ReLaminar   = 2000 // at and below: laminar
	ReTurbulent = 4000 // at and above: turbulent; between: transition
)

// Absolute roughness, m.
const (
	// RoughnessSmooth is for new PVC, PEX, PE, glass and acrylic tube.
	// Source: Moody 1944, drawn or smooth tubing (from memory).
	RoughnessSmooth = 1.5e-6
	// RoughnessVinylHose is a stand-in for soft PVC hose, the figure that
	// tables give for plastic-coated pipe.
	RoughnessVinylHose = 5e-6
	// RoughnessBiofilm is a stress case for an old line. No source: an
	// engineering assumption to be run as a sensitivity.
	RoughnessBiofilm = 1e-4
)

// FrictionFactor returns the Darcy friction factor f and its derivative df/dRe
// for a full circular pipe at Reynolds number re and relative roughness rel =
// roughness/bore. See Friction for the equations; for many calls at the same
// roughness NewFriction is faster in the transition.
func FrictionFactor(re, rel float64) (f, dfdre float64) {
	switch {
	case re <= ReLaminar:
		return laminar(re)
	case re >= ReTurbulent:
		return colebrook(re, rel/3.7)
	}
	return NewFriction(rel).At(re)
}

// Friction gives the Darcy friction factor at one relative roughness. The zero
// value is not usable; make one with NewFriction.
//
//	Re <= 2000:        f = 64/Re (Hagen-Poiseuille)
//	2000 < Re < 4000:  cubic in Re, equal in value and slope at both ends
//	Re >= 4000:        1/sqrt f = -2 log10(rel/3.7 + 2.51/(Re sqrt f))
//
// The last is Colebrook 1939, J. ICE 11:133, solved to about 1e-14. A cubic
// across the transition is published practice (Dunlop 1991, as described by
// Simpson & Elhay 2011, J. Hydraul. Eng. 137:696, from memory); tying it to
// exact Colebrook is this package's choice. f Re^2 rises strictly for rel from
// 0 to 0.05, so head loss is monotone in flow. In the transition measured
// values differ from the bridge by -22 % to +12 %: quote +-25 % there, and use
// TurbulentFactor for a worst case.
type Friction struct {
	a      float64 // rel/3.7
	f4     float64 // Colebrook at Re = 4000
	slope4 float64 // 2000 df/dRe at Re = 4000
}

// NewFriction prepares the friction factor for relative roughness rel =
// roughness/bore, 0 to 0.05.
func NewFriction(rel float64) Friction {
	a := rel / 3.7
	f4, d4 := colebrook(ReTurbulent, a)
	return Friction{a: a, f4: f4, slope4: (ReTurbulent - ReLaminar) * d4}
}

// At returns the friction factor f and df/dRe at Reynolds number re >= 0. At
// re = 0 they are +Inf and -Inf: in a head-loss formula use the product f Re,
// which is 64, as Pipe does.
func (fr Friction) At(re float64) (f, dfdre float64) {
	switch {
	case re <= ReLaminar:
		return laminar(re)
	case re >= ReTurbulent:
		return colebrook(re, fr.a)
	}
	// Hermite cubic on x from 0 to 1. At Re = 2000 f is 0.032 and
	// 2000 df/dRe is -0.032.
	const (
		span   = ReTurbulent - ReLaminar
		f2     = 64.0 / ReLaminar
		slope2 = -f2 / ReLaminar * span
	)
	x := (re - ReLaminar) / span
	// f = f2 + x (slope2 + x (c2 + x c3))
	rise := fr.f4 - f2
	c2 := 3*rise - 2*slope2 - fr.slope4
	c3 := slope2 + fr.slope4 - 2*rise
	f = f2 + x*(slope2+x*(c2+x*c3))
	dfdre = (slope2 + x*(2*c2+3*x*c3)) / span
	return f, dfdre
}

// TurbulentFactor returns Colebrook's f and df/dRe whatever the regime, for
// re > 0. In the transition the larger of this and At bounds the loss from
// above. Below Re about 1000 it means nothing.
func (fr Friction) TurbulentFactor(re float64) (f, dfdre float64) {
	return colebrook(re, fr.a)
}

func laminar(re float64) (f, dfdre float64) {
	f = 64 / re
	return f, -f / re
}

// colebrook solves s + c ln(a + b s) = 0, s = 1/sqrt f, by Halley's iteration,
// re > 0.
//
// Why so: the logarithm is the whole cost. A start good to 0.01 comes from
// rough logarithms, Halley's step (the curvature is free) cubes the error, and
// the second step takes the logarithm of its slightly moved argument from a
// series. One true logarithm serves for full accuracy.
func colebrook(re, a float64) (f, dfdre float64) {
	const c = 2 / math.Ln10
	b := 2.51 / re
	s := 8.0
	for range 3 {
		s = -c * math.Ln2 * roughLog2(a+b*s)
	}
	var arg, ln, step float64
	for range 20 {
		arg = a + b*s
		ln = math.Log(arg)
		step = halley(s, c*ln, c*b/arg)
		s -= step
		// Passed at the first turn for Re >= 2000. It keeps x below under
		// 0.02, where the series is good to 1e-13.
		if math.Abs(step) < 0.05 {
			break
		}
	}
	x := -b * step / arg
	ln += x * (1 - x*(1.0/2-x*(1.0/3-x*(1.0/4-x*(1.0/5-x*(1.0/6))))))
	arg *= 1 + x
	s -= halley(s, c*ln, c*b/arg)
	u := c * b / (a + b*s)
	f = 1 / (s * s)
	// ds/dRe = s u/(Re (1+u)) from the implicit equation
	return f, -2 * f * u / (re * (1 + u))
}

// halley returns the step by which s is too large, for the residual s + cln,
// cln = c ln(a + b s), and u = c b/(a + b s): its slope is 1 + u, its second
// derivative -u^2/c.
func halley(s, cln, u float64) float64 {
	res := s + cln
	slope := 1 + u
	return res / (slope + res*u*u*(math.Ln10/4)/slope)
}

// roughLog2 returns log2 x within 0.01 for normal x > 0: the exponent, and a
// parabola for the fraction.
func roughLog2(x float64) float64 {
	const fraction, bias = 1<<52 - 1, 1023
	bits := math.Float64bits(x)
	m := math.Float64frombits(bits&fraction | bias<<52)
	return float64(int(bits>>52)-bias) + (2-m/3)*m - 5.0/3
}
