package answers

import (
	"fmt"
	"math"

	"rillwright/minerals"
	"rillwright/quantity"
)

// Limits for what lives in it. None has a source: they are what growers of wet walls
// speak of, and the keeper of an animal goes by that animal's.
const (
	warmGood, warmMost = 28.0, 32.0 // C
	coldGood, coldMost = 15.0, 10.0
	dampGood, dampMost = 0.60, 0.40 // relative humidity
	stale              = 0.97
	fogGood, fogMost   = 4 * 3600.0, 12 * 3600.0
)

const assumedMark = "assumed, no source"

func animalCaution() string {
	return "For an animal its own needs count: ask a vet or go by a keeper's guide, and measure before it moves in."
}

func (a *air) temperature(v float64) string { return quantity.Temperature(v).Show(a.sys) }

// heat answers how warm and cold it gets.
func (a *air) heat() Answer {
	x := Answer{ID: "heat", Question: "How warm and how cold does it get inside?", Cautions: []string{animalCaution()}}
	high, water, low := a.band("air-high"), a.band("water-high"), a.band("air-low")
	t := a.at("", 0)
	x.Figures = []Figure{
		against(figure("air at its warmest, room warm", asBand[quantity.Temperature](high), a.sys), quantity.Temperature(warmGood)),
		figure("water at its warmest, room warm", asBand[quantity.Temperature](water), a.sys),
		over(figure("air at its coldest, room cold", asBand[quantity.Temperature](low), a.sys), quantity.Temperature(coldGood)),
		figure("water at its coldest, room cold", quantity.Exactly(quantity.Temperature(t.cold.WaterLow)), a.sys),
	}
	if t.cold.Heating > 0 {
		x.Figures = append(x.Figures, figure("the heater, on average, room cold", quantity.Exactly(quantity.Power(t.cold.Heating)), a.sys))
	}
	x.Limit = Limit{Text: fmt.Sprintf("%s at most is good for most plants of wet walls, over %s many suffer; %s at least, under %s they stop", a.temperature(warmGood), a.temperature(warmMost), a.temperature(coldGood), a.temperature(coldMost)), Mark: assumedMark}
	degrees := func(v float64) string { return kelvin(v, a.sys) }
	x.Margin = room(degrees, warmGood-high.Likely) + " the good limit, " + room(degrees, warmGood-high.High) + " it at the bad end"
	x.Score = -high.High
	switch {
	case high.High > warmMost || low.Low < coldMost:
		x.Verdict = Fails
	case high.High > warmGood || low.Low < coldGood:
		x.Verdict = Tight
	}
	if low.Low < coldGood && high.High <= warmGood {
		x.Key = 2
	}
	x.Say = fmt.Sprintf("In the warm room the air gets to %s and the water to %s; in the cold one the air falls to %s.", a.temperature(high.Likely), a.temperature(water.Likely), a.temperature(low.Likely))
	if a.change == nil {
		x.Say += " " + a.taken()
	}
	x.Matters = a.matters([]string{"air-high", "", "air-low"}[x.Key], a.temperature)
	return x
}

// room says how far under a limit something stays, or how far over it is.
func room(show func(float64) string, v float64) string {
	if v < 0 {
		return show(-v) + " over"
	}
	return show(v) + " under"
}

// kelvin shows a difference of temperatures.
func kelvin(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f F", v*1.8)
	}
	return fmt.Sprintf("%.1f K", v)
}

func (a *air) share(v float64) string { return quantity.Ratio(v).Show(a.sys) }

// humidity answers how damp the air is.
func (a *air) humidity() Answer {
	x := Answer{ID: "humidity", Question: "Is the air damp enough, and does it change?", Cautions: []string{animalCaution()}}
	b := a.band("humidity")
	t := a.at("", 0)
	x.Figures = []Figure{
		over(figure("relative humidity, mean of a day, in the drier season", asBand[quantity.Ratio](b), a.sys), quantity.Ratio(dampGood)),
		figure("room cold", quantity.Exactly(quantity.Ratio(t.cold.Humidity)), a.sys),
		figure("room warm", quantity.Exactly(quantity.Ratio(t.warm.Humidity)), a.sys),
		figure("at its lowest in the day", quantity.Exactly(quantity.Ratio(math.Min(t.cold.HumidityLow, t.warm.HumidityLow))), a.sys),
		times("air changes an hour, room cold", t.cold.Changes), times("air changes an hour, room warm", t.warm.Changes),
	}
	x.Limit = Limit{Text: fmt.Sprintf("%s at least is good for ferns, mosses and most plants of wet walls; under %s they dry; over %s likely the air stands and leaves stay wet", a.share(dampGood), a.share(dampMost), a.share(stale)), Mark: assumedMark}
	x.Margin = fmt.Sprintf("%.0f points, %.0f at the bad end", 100*(b.Likely-dampGood), 100*(b.Low-dampGood))
	if x.Score = b.Low; b.Likely > stale {
		x.Score = -b.Likely // then less of it is better
	}
	switch {
	case b.Low < dampMost:
		x.Verdict = Fails
	case b.Low < dampGood || b.Likely > stale:
		x.Verdict = Tight
	}
	x.Say = fmt.Sprintf("About %s in the cold room and %s in the warm one, with %.1f and %.1f changes of air an hour.", a.share(t.cold.Humidity), a.share(t.warm.Humidity), t.cold.Changes, t.warm.Changes)
	x.Matters = a.matters("humidity", a.share)
	return x
}

func times(name string, v float64) Figure {
	return Figure{Name: name, Low: v, Likely: v, High: v, Text: fmt.Sprintf("%.1f", v)}
}

