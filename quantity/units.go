package quantity

import "math"

// unit is one way to write a dimension. A reading v in it is
// (v - zero) num/den in SI units. Numerator and denominator are kept apart
// because both are whole numbers for nearly every unit: 900 mm is then exactly
// the number nearest to 0.9, which 900 times a rounded 0.001 need not be.
type unit struct {
	dim      dimension
	num, den float64
	zero     float64 // reading at 0 in SI units
	names    string  // separated by |; the first is the one printed
}

func (u *unit) si(reading float64) float64 { return (reading - u.zero) * u.num / u.den }

func (u *unit) reading(si float64) float64 { return si*u.den/u.num + u.zero }

// scale returns the SI amount of one unit.
func (u *unit) scale() float64 { return u.num / u.den }

// Exact definitions, as tabled in NIST Special Publication 811 (from memory):
// the inch and the pound of the international yard and pound agreement of 1959,
// 0.0254 m and 0.45359237 kg; the US gallon of 231 cubic inches, 3.785411784 L;
// the imperial gallon of 4.54609 L (UK Units of Measurement Regulations 1995);
// standard gravity 9.80665 m/s2; the conventional metre of water, 9806.65 Pa.
const (
	inch      = 254.0          // / 1e4, m
	foot      = 12 * inch      // / 1e4, m
	pound     = 45_359_237.0   // / 1e8, kg
	usGallon  = 3785_411_784.0 // / 1e12, m3
	impGallon = 454_609.0      // / 1e8, m3
	gravity   = 980_665.0      // / 1e5, m/s2
	minute    = 60.0           // s
	hour      = 3600.0         // s
	day       = 24 * hour      // s
)

