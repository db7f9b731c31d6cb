package answers

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/faults"
)

// FaultSurvey holds how faults end over the doubts: likely, with each group of
// doubts at either end, and with all of them at the ends that make it worse or
// better. Doubts that act through the flow alone, or through what the drains
// take, are moved together; those about volumes one by one. Which end is the
// worse is found by computing, for each fault by itself.
type FaultSurvey struct {
	S      *Survey
	Faults []faults.Fault
	groups []doubtGroup
	rigs   []*faults.Rig // likely, then each group low and high
	ends   [][]*faults.Result
	signs  map[string][]int8 // by fault, by group
	bad    []*faults.Result
	good   []*faults.Result
	badRig map[string]*faults.Rig
	again  bool         // made by Again
	failed []error      // why a fault could not be followed, by fault
	stop   func() error // of FaultOptions
}

// doubtGroup is one doubt or some that act as one.
type doubtGroup struct {
	name, what string
	ends       [2]enclosure.Case
	doubt      int // -1 for several
	members    []int
}

// coarse is the tolerance of each step of a run that only tells an end, m3: a
// third of a millilitre.
const coarse = 3e-7

// apart lists the doubts that act on volumes and are moved one by one, by the
// beginning of their IDs.
func apart(id string) bool {
	for _, p := range []string{"displaced", "film-hold-up", "evaporation", "splash-lost", "strainer-dirt"} {
		if strings.HasPrefix(id, p) {
			return true
		}
	}
	return false
}

// NewFaultSurvey follows the given faults of a surveyed enclosure.
func (s *Survey) NewFaultSurvey(list []faults.Fault, progress func(done, of int)) (*FaultSurvey, error) {
	return s.newFaultSurvey(list, progress, nil)
}

func (s *Survey) newFaultSurvey(list []faults.Fault, progress func(done, of int), stop func() error) (*FaultSurvey, error) {
	f := &FaultSurvey{S: s, Faults: list, signs: map[string][]int8{}, stop: stop}
	f.findGroups()
	if err := f.makeRigs(); err != nil {
		return nil, err
	}
	runs := len(f.rigs)
	f.ends = make([][]*faults.Result, len(list))
	for i := range f.ends {
		f.ends[i] = make([]*faults.Result, runs)
	}
	errs := make([]error, len(list)*runs)
	told := newTally(len(list)*(runs+2), progress)
	InParallel(len(list)*runs, func(n int) {
		i, k := n/runs, n%runs
		// How a strainer clogs is asked of the likely case alone.
		if k == 0 || list[i].Kind != faults.PumpClogs {
			f.ends[i][k], errs[n] = f.follow(f.rigs[k], &list[i])
		}
		told.one()
	})
	if err := f.stopped(); err != nil {
		return nil, err
	}
	f.failed = make([]error, len(list))
	for i := range list {
		f.failed[i] = errors.Join(errs[i*runs : (i+1)*runs]...)
		f.signs[list[i].ID] = f.sensesOf(i)
	}
	return f, f.corners([]int{1, -1}, told)
}

// stopped tells why the work is to end, nil if it is not.
func (f *FaultSurvey) stopped() error {
	if f.stop == nil {
		return nil
	}
	return f.stop()
}

// follow runs one fault, closely enough for a verdict.
func (f *FaultSurvey) follow(r *faults.Rig, x *faults.Fault) (*faults.Result, error) {
	if err := f.stopped(); err != nil {
		return nil, err
	}
	o := x.Options
	o.Tolerance = coarse
	return r.Run(&x.Scenario, o)
}

