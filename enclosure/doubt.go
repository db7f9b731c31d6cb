package enclosure

import (
	"strconv"

	"rillwright/design"
	"rillwright/quantity"
)

// Doubt is a figure that is known only as a band: an assumption, a tolerance, a
// label that says less than it seems to. Answers are computed with every doubt
// at either end, which shows how much each one matters.
type Doubt struct {
	ID                string  // stable, for the machine: "pump-curve[main pump]"
	What              string  // in plain words: "shape of the main pump's curve"
	Low, Likely, High float64 // SI
	Unit              Unit
	// Why tells where the band comes from, in words.
	Why string
	// Settle says how to find out.
	Settle string
	Pos    design.Pos // where the file gives it, zero if it is our assumption
}

// Unit tells how a doubt's figures are shown.
type Unit int

// The units of doubts.
const (
	Plain   Unit = iota // a pure number
	Times               // a multiplier
	Metres              // a length
	Bore                // a small length, shown to a tenth of a millimetre
	Degrees             // a temperature
	Percent             // a share
	Shape               // the exponent of a pump curve
	PerDay              // a depth of water lost in a day
)

// Show returns one of the doubt's figures for people.
func (d *Doubt) Show(v float64, sys quantity.System) string {
	switch d.Unit {
	case Metres:
		return quantity.Length(v).Show(sys)
	case Shape:
		return showShape(v)
	case Bore:
		return showBore(v, sys)
	case Degrees:
		return quantity.Temperature(v).Show(sys)
	case PerDay:
		return quantity.Speed(v).Show(sys)
	case Percent:
		return quantity.Ratio(v).Show(sys)
	case Times:
		return "x " + trim(v)
	}
	return trim(v)
}

// Figure is a value of the enclosure that may be in doubt.
type Figure struct {
	Value float64 // the likely value
	doubt int     // index+1 in Enclosure.Doubts, 0 for none
}

// Known returns a figure that is not in doubt.
func Known(v float64) Figure { return Figure{Value: v} }

// Doubt returns the index of the figure's doubt; ok is false if it has none.
func (f Figure) Doubt() (index int, ok bool) { return f.doubt - 1, f.doubt > 0 }

// Case is one choice of a value for every doubt of an enclosure, by index.
type Case []float64

// Of returns the figure's value in the case.
func (c Case) Of(f Figure) float64 {
	if f.doubt == 0 {
		return f.Value
	}
	return c[f.doubt-1]
}

// Likely returns the case in which every doubt has its likely value.
func (e *Enclosure) Likely() Case {
	c := make(Case, len(e.Doubts))
	for i := range e.Doubts {
		c[i] = e.Doubts[i].Likely
	}
	return c
}

// doubt registers a doubt and returns the figure that carries it, or a known
// figure if the band has no width.
func (e *Enclosure) doubt(d Doubt) Figure {
	if d.Low == d.High {
		return Known(d.Likely)
	}
	for i := range e.Doubts {
		if e.Doubts[i].ID == d.ID {
			return Figure{Value: d.Likely, doubt: i + 1}
		}
	}
	e.Doubts = append(e.Doubts, d)
	return Figure{Value: d.Likely, doubt: len(e.Doubts)}
}

// showBore shows a small length as callipers do.
func showBore(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return strconv.FormatFloat(v/0.0254, 'f', 3, 64) + " in"
	}
	return strconv.FormatFloat(v*1000, 'f', 1, 64) + " mm"
}

// showShape says how a pump's curve runs between its label's two figures.
func showShape(exponent float64) string {
	switch exponent {
	case 1:
		return "straight line"
	case 2:
		return "parabola"
	}
	return "exponent " + trim(exponent)
}
