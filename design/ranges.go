package design

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"rillwright/document"
	"rillwright/quantity"
)

// interval is a range of numbers, in the unit of the field's type.
type interval struct {
	low, high         float64
	openLow, openHigh bool
}

// parseInterval reads "[0,1)"; the tags are constant, so that a wrong one is a
// programmer's mistake, which any test shows.
func parseInterval(s string) interval {
	low, high, ok := strings.Cut(s[1:len(s)-1], ",")
	l, err1 := strconv.ParseFloat(low, 64)
	h, err2 := strconv.ParseFloat(high, 64)
	if !ok || err1 != nil || err2 != nil {
		panic("design: range tag " + s)
	}
	return interval{l, h, s[0] == '(', s[len(s)-1] == ')'}
}

func (r interval) holds(v float64) bool {
	return (v > r.low || v == r.low && !r.openLow) && (v < r.high || v == r.high && !r.openHigh)
}

// defaultRange is what a field without a range tag must keep to: sizes, flows,
// powers and counts more than nothing, and nothing beyond what could stand in a
// room. A size of 900 m is a slip for 900 mm.
func defaultRange(l document.Leaf) (string, bool) {
	switch l.(type) {
	case *Field[length], *Field[LengthBand]:
		return "(0,100]", true
	case *Field[flow], *Field[flowBand], *Field[perWidth]:
		return "(0,1]", true
	case *Field[area]:
		return "(0,1]", true
	case *Field[volume]:
		return "(0,100]", true
	case *Field[ratio], *Field[ratioBand]:
		return "(0,1000]", true
	case *Field[quantity.Power], *Field[mass]:
		return "(0,100000]", true
	case *Field[duration]:
		return "(0,1e9]", true
	case *Field[quantity.Angle]:
		return "(0,3.1416]", true
	case *Field[quantity.Money]:
		return "[0,1e9]", true
	case *Field[int]:
		return "[1,1000000]", true
	}
	return "", false
}

// amounts returns the least and the most that a leaf may be, and how to write
// a limit of its type.
func amounts(l document.Leaf) (low, high float64, write func(float64) string) {
	switch f := l.(type) {
	case *Field[length]:
		return float64(f.Value), float64(f.Value), metres
	case *Field[LengthBand]:
		return float64(f.Value.Low), float64(f.Value.High), metres
	case *Field[flow]:
		return float64(f.Value), float64(f.Value), cubicMetres
	case *Field[flowBand]:
		return float64(f.Value.Low), float64(f.Value.High), cubicMetres
	case *Field[perWidth]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v*3.6e6) + " L/h per m" }
	case *Field[ratio]:
		return float64(f.Value), float64(f.Value), perCent
	case *Field[ratioBand]:
		return float64(f.Value.Low), float64(f.Value.High), perCent
	case *Field[tempBand]:
		return float64(f.Value.Low), float64(f.Value.High), func(v float64) string { return number(v) + " C" }
	case *Field[quantity.Power]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v) + " W" }
	case *Field[mass]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v) + " kg" }
	case *Field[quantity.Band[quantity.Pressure]]:
		return float64(f.Value.Low), float64(f.Value.High), func(v float64) string { return number(v/1000) + " kPa" }
	case *Field[area]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v) + " m2" }
	case *Field[volume]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v*1000) + " L" }
	case *Field[speedBand]:
		return float64(f.Value.Low), float64(f.Value.High), func(v float64) string { return number(v*86400e3) + " mm/day" }
	case *Field[duration]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v/3600) + " h" }
	case *Field[quantity.Angle]:
		return float64(f.Value), float64(f.Value), func(v float64) string { return number(v*180/math.Pi) + " deg" }
	case *Field[quantity.Money]:
		return f.Value.Amount, f.Value.Amount, number
	case *Field[int]:
		return float64(f.Value), float64(f.Value), number
	}
	return 0, 0, number
}

func number(v float64) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e15 {
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}

func metres(v float64) string {
	if v != 0 && math.Abs(v) < 1 {
		return number(v*1000) + " mm"
	}
	return number(v) + " m"
}

func cubicMetres(v float64) string { return number(v*3.6e6) + " L/h" }

func perCent(v float64) string {
	if v > 1 {
		return number(v)
	}
	return number(v*100) + " %"
}

// values checks every value of the file against its range, that dates are real
// and that all money is of one currency.
func (c *checker) values() {
	var first *Field[quantity.Money]
	document.Walk(c.d, func(sp document.Spot) {
		_, at := sp.Leaf.Source()
		if !sp.Leaf.Given() || c.bad[[2]int{at.Line, at.Column}] || sp.Key == "rillwright" {
			return
		}
		c.inRange(sp)
		if m, ok := sp.Leaf.(*Field[quantity.Money]); ok {
			switch {
			case first == nil:
				first = m
			case m.Value.Currency != first.Value.Currency:
				c.report(at, sp.Path, fmt.Sprintf("%s %q is in another currency than %q on line %d", sp.Key, m.Text, first.Text, first.Pos.Line),
					"write all money in one currency, at the rate you were given")
			}
		}
	})
}

func (c *checker) inRange(sp document.Spot) {
	tag := sp.Tag.Get("range")
	if tag == "" {
		var ok bool
		if tag, ok = defaultRange(sp.Leaf); !ok {
			return
		}
	}
	r := parseInterval(tag)
	low, high, write := amounts(sp.Leaf)
	if r.holds(low) && r.holds(high) {
		return
	}
	text, at := sp.Leaf.Source()
	c.report(at, sp.Path, fmt.Sprintf("%s %q: out of range", sp.Key, text), "it must be "+r.words(low, write))
	c.bad[[2]int{at.Line, at.Column}] = true // what it would break elsewhere follows from this
}

// words says what the range asks of a value that breaks it: the end that
// matters.
func (r interval) words(v float64, write func(float64) string) string {
	least := "0"
	if r.low != 0 {
		least = write(r.low)
	}
	low, high := "at least "+least, "at most "+write(r.high)
	if r.openLow {
		low = "more than " + least
	}
	if r.openHigh {
		high = "less than " + write(r.high)
	}
	if v < r.low || v == r.low && r.openLow {
		return low
	}
	return high
}

// date checks a date and returns it.
func (c *checker) date(f Field[string], path string) (time.Time, bool) {
	if !reads(c, f) {
		return time.Time{}, false
	}
	t, err := time.Parse(time.DateOnly, strings.TrimSpace(f.Value))
	if err != nil {
		what, do := notADay(f.Value)
		c.report(f.Pos, path, fmt.Sprintf("%q is %s", f.Text, what), do)
	}
	return t, err == nil
}

// notADay tells what is wrong with a text that is no date.
func notADay(text string) (what, do string) {
	if shaped(text) {
		return "not in the calendar", "look up the day"
	}
	return "not a date", "write year-month-day, as 2026-01-31"
}

// shaped reports whether a text looks like 2026-01-31.
func shaped(s string) bool {
	digits := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '0'
		}
		return r
	}, strings.TrimSpace(s))
	return digits == "0000-00-00"
}