func (f *FaultSurvey) findGroups() {
	s := f.S
	taken := make([]bool, len(s.E.Doubts))
	together := func(name, what string, m Measure) {
		signs := s.senses(m)
		g := doubtGroup{name: name, what: what, ends: [2]enclosure.Case{s.E.Likely(), s.E.Likely()}, doubt: -1}
		for i, sign := range signs {
			d := &s.E.Doubts[i]
			if sign == 0 || taken[i] || apart(d.ID) {
				continue
			}
			taken[i] = true
			g.members = append(g.members, i)
			g.ends[0][i], g.ends[1][i] = d.Low, d.High
			if sign < 0 {
				g.ends[0][i], g.ends[1][i] = d.High, d.Low
			}
		}
		if len(g.members) > 0 {
			f.groups = append(f.groups, g)
		}
	}
	together("flow", "all that bears on the flow", flowMeasure())
	together("drains", "all that bears on the drains", capacityMeasure())
	for i := range s.E.Doubts {
		d := &s.E.Doubts[i]
		if !apart(d.ID) {
			continue
		}
		g := doubtGroup{name: d.ID, what: d.What, ends: [2]enclosure.Case{s.E.Likely(), s.E.Likely()}, doubt: i, members: []int{i}}
		g.ends[0][i], g.ends[1][i] = d.Low, d.High
		f.groups = append(f.groups, g)
	}
}

func (f *FaultSurvey) makeRigs() error {
	cases := []enclosure.Case{f.S.E.Likely()}
	for i := range f.groups {
		cases = append(cases, f.groups[i].ends[0], f.groups[i].ends[1])
	}
	f.rigs = make([]*faults.Rig, len(cases))
	errs := make([]error, len(cases))
	InParallel(len(cases), func(i int) { f.rigs[i], errs[i] = faults.NewRig(f.S.E, cases[i]) })
	return errors.Join(errs...)
}

// badness is a figure of which more is worse: what is spilled, or, while nothing
// is, how little room is left; for being away, how soon the pump draws air.
func badness(x *faults.Fault, r *faults.Result) float64 {
	switch {
	case x.Kind == faults.Away:
		return -math.Min(r.Short, x.Scenario.Lasts)
	case r.Spilled > 0:
		return r.Spilled
	}
	return -math.Min(r.PoolFree, r.SumpFree)
}

// sensesOf returns for each group which end makes a fault worse.
func (f *FaultSurvey) sensesOf(i int) []int8 {
	x := &f.Faults[i]
	out := make([]int8, len(f.groups))
	if x.Kind == faults.PumpClogs || f.failed[i] != nil {
		return out
	}
	for g := range f.groups {
		low, high := badness(x, f.ends[i][1+2*g]), badness(x, f.ends[i][2+2*g])
		switch d := high - low; {
		case d > 1e-6:
			out[g] = 1
		case d < -1e-6:
			out[g] = -1
		}
	}
	return out
}

// cornerCase returns the case with every group at its worse (side 1) or better
// (side -1) end.
func (f *FaultSurvey) cornerCase(signs []int8, side int) enclosure.Case {
	c := f.S.E.Likely()
	for g := range f.groups {
		end := int(signs[g]) * side
		if end == 0 {
			continue
		}
		from := f.groups[g].ends[(end+1)/2]
		for _, i := range f.groups[g].members {
			c[i] = from[i]
		}
	}
	return c
}

// corners runs every fault at its bad (1) or good (-1) end. Faults that share a
// corner share its rig.
func (f *FaultSurvey) corners(sides []int, told *tally) error {
	n := len(f.Faults)
	f.bad, f.good = make([]*faults.Result, n), make([]*faults.Result, n)
	f.badRig = map[string]*faults.Rig{}
	rigs := map[string]*faults.Rig{}
	key := func(i, side int) string { return fmt.Sprint(f.signs[f.Faults[i].ID], side) }
	for i := range f.Faults {
		for _, side := range sides {
			if k := key(i, side); rigs[k] == nil && f.needs(i, side) {
				r, err := faults.NewRig(f.S.E, f.cornerCase(f.signs[f.Faults[i].ID], side))
				if err != nil {
					return err
				}
				rigs[k] = r
			}
		}
		f.badRig[f.Faults[i].ID] = rigs[key(i, 1)]
	}
	errs := make([]error, len(sides)*n)
	InParallel(len(errs), func(k int) {
		i, side := k%n, sides[k/n]
		to := f.bad
		if side < 0 {
			to = f.good
		}
		if f.failed[i] == nil && f.needs(i, side) {
			to[i], errs[k] = f.follow(rigs[key(i, side)], &f.Faults[i])
		}
		told.one()
	})
	for k, err := range errs {
		f.failed[k%n] = errors.Join(f.failed[k%n], err)
	}
	return f.stopped() // what was not followed for that has not failed
}

