package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
)

func (a *air) perDay(kg float64) string {
	return quantity.Volume(kg/waterDensity).Show(a.sys) + " a day"
}

// daily is water of a day, kg, as a figure, all of it in one unit.
func (a *air) daily(name string, kg quantity.Band[float64]) Figure {
	f := figure(name, asBand[quantity.Volume](kg.Scale(1/waterDensity)), a.sys)
	f.Text = span(func(v float64) string {
		digits := 0
		if math.Abs(v) < 10 {
			digits = 1
		}
		return fmt.Sprintf("%.*f %s", digits, v, f.Unit)
	}, quantity.Band[float64]{Low: f.Low, Likely: f.Likely, High: f.High})
	return f
}

// inDays shows a time; over a year nobody waits for it.
func inDays(v float64) string {
	if v > 366*86400 {
		return "over a year"
	}
	return fmt.Sprintf("%.1f days", v/86400)
}

// daysFigure is a time as a figure in days, a year at most.
func daysFigure(name string, b quantity.Band[float64]) Figure {
	in := func(v float64) float64 { return math.Min(v/86400, 366) }
	return Figure{Name: name, Low: in(b.Low), Likely: in(b.Likely), High: in(b.High), Unit: "days", Text: span(inDays, b)}
}

const betweenTopUps = 2 * 86400.0 // s, by hand

// evaporation answers how much water goes.
func (a *air) evaporation() Answer {
	x := Answer{ID: "evaporation", Question: "How much water goes into the air, and how often must you top up?", LimitingLine: a.e.Sump.Pos.Line}
	b := a.band("make-up")
	t := &a.likely
	misted := t[roomCold].Misted // of any season: its bottle is topped up too
	r := a.reserve()
	last := func(kg float64) float64 { return r.ByHand(math.Max(kg-misted, 0) / waterDensity / 86400) }
	days := quantity.Band[float64]{Low: last(b.High), Likely: last(b.Likely), High: last(b.Low)}
	x.Figures = []Figure{
		boundedBelow(daysFigure("days that the sump lasts without topping up", days), betweenTopUps/86400),
		a.daily("to be made good each day", b),
		a.daily("off wall and pool each day, room cold", quantity.Exactly(t[roomCold].Evaporated)),
		a.daily("off wall and pool each day, room warm", quantity.Exactly(t[roomWarm].Evaporated)),
	}
	if misted > 0 {
		x.Figures = append(x.Figures, a.daily("put out as mist each day, from its own bottle", quantity.Exactly(misted)))
	}
	x.Limit = Limit{Text: "two days between top-ups by hand, unless a float valve does it", Mark: "common practice, no source"}
	x.Margin = fmt.Sprintf("%.1f times that, %.1f at the bad end", math.Min(days.Likely/betweenTopUps, 183), math.Min(days.Low/betweenTopUps, 183))
	x.Score = days.Low
	if days.Low < betweenTopUps && a.e.Design.TopUp.Pos.Line == 0 {
		x.Verdict = Tight
		if days.Likely < betweenTopUps/2 {
			x.Verdict = Fails
		}
	}
	x.Say = fmt.Sprintf("Likely %s goes and must be made good; what settles on the glass runs back. The sump lasts %s.", a.perDay(b.Likely), inDays(days.Likely))
	if misted > b.Low {
		a.rises(&x, misted, b)
	}
	if a.e.Design.Assume.Evaporation.Given() {
		x.Say += " Your own figure (assume.evaporation) is what the answers about the sump go by."
	}
	x.Matters = a.matters("make-up", a.perDay)
	return x
}

// rises tells of mist that brings more water than goes, and of the sump that fills.
func (a *air) rises(x *Answer, misted float64, goes quantity.Band[float64]) {
	s := &a.e.Sump
	free := s.Width * s.Depth * math.Max(s.Height-(s.Level-s.Bottom), 0)
	full := func(kg float64) float64 {
		if misted <= kg {
			return math.Inf(1)
		}
		return free / ((misted - kg) / waterDensity / 86400)
	}
	b := quantity.Band[float64]{Low: full(goes.Low), Likely: full(goes.Likely), High: full(goes.High)}
	x.Figures = append(x.Figures, daysFigure("days until the mist has filled the sump to its rim", b))
	x.Verdict = max(x.Verdict, Tight)
	if b.Likely < 30*86400 {
		x.Verdict = Fails
	}
	x.Key = len(x.Figures) - 1
	x.Score = b.Low - 1e9 // worse than any sump that only falls
	x.Margin = inDays(b.Likely) + " until it runs over, " + inDays(b.Low) + " at the bad end"
	x.Say += fmt.Sprintf(" The mist brings %s, at the bad end more than goes: the sump rises, and stands at its rim after %s.", a.perDay(misted), span(inDays, b))
	x.Cautions = append(x.Cautions, "Water on the floor by a slow rise comes with nobody there: look at the sump's mark each week, and bail.")
}
