package moistair

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"rillwright/fluid"
)

// table reads testdata/name.csv: numbers by column, names under "case" left out.
func table(t *testing.T, name string) (rows []map[string]float64) {
	t.Helper()
	f, err := os.Open("testdata/" + name + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%d rows, %v", len(all), err)
	}
	for _, rec := range all[1:] {
		row := map[string]float64{}
		for i, s := range rec[1:] {
			if row[all[0][i+1]], err = strconv.ParseFloat(s, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

func within(got, want, rel float64) bool { return math.Abs(got-want) <= rel*math.Abs(want) }

// The rows print 5 to 7 digits; half of the last is at worst 5e-5 of the figure
// in small ones and 6e-6 elsewhere. Temperatures print at worst to 0.0005 K, and
// the library stops its search for wet bulb and dew point at 0.001 K.
func TestRowsOfTheHandbook(t *testing.T) {
	for _, r := range table(t, "psychrometrics") {
		celsius, p := r["t_C"], r["p_Pa"]
		ps := Saturation(celsius)
		w := HumidityRatio(r["rh"]*ps, p)
		for _, c := range []struct {
			col       string
			got, want float64
			rel, abs  float64
		}{
			{"p_sat_Pa", ps, 0, 6e-6, 0},
			{"humidity_ratio", w, 0, 6e-6, 0},
			{"enthalpy_J_per_kg", Enthalpy(celsius, w), 0, 6e-6, 0},
			{"volume_m3_per_kg", Volume(celsius, w, p), 0, 6e-6, 0},
			{"dew_point_C", DewPoint(r["rh"] * ps), 0, 0, 0.0015},
			{"wet_bulb_C", WetBulb(celsius, w, p), 0, 0, 0.0015},
		} {
			if want := r[c.col]; math.Abs(c.got-want) > c.rel*math.Abs(want)+c.abs {
				t.Errorf("%g C, %g, %g Pa, %s: got %.8g, want %.8g", celsius, r["rh"], p, c.col, c.got, want)
			}
		}
	}
}

// Package fluid has the vapour pressure of IAPWS-IF97, another fit to other
// measurements: both agree within 0.03 % where both hold.
func TestSaturationAgainstSteamTables(t *testing.T) {
	for c := 1.0; c <= 40; c++ {
		w, ok := fluid.AtCelsius(c)
		if !ok || !within(Saturation(c), w.VapourPressure, 3e-4) {
			t.Errorf("%g C: %.7g Pa, steam tables %.7g", c, Saturation(c), w.VapourPressure)
		}
	}
	// Ice and water have the same vapour at the triple point, 611.657 Pa
	// (IAPWS); the fits were made to 0.02 %.
	for _, c := range []float64{triple - 1e-9, triple} {
		if !within(Saturation(c), 611.657, 4e-4) {
			t.Errorf("triple point: %.7g Pa", Saturation(c))
		}
	}
}

func TestSlopeIsTheDerivative(t *testing.T) {
	for c := -60.0; c <= 120; c += 7 {
		_, d := SaturationSlope(c)
		const h = 1e-4
		// Central differences: h^2 of the third derivative, and rounding, stay under 1e-7.
		if diff := (Saturation(c+h) - Saturation(c-h)) / (2 * h); !within(d, diff, 1e-6) {
			t.Errorf("%g C: slope %.9g, differences %.9g", c, d, diff)
		}
	}
}

// What is undone is what was done, and the three temperatures stand in their
// order: dew point, wet bulb, dry bulb.
func TestInversesAndOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		c := rapid.Float64Range(0.5, 45).Draw(rt, "t")
		rh := rapid.Float64Range(0.02, 0.999).Draw(rt, "rh")
		p := rapid.Float64Range(7e4, 1.05e5).Draw(rt, "p")
		pv := rh * Saturation(c)
		w := HumidityRatio(pv, p)
		if !within(VapourPressure(w, p), pv, 1e-12) || !within(Relative(c, w, p), rh, 1e-12) {
			rt.Fatalf("vapour pressure does not come back")
		}
		if got := Temperature(Enthalpy(c, w), w); math.Abs(got-c) > 1e-10 {
			rt.Fatalf("temperature %.15g came back as %.15g", c, got)
		}
		dew := DewPoint(pv)
		if !within(Saturation(dew), pv, 1e-9) {
			rt.Fatalf("dew point %g has %g Pa, not %g", dew, Saturation(dew), pv)
		}
		// Within a degree of freezing the wet bulb steps from water to ice.
		wet := WetBulb(c, w, p)
		if !(dew <= wet+1e-9 && wet <= c+1e-9) && (dew > 0.02 || wet > 0.02) {
			rt.Fatalf("dew point %g, wet bulb %g, air %g", dew, wet, c)
		}
		if !within(Density(c, w, p)*Volume(c, w, p), 1+w, 1e-12) {
			rt.Fatal("density is not mass over volume")
		}
		// Lighter when moister, for what drives air up.
		if VirtualTemperature(c, pv, p) <= c+zeroCelsius {
			rt.Fatal("vapour makes air heavier")
		}
	})
}

// Air at 300 K from a table of a heat-transfer textbook, from memory: 1.846e-5
// Pa s, 0.0263 W/(m K), Pr 0.707. The fits are good to 1 %.
func TestTransportAgainstTextbook(t *testing.T) {
	tr := At(26.85, Standard)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"viscosity", tr.Viscosity, 1.846e-5},
		{"conductivity", tr.Conductivity, 0.0263},
		{"Prandtl", tr.Prandtl, 0.707},
		{"density", tr.Density, 1.1614}, // the table is at 1 atm
	} {
		if !within(c.got, c.want, 0.015) {
			t.Errorf("%s: %.5g, textbook %.5g", c.name, c.got, c.want)
		}
	}
}

func TestOutside(t *testing.T) {
	for name, v := range map[string]float64{
		"too hot":        Saturation(201),
		"not a number":   Saturation(math.NaN()),
		"all vapour":     HumidityRatio(2e5, 1e5),
		"negative":       HumidityRatio(-1, 1e5),
		"no dew":         DewPoint(0),
		"more than full": WetBulb(20, 0.02, Standard),
		"transport":      At(300, Standard).Viscosity,
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %g, want NaN", name, v)
		}
	}
}

func BenchmarkSaturationSlope(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		SaturationSlope(24)
	}
}

func BenchmarkWetBulb(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		WetBulb(24, 0.012, Standard)
	}
}