// likely is how a fault likely ends.
func (f *FaultSurvey) likely(i int) *faults.Result { return f.ends[i][0] }

// Likely returns the rig of the likely case.
func (f *FaultSurvey) Likely() *faults.Rig { return f.rigs[0] }

// Bad returns the rig with every doubt at the end that makes a fault worse.
func (f *FaultSurvey) Bad(id string) *faults.Rig { return f.badRig[id] }

// band returns a figure of how a fault ends: least, likely and most over the good
// end, the likely case, each doubt by itself and the bad end.
func (f *FaultSurvey) band(i int, of func(*faults.Result) float64) (low, likely, high float64) {
	likely = of(f.likely(i))
	low, high = likely, likely
	for _, r := range append([]*faults.Result{f.bad[i], f.good[i]}, f.ends[i]...) {
		if r != nil {
			low, high = math.Min(low, of(r)), math.Max(high, of(r))
		}
	}
	return low, likely, high
}

// matters ranks the groups of doubts by how far each alone moves a figure.
func (f *FaultSurvey) matters(i int, of func(*faults.Result) float64, show func(float64) string, most int) []Matter {
	if len(f.ends[i]) < 1+2*len(f.groups) {
		return nil
	}
	likely := of(f.likely(i))
	var out []Matter
	for g := range f.groups {
		low, high := of(f.ends[i][1+2*g]), of(f.ends[i][2+2*g])
		if show(low) == show(high) {
			continue
		}
		m := Matter{
			What: f.groups[g].what, Range: "from one end to the other", Effect: fromTo(show(math.Min(low, high)), show(math.Max(low, high))),
			Swing: math.Abs(high-low) / math.Max(math.Abs(likely), 1e-6),
		}
		if d := f.groups[g].doubt; d >= 0 {
			doubt := &f.S.E.Doubts[d]
			m.Range = fromTo(doubt.Show(doubt.Low, f.S.E.Units), doubt.Show(doubt.High, f.S.E.Units))
			m.Why, m.Settle, m.Line = doubt.Why, doubt.Settle, doubt.Pos.Line
		} else {
			m.Why = fmt.Sprintf("%d doubts together", len(f.groups[g].members))
			m.Settle = "the tests that the answer about the flow names"
			if f.groups[g].name == "drains" {
				m.Settle = "pour measured buckets into the pool and mark how high it stands"
			}
		}
		out = append(out, m)
	}
	sortMatters(out)
	return out[:min(most, len(out))]
}

// WorstSpill is the most that any fault of some kinds spills at its bad end, m3.
func (f *FaultSurvey) WorstSpill(kinds ...faults.Kind) float64 {
	worst := 0.0
	for i := range f.Faults {
		if slices.Contains(kinds, f.Faults[i].Kind) && f.failed[i] == nil && f.bad[i].Spilled > drop {
			worst = math.Max(worst, f.bad[i].Spilled)
		}
	}
	return worst
}

// LeastPoolArea is the free area of the pool at the dam's top with most of it
// displaced, m2.
func (f *FaultSurvey) LeastPoolArea() float64 {
	area := math.Inf(1)
	for _, r := range slices.Concat(f.rigs, slices.Collect(maps.Values(f.badRig))) {
		area = math.Min(area, r.PoolArea())
	}
	return area
}

// AllRun reports whether the pump runs at the bad end of every fault too.
func (f *FaultSurvey) AllRun() bool {
	for _, r := range f.badRig {
		if !r.Runs() {
			return false
		}
	}
	return true
}
