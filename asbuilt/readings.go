package asbuilt

import (
	"fmt"
	"math"
	"strings"

	"rillwright/commission"
	"rillwright/enclosure"
	"rillwright/record"
)

// How exactly people measure, as standard deviations: all assumed, no source.
const (
	timed   = 0.02  // share of a flow, each bucket time
	jug     = 0.01  // share of every flow read in that bucket
	cupRead = 0.03  // share of what a cup holds, beside what holes differ by
	tape    = 0.010 // m, of a hose held up
	mark    = 0.001 // m, of a level off a mark
	daily   = 0.15  // share of what is topped up
	inexact = 0.01  // share of a flow by which the laws themselves are off
)

// datum is one figure read.
type datum struct {
	site    int     // in Sites
	value   float64 // SI
	doubt   float64 // standard deviation of reading it, SI
	reading int     // which reading it comes from
}

// Unused is a reading from which nothing was taken, and why.
type Unused struct {
	Reading int    `json:"reading"`
	Why     string `json:"why"`
}

// data finds the sites of readings.
func data(e *enclosure.Enclosure, readings []record.Reading) (out []datum, unused []Unused) {
	sites := Sites(e)
	first := map[string]int{}
	for i := len(sites) - 1; i >= 0; i-- {
		first[sites[i].ID] = i
	}
	_, ends := commission.Unplugged(e)
	hosed := len(ends) > 0
	for i := range readings {
		r := &readings[i]
		at, ok := first[r.ID()]
		switch {
		case r.Kind == record.Event || r.Kind == record.Seen || r.Kind == record.Time || r.Kind == record.Skin:
			continue
		case !ok:
			if w, known := record.FindWord(r.What); known && w.Of != record.Whole {
				unused = append(unused, Unused{i, "the design has no " + r.Part})
			}
			continue
		case (r.What == "hose" || r.What == "hose-low") && !hosed:
			unused = append(unused, Unused{i, "no hose leads to a manifold"})
			continue
		case r.Kind == record.Cups:
			more, why := cupData(e, r, at, i)
			if why != "" {
				unused = append(unused, Unused{i, why})
			}
			out = append(out, more...)
			continue
		}
		v, spread := record.Mean(r.Values)
		out = append(out, datum{at, v, readDoubt(r, v, spread), i})
	}
	return out, unused
}

// readDoubt is how exactly the mean of a reading is known. Times that scatter more
// than usual are believed less.
func readDoubt(r *record.Reading, v, spread float64) float64 {
	n := math.Sqrt(float64(len(r.Values)))
	switch r.What {
	case "shut-off":
		return math.Hypot(tape, 0.01*v)
	case "rise", "draw":
		return mark * math.Sqrt2 / n
	case "top-up":
		return math.Max(daily*v, 1e-10)
	}
	return math.Hypot(jug*v, math.Max(timed*v/n, spread))
}

func cupData(e *enclosure.Enclosure, r *record.Reading, at, reading int) (out []datum, why string) {
	for i := range e.Manifolds {
		m := &e.Manifolds[i]
		if m.Name != r.Part {
			continue
		}
		switch {
		case len(r.Values) != len(m.Outlets):
			return nil, fmt.Sprintf("%d cups under %d outlets: one under each tells most", len(r.Values), len(m.Outlets))
		case !strings.Contains(r.Text, " in "):
			return nil, "the time is missing: write 40 38 41 ml in 30 s"
		}
		most := 0.0
		for _, v := range r.Values {
			most = math.Max(most, v)
		}
		for k, v := range r.Values {
			cv := m.Groups[m.Outlets[k].Group].Cv
			out = append(out, datum{at + k, v, math.Max(math.Hypot(cupRead, cv)*v, 0.02*most), reading})
		}
	}
	return out, ""
}
