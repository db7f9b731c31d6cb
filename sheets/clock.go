package sheets

import (
	"fmt"
	"math"
	"strconv"
)

// Units of time, s.
const (
	minute = 60.0
	hour   = 60 * minute
	day    = 24 * hour
)

// timeUnit is the unit in which times up to one suit people.
func timeUnit(t float64) unit {
	switch {
	case t < 3*minute:
		return unit{"s", 1}
	case t < 3*hour:
		return unit{"min", minute}
	case t < 3*day:
		return unit{"h", hour}
	}
	return unit{"days", day}
}

// newTimeAxis returns an axis in u from 0 to end, or to the tick after it if
// that is not beyond most, all in s. Its steps are those of a clock's face.
func newTimeAxis(u unit, end, most float64) axis {
	const steps = 10
	v := u.of(end)
	a := axis{max: v, step: niceStep(v / steps)}
	clock := map[string][]float64{
		"s":   {0.5, 1, 2, 5, 10, 15, 30},
		"min": {0.5, 1, 2, 5, 10, 15, 20, 30},
		"h":   {0.5, 1, 2, 3, 6, 12},
	}[u.name]
	for _, c := range clock {
		if c*steps >= v {
			a.step = c
			break
		}
	}
	if whole := math.Ceil(v/a.step-1e-9) * a.step; whole <= u.of(most)*(1+1e-9) {
		a.max = whole
	}
	return a
}

// clock tells a time, s, in one unit or two: "93 s", "3 min 5 s", "4 days 22 h".
func clock(t float64) string {
	if t < 9.95 && t != math.Round(t) {
		return strconv.FormatFloat(t, 'f', 1, 64) + " s"
	}
	two := func(big, small float64, bigName, smallName string) string {
		n := math.Round(t / small)
		per := math.Round(big / small)
		whole, part := math.Floor(n/per), math.Mod(n, per)
		switch {
		case whole == 0:
			return fmt.Sprintf("%.0f %s", part, smallName)
		case part == 0:
			return fmt.Sprintf("%.0f %s", whole, bigName)
		}
		return fmt.Sprintf("%.0f %s %.0f %s", whole, bigName, part, smallName)
	}
	switch {
	case math.Round(t) < 2*minute:
		return strconv.FormatFloat(t, 'f', 0, 64) + " s"
	case math.Round(t) < 2*hour:
		return two(minute, 1, "min", "s")
	case math.Round(t/minute) < 2*24*60:
		return two(hour, minute, "h", "min")
	}
	return two(day, hour, "days", "h")
}
