package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/faults"
	"rillwright/quantity"
)

// drop is water that no verdict turns on, m3: beyond what the steps resolve.
const drop = 5e-6

// Reserve that one wants while away, s: a long weekend, and a day, for the daily
// glance that the trade asks for. The weekend is assumed, no source.
const (
	longWeekend = 4 * 86400.0
	oneDay      = 86400.0
)

// Answers answers every fault followed, in their order.
func (f *FaultSurvey) Answers() []Answer {
	out := make([]Answer, len(f.Faults))
	for i := range f.Faults {
		out[i] = f.answer(i)
	}
	return out
}

func (f *FaultSurvey) answer(i int) Answer {
	x := &f.Faults[i]
	a := Answer{ID: x.ID, Question: x.Question, LimitingLine: x.Line}
	switch x.Kind {
	case faults.Away:
		f.away(&a, i)
		return a
	case faults.PumpClogs:
		f.clogs(&a, i)
		return a
	case faults.PowerCut, faults.Blocked, faults.AllBlocked, faults.HalfBlocked, faults.BlocksSlowly, faults.Standpipe, faults.HoseOff,
		faults.DayStopped, faults.ValveOpened, faults.TopUpSticks, faults.Leaks, faults.HolesBlocked, faults.FloatSticks, faults.Own:
	}
	f.flood(&a, i)
	return a
}

func spilled(r *faults.Result) float64 { return r.Spilled }

// flood answers a fault by what reaches the floor.
func (f *FaultSurvey) flood(a *Answer, i int) {
	x, sys := &f.Faults[i], f.S.E.Units
	low, likely, high := f.band(i, spilled)
	a.Figures = append(a.Figures, f.volumes("water on the floor", low, likely, high))
	f.figures(a, i)
	a.Limit = Limit{Text: "no water on the floor", Source: "practice", Mark: "common practice, no source"}
	a.Score = -high
	bad := f.bad[i]
	least, good := freeboards(sys)
	free, rim := f.S.E.Pool.DamTop-bad.PoolMost, f.rim()-bad.SumpMost
	switch {
	case high > drop:
		a.Verdict = Fails
		a.Say = f.spills(i, likely, high)
		if unavoidable(x.Kind) {
			a.Verdict = Tight
		}
	case free < least && x.Kind != faults.PowerCut:
		a.Verdict, a.Margin = Tight, quantity.Length(free).Show(sys)+" under the dam's top at the bad end"
		a.Say = "Nothing spills, but the pool comes within " + quantity.Length(free).Show(sys) + " of the dam's top."
		a.Score = free
	case rim < good:
		a.Verdict, a.Margin = Tight, quantity.Length(rim).Show(sys)+" under the sump's rim at the bad end"
		a.Say = "Nothing spills, but the sump fills to within " + quantity.Length(rim).Show(sys) + " of its rim."
		a.Score = rim
	default:
		a.Verdict, a.Score = Holds, math.Min(free, rim)
		a.Margin = quantity.Length(free).Show(sys) + " left under the dam's top and " + quantity.Length(rim).Show(sys) + " under the sump's rim, at the bad end"
		a.Say = "No water reaches the floor."
	}
	a.Say = strings.TrimSpace(a.Say + " " + f.afterwards(i))
	a.Matters = f.floodMatters(i, high)
	if high > drop {
		a.Cautions = append(a.Cautions, electricalCaution())
	}
}

// floodMatters ranks the doubts by what spills, or, where nothing does, by how
// high the water comes in the place that is nearer to its rim.
func (f *FaultSurvey) floodMatters(i int, high float64) []Matter {
	sys, e := f.S.E.Units, f.S.E
	if high > drop {
		return f.matters(i, spilled, func(v float64) string { return quantity.Volume(v).Show(sys) }, 3)
	}
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	if f.rim()-f.bad[i].SumpMost < e.Pool.DamTop-f.bad[i].PoolMost || f.Faults[i].Kind == faults.PowerCut {
		return f.matters(i, func(r *faults.Result) float64 { return r.SumpMost - e.Sump.Bottom }, length, 3)
	}
	return f.matters(i, func(r *faults.Result) float64 { return r.PoolMost - e.Pool.Floor }, length, 3)
}

