package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func near(got, want float64) bool { return math.Abs(got-want) <= 1e-15+4e-16*math.Abs(want) }

func checkBand[T ~float64](t *testing.T, text string, low, likely, high float64) {
	t.Helper()
	var b Band[T]
	err := b.UnmarshalText([]byte(text))
	if err != nil || !near(float64(b.Low), low) || !near(float64(b.Likely), likely) || !near(float64(b.High), high) {
		t.Errorf("%q: %v %v, want %v %v %v", text, b, err, low, likely, high)
	}
}

// The figures are those of the texts, converted by hand.
func TestBand(t *testing.T) {
	checkBand[Length](t, "12 to 13 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12 TO 13 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12 mm to 13 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12mm to 1.3cm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12 mm to 1/2 in", 0.012, 0.01235, 0.0127)
	checkBand[Length](t, "1/2 to 3/4 in", 0.0127, 0.015875, 0.01905)
	checkBand[Length](t, "4 ft 10 in to 5 ft", 1.4732, 1.4986, 1.524)
	checkBand[Length](t, "12.5 mm ± 0.5 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12.5 +/- 0.5 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12.5 +- 0.5 mm", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12.5 mm ± 0.5", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "12.5 mm ± 4 %", 0.012, 0.0125, 0.013)
	checkBand[Length](t, "-10 mm ± 10 %", -0.011, -0.01, -0.009)
	checkBand[Length](t, "2.6 to 2.9 to 3.2 m", 2.6, 2.9, 3.2)
	checkBand[Length](t, "13 mm", 0.013, 0.013, 0.013)
	checkBand[Length](t, "-5 to 5 mm", -0.005, 0, 0.005)
	checkBand[Temperature](t, "18 to 24 C", 18, 21, 24)
	checkBand[Temperature](t, "68 to 77 F", 20, 22.5, 25)
	checkBand[Temperature](t, "68 ± 9 F", 15, 20, 25)
	checkBand[Temperature](t, "20 C ± 9 F", 15, 20, 25)
	checkBand[Ratio](t, "30 to 40 %", 0.3, 0.35, 0.4)
	checkBand[Ratio](t, "0.3 to 0.4", 0.3, 0.35, 0.4)
	checkBand[Ratio](t, "35 % ± 5 %", 0.3, 0.35, 0.4)
	checkBand[Flow](t, "294 to 444 L/h", 0.294/3600, 0.369/3600, 0.444/3600)
	checkBand[Volume](t, "3 to 4 US gal", 3*3.785411784e-3, 3.5*3.785411784e-3, 4*3.785411784e-3)
}

func TestBandRefused(t *testing.T) {
	for text, part := range map[string]string{
		"":                       "nothing",
		"13 to 12 mm":            "do not rise",
		"2 to 4 to 3 m":          "do not rise",
		"1 to 2 to 3 to 4 m":     "more than three",
		"12 to 13":               "no unit",
		"12 mm to 13":            "no unit",
		"1 to 2 ft 6 in":         "no unit",
		"12 to 13 kg":            "this is a weight, not a length",
		"12 kg to 13 mm":         "this is a weight, not a length",
		"12 to":                  "a figure is missing",
		"12 mm TO":               "a figure is missing",
		"12 to 13 ± 1 mm":        "more than one range",
		"12 ± 1 ± 2 mm":          "more than one range",
		"1e12 m ± 1e300 %":       "too large",
		"1e12 m ± 1e12 m":        "too large",
		"5 - 10 mm":              "a dash between",
		"12 to NaN mm":           "no number",
		"12 mm\xff to 13 mm":     "not known",
		"to 13 mm":               "no number",
		"12.5 ± -0.5 mm":         "spread below nothing",
		"12.5 ± 0.5":             "no unit",
		"± 0.5 mm":               "nothing",
		"12.5 mm ±":              "nothing",
		"12-13 mm":               "a dash",
		"12,5 to 13 mm":          "comma",
		"2.6 m to 2.9 to 320 cm": "do not rise", // the unit lent is that at the end
		"about 12 mm":            "no number",
	} {
		var b Band[Length]
		err := b.UnmarshalText([]byte(text))
		e, ok := errors.AsType[*Error](err)
		if !ok || !strings.Contains(e.Problem, part) || e.Ask == "" || e.Text != text {
			t.Errorf("%q: %v %v, want %q", text, b, err, part)
		}
	}
	var v Band[Volume]
	if err := v.UnmarshalText([]byte("1 L ± 2 L")); err == nil {
		t.Errorf("a volume of less than nothing: %v", v)
	}
	var g Band[Flow]
	if err := g.UnmarshalText([]byte("50 to 70 gph")); err == nil || !strings.Contains(err.Error(), "US or imperial") {
		t.Errorf("gallons: %v", err)
	}
	var c Band[Temperature]
	if err := c.UnmarshalText([]byte("22 C ± 5 %")); err == nil {
		t.Errorf("a share of a temperature: %v", c)
	}
}

func TestBandUse(t *testing.T) {
	b := Band[Length]{1, 2, 4}
	if b.At(-1) != 1 || b.At(0) != 2 || b.At(1) != 4 || b.IsExact() || !Exactly(Length(3)).IsExact() {
		t.Errorf("%v", b)
	}
	if got := b.Scale(0.5); got != (Band[Length]{0.5, 1, 2}) {
		t.Errorf("scaled: %v", got)
	}
}
