package answers

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/faults"
	"rillwright/quantity"
)

// FillLine is between what marks the sump is to be filled, standing still, and
// what was computed to find them.
type FillLine struct {
	// Lowest and Highest are levels, m above the room floor; Highest may be
	// below Lowest: then no mark will do.
	Lowest, Highest float64
	// ByRim and ByDrain are the highest levels that a power cut and a blocked
	// drain allow by themselves, -Inf if none does.
	ByRim, ByDrain float64
	Points         []ReservePoint
}

// refilled returns the enclosure with its sump filled to a level, standing still.
func refilled(e *enclosure.Enclosure, level float64) *enclosure.Enclosure {
	n := e.Clone()
	n.Sump.Level, n.Sump.Running = level, false
	return n
}

// trial is what a fill level comes to at the bad end of each fault of some kinds.
func (f *FaultSurvey) trial(level float64, kinds ...faults.Kind) (ReservePoint, error) {
	e := refilled(f.S.E, level)
	p := ReservePoint{Level: level - e.Sump.Bottom, Free: math.Inf(1), Days: math.Inf(1)}
	for i := range f.Faults {
		x := &f.Faults[i]
		if !slices.Contains(kinds, x.Kind) || f.failed[i] != nil {
			continue
		}
		r, err := faults.NewRig(e, f.cornerCase(f.signs[x.ID], 1))
		if err != nil {
			return p, err
		}
		res, err := f.follow(r, x)
		if err != nil {
			return p, err
		}
		p.Volume = r.SumpVolume(level)
		switch x.Kind {
		case faults.Away:
			p.Days = math.Min(res.Short, x.Scenario.Lasts)
		case faults.Blocked, faults.HalfBlocked, faults.BlocksSlowly:
			p.Spill = math.Max(p.Spill, res.Spilled)
		default:
			p.Free = math.Min(p.Free, res.SumpFree)
			if res.Spilled > drop {
				p.Free = math.Min(p.Free, -res.Spilled)
			}
		}
	}
	return p, nil
}

