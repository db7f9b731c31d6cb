package structure

import (
	"math"
	"testing"
)

// By hand: a plastic rim 19 mm across and 2.4 mm thick, 1 GPa, along 430 mm: I is
// 1.372e-9 m4, (pi/0.43)^4 is 2849 per m4: 3.91 kPa.
func TestEdgeBeam(t *testing.T) {
	if k := EdgeBeam(1e9, 0.019, 0.0024, 0.43); !within(k, 3909, 1e-3) {
		t.Errorf("a rim holds with %g Pa", k)
	}
	// The energy that a half sine has in the strip and in the springs is one: both
	// integrals are taken here.
	const e, flat, wall, length, bow = 2e9, 0.03, 0.004, 0.8, 0.001
	k := EdgeBeam(e, flat, wall, length)
	var strip, springs float64
	const n = 2000
	for i := range n {
		x := (float64(i) + 0.5) / n
		w := bow * math.Sin(math.Pi*x)
		curved := w * (math.Pi / length) * (math.Pi / length)
		strip += e * wall * flat * flat * flat / 12 * curved * curved / n
		springs += k * w * w / n
	}
	if !within(strip, springs, 1e-9) {
		t.Errorf("strip %g, springs %g", strip, springs)
	}
}

// By hand: 50 x 6 mm of glass over 400 mm is 2 x 70e9 x 3e-4/0.4 = 1.05e8 N/m; its
// bond, 50 x 6 mm and 1 mm thick in shear at 1/3 MPa, 1e5 N/m, and that rules.
func TestTie(t *testing.T) {
	k := Tie(70e9, 3e-4, 0.4, 1e6/3, 3e-4, 0.001)
	if want := 1 / (1/1.05e8 + 1/1e5); !within(k, want, 1e-9) || !within(k, 0.999e5, 1e-3) {
		t.Errorf("%g N/m, want %g", k, want)
	}
	if k := InSeries(math.Inf(1), 7); k != 7 {
		t.Errorf("%g beside a stiff link", k)
	}
	if k := InSeries(6, 3); k != 2 {
		t.Errorf("6 and 3 in series are %g", k)
	}
}

func TestStripModulus(t *testing.T) {
	for _, of := range []string{"plastic", "glass", "acrylic", "polycarbonate", "aluminium", "steel"} {
		f, ok := StripModulus(of)
		if !ok || !(0 < f.Low && f.Low <= f.Likely && f.Likely <= f.High) || f.Source == "" {
			t.Errorf("%s: %+v", of, f)
		}
	}
	if _, ok := StripModulus("wood"); ok {
		t.Error("wood has a modulus")
	}
}

// A round hole is an ellipse as deep as its radius: three times the stress (Kirsch).
func TestCornerStress(t *testing.T) {
	if s := CornerStress(2e6, 0.02, 0.02); !within(s, 6e6, 1e-12) {
		t.Errorf("a round hole has %g", s)
	}
	if s := CornerStress(1, 0.04, 0.01); s != 5 {
		t.Errorf("%g, by hand 5", s)
	}
	if !math.IsInf(CornerStress(1, 0.04, 0), 1) {
		t.Error("a sharp corner has a stress")
	}
}
