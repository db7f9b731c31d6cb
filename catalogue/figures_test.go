package catalogue

import (
	"math"
	"slices"
	"testing"

	"rillwright/quantity"
)

// Mean bore = outside - (least + greatest wall). Figures of the table in mm:
// ASTM D1785 tables 1 and 2 with wall tolerance +0.020 in (sch 40); ASTM F876
// with +0.010 in, 1 in +0.013 in (PEX); EN ISO 1452-2 with tolerance
// 0.1 e + 0.2 mm (metric); hose by definition; irrigation tube trade-typical.
// Tolerance: half of the last digit of the figures as printed.
func TestBores(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct {
		name                     string
		outside, wall, mean, max float64 // mm; outside and wall 0: not checked
		digits                   int
	}{
		{"rigid pipe 3/8 in sch 40", 17.145, 2.3114, 12.0142, 12.5222, 4},
		{"rigid pipe 1/2 in sch 40", 21.336, 2.7686, 15.2908, 15.7988, 4},
		{"rigid pipe 3/4 in sch 40", 26.67, 2.8702, 20.4216, 20.9296, 4},
		{"rigid pipe 1 in sch 40", 33.401, 3.3782, 26.1366, 26.6446, 4},
		{"rigid pipe 1 1/4 in sch 40", 42.164, 3.556, 34.544, 35.052, 4},
		{"rigid pipe 1 1/2 in sch 40", 48.26, 3.683, 40.386, 40.894, 4},
		{"rigid pipe 2 in sch 40", 60.325, 3.9116, 51.9938, 52.5018, 4},
		{"PEX tube 3/8 in", 12.7, 1.778, 8.89, 9.144, 4},
		{"PEX tube 1/2 in", 15.875, 1.778, 12.065, 12.319, 4},
		{"PEX tube 3/4 in", 22.225, 2.4638, 17.0434, 17.2974, 4},
		{"PEX tube 1 in", 28.575, 3.175, 21.8948, 22.225, 4},
		{"rigid pipe 32 mm PN10", 32, 1.6, 28.44, 28.8, 2},
		{"rigid pipe 40 mm PN10", 40, 1.9, 35.81, 36.2, 2},
		{"rigid pipe 50 mm PN10", 50, 2.4, 44.76, 45.2, 2},
		{"rigid pipe 20 mm PN16", 20, 1.5, 16.65, 17, 2},
		{"rigid pipe 25 mm PN16", 25, 1.9, 20.81, 21.2, 2},
		{"rigid pipe 32 mm PN16", 32, 2.4, 26.76, 27.2, 2},
		{"rigid pipe 40 mm PN16", 40, 3, 33.5, 34, 2},
		{"rigid pipe 50 mm PN16", 50, 3.7, 42.03, 42.6, 2},
		{"rigid pipe 16 mm PN20", 16, 1.5, 12.65, 13, 2},
		{"rigid pipe 20 mm PN20", 20, 1.9, 15.81, 16.2, 2},
		{"rigid pipe 25 mm PN20", 25, 2.3, 19.97, 20.4, 2},
		{"rigid pipe 32 mm PN20", 32, 2.9, 25.71, 26.2, 2},
		{"rigid pipe 40 mm PN20", 40, 3.7, 32.03, 32.6, 2},
		{"rigid pipe 50 mm PN20", 50, 4.6, 40.14, 40.8, 2},
		{"vinyl hose 1/8 in", 0, 0, 3.175, 0, 4},
		{"vinyl hose 3/16 in", 0, 0, 4.7625, 0, 4},
		{"vinyl hose 1/4 in", 0, 0, 6.35, 0, 4},
		{"vinyl hose 5/16 in", 0, 0, 7.9375, 0, 4},
		{"vinyl hose 3/8 in", 0, 0, 9.525, 0, 4},
		{"vinyl hose 1/2 in", 0, 0, 12.7, 0, 4},
		{"vinyl hose 5/8 in", 0, 0, 15.875, 0, 4},
		{"vinyl hose 3/4 in", 0, 0, 19.05, 0, 4},
		{"vinyl hose 1 in", 0, 0, 25.4, 0, 4},
		{"vinyl hose 16 mm", 22, 0, 16, 0, 4},
		{"irrigation tube 16 mm", 16, 0, 13.6, 0, 3},
		{"irrigation tube 1/2 in", 17.78, 0, 15.24, 0, 3},
		{"irrigation tube 1/4 in", 6.35, 0, 4.318, 0, 3},
	} {
		p := find(t, c, w.name)
		tol := 0.5 * math.Pow(10, -float64(w.digits)) * 1.001
		check := func(what string, got quantity.Length, want float64) {
			if want > 0 && math.Abs(float64(got)/mm-want) > tol {
				t.Errorf("%s: %s %.5f mm, want %g", w.name, what, float64(got)/mm, want)
			}
		}
		check("outside", p.Outside, w.outside)
		check("mean bore", p.Bore.Likely, w.mean)
		check("greatest bore", p.Bore.High, w.max)
		if w.wall > 0 {
			check("least wall", (p.Outside-p.Bore.High)/2, w.wall)
			if d := p.Outside - 2*p.Wall - p.Bore.Likely; math.Abs(float64(d)) > 1e-9 {
				t.Errorf("%s: mean wall and mean bore differ by %g m", w.name, float64(d))
			}
		}
	}
}

