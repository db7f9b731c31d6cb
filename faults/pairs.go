package faults

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
)

// Pair is two faults at once and what they spill.
type Pair struct {
	What    string // in words, in the order in which they happen
	First   string // IDs of the two faults
	Second  string
	Spilled float64 // m3
	Result  *Result
}

// between is the time from the first to the second of two faults, s.
const between = 5 * minute

// single is a fault that pairs are made of.
type single struct {
	id, what string
	step     enclosure.Step
	about    string // the thing it befalls: two faults of one thing are no pair
}

// singles lists what pairs are made of.
func singles(e *enclosure.Enclosure) []single {
	out := []single{{"power-cut", "the power fails for an hour", enclosure.Step{What: "power off"}, "power"}}
	for i := range e.Drains {
		d := &e.Drains[i]
		out = append(out, single{"blocked[" + d.Name + "]", "the " + d.Name + " blocks", enclosure.Step{What: "drain blocks", Index: i, Share: 1}, "drain " + d.Name})
		if d.Kind == "standpipe" {
			out = append(out, single{"standpipe[" + d.Name + "]", "the standpipe of the " + d.Name + " is knocked out", enclosure.Step{What: "standpipe out", Index: i}, "drain " + d.Name})
		}
	}
	for _, f := range Usual(e) {
		st := enclosure.Step{}
		if len(f.Scenario.Steps) > 0 {
			st = f.Scenario.Steps[0]
		}
		switch f.Kind {
		case ValveOpened:
			out = append(out, single{f.ID, "the valve in the " + e.Runs[f.Index].Name + " is opened fully", st, f.ID})
		case HoseOff:
			out = append(out, single{f.ID, "the " + e.Runs[f.Index].Name + " comes off", st, f.ID})
		case TopUpSticks:
			out = append(out, single{f.ID, "the top-up sticks open", st, f.ID})
		case FloatSticks:
			out = append(out, single{f.ID, "the float of the " + e.Pumps[f.Index].Name + " sticks", st, f.ID})
		case HolesBlocked:
			out = append(out, single{f.ID, "the siphon-break holes are blocked", st, f.ID})
		case Leaks:
			out = append(out, single{f.ID, "a joint of the " + st.Which + " leaks", st, f.ID})
		case PowerCut, Blocked, AllBlocked, HalfBlocked, BlocksSlowly, Standpipe, DayStopped, PumpClogs, Away, Own:
		}
	}
	for i := range e.Pumps {
		if len(e.Pumps) > 1 {
			out = append(out, single{"stopped[" + e.Pumps[i].Name + "]", "the " + e.Pumps[i].Name + " stops", enclosure.Step{What: "pump stops", Index: i}, "pump"})
		}
	}
	return out
}

// PairList returns every two faults that may come together, in both orders, as
// courses of events of six hours; ids gives the faults of each.
func PairList(e *enclosure.Enclosure) (list []enclosure.Scenario, ids [][2]string) {
	all := singles(e)
	for i := range all {
		for k := range all {
			a, b := &all[i], &all[k]
			if i == k || a.about == b.about {
				continue
			}
			sc := enclosure.Scenario{Name: fmt.Sprintf("%s, then %s", a.what, b.what), Lasts: 6 * hour}
			for n, f := range []*single{a, b} {
				st := f.step
				st.At = float64(n) * between
				sc.Steps = append(sc.Steps, st)
				if st.What == "power off" {
					sc.Steps = append(sc.Steps, enclosure.Step{At: st.At + hour, What: "power on"})
				}
			}
			slices.SortStableFunc(sc.Steps, func(x, y enclosure.Step) int { return cmp.Compare(x.At, y.At) })
			list, ids = append(list, sc), append(ids, [2]string{a.id, b.id})
		}
	}
	return list, ids
}

// Rank puts what spills most first, and of the two orders of one pair keeps the
// worse.
func Rank(pairs []Pair) []Pair {
	best := map[string]int{}
	var out []Pair
	for _, p := range pairs {
		key := min(p.First, p.Second) + "|" + max(p.First, p.Second)
		if i, ok := best[key]; ok {
			if p.Spilled > out[i].Spilled {
				out[i] = p
			}
			continue
		}
		best[key] = len(out)
		out = append(out, p)
	}
	// A drop more or less is no difference.
	drops := func(p Pair) float64 { return math.Round(p.Spilled / 1e-6) }
	slices.SortStableFunc(out, func(a, b Pair) int { return cmp.Compare(drops(b), drops(a)) })
	return out
}
