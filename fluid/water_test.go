package fluid

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

func within(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

// testdata/water.csv prints ten significant digits, good to 5e-10 at worst; the
// rest of 1e-9 is for rounding in the other program.
func TestWaterTable(t *testing.T) {
	f, err := os.Open("testdata/water.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range all[1:] {
		var want [7]float64
		for i, s := range rec {
			if want[i], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		w, ok := AtCelsius(want[0])
		if !ok {
			t.Fatalf("no water at %g C", want[0])
		}
		for i, got := range []float64{w.Density, w.Viscosity, w.Kinematic, w.VapourPressure, w.SurfaceTension} {
			if !within(got, want[i+1], 1e-9) {
				t.Errorf("%g C, %s: got %.12g, want %.12g", want[0], all[0][i+1], got, want[i+1])
			}
		}
		// Kestin, Sokolov & Wakeham 1978 is an independent fit to measurements;
		// the two differ by under 0.1 %.
		if kestin := want[6]; !within(w.Viscosity, kestin, 1e-3) || !within(kestinViscosity(want[0]), kestin, 1e-9) {
			t.Errorf("%g C: viscosity %g, second fit %g", want[0], w.Viscosity, kestin)
		}
	}
}

// kestinViscosity is the fit of Kestin, Sokolov & Wakeham 1978, J. Phys. Chem.
// Ref. Data 7:941, Pa s.
func kestinViscosity(t float64) float64 {
	d := 20 - t
	return 1.002e-3 * math.Pow(10, d/(t+96)*(1.2364-1.37e-3*d+5.7e-6*d*d))
}

// Perry's Chemical Engineers' Handbook, 9th ed., table 2-135, saturated water.
// Viscosity is printed to five figures; the fits behind the handbook and this
// package are different editions, hence 2e-4. Density is printed in mol/L with
// five figures, 9e-6, times M = 18.015268 g/mol; 0.05 kg/m3 is the difference
// in pressure and in formulation (IAPWS-95 against Tanaka). Vapour pressure is
// printed to a whole pascal.
func TestPerryTable(t *testing.T) {
	cases := []struct{ kelvin, viscosity, molar, vapour float64 }{
		{280, 1433.7e-6, 55.501, 992},
		{290, 1084.0e-6, 55.440, 1920},
		{300, 853.84e-6, 55.315, 3537},
	}
	for _, c := range cases {
		w, ok := AtCelsius(c.kelvin - 273.15)
		if !ok {
			t.Fatalf("no water at %g K", c.kelvin)
		}
		if !within(w.Viscosity, c.viscosity, 2e-4) {
			t.Errorf("%g K: viscosity %g, want %g", c.kelvin, w.Viscosity, c.viscosity)
		}
		if d := c.molar * 18.015268; math.Abs(w.Density-d) > 0.05 {
			t.Errorf("%g K: density %g, want %g", c.kelvin, w.Density, d)
		}
		if math.Abs(w.VapourPressure-c.vapour) > 0.5 {
			t.Errorf("%g K: vapour pressure %g, want %g", c.kelvin, w.VapourPressure, c.vapour)
		}
	}
}

// Verification values of the IAPWS-IF97 release for region 4 (its table of
// saturation pressures at three temperatures), nine figures; two of them lie
// outside what AtCelsius admits but test the equation all the same. From memory.
func TestSaturationVerification(t *testing.T) {
	for _, c := range []struct{ kelvin, pa float64 }{{300, 0.353658941e4}, {500, 0.263889776e7}, {600, 0.123443146e8}} {
		if got := vapourPressure(c.kelvin - zeroCelsius); !within(got, c.pa, 2e-9) {
			t.Errorf("%g K: %.10g, want %.10g", c.kelvin, got, c.pa)
		}
	}
}

// Verification value of IAPWS SR6-08 at 298.15 K, 889.996774e-6 Pa s, nine
// figures (from memory).
func TestViscosityVerification(t *testing.T) {
	if got := viscosity(25); !within(got, 889.996774e-6, 2e-9) {
		t.Errorf("viscosity %.10g", got)
	}
}

func TestRange(t *testing.T) {
	for _, c := range []struct {
		t  float64
		ok bool
	}{{MinCelsius, true}, {MaxCelsius, true}, {-0.001, false}, {40.001, false}, {math.NaN(), false}, {math.Inf(1), false}} {
		w, ok := AtCelsius(c.t)
		if ok != c.ok || !ok && w != (Water{}) {
			t.Errorf("at %g: %+v, %v", c.t, w, ok)
		}
	}
	// Densest at 3.98 C, as everyone knows.
	cold, _ := AtCelsius(3.98)
	for _, c := range []float64{3.5, 4.5} {
		if w, _ := AtCelsius(c); w.Density >= cold.Density {
			t.Errorf("denser at %g C", c)
		}
	}
}

func BenchmarkAtCelsius(b *testing.B) {
	b.ReportAllocs()
	for i := range b.N {
		w, _ := AtCelsius(float64(i % 40))
		sink = w.Kinematic
	}
}

var sink float64