// Rows of Darby 2001, Chemical Engineering Fluid Mechanics, ch. 7 (3-K).
func TestLosses(t *testing.T) {
	c := builtin(t)
	for _, w := range []struct {
		name          string
		k1, kinf, kd  float64
		nominalInches float64
	}{
		{"elbow 90 threaded 1/2 in", 800, 0.14, 4, 0.5},
		{"elbow 90 long radius threaded 1 1/4 in", 800, 0.071, 4.2, 1.25},
		{"elbow 45 threaded 3/4 in", 500, 0.071, 4.2, 0.75},
		{"gate valve threaded 1/2 in", 300, 0.037, 3.9, 0.5},
		{"ball valve threaded 1 in", 300, 0.017, 3.5, 1},
		{"globe valve threaded 1/2 in", 1500, 1.7, 3.6, 0.5},
		{"check valve threaded 1/2 in", 1500, 0.46, 4, 0.5},
		{"check valve barbed 1/2 in", 2000, 2.85, 3.8, 0.5},
		{"tee threaded 1/2 in", 500, 0.274, 4, 0.5},
	} {
		l := find(t, c, w.name).Loss
		if l.Method != LossThreeK || l.K1 != w.k1 || l.KInf != w.kinf || l.Kd != w.kd || l.NominalInches != w.nominalInches {
			t.Errorf("%s: %+v, want %+v", w.name, l, w)
		}
	}
	if l := find(t, c, "tee threaded 1/2 in").Through; l.K1 != 200 || l.KInf != 0.091 || l.Kd != 4 {
		t.Errorf("tee straight through: %+v", l)
	}
}

// A pond shop's flow graph: largest head 4 ft; 96, 76 and 48 US gal/h at 1, 2
// and 3 ft. 1 US gal = 3.785411784 L exactly (NIST Handbook 44).
func TestPumps(t *testing.T) {
	c := builtin(t)
	p := find(t, c, "pump curve 96 US gal/h at 1 ft")
	want := []Point{{0, 4 * 0.3048}, {48 * 3.785411784e-3 / 3600, 3 * 0.3048}, {76 * 3.785411784e-3 / 3600, 2 * 0.3048}, {96 * 3.785411784e-3 / 3600, 0.3048}}
	if !slices.EqualFunc(p.Curve, want, func(a, b Point) bool {
		return math.Abs(float64(a.Flow-b.Flow)) < 1e-15 && math.Abs(float64(a.Head-b.Head)) < 1e-12
	}) {
		t.Errorf("curve %v, want %v", p.Curve, want)
	}
	if p.Label.Flow != 0 || p.Label.Head != p.Curve[0].Head {
		t.Errorf("label %v", p.Label)
	}
	labels := 0
	for _, p := range c.Parts() {
		if p.Kind == KindPump && p.Label.Flow > 0 {
			labels++
		}
	}
	if labels < 30 {
		t.Errorf("%d pump classes, want at least 30", labels)
	}
	got := c.PumpsAtLeast(1100*litrePerHour, 2.3)
	if len(got) < 5 || got[0].Name != "pump 1200 L/h 2.4 m" || got[1].Name != "pump 350 US gal/h 8 ft" {
		t.Errorf("pumps at least 1100 L/h and 2.3 m: %v", names(got))
	}
	for i := 1; i < len(got); i++ {
		if got[i].Label.Flow < got[i-1].Label.Flow {
			t.Errorf("%s before %s", got[i-1].Name, got[i].Name)
		}
	}
}