// unavoidable reports whether a fault puts water on the floor whatever is built,
// or takes two failures at once.
func unavoidable(k faults.Kind) bool {
	return k == faults.HoseOff || k == faults.Leaks || k == faults.FloatSticks || k == faults.AllBlocked
}

func (f *FaultSurvey) rim() float64 { return f.S.E.Sump.Bottom + f.S.E.Sump.Height }

// volumes makes a figure of a band of volumes.
func (f *FaultSurvey) volumes(name string, low, likely, high float64) Figure {
	shown := func(v float64) quantity.Volume {
		if v < drop {
			return 0
		}
		return quantity.Volume(v)
	}
	fig := figure(name, quantity.Band[quantity.Volume]{Low: shown(low), Likely: shown(likely), High: shown(high)}, f.S.E.Units)
	if high < drop {
		fig.Text = "nothing"
	}
	return fig
}

// figures adds the times and levels of how a fault likely goes.
func (f *FaultSurvey) figures(a *Answer, i int) {
	sys, r := f.S.E.Units, f.likely(i)
	if first := firstSpill(r); !math.IsNaN(first) {
		a.Figures = append(a.Figures, timeFigure("first water on the floor, likely after", first))
	}
	if !math.IsInf(r.Dry, 1) {
		a.Figures = append(a.Figures, timeFigure("pump draws air, likely after", r.Dry))
	}
	low, likely, high := f.band(i, func(r *faults.Result) float64 { return r.PoolMost - f.S.E.Pool.Floor })
	a.Figures = append(a.Figures, figure("highest the pool stands, above its floor", quantity.Band[quantity.Length]{Low: quantity.Length(low), Likely: quantity.Length(likely), High: quantity.Length(high)}, sys))
	low, likely, high = f.band(i, func(r *faults.Result) float64 { return r.SumpMost - f.S.E.Sump.Bottom })
	a.Figures = append(a.Figures, figure("highest the sump stands, above its bottom", quantity.Band[quantity.Length]{Low: quantity.Length(low), Likely: quantity.Length(likely), High: quantity.Length(high)}, sys))
}

// firstSpill is when water first reached the floor, NaN if it did not.
func firstSpill(r *faults.Result) float64 {
	first := math.NaN()
	for _, s := range r.Spills {
		if s.Volume > drop && !math.IsNaN(s.First) && !(s.First >= first) {
			first = s.First
		}
	}
	return first
}

// spills says where and how much water reaches the floor, and when.
func (f *FaultSurvey) spills(i int, likely, high float64) string {
	sys := f.S.E.Units
	r := f.likely(i)
	lead := "Likely not, but at the bad end "
	if likely <= drop {
		r = f.bad[i]
	} else {
		lead = "Yes: "
	}
	if unavoidable(f.Faults[i].Kind) {
		lead = ""
	}
	var b strings.Builder
	b.WriteString(lead)
	if first := firstSpill(r); !math.IsNaN(first) && first > 0 {
		fmt.Fprintf(&b, "%s after it begins ", ShowTime(first))
	}
	amount := quantity.Volume(likely).Show(sys)
	most := quantity.Volume(high).Show(sys)
	switch {
	case likely <= drop:
		fmt.Fprintf(&b, "water runs %s, %s in all.", where(r), most)
	case amount == most:
		fmt.Fprintf(&b, "water runs %s, %s in all.", where(r), amount)
	default:
		fmt.Fprintf(&b, "water runs %s, likely %s in all and %s at the bad end.", where(r), amount, most)
	}
	return sentence(b.String())
}

// sentence begins a text with a capital.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// where lists the ways by which water reached the floor, most first.
func where(r *faults.Result) string {
	var ways []string
	for _, s := range r.Spills {
		if s.Volume > drop {
			ways = append(ways, s.From)
		}
	}
	return strings.Join(ways, " and ")
}

