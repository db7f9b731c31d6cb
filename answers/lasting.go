package answers

import (
	"fmt"
	"math"

	"rillwright/faults"
	"rillwright/quantity"
)

// clogs answers how the flow fades as a pump's strainer clogs.
func (f *FaultSurvey) clogs(a *Answer, i int) {
	x, sys := &f.Faults[i], f.S.E.Units
	r := f.Likely()
	full, err := r.OutletsClogged(x.Index, 0)
	if err != nil || full <= 0 {
		a.Verdict, a.Say = Unknown, "Nothing comes out of the outlets, so nothing can be said."
		return
	}
	half := f.halved(r, x.Index, full)
	a.Figures = append(a.Figures, boundedBelow(Figure{Name: "share of the strainer clogged when the flow is halved", Low: half, Likely: half, High: half, Text: quantity.Ratio(half).Show(sys)}, 0.5))
	f.figures(a, i)
	res := f.bad[i]
	a.Limit = Limit{Text: "the wall runs until the strainer is seen to, and nothing spills", Source: "practice", Mark: "common practice, no source"}
	a.Margin = ""
	a.Score = half
	switch {
	case res.Spilled > drop:
		a.Verdict, a.Say = Fails, f.spills(i, f.likely(i).Spilled, res.Spilled)
	case half < 0.5:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The flow is down to half when %s of the strainer is clogged: a sponge one size larger gives more time.", quantity.Ratio(half).Show(sys))
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Slowly: the flow is down to half only when %s of the strainer is clogged. A bucket test every month shows it.", quantity.Ratio(half).Show(sys))
	}
}

// halved finds the clogged share at which the outlets give half.
func (f *FaultSurvey) halved(r *faults.Rig, pump int, full float64) float64 {
	lo, hi := 0.0, 0.9999
	for range 24 {
		mid := (lo + hi) / 2
		if q, err := r.OutletsClogged(pump, mid); err == nil && q > full/2 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// away answers how long the water lasts.
func (f *FaultSurvey) away(a *Answer, i int) {
	lasts := f.Faults[i].Scenario.Lasts
	days := func(r *faults.Result) float64 { return math.Min(r.Short, lasts) }
	low, likely, high := f.band(i, days)
	show := func(v float64) string {
		if v >= lasts {
			return "more than a year"
		}
		return ShowTime(v)
	}
	a.Figures = append(a.Figures, awayFigure(low, likely, high, lasts))
	a.Limit = Limit{Text: "4 days, a long weekend; the trade asks for a glance every day", Mark: "assumed, no source"}
	a.Score = low
	if low < 2*longWeekend && low >= oneDay/2 {
		a.Margin = beyond(low, longWeekend, "than a long weekend, at the bad end")
	}
	switch {
	case low >= longWeekend:
		a.Verdict, a.Say = Holds, "The water lasts "+show(low)+" at least."
	case low >= oneDay:
		a.Verdict, a.Say = Tight, "The water lasts "+show(low)+" at the bad end, likely "+show(likely)+": not over a long weekend without a look at it."
	default:
		a.Verdict, a.Say = Fails, "The pump may run short of water within "+show(low)+"."
	}
	f.splashed(a)
	a.Matters = f.matters(i, days, show, 3)
}

// splashed says what splash that is never seen does to the time away: it is left
// out of the figures above, since it can empty any sump and only a mark on it
// shows whether there is any.
func (f *FaultSurvey) splashed(a *Answer) {
	r := f.Likely()
	_, inlet := r.InletVolume()
	reserve := r.SumpVolume(r.Start.SumpLevel) - r.SumpVolume(inlet)
	const one = 0.01
	q := one * r.Start.Outlets
	if q <= 0 || reserve <= 0 {
		return
	}
	a.Figures = append(a.Figures, timeFigure("with 1 % of the water splashed or soaked away", reserve/q))
	a.Cautions = append(a.Cautions, "Splash and water that soaks away are left out of the days: mark the sump and run it for a day first.")
}

func awayFigure(low, likely, high, lasts float64) Figure {
	unit, si := "days", oneDay
	if high < oneDay {
		unit, si = "h", 3600.0
	}
	return boundedBelow(Figure{
		Name: "until the pump stops for want of water", Low: low / si, Likely: likely / si, High: high / si, Unit: unit,
		Text: dayBand(low, likely, high, lasts),
	}, longWeekend/si)
}

// dayBand shows a band of times in days.
func dayBand(low, likely, high, most float64) string {
	if low >= most {
		return "more than a year"
	}
	if high < oneDay {
		return fmt.Sprintf("%.1f to %.1f h, likely %.1f h", low/3600, high/3600, likely/3600)
	}
	text := fmt.Sprintf("%.1f to %.1f days", low/oneDay, high/oneDay)
	if high >= most {
		text = fmt.Sprintf("%.1f days to more than a year", low/oneDay)
	}
	if likely < most {
		text += fmt.Sprintf(", likely %.1f days", likely/oneDay)
	}
	return text
}
