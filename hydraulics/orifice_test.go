package hydraulics

import (
	"math"
	"testing"
)

func TestOrificeTable(t *testing.T) {
	for _, r := range rows(t, "orifice") {
		w := water(t, r.num("t_C"))
		d, h := r.num("d_m"), r.num("h_m")
		re := OrificeReynolds(d, h, w.Kinematic)
		r.want("Re", re)
		cd, _ := ThinHoleCd(re)
		r.want("cd_thin", cd)
		q, _ := ThinHoleFlow(d, h, w.Kinematic)
		r.want("q_thin_Lh", q/litrePerHour)
		thick, ok := ThickHoleCd(re, 2)
		if !ok {
			t.Errorf("row %d: thick hole said to be out of range", r.line)
		}
		r.want("cd_thick_Ld2", thick)
		r.want("q_thick_Lh", OrificeFlow(thick, CircleArea(d), h)/litrePerHour)
		q = OrificeFlow(CdSharp, CircleArea(d), h)
		r.want("q_cd061_Lh", q/litrePerHour)
		if back := OrificeHead(CdSharp, CircleArea(d), q); !within(back, h, 1e-14) {
			t.Errorf("row %d: head %g comes back as %g", r.line, h, back)
		}
		r.want("h_capillary_m", CapillaryHead(d, w))
	}
}

// Encyclopaedia Britannica, 11th ed. (1911), article "Hydraulics": coefficients
// measured on sharp circular holes of 1/2 inch at heads of 1 to 20 ft lie between
// 0.603 and 0.620. The water's temperature is not given; 15 C here moves Cd by
// less than 1e-4.
func TestThinHoleAgainstMeasurement(t *testing.T) {
	w := water(t, 15)
	for _, feet := range []float64{1, 2, 4, 6, 10, 20} {
		cd, _ := ThinHoleCd(OrificeReynolds(0.5*inch, feet*0.3048, w.Kinematic))
		if cd < 0.603 || cd > 0.620 {
			t.Errorf("%g ft: Cd %.4f outside 0.603 to 0.620", feet, cd)
		}
	}
}

func TestThinHoleSlope(t *testing.T) {
	for _, re := range []float64{1, 30, 350, 2000, 2e4} {
		checkSlope(t, "thin Cd", re, ThinHoleCd)
	}
	for _, h := range []float64{0.001, 0.02, 0.5, 3} {
		checkSlope(t, "thin hole flow", h, func(x float64) (float64, float64) { return ThinHoleFlow(0.0015, x, 1e-6) })
	}
	// The peak that the comment names.
	_, before := ThinHoleCd(100)
	_, after := ThinHoleCd(150)
	if before <= 0 || after >= 0 {
		t.Errorf("slopes %g and %g do not frame a peak near Re 120", before, after)
	}
}

func TestOrificeAtAndBelowZero(t *testing.T) {
	if q := OrificeFlow(0.6, 1, -1); q != 0 {
		t.Errorf("flow %g under no head", q)
	}
	if q, s := ThinHoleFlow(0.001, 0, 1e-6); q != 0 || s != 0 {
		t.Errorf("flow %g, slope %g under no head", q, s)
	}
	if cd, s := ThinHoleCd(0); cd != 0 || !math.IsInf(s, 1) {
		t.Errorf("Cd %g, slope %g at rest", cd, s)
	}
	if h := OrificeHead(0.6, 1, -1); h != 0 {
		t.Errorf("head %g for no flow", h)
	}
}

func TestThickHoleRange(t *testing.T) {
	for _, c := range []struct {
		re, l float64
		ok    bool
	}{{1000, 2, true}, {1000, 10, true}, {10, 5, true}, {2e4, 5, true}, {1000, 1.9, false}, {1000, 10.1, false}, {9, 5, false}, {2.1e4, 5, false}} {
		if _, ok := ThickHoleCd(c.re, c.l); ok != c.ok {
			t.Errorf("Re %g, L/d %g: ok = %v", c.re, c.l, ok)
		}
	}
}
