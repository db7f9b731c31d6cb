package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/study"
)

// spread is a figure over the doubts of weights: likely, and at the corners where
// every doubt stands at the end that lowers or raises it. Which end that is was
// found by computing with each doubt low and high by itself.
type spread struct {
	low, likely, high float64
	ends              [][2]float64 // by doubt, alone at its low and its high end
}

func spreadOf(w *study.Weights, f func(side []int) float64) spread {
	s := spread{likely: f(nil), ends: make([][2]float64, len(w.Doubts))}
	side := make([]int, len(w.Doubts))
	for i := range w.Doubts {
		for k, end := range [...]int{-1, 1} {
			side[i] = end
			s.ends[i][k] = f(side)
		}
		side[i] = 0
	}
	low, high := f(s.sides(-1)), f(s.sides(1))
	s.low, s.high = math.Min(math.Min(low, high), s.likely), math.Max(math.Max(low, high), s.likely)
	return s
}

// sides are the ends at which the figure is low (-1) or high (1).
func (s spread) sides(to int) []int {
	out := make([]int, len(s.ends))
	for i, e := range s.ends {
		switch {
		case e[1] > e[0]:
			out[i] = to
		case e[1] < e[0]:
			out[i] = -to
		}
	}
	return out
}

func (s spread) mass() quantity.Band[quantity.Mass] {
	return quantity.Band[quantity.Mass]{Low: quantity.Mass(s.low), Likely: quantity.Mass(s.likely), High: quantity.Mass(s.high)}
}

func (s spread) area() quantity.Band[quantity.Area] {
	return quantity.Band[quantity.Area]{Low: quantity.Area(s.low), Likely: quantity.Area(s.likely), High: quantity.Area(s.high)}
}

// over divides the figure by a number.
func (s spread) over(by float64) spread {
	return spread{low: s.low / by, likely: s.likely / by, high: s.high / by}
}

// mostMatters is how many doubts an answer about weight shows, and what moves a
// figure by less than leastMatter of it is left out.
const (
	mostMatters = 4
	leastMatter = 0.005
)

// matters tells what each doubt alone does to the figure, shown by show.
func (s spread) matters(w *study.Weights, sys quantity.System, show func(float64) string) []Matter {
	var out []Matter
	for i, e := range s.ends {
		d := &w.Doubts[i]
		if e[0] == e[1] {
			continue
		}
		out = append(out, Matter{
			What: d.What, Range: fromTo(weightText(d, d.Band.Low, sys), weightText(d, d.Band.High, sys)),
			Effect: fromTo(show(e[0]), show(e[1])), Swing: math.Abs(e[1]-e[0]) / math.Max(math.Abs(s.likely), 1e-9),
			Why: d.Why, Settle: d.Settle, Line: d.Line,
		})
	}
	return out
}

// ranked puts the doubts that matter most first and drops the rest.
func ranked(list []Matter) []Matter {
	rank(list)
	n := 0
	for n < len(list) && n < mostMatters && list[n].Swing >= leastMatter {
		n++
	}
	return list[:n]
}

// weightText shows a figure of a doubt about weights.
func weightText(d *study.WeightDoubt, v float64, sys quantity.System) string {
	switch d.Unit {
	case study.PerArea:
		if sys == quantity.US {
			return fmt.Sprintf("%.1f lb/ft2", v/pound*foot*foot)
		}
		return fmt.Sprintf("%.3g kg/m2", v)
	case study.PerVolume:
		if sys == quantity.US {
			return fmt.Sprintf("%.0f lb/ft3", v/pound*foot*foot*foot)
		}
		return fmt.Sprintf("%.0f kg/m3", v)
	case study.Thick:
		return showThickness(v, sys)
	case study.Share:
		return quantity.Ratio(v).Show(sys)
	}
	return quantity.Mass(v).Show(sys)
}

func (s spread) length() quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Low: quantity.Length(s.low), Likely: quantity.Length(s.likely), High: quantity.Length(s.high)}
}
