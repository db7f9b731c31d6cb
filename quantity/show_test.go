package quantity

import (
	"math"
	"testing"
)

// Rounding is a choice of this program; the figures are converted by hand.
func TestShow(t *testing.T) {
	type shower interface{ Show(System) string }
	for _, c := range []struct {
		v          shower
		metric, us string
	}{
		{Length(0), "0.0 mm", "0.000 in"},
		{Length(-1e-17), "0.0 mm", "0.000 in"},
		{Length(1.5e-6), "0.0015 mm", "0.00006 in"},
		{Length(0.00025), "0.2 mm", "0.00984 in"},
		{Length(0.002), "2.0 mm", "0.079 in"},
		{Length(0.0127), "13 mm", "1/2 in"},
		{Length(0.0381), "38 mm", "1 1/2 in"},
		{Length(0.9), "900 mm", "35 7/16 in"}, // 35.433 in
		{Length(-0.05), "-50 mm", "-1 15/16 in"},
		{Length(0.0253), "25 mm", "1 in"}, // 0.996 in: no "16/16"
		{Length(2.1), "2.10 m", "82 11/16 in"},
		{Length(3.048), "3.05 m", "10.0 ft"},
		{Area(0.62), "0.62 m2", "6.67 ft2"},
		{Area(0.0031), "31.00 cm2", "4.805 in2"},
		{Area(3.1416e-6), "3.14 mm2", "0.005 in2"},
		{Volume(0.0003), "300 ml", "10.1 US fl oz"},
		{Volume(0.035), "35.0 L", "9.2 US gal"},
		{Flow(0.33 / 3600), "330 L/h", "87 US gal/h"},
		{Flow(0.0122 / 3600), "12.2 L/h", "3.22 US gal/h"},
		{Flow(0.003 / 3600), "3.00 L/h", "0.79 US gal/h"},
		{FlowPerWidth(0.4 / 3600), "400 L/h per m", "2.7 US gal/h per in"},
		{Speed(1.5), "1.50 m/s", "4.92 ft/s"},
		{Speed(4e-3 / 86400), "4.0 mm/day", "0.16 in/day"}, // 0.1575 in
		{Speed(0), "0.00 m/s", "0.00 ft/s"},
		{Duration(45), "45 s", "45 s"},
		{Duration(900), "15 min", "15 min"},
		{Duration(5400), "90 min", "90 min"},
		{Duration(36000), "10.0 h", "10.0 h"},
		{Duration(604800), "7.0 days", "7.0 days"},
		{Temperature(22), "22 C", "72 F"},
		{Mass(0.3), "300 g", "10.6 oz"},
		{Mass(50), "50.0 kg", "110.2 lb"},
		{Power(22), "22 W", "22 W"},
		{Pressure(15690.64), "15.69 kPa", "2.28 psi"},
		{Pressure(4.2e6), "4.20 MPa", "609.16 psi"},
		{Angle(math.Pi / 4), "45.0 deg", "45.0 deg"},
		{Ratio(0.35), "35 %", "35 %"},
		{Ratio(0.024), "2.4 %", "2.4 %"},
		{Money{650, "EUR"}, "650 EUR", "650 EUR"},
		{Money{649.6, "EUR"}, "650 EUR", "650 EUR"},
		{Money{12.5, "USD"}, "12.50 USD", "12.50 USD"},
		{Money{12, "USD"}, "12 USD", "12 USD"},
		{Band[Flow]{0.294 / 3600, 0.35 / 3600, 0.444 / 3600}, "294 to 444 L/h", "78 to 117 US gal/h"},
		{Band[Length]{0.012, 0.0125, 0.013}, "12 to 13 mm", "1/2 in"}, // both ends half an inch to a sixteenth
		{Band[Length]{0.9, 1, 2.5}, "0.90 to 2.50 m", "3.0 to 8.2 ft"},
		{Exactly(Flow(0.33 / 3600)), "330 L/h", "87 US gal/h"},
		{Exactly(Volume(0)), "0 ml", "0.0 US fl oz"},
	} {
		if got := c.v.Show(Metric); got != c.metric {
			t.Errorf("%v: %q, want %q", c.v, got, c.metric)
		}
		if got := c.v.Show(US); got != c.us {
			t.Errorf("%v: %q, want %q", c.v, got, c.us)
		}
	}
}

