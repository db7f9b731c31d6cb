package quantity

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Every name in the table, however cased, is read as its unit, and every name
// belongs to one unit only.
func TestTable(t *testing.T) {
	owner := map[string]string{}
	for i := range unitTable {
		u := &unitTable[i]
		if u.num <= 0 || u.den <= 0 {
			t.Errorf("%s: %v/%v", u.names, u.num, u.den)
		}
		for name := range strings.SplitSeq(u.names, "|") {
			key := strings.ToLower(name)
			if was, twice := owner[key]; twice && was != u.names {
				t.Errorf("%q names two units", name)
			}
			owner[key] = u.names
			if got, _ := findUnit(name); got != u {
				t.Errorf("%q is not found", name)
			}
			if problem, _ := ambiguous(key, u.dim); problem != "" {
				t.Errorf("%q is both read and asked about", name)
			}
			if upper := strings.ToUpper(name); !strings.ContainsAny(name, "µμ") {
				if got, _ := findUnit(upper); got != u {
					t.Errorf("%q is not found", upper)
				}
			}
		}
		if got, form := findUnit(strings.ReplaceAll(u.name(), "/", " per ")); got != u {
			t.Errorf("%s: with per for a stroke it becomes %q", u.name(), form)
		}
	}
}

// Printed with all digits and read again, every amount in every unit comes back
// to 1e-12 of itself; near 0 C to 1e-12 of the 273 K that it is above nothing.
func TestRoundTrip(t *testing.T) {
	for i := range unitTable {
		u := &unitTable[i]
		r := readerFor(t, u.dim)
		t.Run(strings.ReplaceAll(u.name(), "/", "|"), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				// Below 1e-290 a float64 has no room for all its digits.
				si := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-290, 1e-3), rapid.Float64Range(1e-3, 1e6)).Draw(t, "si")
				if _, _, bounded := u.dim.lowest(); !bounded && rapid.Bool().Draw(t, "negative") {
					si = -si
				}
				text := r.show(si, u.name())
				got, err := r.read(text)
				tol := 1e-12 * math.Abs(si)
				if u.dim == dimTemperature {
					tol = 1e-12 * (si + 273.15)
				}
				if err != nil || math.Abs(got-si) > tol {
					t.Fatalf("%.17g shown as %q, read as %.17g (%v)", si, text, got, err)
				}
			})
		})
	}
}

// What is shown to people can be typed as it stands, and means the same within
// half a step of its last digit: a figure from an answer may be copied into a
// design.
func TestShownIsRead(t *testing.T) {
	largestShown := map[dimension]float64{
		dimLength: 100, dimArea: 100, dimVolume: 10, dimFlow: 0.01, dimFlowPerWidth: 0.01, dimSpeed: 100, dimDuration: 1e7,
		dimTemperature: 100, dimMass: 1e4, dimPower: 1e4, dimPressure: 1e7, dimAngle: 10, dimRatio: 10,
	}
	for _, r := range readers() {
		t.Run(r.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				decades := 6.0
				if r.dim == dimSpeed {
					decades = 12 // down to evaporation
				}
				si := largestShown[r.dim] * math.Pow(10, -rapid.Float64Range(0, decades).Draw(t, "decades below"))
				if _, _, bounded := r.dim.lowest(); (!bounded || r.dim == dimTemperature) && rapid.Bool().Draw(t, "negative") {
					si = -si
				}
				sys := rapid.SampledFrom([]System{Metric, US}).Draw(t, "system")
				text := show(si, r.dim, sys)
				got, err := r.read(text)
				if err != nil {
					t.Fatalf("%v shown as %q: %v", si, text, err)
				}
				number, unitName, _ := strings.Cut(text, " ")
				if strings.HasSuffix(text, " in") {
					unitName = "in"
				}
				_, decimals, _ := strings.Cut(number, ".")
				step := math.Pow(10, -float64(len(decimals)))
				if strings.HasSuffix(text, " in") && decimals == "" {
					step = 1.0 / 16
				}
				u, _ := findUnit(unitName)
				if u == nil {
					t.Fatalf("%v shown as %q: what unit?", si, text)
				}
				if half := step / 2 * u.scale(); math.Abs(got-si) > half*(1+1e-9) {
					t.Fatalf("%v shown as %q, read as %v: off by more than %v", si, text, got, half)
				}
			})
		})
	}
}

// The same of bands: what Show prints is read as a band with the same ends.
func TestShownBandIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(1e-7, 1e-4).Draw(t, "low")
		b := Band[Flow]{Flow(low), Flow(low * 1.2), Flow(low * rapid.Float64Range(1.2, 9).Draw(t, "times"))}
		text := b.Show(Metric)
		var got Band[Flow]
		if err := got.UnmarshalText([]byte(text)); err != nil {
			t.Fatalf("%v shown as %q: %v", b, text, err)
		}
		// The coarsest step is 1 L/h, and a band below it is one figure.
		const half = 0.5e-3 / 3600 * (1 + 1e-9)
		if math.Abs(float64(got.Low-b.Low)) > half || math.Abs(float64(got.High-b.High)) > half {
			t.Fatalf("%v shown as %q, read as %v", b, text, got)
		}
		three := strings.ReplaceAll(b.ShowThree(Metric), " - ", " to ")
		if err := got.UnmarshalText([]byte(three)); err != nil || math.Abs(float64(got.Likely-b.Likely)) > half {
			t.Fatalf("%v shown as %q, read as %v %v", b, three, got, err)
		}
	})
}