// afterwards says how the pump fares.
func (f *FaultSurvey) afterwards(i int) string {
	x, r := &f.Faults[i], f.likely(i)
	switch {
	case x.Kind == faults.Leaks || x.Kind == faults.HoseOff:
		if !math.IsInf(r.Dry, 1) {
			return "The pump draws air after " + ShowTime(r.Dry) + "; nobody there, all of that is on the floor."
		}
		return ""
	case r.Hunts:
		return "The pump hunts: it draws air, the water comes back, it starts again, over and over."
	case !math.IsInf(r.Dry, 1) && !r.Flowing:
		return "The pump draws air after " + ShowTime(r.Dry) + " and runs dry until somebody pulls its plug."
	case x.Kind == faults.PowerCut && !f.starting():
		return "When the power comes back it does not start by itself: the outlets stay dry."
	case (x.Kind == faults.PowerCut || x.Kind == faults.DayStopped) && r.Flowing:
		return "It starts again by itself" + reaches(r) + "."
	case x.Kind == faults.Blocked && r.Spilled <= drop && r.Flowing:
		return "The other drains carry it all."
	}
	return ""
}

// starting reports whether anything flowed to begin with.
func (f *FaultSurvey) starting() bool { return f.S.Likely.Outlets > 0 && f.likely(0).Flowing }

// reaches says how long the water takes to the outlets after the power is back.
func reaches(r *faults.Result) string {
	back := math.NaN()
	for _, e := range r.Events {
		switch {
		case e.What == "the power comes back" || strings.HasSuffix(e.What, " starts"):
			back = e.At
		case strings.HasPrefix(e.What, "water reaches the outlets") && !math.IsNaN(back):
			return ", and water reaches the outlets " + ShowTime(e.At-back) + " later"
		}
	}
	return ""
}

// clogs answers how the flow fades as a pump's strainer clogs.
func (f *FaultSurvey) clogs(a *Answer, i int) {
	x, sys := &f.Faults[i], f.S.E.Units
	r := f.Likely()
	full, err := r.OutletsClogged(x.Index, 0)
	if err != nil || full <= 0 {
		a.Verdict, a.Say = Unknown, "Nothing flows, so nothing can be said."
		return
	}
	half := f.halved(r, x.Index, full)
	a.Figures = append(a.Figures, Figure{Name: "share of the strainer clogged when the flow is halved", Low: half, Likely: half, High: half, Text: quantity.Ratio(half).Show(sys)})
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
	a.Figures = append(a.Figures, Figure{Name: "until the pump stops for want of water", Low: low / oneDay, Likely: likely / oneDay, High: high / oneDay, Unit: "days", Text: dayBand(low, likely, high, lasts)})
	a.Limit = Limit{Text: "4 days, a long weekend; the trade asks for a glance every day", Mark: "assumed, no source"}
	a.Score = low
	a.Margin = beyond(low, longWeekend, "than a long weekend, at the bad end")
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

// dayBand shows a band of times in days.
func dayBand(low, likely, high, most float64) string {
	if low >= most {
		return "more than a year"
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

// timeFigure makes a figure of a time.
func timeFigure(name string, t float64) Figure {
	unit, si, _ := timeUnit(t)
	return Figure{Name: name, Low: t / si, Likely: t / si, High: t / si, Unit: unit, Text: ShowTime(t)}
}

// ShowTime shows a time as people say it: 93 s, 12 min, 5.2 h, 8.1 days.
func ShowTime(t float64) string {
	unit, si, decimals := timeUnit(t)
	return fmt.Sprintf("%.*f %s", decimals, t/si, unit)
}

func timeUnit(t float64) (unit string, si float64, decimals int) {
	switch {
	case t < 300:
		return "s", 1, 0
	case t < 2*3600:
		return "min", 60, 0
	case t < 2*oneDay:
		return "h", 3600, 1
	}
	return "days", oneDay, 1
}
