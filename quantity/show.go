package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// System is the set of units that results are shown in.
type System int

// The systems of units.
const (
	Metric System = iota
	US
)

// ParseSystem reads "metric" or "us".
func ParseSystem(text string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "metric":
		return Metric, nil
	case "us":
		return US, nil
	}
	return Metric, &Error{text, "not a system of units", "write metric or us"}
}

func (s System) String() string {
	if s == US {
		return "us"
	}
	return "metric"
}

// tiny is the least length, in m or in, that is told from rounding noise: less
// is shown as 0.
const tiny = 1e-8

// slow is the speed, in m/s, below which it is shown for each day: 86 mm a day.
const slow = 1e-6

// shown returns the unit in which an amount of a dimension is shown and the
// decimals that make sense for it.
func shown(si float64, dim dimension, sys System) (name string, decimals int) {
	a := math.Abs(si)
	us := sys == US
	switch dim {
	case dimLength:
		switch {
		case us && a < 8*foot/1e4:
			return "in", 2
		case us:
			return "ft", 1
		case a > tiny && a < 1e-4:
			return "mm", 4
		case a < 0.01:
			return "mm", 1
		case a < 2:
			return "mm", 0
		}
		return "m", 2
	case dimArea:
		switch {
		case us && a < foot*foot/1e8:
			return "in2", 3
		case us:
			return "ft2", 2
		case a < 1e-4:
			return "mm2", 2
		case a < 1e-2:
			return "cm2", 2
		}
		return "m2", 2
	case dimVolume:
		switch {
		case us && a < usGallon/8e12:
			return "US fl oz", 1
		case us:
			return "US gal", 1
		case a < 1e-3:
			return "ml", 0
		}
		return "L", 1
	case dimFlow:
		switch {
		case us && a < 10*usGallon/1e12/hour:
			return "US gal/h", 2
		case us:
			return "US gal/h", 0
		case a < 10e-3/hour:
			return "L/h", 2
		case a < 100e-3/hour:
			return "L/h", 1
		}
		return "L/h", 0
	case dimFlowPerWidth:
		if us {
			return "US gal/h per in", 1
		}
		return "L/h per m", 0
	case dimSpeed:
		switch {
		case us && a > 0 && a < slow:
			return "in/day", 2
		case us:
			return "ft/s", 2
		case a > 0 && a < slow:
			return "mm/day", 1
		}
		return "m/s", 2
	case dimDuration:
		switch {
		case a < 120:
			return "s", 0
		case a < 2*hour:
			return "min", 0
		case a < 2*day:
			return "h", 1
		}
		return "days", 1
	case dimTemperature:
		if us {
			return "F", 0
		}
		return "C", 0
	case dimMass:
		switch {
		case us && a < pound/1e8:
			return "oz", 1
		case us:
			return "lb", 1
		case a < 1:
			return "g", 0
		}
		return "kg", 1
	case dimPower:
		return "W", 0
	case dimPressure:
		switch {
		case us:
			return "psi", 2
		case a >= 1e6:
			return "MPa", 2
		}
		return "kPa", 2
	case dimAngle:
		return "deg", 1
	case dimRatio:
		if a < 0.1 {
			return "%", 1
		}
		return "%", 0
	}
	return "", 3
}

// in returns the amount as a number in the unit in which the system shows it,
// unrounded, with that unit's name.
func in(si float64, dim dimension, sys System) (value float64, name string) {
	name, _ = shown(si, dim, sys)
	return inUnit(si, name), name
}

func inUnit(si float64, name string) float64 {
	return byName()[name].reading(si)
}

// show prints an amount for people, rounded.
func show(si float64, dim dimension, sys System) string {
	name, decimals := shown(si, dim, sys)
	return showAs(si, dim, name, decimals)
}

// showAs prints an amount in a unit, rounded to some decimals.
func showAs(si float64, dim dimension, name string, decimals int) string {
	if dim == dimLength && name == "in" {
		return sixteenths(si) + " in"
	}
	return number(inUnit(si, name), decimals) + " " + name
}

// number prints a value with the given decimals, and no minus on a zero.
func number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return s
}

// sixteenths prints a length in inches as a tape shows it, to the nearest
// sixteenth; what is under an eighth of an inch is printed in decimals.
func sixteenths(si float64) string {
	inches := inUnit(si, "in")
	switch a := math.Abs(inches); {
	case a > tiny && a < 0.01:
		return number(inches, 5)
	case a < 0.125:
		return number(inches, 3)
	}
	return Sixteenths(inches)
}

// Sixteenths writes a number to the nearest sixteenth, as a tape in inches has it:
// "1 1/2", "3/16", "0".
func Sixteenths(v float64) string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	n := int(math.Round(v * 16))
	if n == 0 {
		return "0"
	}
	whole, part, of := n/16, n%16, 16
	for part > 0 && part%2 == 0 {
		part, of = part/2, of/2
	}
	switch {
	case part == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, part, of)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, part, of)
}

// exactly prints an amount in a named unit with all its digits, so that reading
// it gives the same amount again but for the last bit or two. It panics on a
// unit that is not in the table or of another dimension.
func exactly(si float64, dim dimension, name string) string {
	u, _ := findUnit(name)
	if u == nil || u.dim != dim {
		panic(fmt.Sprintf("quantity: %q is not a unit of %v", name, dim))
	}
	return strconv.FormatFloat(u.reading(si), 'g', -1, 64) + " " + name
}
