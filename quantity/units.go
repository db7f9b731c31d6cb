package quantity

// dimension tells quantities apart.
type dimension uint8

const (
	noDimension dimension = iota
	dimLength
	dimArea
	dimVolume
	dimFlow
	dimFlowPerWidth
	dimSpeed
	dimDuration
	dimTemperature
	dimMass
	dimPower
	dimPressure
	dimAngle
	dimRatio
)

// String returns the dimension with its article, as error messages use it.
func (d dimension) String() string {
	return [...]string{
		"a plain number", "a length", "an area", "a volume", "a flow", "a flow for each width", "a speed",
		"a time", "a temperature", "a weight", "a power", "a pressure", "an angle", "a share",
	}[d]
}

// example returns texts of the dimension that can be read.
func (d dimension) example() string {
	return [...]string{
		"", "12 mm or 1/2 in", "0.6 m2 or 6 sq ft", "12 L or 3 US gal", "400 L/h or 100 US gal/h", "400 L/h per m or 3 US gal/h per in",
		"1.5 m/s or 5 ft/s", "30 min or 2 days", "22 C or 72 F", "1.5 kg or 3 lb", "20 W", "2 kPa or 3 psi", "45 deg", "35 %",
	}[d]
}

// Exact definitions. Inch, foot, pound: the international yard and pound
// agreement of 1959; gallons: 231 cubic inches (US) and 4.54609 L (UK Units of
// Measurement Regulations 1995); standard gravity 9.80665 m/s2. All as tabled in
// NIST Special Publication 811 (from memory).
const (
	inch       = 0.0254
	foot       = 12 * inch
	pound      = 0.45359237
	usGallon   = 231 * inch * inch * inch
	impGallon  = 4.54609e-3
	minute     = 60.0
	hour       = 3600.0
	day        = 24 * hour
	waterMetre = 9806.65 // Pa for a metre of water at 4 C, conventional
)

// unit is one way to write a dimension. The first name is the one printed.
type unit struct {
	dim   dimension
	scale float64 // SI amount of one unit
	zero  float64 // SI amount at a reading of 0
	names string  // separated by |, in lower case
}

