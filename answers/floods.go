package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/faults"
	"rillwright/quantity"
)

// drip is a flow onto the floor that is still worth telling, m3/s: 36 ml/h.
const drip = 1e-8

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
	switch {
	case f.failed[i] != nil:
		a.Verdict = Unknown
		a.Say = "This could not be followed: " + firstLine(f.failed[i]) + "."
		return a
	case !f.Likely().Runs() && x.Kind != faults.Leaks && x.Kind != faults.TopUpSticks && x.Kind != faults.Own:
		a.Verdict = Unknown
		a.Say = "As it stands nothing runs, so nothing can be said: see first that the pump is covered and reaches the top."
		return a
	}
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
	a.Figures = append(a.Figures, bounded(f.volumes("water on the floor", low, likely, high), 0))
	f.figures(a, i)
	if x.Kind == faults.HoseOff {
		f.joints(a, x)
	}
	a.Limit = Limit{Text: "no water on the floor", Source: "practice", Mark: "common practice, no source"}
	if unavoidable(x.Kind) {
		a.Figures[0].Bound = nil
		a.Limit.Text = "none: what such a fault spills can be made less, not built away; know how much it is"
	}
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

// joints adds what reaches the floor by the joint at which a hose comes off.
func (f *FaultSurvey) joints(a *Answer, x *faults.Fault) {
	sys, r := f.S.E.Units, f.Likely()
	list := r.Joints(x.Index)
	if len(list) < 2 {
		return
	}
	least, most := math.Inf(1), 0.0
	for _, z := range list {
		sc := x.Scenario
		sc.Steps = slices.Clone(sc.Steps)
		sc.Steps[0].Height = z
		res, err := r.Run(&sc, faults.Options{Tolerance: coarse, NoTimers: true})
		if err != nil {
			continue
		}
		least, most = math.Min(least, res.Spilled), math.Max(most, res.Spilled)
	}
	if most == 0 {
		return
	}
	a.Figures = append(a.Figures, figure(fmt.Sprintf("by which of its %d joints comes off, likely", len(list)),
		quantity.Band[quantity.Volume]{Low: quantity.Volume(least), Likely: quantity.Volume((least + most) / 2), High: quantity.Volume(most)}, sys))
	last := &a.Figures[len(a.Figures)-1]
	last.Text = fromTo(quantity.Volume(least).Show(sys), quantity.Volume(most).Show(sys))
	if quantity.Volume(least).Show(sys) == quantity.Volume(most).Show(sys) {
		last.Text = quantity.Volume(most).Show(sys)
	}
	last.Likely = last.High
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

// firstLine is an error's first line.
func firstLine(err error) string {
	text, _, _ := strings.Cut(err.Error(), "\n")
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