func TestShowBand(t *testing.T) {
	b := Band[Speed]{2.6, 2.9, 3.2}
	if got, want := b.ShowThree(Metric), "2.60 - 2.90 - 3.20 m/s"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := b.ShowLikely(Metric), "2.90 m/s"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	day := Band[Speed]{2e-3 / 86400, 4e-3 / 86400, 6e-3 / 86400}
	if got, want := day.Show(Metric), "2.0 to 6.0 mm/day"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := Exactly(Speed(2)).ShowThree(Metric), "2.00 m/s"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestIn(t *testing.T) {
	if v, unit := Flow(0.33 / 3600).In(Metric); math.Abs(v-330) > 1e-12 || unit != "L/h" {
		t.Errorf("%v %s", v, unit)
	}
	if v, unit := Temperature(22.5).In(US); v != 72.5 || unit != "F" {
		t.Errorf("%v %s", v, unit)
	}
	low, likely, high, unit := Band[Length]{0.005, 0.0127, 3}.In(US)
	if math.Abs(low-0.005/0.0254) > 1e-15 || math.Abs(likely-0.5) > 1e-15 || math.Abs(high-3/0.0254) > 1e-12 || unit != "in" {
		t.Errorf("%v %v %v %s", low, likely, high, unit)
	}
}

// For programs every type gives the plain number in the unit it is shown in. The
// figures are converted by hand.
func TestInEvery(t *testing.T) {
	for _, c := range []struct {
		v interface {
			In(System) (float64, string)
		}
		sys   System
		value float64
		unit  string
	}{
		{Length(0.9), Metric, 900, "mm"},
		{Length(0.9144), US, 36, "in"},
		{Area(0.62), Metric, 0.62, "m2"},
		{Area(0.18580608), US, 2, "ft2"},
		{Volume(0.035), Metric, 35, "L"},
		{Volume(3.785411784e-3), US, 1, "US gal"},
		{Flow(0.4 / 3600), Metric, 400, "L/h"},
		{FlowPerWidth(0.4 / 3600), Metric, 400, "L/h per m"},
		{FlowPerWidth(3.785411784e-3 / 3600 / 0.0254), US, 1, "US gal/h per in"},
		{Speed(1.5), Metric, 1.5, "m/s"},
		{Speed(1.524), US, 5, "ft/s"},
		{Duration(5400), Metric, 90, "min"},
		{Temperature(22), Metric, 22, "C"},
		{Temperature(20), US, 68, "F"},
		{Mass(0.3), Metric, 300, "g"},
		{Mass(0.45359237), US, 1, "lb"},
		{Power(22), US, 22, "W"},
		{Pressure(2000), Metric, 2, "kPa"},
		{Pressure(6894.757293168), US, 1, "psi"},
		{Angle(math.Pi / 4), Metric, 45, "deg"},
		{Ratio(0.35), US, 35, "%"},
	} {
		// Two multiplications, each rounded; psi as typed has 13 digits.
		if v, unit := c.v.In(c.sys); math.Abs(v-c.value) > 1e-12*c.value || unit != c.unit {
			t.Errorf("%T %v: %.17g %s, want %v %s", c.v, c.v, v, unit, c.value, c.unit)
		}
	}
}

func TestShowIn(t *testing.T) {
	for got, want := range map[string]string{
		Length(0.9).ShowIn("mm"):         "900 mm",
		Length(0.0381).ShowIn("in"):      "1.5 in",
		Temperature(22.5).ShowIn("F"):    "72.5 F",
		Flow(0.4 / 3600).ShowIn("L/h"):   "400 L/h",
		Ratio(0.35).ShowIn("%"):          "35 %",
		Money{12.345, "USD"}.ShowExact(): "12.345 USD",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for _, unit := range []string{"kg", "cubits", ""} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("ShowIn(%q) of a length did not panic", unit)
				}
			}()
			_ = Length(1).ShowIn(unit)
		}()
	}
}

func TestSystem(t *testing.T) {
	for text, want := range map[string]System{"metric": Metric, "Metric\t": Metric, "us": US, "US": US} {
		if got, err := ParseSystem(text); err != nil || got != want {
			t.Errorf("%q: %v %v, want %v", text, got, err, want)
		}
	}
	if _, err := ParseSystem("imperial"); err == nil {
		t.Error("read imperial, which is not a system here")
	}
	for _, s := range []System{Metric, US} {
		if back, err := ParseSystem(s.String()); err != nil || back != s {
			t.Errorf("%v is read as %v (%v)", s, back, err)
		}
	}
}