// FillLine finds the marks. The faults must have been followed with power cut,
// blocked drains and being away among them.
func (f *FaultSurvey) FillLine() (*FillLine, error) {
	e := f.S.E
	bottom, rim := e.Sump.Bottom, f.rim()
	_, good := freeboards(e.Units)
	out := &FillLine{}
	back := []faults.Kind{faults.PowerCut, faults.Standpipe, faults.DayStopped, faults.HolesBlocked}
	blocking := []faults.Kind{faults.Blocked, faults.HalfBlocked, faults.BlocksSlowly}
	search := func(pass func(ReservePoint) bool, kinds ...faults.Kind) (float64, error) {
		test := func(z float64) (bool, error) {
			p, err := f.trial(z, kinds...)
			return pass(p), err
		}
		lo, hi := bottom+0.005, rim-good
		if ok, err := test(hi); ok || err != nil {
			return hi, err
		}
		if ok, err := test(lo); !ok || err != nil {
			return math.Inf(-1), err
		}
		for hi-lo > 0.5e-3 {
			mid := (lo + hi) / 2
			ok, err := test(mid)
			if err != nil {
				return 0, err
			}
			if ok {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo, nil
	}
	free := f.S.E.Sump.Width * f.S.E.Sump.Depth * good
	tests := []func() error{
		func() (err error) {
			out.ByRim, err = search(func(p ReservePoint) bool { return p.Free >= free }, back...)
			return err
		},
		func() (err error) {
			dry := func(p ReservePoint) bool { return p.Spill <= drop }
			out.ByDrain, err = search(dry, faults.Blocked)
			if err != nil || math.IsInf(out.ByDrain, -1) {
				return err
			}
			// One that blocks in part or slowly is seldom the worse; if it is,
			// look again with all of them.
			if p, err := f.trial(out.ByDrain, blocking...); err != nil || dry(p) {
				return err
			}
			out.ByDrain, err = search(dry, blocking...)
			return err
		},
		func() (err error) {
			out.Lowest, err = f.lowest()
			return err
		},
	}
	errs := make([]error, len(tests))
	InParallel(len(tests), func(i int) { errs[i] = tests[i]() })
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	out.Highest = math.Min(out.ByRim, out.ByDrain)
	return out, f.curve(out)
}

// lowest is the lowest mark, standing still, at which the pump stays covered once
// it runs, with as much water over its inlet as it wants to take hold again.
func (f *FaultSurvey) lowest() (float64, error) {
	e := f.S.E
	c := f.S.cornerOf(heldMeasure(), 1).at
	lo, hi := e.Sump.Bottom, f.rim()
	for hi-lo > 0.5e-3 {
		mid := (lo + hi) / 2
		r, err := faults.NewRig(refilled(e, mid), c)
		if err != nil {
			return 0, err
		}
		if _, inlet := r.InletVolume(); r.Start.SumpLevel >= inlet+startCover {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, nil
}

// startCover is the water to keep over a pump's inlet while it runs, m: what it
// needs to take hold again; assumed, no source.
const startCover = 0.010

// curve computes what levels between empty and full come to.
func (f *FaultSurvey) curve(out *FillLine) error {
	e := f.S.E
	_, good := freeboards(e.Units)
	from, to := math.Min(out.Lowest, f.rim()-good), f.rim()-good
	const points = 7
	var levels []float64
	for i := range points {
		levels = append(levels, from+(to-from)*float64(i)/(points-1))
	}
	// The marks themselves, and the plan, are on it.
	for _, z := range []float64{out.Highest, f.Likely().Start.StopLevel} {
		if z > from && z < to {
			levels = append(levels, z)
		}
	}
	slices.Sort(levels)
	levels = slices.CompactFunc(levels, func(a, b float64) bool { return math.Abs(b-a) < 1e-4 })
	out.Points = make([]ReservePoint, len(levels))
	errs := make([]error, len(levels))
	InParallel(len(levels), func(i int) { out.Points[i], errs[i] = f.trial(levels[i], faults.PowerCut, faults.Blocked, faults.Away) })
	return errors.Join(errs...)
}

// fillAnswer answers to which mark the sump is to be filled.
func (f *FaultSurvey) fillAnswer(l *FillLine) Answer {
	e, sys := f.S.E, f.S.E.Units
	a := Answer{ID: "fill-line", Question: "How full may the sump be?", LimitingLine: e.Sump.Pos.Line}
	r := f.Likely()
	mark := func(z float64) string {
		if z < e.Sump.Bottom {
			return "none"
		}
		return quantity.Length(z-e.Sump.Bottom).Show(sys) + " from its bottom, " + quantity.Volume(r.SumpVolume(z)).Show(sys)
	}
	add := func(name string, z float64) {
		v := math.Max(z-e.Sump.Bottom, 0)
		fig := figure(name, quantity.Exactly(quantity.Length(v)), sys)
		fig.Text = mark(z)
		a.Figures = append(a.Figures, fig)
	}
	planned := r.Start.StopLevel
	add("highest mark, standing still", l.Highest)
	add("lowest mark, standing still", l.Lowest)
	add("as the design has it, standing still", planned)
	if l.Highest > e.Sump.Bottom {
		last := &a.Figures[len(a.Figures)-1]
		*last = against(*last, quantity.Length(l.Highest-e.Sump.Bottom))
	}
	add("as the design has it, while it runs", r.Start.SumpLevel)
	add("a power cut allows", l.ByRim)
	add("a blocked drain allows", l.ByDrain)
	for _, p := range l.Points {
		text := fmt.Sprintf("%s away, %s after a power cut", dayText(p.Days), roomText(p.Free, sys))
		if p.Spill > drop {
			text += ", " + quantity.Volume(p.Spill).Show(sys) + " spilled if a drain blocks"
		}
		fig := figure("filled to "+quantity.Length(p.Level).Show(sys), quantity.Exactly(quantity.Length(p.Level)), sys)
		fig.Text = text
		a.Figures = append(a.Figures, fig)
	}
	_, good := freeboards(sys)
	a.Limit = Limit{Text: fmt.Sprintf("no water on the floor in a power cut, with %s to the rim, nor when a drain blocks; the pump's inlet covered by %s while it runs", quantity.Length(good).Show(sys), quantity.Length(startCover).Show(sys)), Source: "practice", Mark: "from memory of the trade"}
	a.Score = math.Min(l.Highest-planned, planned-l.Lowest)
	switch {
	case !r.Runs() && len(r.Start.Dry) == 0:
		a.Verdict, a.Say = Unknown, "As it stands nothing runs, so nothing can be said."
	case math.IsInf(l.Highest, -1) || l.Highest < l.Lowest:
		a.Verdict = Fails
		a.Say = "No mark is both low enough for a blocked drain and a power cut, and high enough to keep the pump covered: there must be a second drain or a float switch."
		if l.ByRim < l.Lowest {
			a.Say = "No mark is both low enough for what comes back in a power cut and high enough to keep the pump covered: the sump is too small."
		}
	case planned > l.Highest+1e-3:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("Too full as it is: with the pump standing still draw the line at %s, no higher, or see to what holds it down.", mark(l.Highest))
	case planned < l.Lowest-1e-3:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("Not full enough as it is: with the pump standing still draw a line at %s, no lower.", mark(l.Lowest))
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Draw two lines, with the pump standing still: never above %s, never below %s.", mark(l.Highest), mark(l.Lowest))
	}
	return a
}

func dayText(t float64) string {
	if t >= 365*oneDay {
		return "more than a year"
	}
	return fmt.Sprintf("%.1f days", t/oneDay)
}

// roomText says how much room is left under the rim, or how much runs over it.
func roomText(v float64, sys quantity.System) string {
	if v < 0 {
		return quantity.Volume(-v).Show(sys) + " over the rim"
	}
	return quantity.Volume(v).Show(sys) + " of room"
}
