package works

import (
	"fmt"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure/cure"
)

// Season is the air in which joints cure, as slow, as likely and as fast as it may
// be, and the sealant.
type Season struct {
	Worst, Likely, Best cure.Air
	Sealant             cure.Sealant
}

// Steady is a season of one air, and of any sealant.
func Steady(a cure.Air) Season { return Season{Worst: a, Likely: a, Best: a} }

// season returns the air of budget.workshop, else of the place, else what is usual
// in a room, with the key that says so.
func (w *Work) season(e *enclosure.Enclosure) (s Season, key string, line int) {
	shop, place := &e.Design.Budget.Workshop, &e.Design.Place
	key, line = "budget.workshop", shop.Pos.Line
	air, damp := quantity.Exactly(quantity.Temperature(20)), quantity.Exactly(quantity.Ratio(0.5))
	where := ""
	switch {
	case shop.Air.Given():
		air = shop.Air.Value
	case place.Air.Given():
		air, key, line = place.Air.Value, "place.air", place.Air.Pos.Line
		where = ", where the enclosure will stand"
	default:
		w.take("joints cure at 20 C: neither budget.workshop nor place.air says")
	}
	switch {
	case shop.Humidity.Given():
		damp = shop.Humidity.Value
	case place.Humidity.Given():
		damp = place.Humidity.Value
	default:
		w.take("joints cure at a humidity of 50 %%: neither budget.workshop nor place.humidity says")
	}
	if shop.Air.Given() || place.Air.Given() {
		sys := e.Units
		w.take("joints cure at %s and a humidity of %s%s", air.Show(sys), damp.Show(sys), where)
	}
	s.Worst = cure.Air{Celsius: float64(air.Low), Humidity: float64(damp.Low)}
	s.Likely = cure.Air{Celsius: float64(air.Likely), Humidity: float64(damp.Likely)}
	s.Best = cure.Air{Celsius: float64(air.High), Humidity: float64(damp.High)}
	var err error
	if s.Sealant, err = testBead(shop, s.Likely); err != nil {
		w.take("the test bead of line %d is left out: %v", shop.Skin.Pos.Line, err)
	} else if s.Sealant != (cure.Sealant{}) {
		w.take("sealant cures as the test bead of line %d did, in the likely air of the workshop", shop.Skin.Pos.Line)
	}
	return s, key, line
}

func testBead(shop *design.Workshop, a cure.Air) (cure.Sealant, error) {
	if !shop.Skin.Given() || !shop.After.Given() {
		return cure.Sealant{}, nil
	}
	return cure.Measured(float64(shop.Skin.Value), float64(shop.After.Value), a)
}

// SealantOf returns the sealant of the design's test bead; the zero value, which is any
// one-part silicone, if it has none that can be used.
func SealantOf(e *enclosure.Enclosure) cure.Sealant {
	s, _, _ := new(Work).season(e)
	return s.Sealant
}

// clock is the clock of a joint in a season, each end in the air that makes it.
// The errors are those of cure.Of.
func (s Season) clock(shape cure.Shape, use cure.Use) (cure.Clock, error) {
	var c [3]cure.Clock
	for i, a := range []cure.Air{s.Best, s.Likely, s.Worst} {
		var err error
		if c[i], err = s.Sealant.Of(shape, use, a); err != nil {
			return cure.Clock{}, fmt.Errorf("%w", err)
		}
	}
	band := func(of func(*cure.Clock) cure.Time) cure.Time {
		low, likely, high := of(&c[0]).Low, of(&c[1]).Likely, of(&c[2]).High
		return cure.Time{Low: min(low, likely), Likely: likely, High: max(likely, high)}
	}
	return cure.Clock{
		Way: c[1].Way, ByPath: c[1].ByPath,
		Off:   band(func(c *cure.Clock) cure.Time { return c.Off }),
		Water: band(func(c *cure.Clock) cure.Time { return c.Water }),
		Full:  band(func(c *cure.Clock) cure.Time { return c.Full }),
	}, nil
}