// unitTable is every unit that can be read and printed: to add one, add a line.
// Names are written as canonical leaves them; what it can spell out (litres per
// hour, square feet) needs no name of its own here. It never changes.
var unitTable = [...]unit{
	{dimLength, 1, 1e3, 0, "mm"},
	{dimLength, 1, 1e2, 0, "cm"},
	{dimLength, 1, 1, 0, "m"},
	{dimLength, 1, 1e6, 0, "um|µm|μm"},
	{dimLength, inch, 1e4, 0, "in|\"|''"},
	{dimLength, foot, 1e4, 0, "ft|'"},
	{dimLength, 3 * foot, 1e4, 0, "yd"},

	{dimArea, 1, 1e6, 0, "mm2|sq mm"},
	{dimArea, 1, 1e4, 0, "cm2|sq cm"},
	{dimArea, 1, 1, 0, "m2|sq m|sqm"},
	{dimArea, inch * inch, 1e8, 0, "in2|sq in"},
	{dimArea, foot * foot, 1e8, 0, "ft2|sq ft|sqft"},

	{dimVolume, 1, 1e6, 0, "ml|cm3|cc|cu cm"},
	{dimVolume, 1, 1e3, 0, "L|dm3"},
	{dimVolume, 1, 1, 0, "m3|cu m"},
	{dimVolume, usGallon, 1e12, 0, "US gal"},
	{dimVolume, impGallon, 1e8, 0, "imp gal"},
	{dimVolume, usGallon, 4e12, 0, "US qt"},
	{dimVolume, usGallon, 8e12, 0, "US pt"},
	{dimVolume, usGallon, 128e12, 0, "US fl oz"},
	{dimVolume, impGallon, 4e8, 0, "imp qt"},
	{dimVolume, impGallon, 8e8, 0, "imp pt"},
	{dimVolume, impGallon, 160e8, 0, "imp fl oz"},
	{dimVolume, inch * inch * inch, 1e12, 0, "in3|cu in"},
	{dimVolume, foot * foot * foot, 1e12, 0, "ft3|cu ft"},

	{dimFlow, 1, 1e3 * hour, 0, "L/h"},
	{dimFlow, 1, 1e3 * minute, 0, "L/min|l/m"}, // a label's "L/m"; as a flow it can mean nothing else
	{dimFlow, 1, 1e3, 0, "L/s"},
	{dimFlow, 1, 1e6 * minute, 0, "ml/min"},
	{dimFlow, 1, 1e6 * hour, 0, "ml/h"},
	{dimFlow, 1, hour, 0, "m3/h|cu m/h"},
	{dimFlow, 1, 1, 0, "m3/s|cu m/s"},
	{dimFlow, usGallon, 1e12 * hour, 0, "US gal/h"},
	{dimFlow, usGallon, 1e12 * minute, 0, "US gal/min"},
	{dimFlow, impGallon, 1e8 * hour, 0, "imp gal/h"},
	{dimFlow, impGallon, 1e8 * minute, 0, "imp gal/min"},

	{dimFlowPerWidth, 1, 1e3 * hour, 0, "L/h per m|l/h/m"},
	{dimFlowPerWidth, 1, 1e1 * hour, 0, "L/h per cm|l/h/cm"},
	{dimFlowPerWidth, 1, 1e3 * minute, 0, "L/min per m|l/min/m"},
	{dimFlowPerWidth, usGallon * 1e4, 1e12 * hour * inch, 0, "US gal/h per in|us gal/h/in"},
	{dimFlowPerWidth, usGallon * 1e4, 1e12 * hour * foot, 0, "US gal/h per ft|us gal/h/ft"},
	{dimFlowPerWidth, impGallon * 1e4, 1e8 * hour * inch, 0, "imp gal/h per in|imp gal/h/in"},
	{dimFlowPerWidth, impGallon * 1e4, 1e8 * hour * foot, 0, "imp gal/h per ft|imp gal/h/ft"},
	{dimFlowPerWidth, 1, 1, 0, "m2/s"},

	{dimSpeed, 1, 1, 0, "m/s"},
	{dimSpeed, 1, 1e2, 0, "cm/s"},
	{dimSpeed, 1, 1e3, 0, "mm/s"},
	{dimSpeed, foot, 1e4, 0, "ft/s"},
	{dimSpeed, inch, 1e4, 0, "in/s"},
	{dimSpeed, 1, 1e3 * day, 0, "mm/day|mm/d"}, // of evaporation
	{dimSpeed, inch, 1e4 * day, 0, "in/day|in/d"},

	{dimDuration, 1, 1, 0, "s"},
	{dimDuration, minute, 1, 0, "min"},
	{dimDuration, hour, 1, 0, "h"},
	{dimDuration, day, 1, 0, "days|d"},
	{dimDuration, 7 * day, 1, 0, "weeks|wk"},

	{dimTemperature, 1, 1, 0, "C|deg c|°c"},
	{dimTemperature, 5, 9, 32, "F|deg f|°f"},
	{dimTemperature, 1, 1, 273.15, "K"},

	{dimMass, 1, 1e3, 0, "g"},
	{dimMass, 1, 1, 0, "kg"},
	{dimMass, 1e3, 1, 0, "t"},
	{dimMass, pound, 1e8, 0, "lb"},
	{dimMass, pound, 16e8, 0, "oz"},

	{dimPower, 1, 1, 0, "W"},
	{dimPower, 1e3, 1, 0, "kW"},

	{dimPressure, 1, 1, 0, "Pa"},
	{dimPressure, 1e3, 1, 0, "kPa"},
	{dimPressure, 1e6, 1, 0, "MPa|n/mm2"},
	{dimPressure, 1e2, 1, 0, "mbar|hpa"},
	{dimPressure, 1e5, 1, 0, "bar"},
	{dimPressure, pound * gravity, 1e5 * inch * inch, 0, "psi|lb/in2|lb/sq in"},
	{dimPressure, gravity, 1e2, 0, "m of water|m water|mh2o"},
	{dimPressure, gravity, 1e4, 0, "cm of water|cm water|cmh2o"},
	{dimPressure, gravity, 1e5, 0, "mm of water|mm water|mmh2o"},
	{dimPressure, gravity * inch, 1e6, 0, "in of water|in water|inh2o"},
	{dimPressure, gravity * foot, 1e6, 0, "ft of water|ft water|fth2o"},

	{dimAngle, math.Pi, 180, 0, "deg|°"},
	{dimAngle, 1, 1, 0, "rad"},

	{dimRatio, 1, 1e2, 0, "%|per cent"},
}
