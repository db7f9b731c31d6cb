package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// reader reads a text as one type and returns the SI amount.
type reader struct {
	name string
	dim  dimension
	read func(string) (float64, error)
	show func(si float64, unit string) string
}

func readerOf[T ~float64](name string, dim dimension, parse func(string) (T, error), show func(T, string) string) reader {
	return reader{
		name, dim,
		func(s string) (float64, error) { v, err := parse(s); return float64(v), err },
		func(si float64, unit string) string { return show(T(si), unit) },
	}
}

func readers() []reader {
	return []reader{
		readerOf("length", dimLength, ParseLength, Length.ShowIn),
		readerOf("area", dimArea, ParseArea, Area.ShowIn),
		readerOf("volume", dimVolume, ParseVolume, Volume.ShowIn),
		readerOf("flow", dimFlow, ParseFlow, Flow.ShowIn),
		readerOf("flow per width", dimFlowPerWidth, ParseFlowPerWidth, FlowPerWidth.ShowIn),
		readerOf("speed", dimSpeed, ParseSpeed, Speed.ShowIn),
		readerOf("duration", dimDuration, ParseDuration, Duration.ShowIn),
		readerOf("temperature", dimTemperature, ParseTemperature, Temperature.ShowIn),
		readerOf("mass", dimMass, ParseMass, Mass.ShowIn),
		readerOf("power", dimPower, ParsePower, Power.ShowIn),
		readerOf("pressure", dimPressure, ParsePressure, Pressure.ShowIn),
		readerOf("angle", dimAngle, ParseAngle, Angle.ShowIn),
		readerOf("ratio", dimRatio, ParseRatio, Ratio.ShowIn),
	}
}

func readerFor(t testing.TB, dim dimension) reader {
	for _, r := range readers() {
		if r.dim == dim {
			return r
		}
	}
	t.Fatalf("no reader of %v", dim)
	return reader{}
}

// Factors from NIST Special Publication 811, appendix B.8 (from memory), typed
// as printed there: exact where the table has them in bold, else rounded to
// seven digits, whence the tolerance of half a unit in the seventh.
func TestFactors(t *testing.T) {
	for _, c := range []struct {
		dim   dimension
		text  string
		si    float64
		exact bool
	}{
		{dimLength, "1 in", 2.54e-2, true},
		{dimLength, "1 ft", 3.048e-1, true},
		{dimLength, "1 yd", 9.144e-1, true},
		{dimLength, "1 micron", 1e-6, true},
		{dimArea, "1 square foot", 9.290304e-2, true},
		{dimArea, "1 in2", 6.4516e-4, true},
		{dimVolume, "1 US gallon", 3.785412e-3, false},
		{dimVolume, "1 imperial gallon", 4.54609e-3, true},
		{dimVolume, "1 US quart", 9.463529e-4, false},
		{dimVolume, "1 US pint", 4.731765e-4, false},
		{dimVolume, "1 US fluid ounce", 2.957353e-5, false},
		{dimVolume, "1 imp fl oz", 2.841306e-5, false},
		{dimVolume, "1 cubic foot", 2.831685e-2, false},
		{dimVolume, "1 cubic inch", 1.638706e-5, false},
		{dimFlow, "1 US gal per minute", 6.309020e-5, false},
		{dimFlow, "1 imp gal/min", 7.576817e-5, false},
		{dimFlow, "1 L/min", 1e-3 / 60, true},
		{dimFlow, "1 m3/h", 1.0 / 3600, true},
		{dimSpeed, "1 ft/s", 3.048e-1, true},
		{dimDuration, "1 day", 8.64e4, true},
		{dimMass, "1 lb", 4.535924e-1, false},
		{dimMass, "1 oz", 2.834952e-2, false},
		{dimPressure, "1 psi", 6.894757e3, false},
		{dimPressure, "1 bar", 1e5, true},
		{dimPressure, "1 ft of water", 2.989067e3, false},
		{dimPressure, "1 inH2O", 2.490889e2, false},
		{dimPressure, "1 m of water", 9.80665e3, true},
		{dimAngle, "1 degree", 1.745329e-2, false},
		{dimTemperature, "32 F", 0, true},
		{dimTemperature, "212 °F", 100, true},
		{dimTemperature, "273.15 K", 0, true},
		{dimRatio, "1 percent", 1e-2, true},
	} {
		got, err := readerFor(t, c.dim).read(c.text)
		tol := 5e-7 * math.Pow(10, math.Floor(math.Log10(math.Abs(c.si))))
		if c.exact {
			tol = 0
		}
		if err != nil || math.Abs(got-c.si) > tol {
			t.Errorf("%s: %.10g %v, want %.10g", c.text, got, err, c.si)
		}
	}
}

