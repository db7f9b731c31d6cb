package answers

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"rillwright/quantity"
	"rillwright/study"
)

// air is the enclosure as drawn, or with a change, over its doubts.
type air struct {
	*living

	tried  bool // a change is tried: the design itself said the rest
	likely seasons
	ends   [][2]seasons // by doubt, alone at its low and its high end
	signs  map[string][]int8
	memo   map[dayKey]*study.Season
}

// dayKey tells a season's day: which, and where every doubt stands.
type dayKey struct {
	season int
	at     string
}

func (a *air) run(season int, c []float64) (*study.Season, error) {
	in := a.l.Inputs(c)
	s, err := in.Follow(season == roomWarm)
	if err != nil {
		return nil, fmt.Errorf("heat and moisture, %s: %w", [...]string{"room cold", "room warm"}[season], err)
	}
	return &s, nil
}

// thin is a day without its course, of which there are many.
func thin(s *study.Season, err error) (*study.Season, error) {
	if s != nil {
		s.Course = nil
	}
	return s, err
}

// over learns which end of each doubt raises what, runs the corners, and each doubt
// alone at both its ends, unless those are known from nearly the same enclosure.
func (l *living) over(known *air) (*air, error) {
	n := len(l.l.Doubts)
	a := &air{living: l, ends: make([][2]seasons, n), signs: map[string][]int8{}}
	runs := 4*n + 2
	if known != nil && len(known.ends) == n {
		a.ends, runs = slices.Clone(known.ends), 2 // several changes are tried side by side
	}
	errs := make([]error, runs, runs+1)
	InParallel(runs, func(i int) {
		c, season := l.l.Likely(), i%2
		if i < 2 {
			a.likely[season], errs[i] = a.run(season, c)
			return
		}
		k, end := (i-2)/4, (i-2)/2%2
		d := &l.l.Doubts[k]
		if d.Low == d.High {
			return // as is likely: below
		}
		c[k] = []float64{d.Low, d.High}[end]
		a.ends[k][end][season], errs[i] = thin(a.run(season, c))
	})
	if err := errors.Join(append(errs, a.learn())...); err != nil {
		return nil, err
	}
	for k := range a.ends {
		for i := range a.ends[k] {
			if l.l.Doubts[k].Low == l.l.Doubts[k].High {
				a.ends[k][i] = a.likely
			}
		}
	}
	return a, a.corners()
}

// nothing is a difference of a figure that a steady state found to 1e-9 does not tell
// from none.
const nothing = 1e-7

// learn tells from steady states which end of each doubt raises a figure. Days tell the
// same, at twenty times the cost, and where nothing fogs yet they tell nothing.
func (a *air) learn() error {
	n := len(a.l.Doubts)
	list := make([]holds, 2*n)
	errs := make([]error, 2*n)
	InParallel(2*n, func(i int) {
		d := &a.l.Doubts[i/2]
		if d.Low == d.High {
			return
		}
		c := a.l.Likely()
		c[i/2] = []float64{d.Low, d.High}[i%2]
		in := a.l.Inputs(c)
		h := &list[i]
		for season := range h {
			if h[season], errs[i] = in.Hold(season == roomWarm); errs[i] != nil {
				return
			}
		}
	})
	for _, m := range airMeasures() {
		signs := make([]int8, n)
		for i := range signs {
			low, high := m.held(&list[2*i]), m.held(&list[2*i+1])
			switch {
			case high > low+nothing:
				signs[i] = 1
			case high < low-nothing:
				signs[i] = -1
			}
		}
		a.signs[m.id] = signs
	}
	return errors.Join(errs...)
}

// corner is the case in which every doubt lowers (-1) or raises (1) a figure.
func (a *air) corner(id string, to int8) []float64 {
	c := a.l.Likely()
	for i, s := range a.signs[id] {
		switch d := &a.l.Doubts[i]; s * to {
		case 1:
			c[i] = d.High
		case -1:
			c[i] = d.Low
		}
	}
	return c
}

// corners runs the days at the corners of all figures, each once.
func (a *air) corners() error {
	a.memo = map[dayKey]*study.Season{}
	var keys []dayKey
	var cases [][]float64
	for _, m := range airMeasures() {
		for _, to := range [2]int8{-1, 1} {
			c := a.corner(m.id, to)
			for season, asked := range m.ask {
				k := dayKey{season, fmt.Sprint(c)}
				if _, known := a.memo[k]; !asked || known {
					continue
				}
				a.memo[k] = nil
				keys, cases = append(keys, k), append(cases, c)
			}
		}
	}
	out, errs := make([]*study.Season, len(keys)), make([]error, len(keys))
	InParallel(len(keys), func(i int) { out[i], errs[i] = thin(a.run(keys[i].season, cases[i])) })
	for i, k := range keys {
		a.memo[k] = out[i]
	}
	return errors.Join(errs...)
}

// at returns the days at a corner of a figure, those that it asks for.
func (a *air) at(m *airMeasure, to int8) *seasons {
	at := fmt.Sprint(a.corner(m.id, to))
	return &seasons{a.memo[dayKey{roomCold, at}], a.memo[dayKey{roomWarm, at}]}
}

// band is a figure over the doubts.
func (a *air) band(id string) quantity.Band[float64] {
	m := airMeasureOf(id)
	b := quantity.Band[float64]{Low: m.of(a.at(&m, -1)), Likely: m.of(&a.likely), High: m.of(a.at(&m, 1))}
	b.Low, b.High = math.Min(b.Low, b.Likely), math.Max(b.High, b.Likely)
	return b
}

// matters ranks the doubts by what they do to a figure.
func (a *air) matters(id string, show func(float64) string) []Matter {
	if a.tried {
		return nil
	}
	m := airMeasureOf(id)
	likely := math.Max(math.Abs(m.of(&a.likely)), 1e-9)
	var out []Matter
	for i := range a.l.Doubts {
		d := &a.l.Doubts[i]
		low, high := m.of(&a.ends[i][0]), m.of(&a.ends[i][1])
		if math.Abs(high-low) < 0.01*likely || show(low) == show(high) {
			continue
		}
		out = append(out, Matter{
			What: d.What, Range: fromTo(d.Show(d.Low, a.sys), d.Show(d.High, a.sys)), Effect: fromTo(show(low), show(high)),
			Swing: math.Abs(high-low) / likely, Why: d.Why, Settle: d.Settle, Line: d.Pos.Line,
		})
	}
	rank(out)
	return out[:min(len(out), 4)]
}
