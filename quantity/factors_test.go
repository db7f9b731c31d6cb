package quantity

import (
	"math"
	"math/big"
	"strings"
	"testing"
)

// Every unit of the table against its definition, in exact fractions. The
// definitions are those of the SI brochure and of NIST Special Publication 811,
// appendix B (from memory), written as their decimal figures, with the gallons
// in cubic metres and the pound's force as pound times standard gravity. What is
// read must be the nearest float64: no tolerance.
func TestEveryUnit(t *testing.T) {
	const (
		usGal, impGal = "3.785411784e-3", "4.54609e-3"
		lb, g         = "0.45359237", "9.80665"
		waterG        = "1000 9.80665" // conventional density of water times gravity
	)
	definitions := map[string]struct{ times, over string }{
		"mm": {"1e-3", ""}, "cm": {"1e-2", ""}, "m": {"1", ""}, "um": {"1e-6", ""},
		"in": {"0.0254", ""}, "ft": {"0.3048", ""}, "yd": {"0.9144", ""},

		"mm2": {"1e-6", ""}, "cm2": {"1e-4", ""}, "m2": {"1", ""},
		"in2": {"0.0254 0.0254", ""}, "ft2": {"0.3048 0.3048", ""},

		"ml": {"1e-6", ""}, "L": {"1e-3", ""}, "m3": {"1", ""},
		"US gal": {usGal, ""}, "US qt": {usGal, "4"}, "US pt": {usGal, "8"}, "US fl oz": {usGal, "128"},
		"imp gal": {impGal, ""}, "imp qt": {impGal, "4"}, "imp pt": {impGal, "8"}, "imp fl oz": {impGal, "160"},
		"in3": {"0.0254 0.0254 0.0254", ""}, "ft3": {"0.3048 0.3048 0.3048", ""},

		"L/h": {"1e-3", "3600"}, "L/min": {"1e-3", "60"}, "L/s": {"1e-3", ""},
		"ml/min": {"1e-6", "60"}, "ml/h": {"1e-6", "3600"}, "m3/h": {"1", "3600"}, "m3/s": {"1", ""},
		"US gal/h": {usGal, "3600"}, "US gal/min": {usGal, "60"}, "imp gal/h": {impGal, "3600"}, "imp gal/min": {impGal, "60"},

		"L/h per m": {"1e-3", "3600"}, "L/h per cm": {"1e-3", "3600 0.01"}, "L/min per m": {"1e-3", "60"}, "m2/s": {"1", ""},
		"US gal/h per in": {usGal, "3600 0.0254"}, "US gal/h per ft": {usGal, "3600 0.3048"},
		"imp gal/h per in": {impGal, "3600 0.0254"}, "imp gal/h per ft": {impGal, "3600 0.3048"},

		"m/s": {"1", ""}, "cm/s": {"1e-2", ""}, "mm/s": {"1e-3", ""}, "ft/s": {"0.3048", ""}, "in/s": {"0.0254", ""},
		"mm/day": {"1e-3", "86400"}, "in/day": {"0.0254", "86400"},
		"s": {"1", ""}, "min": {"60", ""}, "h": {"3600", ""}, "days": {"86400", ""}, "weeks": {"604800", ""},
		"C": {"1", ""}, "F": {"5", "9"}, "K": {"1", ""},
		"g": {"1e-3", ""}, "kg": {"1", ""}, "t": {"1000", ""}, "lb": {lb, ""}, "oz": {lb, "16"},
		"W": {"1", ""}, "kW": {"1000", ""},

		"Pa": {"1", ""}, "kPa": {"1000", ""}, "MPa": {"1e6", ""}, "mbar": {"100", ""}, "bar": {"1e5", ""},
		"psi":        {lb + " " + g, "0.0254 0.0254"},
		"m of water": {waterG, ""}, "cm of water": {waterG, "100"}, "mm of water": {waterG, "1000"},
		"in of water": {waterG + " 0.0254", ""}, "ft of water": {waterG + " 0.3048", ""},

		"rad": {"1", ""}, "%": {"1", "100"},
	}
	for i := range unitTable {
		u := &unitTable[i]
		d, ok := definitions[u.name()]
		switch {
		case u.name() == "deg":
			if u.si(1) != math.Pi/180 {
				t.Errorf("deg: %v", u.si(1))
			}
			continue
		case !ok:
			t.Errorf("%s: no definition to check it against", u.name())
			continue
		}
		scale := product(t, d.times)
		scale.Quo(scale, product(t, d.over))
		if want, _ := scale.Float64(); u.scale() != want {
			t.Errorf("%s: %.17g, want %.17g", u.name(), u.scale(), want)
		}
		if u.dim == dimTemperature {
			continue // its zero is not that of the SI: TestFactors
		}
		r := readerFor(t, u.dim)
		if got, err := r.read("1 " + u.name()); err != nil || got != u.scale() {
			t.Errorf("1 %s: %.17g %v, want %.17g", u.name(), got, err, u.scale())
		}
		delete(definitions, u.name())
	}
	for _, name := range []string{"C", "F", "K"} {
		delete(definitions, name)
	}
	for name := range definitions {
		t.Errorf("%s is in no line of the table", name)
	}
}

// product multiplies decimal figures separated by blanks.
func product(t *testing.T, figures string) *big.Rat {
	t.Helper()
	p := big.NewRat(1, 1)
	for f := range strings.FieldsSeq(figures) {
		r, ok := new(big.Rat).SetString(f)
		if !ok {
			t.Fatalf("%q is no number", f)
		}
		p.Mul(p, r)
	}
	return p
}

// Single-character fractions, each against its plain form.
func TestVulgar(t *testing.T) {
	for short, long := range map[string]string{
		"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
	} {
		for _, c := range [][2]string{{short + " in", long + " in"}, {"2" + short + "\"", "2 " + long + " in"}, {"-1 " + short + " in", "-1 " + long + " in"}} {
			got, err1 := ParseLength(c[0])
			want, err2 := ParseLength(c[1])
			if err1 != nil || err2 != nil || got != want {
				t.Errorf("%s: %v %v, want %v %v", c[0], got, err1, want, err2)
			}
		}
	}
}
