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
		"a number", "12 mm or 1/2 in", "0.6 m2 or 6 sq ft", "12 L or 3 US gal", "400 L/h or 100 US gal/h", "400 L/h per m or 3 US gal/h per in",
		"1.5 m/s, 5 ft/s or 4 mm/day", "30 min or 2 days", "22 C or 72 F", "1.5 kg or 3 lb", "20 W", "2 kPa or 3 psi", "45 deg", "35 %",
	}[d]
}

// lowest returns the least amount there can be, and what to call less than that.
// Heights below a floor, gauge pressures, angles and shares have none.
func (d dimension) lowest() (si float64, problem string, bounded bool) {
	switch d {
	case noDimension, dimLength, dimPressure, dimAngle, dimRatio:
		return 0, "", false
	case dimTemperature: // with room for the rounding of -459.67 F
		return -273.15 - 1e-9, "colder than anything can be", true
	default:
		return 0, "less than nothing", true
	}
}

// dimensionOf returns the dimension of a quantity type.
func dimensionOf[T ~float64]() dimension {
	var zero T
	switch any(zero).(type) {
	case Length:
		return dimLength
	case Area:
		return dimArea
	case Volume:
		return dimVolume
	case Flow:
		return dimFlow
	case FlowPerWidth:
		return dimFlowPerWidth
	case Speed:
		return dimSpeed
	case Duration:
		return dimDuration
	case Temperature:
		return dimTemperature
	case Mass:
		return dimMass
	case Power:
		return dimPower
	case Pressure:
		return dimPressure
	case Angle:
		return dimAngle
	case Ratio:
		return dimRatio
	}
	return noDimension
}