// Every way of writing that a builder uses, against the plain one. The trade's
// own forms are those of tape measures, labels and the plumbing aisle; common
// practice, no source. Equal means equal: no rounding is let through.
func TestForms(t *testing.T) {
	for _, c := range []struct {
		dim   dimension
		texts string // separated by |
		si    float64
	}{
		{dimLength, "900 mm|90 cm|0.9 m|.9 m|900mm|  900   mm |900 MM|900 millimetres|900 Millimeters|9e2 mm|9E+2 mm|+900 mm|900. mm", 0.9},
		{dimLength, "1/2 in|½ in|0.5 in|1/2\"|1/2″|½”|1/2 inch|1/2 INCHES|1⁄2 in|½''", 0.0127},
		{dimLength, "1 1/2 in|1-1/2 in|1½ in|1 ½\"|1.5in|1-½ in|3/2 in|1 1/2 in.", 0.0381},
		{dimLength, "3/32 in|3/32\"|0.09375 in", 0.00238125},
		{dimLength, "4 ft 10 in|4' 10\"|4'10\"|4ft 10in|4ft10in|4′ 10″|4 feet 10 inches|58 in|4 FT 10 IN|4’10”|4'-10\"|4 ft. 10 in.", 1.4732},
		{dimLength, "4 ft 10 1/2 in|4' 10 1/2\"|4'10½\"|4' 10-1/2\"|4 ft 10½ in|4'-10 1/2\"|4'-10½\"", 1.4859},
		{dimLength, "1 yd 2 ft 3 in", 1.6002},
		{dimLength, "-5 mm|−5 mm|- 5 mm|–5 mm", -0.005},
		{dimLength, "-1 ft 6 in|-18 in", -0.4572},
		{dimLength, "-0 ft 6 in", -0.1524},
		{dimLength, "0 mm|-0 mm|0 in", 0},
		{dimLength, "15 \u00b5m|15 um", 15e-6},
		{dimArea, "0.6 m2|0.6 m²|0.6 m^2|0.6 sq m|6000 cm2|0.6 square metres", 0.6},
		{dimArea, "6 sq ft|6 ft2|6 ft²|864 in2|6 square feet|6 sqft", 0.55741824},
		{dimVolume, "300 ml|0.3 L|0.3 l|0.3 litre|300 cm3|300 cc|300 ML|0.3 liters|300 cubic cm", 3e-4},
		{dimVolume, "3 US gal|3 us gallons|3 U.S. gallons|3 US Gal.|12 US qt|3 USgal|24 US pints|384 US fl oz", 3 * 3.785411784e-3},
		{dimVolume, "2 imp gal|2 imperial gallons|2 UK gal|8 imp qt|16 imp pints", 9.09218e-3},
		{dimVolume, "2 ft3|2 cu ft|2 cubic feet", 0.056633693184},
		{dimFlow, "400 L/h|400 l/h|400 L/H|400 LPH|400 l/hr|400 litres per hour|400 L per h|400 Liters/Hour|0.4 m3/h|400 L / h|400 ltr/h", 0.4 / 3600},
		{dimFlow, "10 L/min|10 lpm|10 l/m|10 litres/min|600 L/h|0.6 m3/h|10000 ml/min|10 L per minute", 0.01 / 60},
		{dimFlow, "2 L/s|2 l/sec|2 LPS|120 L/min", 2e-3},
		{dimFlow, "100 US gal/h|100 US gph|100 USGPH|100 us gallons per hour|100 US GPH|100 U.S. gal/hr", 100 * 3.785411784e-3 / 3600},
		{dimFlow, "5 US gpm|5 US gal/min|300 US gal/h", 300 * 3.785411784e-3 / 3600},
		{dimFlow, "100 imp gal/h|100 imp gph|100 UK gph|100 imperial gallons per hour", 0.454609 / 3600},
		{dimFlowPerWidth, "400 L/h per m|400 l/h/m|4 L/h per cm|400 litres per hour per metre|400 LPH per m", 0.4 / 3600},
		{dimFlowPerWidth, "3.6 US gal/h per in|3.6 US gph per inch|3.6 US gal/h/in|43.2 US gal/h per ft|3.6 us gallons per hour per inch", 3.6 * 3.785411784e-3 / 3600 / 0.0254},
		{dimSpeed, "1.5 m/s|150 cm/s|1.5 metres per second", 1.5},
		{dimSpeed, "5 ft/s|5 fps|60 in/s", 1.524},
		{dimSpeed, "4 mm/day|4 mm per day|4 mm/d|4 MM/Day|4 millimetres per day", 4e-3 / 86400},
		{dimSpeed, "0.5 in/day|1/2 in per day|½ inches per day", 0.0127 / 86400},
		{dimDuration, "90 min|1.5 h|1 h 30 min|1h30min|5400 s|1 1/2 h|1 hr 30 mins|1½ hours|1 hour 30 minutes", 5400},
		{dimDuration, "2 days|2 d|48 h|2 Days", 172800},
		{dimDuration, "1 week 1 day|8 days|1 wk 1 d", 691200},
		{dimTemperature, "22 C|22 °C|22 c|22°C|22 deg C|22 degrees Celsius|22ºC|295.15 K", 22},
		{dimTemperature, "-40 F|-40 C|-40 degrees Fahrenheit", -40},
		{dimMass, "1.5 kg|1500 g|1.5 kilos|1500 grams", 1.5},
		{dimMass, "3 lb 4 oz|3.25 lb|52 oz|3 lbs 4 ounces|3lb4oz", 52 * 0.45359237 / 16},
		{dimPower, "20 W|20 w|20 watts|0.02 kW|20W", 20},
		{dimPressure, "2 kPa|2000 Pa|20 mbar|0.02 bar|2 KPA|20 hPa|0.002 MPa", 2000},
		{dimPressure, "2 m of water|2 m water|2 mH2O|200 cm of water", 19613.3},
		{dimAngle, "45 deg|45°|45 degrees", math.Pi / 4},
		{dimRatio, "35 %|35%|0.35|35 percent|35 per cent|35 Per Cent", 0.35},
		{dimRatio, "400 %|4", 4},
	} {
		r := readerFor(t, c.dim)
		for text := range strings.SplitSeq(c.texts, "|") {
			got, err := r.read(text)
			// Two ways to the same amount may round once each: two in 1e16.
			if err != nil || math.Abs(got-c.si) > 3e-16*math.Abs(c.si) || got == 0 && math.Signbit(got) {
				t.Errorf("%s %q: %.17g %v, want %.17g", r.name, text, got, err, c.si)
			}
		}
	}
}

