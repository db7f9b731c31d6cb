// Package commission works out how an enclosure is tried before plants go in: what
// to measure, in which order, within which figures each measurement passes, and
// what to do if one does not. The figures are those of the survey and of the faults
// followed; nothing is drawn here and no file is read.
//
// Rules that are not computed (how long to watch a joint, how near a label a pump
// comes) are common practice or from memory of the trade, and each check says so
// in its From.
package commission

import (
	"math"
	"strconv"
	"strings"

	"rillwright/answers"
	"rillwright/quantity"
)

// Unit is what a check measures.
type Unit uint8

// The units. A check of Seen is passed by eye and has no figure.
const (
	Seen   Unit = iota
	Flow        // m3/s
	Head        // m, as builders know it of pumps: metres or feet
	Height      // m, as on a tape
	Share       // 0 to 1
	Time        // s
)

// Range is from one figure to another in SI, either of which may be infinite.
type Range struct{ Low, High float64 }

// AtLeast is the range from a figure upwards.
func AtLeast(v float64) Range { return Range{v, math.Inf(1)} }

// AtMost is the range up to a figure.
func AtMost(v float64) Range { return Range{math.Inf(-1), v} }

// Has reports whether a figure lies in the range; NaN does not.
func (r Range) Has(v float64) bool { return v >= r.Low && v <= r.High }

// Check is one thing to try.
type Check struct {
	ID   string // stable, for the machine: "hose"
	Name string
	How  string
	Unit Unit
	// Pass is within what the measured figure must lie; of Seen, PassSeen says it.
	Pass     Range
	PassSeen string
	// Expect is what was computed from the design, low, likely and high, if Computed.
	Expect   [3]float64
	Computed bool
	From     string // where Pass comes from and how far to trust it
	Readings int    // how many are taken, whose mean counts
	IfNot    string
	// Lacks says what is not known, so that there is no figure to pass; "" if all is.
	Lacks string
	// Hold is what must be read before the check is tried: that it was computed to
	// end badly as the design stands. "" if it may be tried.
	Hold string
}

// Passed reports whether a measured figure passes; ok is false where the check has
// no figure to hold it against.
func (c *Check) Passed(v float64) (passed, ok bool) {
	if c.Unit == Seen || c.Lacks != "" {
		return false, false
	}
	return c.Pass.Has(v), true
}

// Stage is a group of checks made one after another.
type Stage struct {
	ID, Name, When string
	Checks         []Check
}

// Plan is all that is tried, in order.
type Plan struct {
	Leak   Leak
	Stages []Stage
}

// Of returns how a surveyed enclosure is tried. What faults come to is nil if they
// were not followed; checks that need it then say what they lack.
func Of(s *answers.Survey, f *answers.FaultReport) Plan {
	p := &planner{s: s, f: f, sys: s.E.Units}
	return Plan{
		Leak: p.leak(),
		Stages: []Stage{
			{"power", "Power", "before anything else is plugged in", p.power()},
			{"flow", "Flow", "on the bare frame, before foam and plants", p.flow()},
			{"levels", "Levels and drain", "running, every valve as planned unless said otherwise", p.levels()},
			{"upsets", "When something goes wrong", "stand at the plug, with a dry floor and a bucket", p.upsets()},
			{"night", "A night of running", "last, before plants", p.night()},
		},
	}
}

// Find returns the check of an id, nil if there is none.
func (p *Plan) Find(id string) *Check {
	for i := range p.Stages {
		for k := range p.Stages[i].Checks {
			if p.Stages[i].Checks[k].ID == id {
				return &p.Stages[i].Checks[k]
			}
		}
	}
	return nil
}

type planner struct {
	s   *answers.Survey
	f   *answers.FaultReport
	sys quantity.System
}

// breaker is the switch that trips on leaking current, by its name where the
// design's units are used.
func (p *planner) breaker() string {
	if p.sys == quantity.US {
		return "GFCI"
	}
	return "RCD"
}

// band reads a figure of the survey at its two ends and likely.
func (p *planner) band(m answers.Measure) [3]float64 {
	low, likely, high := p.s.Band(m)
	return [3]float64{low, likely, high}
}

// Show returns a figure of a unit for people.
func Show(u Unit, v float64, sys quantity.System) string {
	switch u {
	case Flow:
		return quantity.Flow(v).Show(sys)
	case Head:
		if sys == quantity.US {
			return strconv.FormatFloat(v/0.3048, 'f', 1, 64) + " ft"
		}
		return strconv.FormatFloat(v, 'f', 2, 64) + " m"
	case Height:
		if sys == quantity.US {
			return quantity.Sixteenths(v/0.0254) + " in"
		}
		return strconv.FormatFloat(math.Round(v*1000)+0, 'f', -1, 64) + " mm"
	case Share:
		return quantity.Ratio(v).Show(sys)
	case Time:
		return answers.ShowTime(v)
	}
	return ""
}

// PassText says what passes, for people.
func (c *Check) PassText(sys quantity.System) string {
	low, high := Show(c.Unit, c.Pass.Low, sys), Show(c.Unit, c.Pass.High, sys)
	switch {
	case c.Lacks != "":
		return "not known yet: " + c.Lacks
	case c.Unit == Seen:
		return c.PassSeen
	case math.IsInf(c.Pass.High, 1):
		return "at least " + low
	case math.IsInf(c.Pass.Low, -1):
		return "at most " + high
	case low == high:
		return low
	}
	return between(low, high)
}

// between joins two figures, their unit once.
func between(low, high string) string {
	unitOf := func(t string) string { return strings.TrimLeft(t, "0123456789./ ") }
	if unit := unitOf(low); unit == unitOf(high) {
		low = strings.TrimSpace(strings.TrimSuffix(low, unit))
	}
	return low + " to " + high
}

// ExpectText says what was computed, "" if nothing was.
func (c *Check) ExpectText(sys quantity.System) string {
	if !c.Computed || c.Unit == Seen {
		return ""
	}
	low, likely, high := Show(c.Unit, c.Expect[0], sys), Show(c.Unit, c.Expect[1], sys), Show(c.Unit, c.Expect[2], sys)
	if low == high {
		return likely
	}
	return between(low, high) + ", likely " + likely
}
