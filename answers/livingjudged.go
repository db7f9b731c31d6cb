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
	t := &a.likely
	x.Figures = []Figure{
		against(figure("air at its warmest, room warm", asBand[quantity.Temperature](high), a.sys), quantity.Temperature(warmGood)),
		figure("water at its warmest, room warm", asBand[quantity.Temperature](water), a.sys),
		over(figure("air at its coldest, room cold", asBand[quantity.Temperature](low), a.sys), quantity.Temperature(coldGood)),
		figure("water at its coldest, room cold", quantity.Exactly(quantity.Temperature(t[roomCold].WaterLow)), a.sys),
	}
	if t[roomCold].Heating > 0 {
		x.Figures = append(x.Figures, figure("the heater, on average, room cold", quantity.Exactly(quantity.Power(t[roomCold].Heating)), a.sys))
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
		x.Key, x.Score = 2, low.Low
	}
	if !a.e.Design.Place.Air.Given() {
		x.Verdict = Unknown
		x.Say = "The file does not say how cold and how warm the room gets: measure it for a week, or look at last winter and summer, and write it as place.air. In a room of " + a.temperature(a.l.RoomCold()) + " to " + a.temperature(a.l.RoomWarm()) + " it would be so. "
	}
	x.Say += fmt.Sprintf("In the warm room the air gets to %s and the water to %s; in the cold one the air falls to %s.", a.temperature(high.Likely), a.temperature(water.Likely), a.temperature(low.Likely))
	if !a.tried {
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
	t := &a.likely
	x.Figures = []Figure{
		over(figure("relative humidity, mean of a day, in the drier season", asBand[quantity.Ratio](b), a.sys), quantity.Ratio(dampGood)),
		figure("room cold", quantity.Exactly(quantity.Ratio(t[roomCold].Humidity)), a.sys),
		figure("room warm", quantity.Exactly(quantity.Ratio(t[roomWarm].Humidity)), a.sys),
		figure("at its lowest in the day", quantity.Exactly(quantity.Ratio(math.Min(t[roomCold].HumidityLow, t[roomWarm].HumidityLow))), a.sys),
		times("air changes an hour, room cold", t[roomCold].Changes), times("air changes an hour, room warm", t[roomWarm].Changes),
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
	x.Say = fmt.Sprintf("About %s in the cold room and %s in the warm one, with %.1f and %.1f changes of air an hour.", a.share(t[roomCold].Humidity), a.share(t[roomWarm].Humidity), t[roomCold].Changes, t[roomWarm].Changes)
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
	t := &a.likely
	h := b.Scale(1.0 / 3600)
	x.Figures = []Figure{
		bounded(Figure{Name: "front fogged in a day, room cold", Low: h.Low, Likely: h.Likely, High: h.High, Unit: "h", Text: span(hours, b)}, fogGood/3600),
		{Name: "front fogged in a day, room warm", Low: t[roomWarm].Fogged / 3600, Likely: t[roomWarm].Fogged / 3600, High: t[roomWarm].Fogged / 3600, Unit: "h", Text: hours(t[roomWarm].Fogged)},
	}
	for season, when := range [...]string{"room cold", "room warm"} {
		if s := t[season]; s.FogFrom >= 0 {
			x.Figures = append(x.Figures, Figure{Name: "likely fogged, " + when, Text: "from about " + clock(s.FogFrom) + " to " + clock(s.FogTo), Words: true})
		}
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
		x.Say = fmt.Sprintf("In the cold room the front likely fogs for %s a day, from about %s, and is clear again by %s.", hours(b.Likely), clock(t[roomCold].FogFrom), clock(t[roomCold].FogTo))
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