func hours(v float64) string { return fmt.Sprintf("%.1f h", v/3600) }

// fog answers whether the front fogs.
func (a *air) fog() Answer {
	x := Answer{ID: "fog", Question: "Does the glass fog, and what clears it?"}
	b := a.band("fog")
	t := a.at("", 0)
	h := b.Scale(1.0 / 3600)
	x.Figures = []Figure{
		bounded(Figure{Name: "front fogged in a day, room cold", Low: h.Low, Likely: h.Likely, High: h.High, Unit: "h", Text: span(hours, b)}, fogGood/3600),
		{Name: "front fogged in a day, room warm", Low: t.warm.Fogged / 3600, Likely: t.warm.Fogged / 3600, High: t.warm.Fogged / 3600, Unit: "h", Text: hours(t.warm.Fogged)},
	}
	if t.cold.FogFrom >= 0 {
		x.Figures = append(x.Figures, Figure{Name: "fog begins, room cold", Text: clock(t.cold.FogFrom), Words: true})
	}
	x.Limit = Limit{Text: "a few hours in the morning at most; for looks the likely figure decides", Mark: assumedMark}
	x.Margin = room(hours, fogGood-b.Likely) + " " + hours(fogGood) + ", " + room(hours, fogGood-b.High) + " it at the bad end"
	x.Score = -b.High
	switch {
	case b.Likely > fogMost:
		x.Verdict = Fails
	case b.High > fogGood:
		x.Verdict = Tight
	}
	switch {
	case b.High == 0:
		x.Say = "The front stays clear."
	case b.Likely == 0:
		x.Say = "The front likely stays clear; with every doubt at its bad end it does not."
	case b.Likely >= 23.9*3600:
		x.Say = "In the cold room the front likely fogs all day."
	default:
		x.Say = fmt.Sprintf("In the cold room the front likely fogs for %s a day, from about %s.", hours(b.Likely), clock(t.cold.FogFrom))
	}
	x.Say += " What clears it: drier air inside (vents, a fan), or a stream of the room's air up along the front from a low slot, which is not counted here."
	x.Matters = a.matters("fog", hours)
	return x
}

func span(show func(float64) string, b quantity.Band[float64]) string {
	if low, high := show(b.Low), show(b.High); low != high {
		return fromTo(low, high) + ", likely " + show(b.Likely)
	}
	return show(b.Likely)
}

func clock(seconds float64) string {
	m := int(math.Round(seconds/60)) % 1440
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

func (a *air) perDay(kg float64) string {
	return quantity.Volume(kg/998).Show(a.sys) + " a day"
}

// daily is water of a day, kg, as a figure: each end in the unit that suits it.
func (a *air) daily(name string, kg quantity.Band[float64]) Figure {
	f := figure(name, asBand[quantity.Volume](kg.Scale(1.0/998)), a.sys)
	f.Text = span(func(v float64) string { return quantity.Volume(v / 998).Show(a.sys) }, kg)
	return f
}

// reserve returns what the sump may lose while the pumps stay covered, m3.
func (l *living) reserve() minerals.Reserve {
	s := &l.e.Sump
	inlet := s.Bottom
	for i := range l.e.Pumps {
		if p := &l.e.Pumps[i]; p.InSump {
			inlet = math.Max(inlet, p.Inlet)
		}
	}
	return minerals.Reserve{Area: s.Width * s.Depth, Drop: math.Max(s.Level-inlet, 0)}
}

// evaporation answers how much water goes.
func (a *air) evaporation() Answer {
	x := Answer{ID: "evaporation", Question: "How much water goes into the air, and how often must you top up?", LimitingLine: a.e.Sump.Pos.Line}
	b := a.band("make-up")
	t := a.at("", 0)
	r := a.reserve()
	last := func(kg float64) float64 { return r.ByHand(math.Max(kg, 0) / 998 / 86400) }
	days := quantity.Band[float64]{Low: last(b.High), Likely: last(b.Likely), High: last(b.Low)}
	show := func(v float64) string {
		if v > 366*86400 {
			return "over a year"
		}
		return fmt.Sprintf("%.1f days", v/86400)
	}
	in := func(v float64) float64 { return math.Min(v/86400, 366) }
	x.Figures = []Figure{
		boundedBelow(Figure{Name: "days that the sump lasts without topping up", Low: in(days.Low), Likely: in(days.Likely), High: in(days.High), Unit: "days", Text: span(show, days)}, 2),
		a.daily("to be topped up each day", b),
		a.daily("off wall and pool each day, room cold", quantity.Exactly(t.cold.Evaporated)),
		a.daily("off wall and pool each day, room warm", quantity.Exactly(t.warm.Evaporated)),
	}
	x.Limit = Limit{Text: "two days between top-ups by hand, unless a float valve does it", Mark: "common practice, no source"}
	x.Margin = fmt.Sprintf("%.1f times that, %.1f at the bad end", in(days.Likely)/2, in(days.Low)/2)
	x.Score = days.Low
	if days.Low < 2*86400 && a.e.Design.TopUp.Pos.Line == 0 {
		x.Verdict = Tight
		if days.Likely < 86400 {
			x.Verdict = Fails
		}
	}
	x.Say = fmt.Sprintf("Likely %s is to be topped up; what settles on the glass runs back. The sump lasts %s.", a.perDay(b.Likely), show(days.Likely))
	if a.e.Design.Assume.Evaporation.Given() {
		x.Say += " Your own figure (assume.evaporation) is what the answers about the sump go by."
	}
	x.Matters = a.matters("make-up", a.perDay)
	return x
}
