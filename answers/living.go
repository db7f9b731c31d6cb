package answers

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// Living answers whether what is planted can live in it: warmth, humidity, fogged
// glass, evaporation, what is dissolved, and light. Fixes are computed again, each
// with all of these answers; those about the water are not asked again. The error is
// of a balance that was not found.
func Living(e *enclosure.Enclosure) ([]Answer, error) {
	l := &living{e: e, sys: e.Units, l: study.NewLiving(e)}
	base, err := l.over()
	if err != nil {
		return nil, err
	}
	out := base.all()
	if base.err != nil {
		return nil, base.err
	}
	l.fixes(base, out)
	out = append(out, lightAnswer(e))
	Sort(out)
	return out, nil
}

// twoSeasons is a day with the room cold and one with it warm.
type twoSeasons struct{ cold, warm study.Season }

// airMeasure reads a figure out of both.
type airMeasure struct {
	id string
	of func(*twoSeasons) float64
	// Where the figure is the same at both ends of a doubt, as where nothing fogs
	// yet, this one tells which end is the worse; nil for none.
	near func(*twoSeasons) float64
}

// The figures that verdicts turn on.
func airMeasures() map[string]airMeasure {
	list := []airMeasure{
		{id: "air-high", of: func(t *twoSeasons) float64 { return t.warm.AirHigh }},
		{id: "water-high", of: func(t *twoSeasons) float64 { return t.warm.WaterHigh }},
		{id: "air-low", of: func(t *twoSeasons) float64 { return t.cold.AirLow }},
		{id: "humidity", of: func(t *twoSeasons) float64 { return math.Min(t.cold.Humidity, t.warm.Humidity) }},
		{id: "fog", of: func(t *twoSeasons) float64 { return t.cold.Fogged }, near: func(t *twoSeasons) float64 { return -t.cold.Clear }},
		{id: "make-up", of: func(t *twoSeasons) float64 { return math.Max(t.cold.MakeUp, t.warm.MakeUp) }},
	}
	out := map[string]airMeasure{}
	for _, m := range list {
		out[m.id] = m
	}
	return out
}

// living is what the answers share.
type living struct {
	e   *enclosure.Enclosure
	sys quantity.System
	l   *study.Living
}

// air is the enclosure as drawn, or with a change, over its doubts.
type air struct {
	*living

	change func(*study.Inputs)
	likely *twoSeasons
	ends   [][2]*twoSeasons // by doubt, alone at its low and its high end
	signs  map[string][]int8
	memo   map[string]*twoSeasons
	err    error
}

func (a *air) run(c []float64) (*twoSeasons, error) {
	in := a.l.Inputs(c)
	if a.change != nil {
		a.change(&in)
	}
	out := new(twoSeasons)
	var err error
	if out.cold, err = in.Follow(false); err != nil {
		return nil, fmt.Errorf("heat and moisture, room cold: %w", err)
	}
	if out.warm, err = in.Follow(true); err != nil {
		return nil, fmt.Errorf("heat and moisture, room warm: %w", err)
	}
	return out, nil
}

// over runs each doubt at both its ends and learns which end raises what.
func (l *living) over() (*air, error) {
	n := len(l.l.Doubts)
	a := &air{living: l, ends: make([][2]*twoSeasons, n), signs: map[string][]int8{}, memo: map[string]*twoSeasons{}}
	errs := make([]error, 2*n+1)
	InParallel(2*n+1, func(i int) {
		c := l.l.Likely()
		if i == 2*n {
			a.likely, errs[i] = a.run(c)
			return
		}
		d := &l.l.Doubts[i/2]
		c[i/2] = []float64{d.Low, d.High}[i%2]
		a.ends[i/2][i%2], errs[i] = a.run(c)
	})
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	for id, m := range airMeasures() {
		signs := make([]int8, n)
		for i, e := range a.ends {
			low, high := m.of(e[0]), m.of(e[1])
			if low == high && m.near != nil {
				low, high = m.near(e[0]), m.near(e[1])
			}
			switch {
			case high > low:
				signs[i] = 1
			case high < low:
				signs[i] = -1
			}
		}
		a.signs[id] = signs
	}
	return a, nil
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

// at returns the likely days (0), or those at a corner of a figure.
func (a *air) at(id string, to int8) *twoSeasons {
	if to == 0 {
		return a.likely
	}
	c := a.corner(id, to)
	key := fmt.Sprint(c)
	if t := a.memo[key]; t != nil {
		return t
	}
	t, err := a.run(c)
	if err != nil {
		a.err = err
		return a.likely
	}
	a.memo[key] = t
	return t
}

// band is a figure over the doubts.
func (a *air) band(id string) quantity.Band[float64] {
	m := airMeasures()[id]
	b := quantity.Band[float64]{Low: m.of(a.at(id, -1)), Likely: m.of(a.at(id, 0)), High: m.of(a.at(id, 1))}
	b.Low, b.High = math.Min(b.Low, b.Likely), math.Max(b.High, b.Likely)
	return b
}

// matters ranks the doubts by what they do to a figure.
func (a *air) matters(id string, show func(float64) string) []Matter {
	if a.change != nil {
		return nil
	}
	m := airMeasures()[id]
	likely := math.Max(math.Abs(m.of(a.likely)), 1e-9)
	var out []Matter
	for i := range a.l.Doubts {
		d := &a.l.Doubts[i]
		low, high := m.of(a.ends[i][0]), m.of(a.ends[i][1])
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

func (a *air) all() []Answer {
	return []Answer{a.heat(), a.humidity(), a.fog(), a.evaporation(), a.minerals()}
}

// taken says what the file leaves open.
func (l *living) taken() string {
	return "Taken, since the file does not say it: " + strings.Join(l.l.Assumed, "; ") + "."
}

func asBand[T ~float64](b quantity.Band[float64]) quantity.Band[T] {
	return quantity.Band[T]{Low: T(b.Low), Likely: T(b.Likely), High: T(b.High)}
}