// What could mean two things is asked, not guessed; what means nothing is told.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		dim          dimension
		text         string
		problem, ask string // parts of them
	}{
		// Gallons, ounces, dollars: trade notes 2.3 (US 3.785 L, imperial 4.546 L).
		{dimVolume, "3 gal", "US or imperial", "imp gal (4.546 L)"},
		{dimVolume, "3 Gallons", "US or imperial", "US gal (3.785 L)"},
		{dimFlow, "210 gal/h", "US or imperial", "write US gal/h or imp gal/h"},
		{dimFlow, "210 gph", "US or imperial", "imp gal/h"},
		{dimFlow, "210 GPH", "US or imperial", "US gal/h"},
		{dimFlow, "210 gallons per hour", "US or imperial", "US gal/h"},
		{dimFlow, "3 gpm", "US or imperial", "US gal/min"},
		{dimFlowPerWidth, "3.6 gal/h per in", "US or imperial", "imp gal/h per in"},
		{dimFlowPerWidth, "3.6 gph/in", "US or imperial", "US gal/h per in"},
		{dimVolume, "2 quarts", "US or imperial", "US qt"},
		{dimVolume, "8 oz", "ounce", "US fl oz"},
		{dimVolume, "8 fl oz", "US or imperial", "imp fl oz"},
		{dimVolume, "8 fluid ounces", "US or imperial", "imp fl oz"},
		{dimMass, "1 ton", "which ton", "1000 kg"},
		{dimPower, "1/4 hp", "horsepower", "W"},
		{dimPressure, "2 mPa", "pascal", "MPa"},
		{dimTemperature, "22 deg", "which scale", "22 C"},
		{dimTemperature, "22°", "which scale", "72 F"},

		// Hose sizes as the aisle writes them: two sizes in one.
		{dimLength, "12/16 mm", "inside and outside", "one size"},
		{dimLength, "16/22mm", "inside and outside", "one size"},
		{dimLength, "1/2 x 5/8 in", "not known", "1/2 in"},
		{dimLength, "600 x 1200 mm", "not known", "12 mm"},

		// No unit.
		{dimLength, "12", "no unit", "12 mm or 1/2 in"},
		{dimLength, "1 1/2", "no unit", "mm"},
		{dimLength, "4 ft 10", "no unit", ""},
		{dimTemperature, "22", "no unit", "72 F"},
		{dimPower, "20", "no unit", "20 W"},

		// Decimal commas and thousands.
		{dimLength, "1,5 m", "comma", "write 15 or 1.5, without a comma"},
		{dimLength, "0,5 m", "comma", "write 0.5, without a comma"},
		{dimFlow, "1,200 L/h", "comma", "write 1200 or 1.200, without a comma"},
		{dimFlow, "1.200,5 L/h", "more than one point", "one decimal point"},
		{dimFlow, "1,200.5 L/h", "comma", "one decimal point"},
		{dimFlow, "1.200.000 L/h", "more than one point", ""},
		{dimFlow, "1 200 L/h", "side by side", "without a gap"},
		{dimLength, ",5 m", "comma", "write 0.5, without a comma"},

		// The wrong dimension.
		{dimLength, "5 kg", "this is a weight, not a length", "12 mm"},
		{dimLength, "5 L", "this is a volume, not a length", ""},
		{dimFlow, "5 L", "this is a volume, not a flow", "400 L/h"},
		{dimFlowPerWidth, "400 L/h", "this is a flow, not a flow for each width", "per m"},
		{dimDuration, "5 m", "this is a length, not a time", "min"},
		{dimArea, "5 m", "this is a length, not an area", "m2"},
		{dimRatio, "5 mm", "this is a length, not a share", "%"},

		// Fractions and signs.
		{dimLength, "1/0 in", "fraction of 0", ""},
		{dimLength, "1 3/2 in", "not below 1", ""},
		{dimLength, "1/2/3 in", "plain fraction", ""},
		{dimLength, "1/2.5 in", "plain fraction", ""},
		{dimLength, "1/2 1/2 in", "side by side", ""},
		{dimLength, "12-13 mm", "a dash between", "12 to 13"},
		{dimLength, "12 – 13 mm", "a dash between", "12 to 13"},
		{dimLength, "12..13 mm", "more than one point", ""},
		{dimLength, "--5 mm", "no number", ""},
		{dimLength, "4 ft -3 in", "two numbers", ""},
		{dimLength, "4 ft 13 in", "13 in is not less than 1 ft", "check it"},
		{dimLength, "1 yd 3 ft", "3 ft is not less than 1 yd", "check it"},
		{dimDuration, "1 day 24 h", "24 h is not less than 1 day", "check it"},
		{dimMass, "3 lb 16 oz", "16 oz is not less than 1 lb", "check it"},
		{dimLength, "4 in 3 ft", "two numbers", ""},
		{dimLength, "1 m 20 cm", "two numbers", ""},
		{dimFlow, "3 L/h 4 L/h", "two numbers", ""},
		{dimDuration, "1 wk 1 d 1 h 1 min 1 s", "too many numbers", ""},

		// What cannot be.
		{dimVolume, "-3 L", "less than nothing", ""},
		{dimMass, "-1 kg", "less than nothing", ""},
		{dimDuration, "-1 h", "less than nothing", ""},
		{dimFlow, "-1 L/h", "less than nothing", ""},
		{dimTemperature, "-300 C", "colder", ""},
		{dimTemperature, "-1 K", "colder", ""},
		{dimLength, "1e999 mm", "too large", ""},
		{dimLength, "1e300 mm", "too large", ""},
		{dimLength, "1e308 in", "too large", ""},
		{dimLength, "NaN mm", "no number", ""},
		{dimLength, "Inf mm", "no number", ""},
		{dimLength, "0x10 mm", "not known", ""},
		{dimLength, "1_000 mm", "not known", ""},
		{dimLength, "", "nothing", "12 mm"},
		{dimLength, "  ", "nothing", ""},
		{dimLength, "mm", "no number", ""},
		{dimLength, "wide", "no number", ""},
		{dimLength, "5 cubits", `unit "cubits" is not known`, "12 mm"},
		{dimLength, "5 mm wide", `"wide" behind the unit`, "alone, such as 12 mm"},
		{dimLength, "3/4 in NPT", `"NPT" behind the unit`, ""}, // trade notes 2.3: a thread's size is no length
		{dimLength, "1/2 in ID", `"ID" behind the unit`, ""},
		{dimLength, "12 to 13 mm", "a range where one figure is wanted", ""},
		{dimLength, "12 mm TO 13 mm", "a range where one figure is wanted", ""},
		{dimLength, "12.5 mm ± 0.5 mm", "a range where one figure is wanted", ""},
		{dimLength, "12.5 mm +/- 0.5 mm", "a range where one figure is wanted", ""},
		{dimLength, "12.5 +- 0.5 mm", "a range where one figure is wanted", ""},
		{dimLength, "12 mm to", "a figure is missing", ""},

		// What is no text at all, or has a byte that is none.
		{dimLength, "\xff\xfe1\x002\x00", "no number", ""},
		{dimLength, "12 mm\xff", "not known", ""},
		{dimLength, "12\xff mm", "not known", ""},
		{dimLength, "12\x00mm", "not known", ""},
	} {
		r := readerFor(t, c.dim)
		v, err := r.read(c.text)
		e, ok := errors.AsType[*Error](err)
		if !ok {
			t.Errorf("%s %q: read as %v (%v)", r.name, c.text, v, err)
			continue
		}
		if e.Text != c.text || !strings.Contains(e.Problem, c.problem) || !strings.Contains(e.Ask, c.ask) || e.Ask == "" {
			t.Errorf("%s %q: %q, ask %q", r.name, c.text, e.Problem, e.Ask)
		}
		if !strings.Contains(e.Error(), e.Problem) || !strings.Contains(e.Error(), e.Ask) {
			t.Errorf("message %q leaves something out", e.Error())
		}
	}
}
