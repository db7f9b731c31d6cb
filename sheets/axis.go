package sheets

import (
	"math"
	"strconv"

	"rillwright/quantity"
)

// axis is a range of figures along one side of a plot.
type axis struct {
	min, max float64
	step     float64 // from tick to tick
}

// newAxis returns an axis from min, or from 0 if that is lower, with at most
// some steps between ticks. With whole, its end is a tick; else it is max. A
// range of no width becomes one of width 1.
func newAxis(least, most float64, steps int, whole bool) axis {
	least = math.Min(least, 0)
	if !(most > least) {
		most = least + 1
	}
	a := axis{min: least, max: most, step: niceStep((most - least) / float64(steps))}
	if whole {
		// A hair more than a tick is that tick.
		a.max = math.Ceil(most/a.step-1e-9) * a.step
	}
	return a
}

// niceStep returns the smallest of 1, 2 and 5 times a power of ten that is not
// below a step.
func niceStep(step float64) float64 {
	ten := math.Pow(10, math.Floor(math.Log10(step)))
	for _, m := range []float64{1, 2, 5} {
		if m*ten >= step*(1-1e-9) {
			return m * ten
		}
	}
	return 10 * ten
}

// ticks returns the multiples of the step on the axis, from 0 or its beginning
// if that is higher: what plots show is not negative.
func (a axis) ticks() []float64 {
	var out []float64
	for k := math.Max(math.Ceil(a.min/a.step-1e-9), 0); k*a.step <= a.max+1e-9*a.step; k++ {
		out = append(out, k*a.step)
	}
	return out
}

// label prints a tick with the decimals that its step needs.
func (a axis) label(v float64) string {
	decimals := max(0, -int(math.Floor(math.Log10(a.step)+1e-9)))
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// unit is a unit in which a plot counts.
type unit struct {
	name string
	si   float64
}

func (u unit) of(si float64) float64 { return si / u.si }

// headUnit is the unit of a pump's head and of lifts, as answers has it.
func headUnit(sys quantity.System) unit {
	if sys == quantity.US {
		return lengthUnit("ft")
	}
	return lengthUnit("m")
}

func lengthUnit(name string) unit {
	l, _ := quantity.ParseLength("1 " + name) // names come from package quantity
	return unit{name, float64(l)}
}

// flowUnit is the unit in which a flow is shown.
func flowUnit(sys quantity.System) unit {
	_, name := quantity.Flow(1).In(sys)
	q, _ := quantity.ParseFlow("1 " + name)
	return unit{name, float64(q)}
}

// headText shows a head as answers does.
func headText(h float64, sys quantity.System) string {
	u, decimals := headUnit(sys), 2
	if sys == quantity.US {
		decimals = 1
	}
	return strconv.FormatFloat(u.of(h), 'f', decimals, 64) + " " + u.name
}