// unitTable is every unit that can be read: to add one, add a line.
//
//nolint:gochecknoglobals // a constant table
var unitTable = []unit{
	{dimLength, 1e-3, 0, "mm|millimetre|millimetres|millimeter|millimeters"},
	{dimLength, 1e-2, 0, "cm|centimetre|centimetres|centimeter|centimeters"},
	{dimLength, 1, 0, "m|metre|metres|meter|meters"},
	{dimLength, inch, 0, "in|\"|inch|inches|''"},
	{dimLength, foot, 0, "ft|'|foot|feet"},
	{dimLength, 3 * foot, 0, "yd|yard|yards"},

	{dimArea, 1e-6, 0, "mm2|sq mm"},
	{dimArea, 1e-4, 0, "cm2|sq cm"},
	{dimArea, 1, 0, "m2|sq m"},
	{dimArea, inch * inch, 0, "in2|sq in"},
	{dimArea, foot * foot, 0, "ft2|sq ft"},

	{dimVolume, 1e-6, 0, "ml|cm3|cc|millilitre|millilitres|milliliter|milliliters"},
	{dimVolume, 1e-3, 0, "L|l|litre|litres|liter|liters|dm3"},
	{dimVolume, 1, 0, "m3|cu m"},
	{dimVolume, usGallon, 0, "US gal|us gallon|us gallons"},
	{dimVolume, impGallon, 0, "imp gal|imp gallon|imp gallons|imperial gal|imperial gallon|imperial gallons|uk gal|uk gallon|uk gallons"},
	{dimVolume, usGallon / 4, 0, "US qt|us quart|us quarts"},
	{dimVolume, usGallon / 8, 0, "US pt|us pint|us pints"},
	{dimVolume, usGallon / 128, 0, "US fl oz|us fluid ounce|us fluid ounces"},
	{dimVolume, impGallon / 4, 0, "imp qt|imp quart|imp quarts"},
	{dimVolume, impGallon / 8, 0, "imp pt|imp pint|imp pints"},
	{dimVolume, impGallon / 160, 0, "imp fl oz|imp fluid ounce|imp fluid ounces"},
	{dimVolume, inch * inch * inch, 0, "in3|cu in"},
	{dimVolume, foot * foot * foot, 0, "ft3|cu ft"},

	{dimFlow, 1e-3 / hour, 0, "L/h|l/hr|lph|l per h|l per hour|litres per hour|liters per hour"},
	{dimFlow, 1e-3 / minute, 0, "L/min|lpm|l/m|l per min|litres per minute|liters per minute"},
	{dimFlow, 1e-3, 0, "L/s|l/sec|lps"},
	{dimFlow, 1e-6 / minute, 0, "ml/min"},
	{dimFlow, 1e-6 / hour, 0, "ml/h"},
	{dimFlow, 1 / hour, 0, "m3/h|m3/hr"},
	{dimFlow, 1, 0, "m3/s"},
	{dimFlow, usGallon / hour, 0, "US gal/h|us gal/hr|us gph|usgph|us gallons per hour|us gal per hour"},
	{dimFlow, usGallon / minute, 0, "US gal/min|us gpm|usgpm|us gallons per minute"},
	{dimFlow, impGallon / hour, 0, "imp gal/h|imp gal/hr|imp gph|imperial gal/h|imperial gph|uk gal/h|uk gph|imp gallons per hour"},
	{dimFlow, impGallon / minute, 0, "imp gal/min|imp gpm|uk gpm"},

	{dimFlowPerWidth, 1e-3 / hour, 0, "L/h per m|l/h/m|l/h per metre|l/h per meter"},
	{dimFlowPerWidth, 1e-3 / hour / 1e-2, 0, "L/h per cm|l/h/cm"},
	{dimFlowPerWidth, 1e-3 / minute, 0, "L/min per m|l/min/m"},
	{dimFlowPerWidth, usGallon / hour / inch, 0, "US gal/h per in|us gal/h per inch|us gph per in|us gph per inch|us gph/in"},
	{dimFlowPerWidth, usGallon / hour / foot, 0, "US gal/h per ft|us gal/h per foot|us gph per ft|us gph/ft"},
	{dimFlowPerWidth, impGallon / hour / inch, 0, "imp gal/h per in|imp gal/h per inch|imp gph per in"},
	{dimFlowPerWidth, 1, 0, "m2/s"},

	{dimSpeed, 1, 0, "m/s"},
	{dimSpeed, 1e-2, 0, "cm/s"},
	{dimSpeed, foot, 0, "ft/s|fps"},

	{dimDuration, 1, 0, "s|sec|second|seconds"},
	{dimDuration, minute, 0, "min|minute|minutes"},
	{dimDuration, hour, 0, "h|hr|hrs|hour|hours"},
	{dimDuration, day, 0, "days|d|day"},
	{dimDuration, 7 * day, 0, "weeks|week|wk"},

	{dimTemperature, 1, 0, "C|c|deg c|°c|celsius"},
	{dimTemperature, 5.0 / 9, -160.0 / 9, "F|f|deg f|°f|fahrenheit"},
	{dimTemperature, 1, -273.15, "K|k|kelvin"},

	{dimMass, 1e-3, 0, "g|gram|grams"},
	{dimMass, 1, 0, "kg"},
	{dimMass, 1000, 0, "t|tonne|tonnes"},
	{dimMass, pound, 0, "lb|lbs|pound|pounds"},
	{dimMass, pound / 16, 0, "oz|ounce|ounces"},

	{dimPower, 1, 0, "W|w|watt|watts"},
	{dimPower, 1000, 0, "kW|kw"},

	{dimPressure, 1, 0, "Pa|pa"},
	{dimPressure, 1000, 0, "kPa|kpa"},
	{dimPressure, 100, 0, "mbar|hpa"},
	{dimPressure, 1e5, 0, "bar"},
	{dimPressure, pound * 9.80665 / (inch * inch), 0, "psi"},
	{dimPressure, waterMetre, 0, "m of water|m water|mh2o"},
	{dimPressure, waterMetre * inch, 0, "in of water|in water|inh2o"},
	{dimPressure, waterMetre * foot, 0, "ft of water|ft water|fth2o"},

	{dimAngle, degree, 0, "deg|°|degree|degrees"},
	{dimAngle, 1, 0, "rad"},

	{dimRatio, 0.01, 0, "%|percent|per cent"},
}

const degree = 0.017453292519943295769236907684886127134428718885417

// ambiguous returns the question to put to a unit word that could mean two
// things, with the answers to choose from.
func ambiguous(name string) (problem, ask string) {
	switch name {
	case "gal", "gals", "gallon", "gallons":
		return "US or imperial gallon?", "write US gal (3.785 L) or imp gal (4.546 L)"
	case "gph", "gal/h", "gal/hr", "gallons per hour", "gal per hour":
		return "US or imperial gallons?", "write US gal/h or imp gal/h"
	case "gpm", "gal/min", "gallons per minute":
		return "US or imperial gallons?", "write US gal/min or imp gal/min"
	case "gal/h per in", "gph per in", "gph/in", "gal/h per inch", "gph per inch":
		return "US or imperial gallons?", "write US gal/h per in or imp gal/h per in"
	case "qt", "quart", "quarts", "pt", "pint", "pints":
		return "US or imperial measure?", "write US " + name + " or imp " + name
	case "fl oz", "fluid ounce", "fluid ounces":
		return "US or imperial fluid ounce?", "write US fl oz (29.57 ml) or imp fl oz (28.41 ml)"
	}
	return "", ""
}