// What is typed in a whole number of millimetres, sixteenths, litres per hour
// and so on comes back as typed: no 899.9999 mm in anybody's file.
func TestRoundTripWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 100_000).Draw(t, "n")
		l, err := ParseLength(Length(float64(n) / 1000).ShowIn("mm"))
		if err != nil || l != Length(float64(n)/1000) {
			t.Fatalf("%d mm: %v %v", n, l, err)
		}
	})
}

// A tape's sixteenths are shown and read without loss.
func TestSixteenths(t *testing.T) {
	for n := 2; n < 16*96; n++ {
		text := Length(float64(n) / 16 * 0.0254).Show(US)
		l, err := ParseLength(text)
		if err != nil || math.Abs(float64(l)/0.0254*16-float64(n)) > 1e-9 {
			t.Fatalf("%d/16 in shown as %q, read as %v (%v)", n, text, l, err)
		}
	}
}

// FuzzParse looks for texts that bring a reader down, slip a NaN through, or
// mean something else with blanks around them or when printed and read again.
func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"12 mm", "1-1/2 in", "4' 10½\"", "4ft10in", "-3 F", "1 h 30 min", "3.6 US gal/h per in", "35 %", "1,5 m", "12/16 mm",
		"2.6 to 2.9 to 3.2 m", "12.5 mm ± 4 %", "12 +/- 1 C", "€ 12.50", "650 EUR", "1e3 mm", "1e", "1 to", "U.S. gal", "0 K", "-459.67 F", "1 //h", "⅞″",
		"4'-10\"", "12 to 13 mm", "1e12 m ± 1e300 %", "12 mm\xff", "35 % ± 0.05", "400 L/h per m to 3 US gal/h per in",
	} {
		f.Add(s)
	}
	all := readers()
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range all {
			v, err := r.read(text)
			if err != nil {
				if v != 0 && err.Error() == "" {
					t.Fatalf("%s %q: %v without a word", r.name, text, v)
				}
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > largest {
				t.Fatalf("%s %q: %v", r.name, text, v)
			}
			if again, err := r.read("  " + strings.TrimSpace(text) + "\t"); err != nil || again != v {
				t.Fatalf("%s %q: %v, with blanks around %v %v", r.name, text, v, again, err)
			}
			if math.Abs(v) > largest*(1-1e-9) {
				continue // one bit may carry it over
			}
			for i := range unitTable {
				u := &unitTable[i]
				if u.dim != r.dim || math.Abs(v) > 0 && math.Abs(v) < 1e-290 {
					continue // no room for all digits
				}
				shown := r.show(v, u.name())
				tol := 1e-12 * math.Abs(v)
				if r.dim == dimTemperature {
					tol = 1e-12 * (math.Abs(v) + 500) // F counts from 460 degrees above nothing
				}
				if again, err := r.read(shown); err != nil || math.Abs(again-v) > tol {
					t.Fatalf("%s %q: %v, shown as %q and read as %v %v", r.name, text, v, shown, again, err)
				}
			}
		}
		for _, bad := range []string{
			badBand[Length](text), badBand[Area](text), badBand[Volume](text), badBand[Flow](text), badBand[FlowPerWidth](text),
			badBand[Speed](text), badBand[Duration](text), badBand[Temperature](text), badBand[Mass](text), badBand[Power](text),
			badBand[Pressure](text), badBand[Angle](text), badBand[Ratio](text),
		} {
			if bad != "" {
				t.Fatal(bad)
			}
		}
		if m, err := ParseMoney(text); err == nil {
			if again, err := ParseMoney(m.ShowExact()); err != nil || again != m {
				t.Fatalf("%q: %v, shown as %q and read as %v %v", text, m, m.ShowExact(), again, err)
			}
		}
	})
}

// badBand reads a band and says what is wrong with it, "" if nothing: its figures
// must rise and be finite, a text of one figure must mean what it means alone,
// and blanks around must change nothing.
func badBand[T ~float64](text string) string {
	var b, again Band[T]
	if b.UnmarshalText([]byte(text)) != nil {
		return ""
	}
	dim := dimensionOf[T]()
	if !(b.Low <= b.Likely && b.Likely <= b.High && float64(b.High) <= largest && float64(b.Low) >= -largest) {
		return fmt.Sprintf("%v as a band %q: %v", dim, text, b)
	}
	if err := again.UnmarshalText([]byte("  " + strings.TrimSpace(text) + "\t")); err != nil || again != b {
		return fmt.Sprintf("%v as a band %q: %v, with blanks around %v %v", dim, text, b, again, err)
	}
	if one, err := parse(text, dim); err == nil && b != Exactly(T(one)) {
		return fmt.Sprintf("%v %q: %v, as a band %v", dim, text, one, b)
	}
	return ""
}

func BenchmarkParse(b *testing.B) {
	for _, c := range []struct {
		name, text string
		dim        dimension
	}{
		{"millimetres", "900 mm", dimLength},
		{"feet", "4 ft 10 1/2 in", dimLength},
		{"flow", "400 L/h", dimFlow},
		{"spelt", "100 US gallons per hour", dimFlow},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := parse(c.text, c.dim); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("band", func(b *testing.B) {
		b.ReportAllocs()
		var v Band[Length]
		text := []byte("12 to 13 mm")
		for b.Loop() {
			if err := v.UnmarshalText(text); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkShow(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = Length(0.9).Show(US)
		_ = Flow(1e-4).Show(Metric)
	}
}
