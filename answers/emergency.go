package answers

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/faults"
	"rillwright/quantity"
)

// Situation is one entry of the emergency card: what is seen, what to do at once
// and where the water goes, each in words read from a metre away.
type Situation struct {
	Sign  string   // "Water runs over the dam"
	Do    []string // in order: "Pull the plug of the main pump"
	Water string   // "11 L can reach the floor in front of the dam"
}

// Emergency returns the entries of the emergency card, from how the faults end
// at their bad ends. Faults that were not followed are left out.
func (r *FaultReport) Emergency() []Situation {
	f := r.Survey
	e := f.S.E
	plug := pullPlug(e)
	out := []Situation{}
	add := func(kind faults.Kind, sign string, do []string, water func(i int) string) {
		for i := range f.Faults {
			if f.Faults[i].Kind == kind {
				out = append(out, Situation{Sign: sign, Do: do, Water: water(i)})
				return
			}
		}
	}
	// worst says how much can reach the floor and by which ways.
	worst := func(none string, kinds ...faults.Kind) string {
		v := f.WorstSpill(kinds...)
		if v == 0 {
			return none
		}
		for i := range f.Faults {
			if slices.Contains(kinds, f.Faults[i].Kind) && f.failed[i] == nil && f.bad[i].Spilled == v {
				return fmt.Sprintf("Up to %s can run %s if nobody comes.", quantity.Volume(v).Show(e.Units), where(f.bad[i]))
			}
		}
		return none
	}
	add(faults.Blocked, "Water runs over the dam, or the pool stands high", append([]string{plug}, "Clear the strainer of "+theDrains(e), "Start again only when the pool is back at its lip"),
		func(int) string {
			return worst("Another drain carries it, or the pump runs out before the dam spills.", faults.Blocked, faults.HalfBlocked, faults.BlocksSlowly)
		})
	add(faults.PowerCut, "The power is off", powerOff(f),
		func(int) string {
			return worst("It all fits into the sump.", faults.PowerCut, faults.DayStopped)
		})
	add(faults.HoseOff, "A hose is off, or water sprays", append([]string{plug}, valves(e)...),
		func(int) string { return worst("Nothing likely reaches the floor.", faults.HoseOff) })
	add(faults.Leaks, "The stand or floor is wet and all runs as usual", []string{plug, "Bail the pool into buckets down to below the leak", "Dry it and mark the place before anything else"},
		func(int) string { return worst("Little, if it is seen to.", faults.Leaks) })
	add(faults.TopUpSticks, "The sump rises by itself", []string{"Shut the tap of the top-up", plug},
		func(int) string { return worst("It stays within the sump for a day.", faults.TopUpSticks) })
	out = append(out, Situation{
		Sign:  "The pump roars or the wall goes dry",
		Do:    []string{plug, "Top the sump up to its mark", "Rinse the pump's sponge", "Plug in and see water at the outlets within a minute"},
		Water: "None is lost. A pump that runs dry is soon spoiled.",
	})
	for i := range out {
		out[i].Do = clean(out[i].Do)
	}
	return out
}

// clean leaves out what is empty.
func clean(list []string) []string {
	var out []string
	for _, s := range list {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

func pullPlug(e *enclosure.Enclosure) string {
	names := make([]string, len(e.Pumps))
	for i := range e.Pumps {
		names[i] = "the " + e.Pumps[i].Name
	}
	return "Pull the plug of " + strings.Join(names, " and ")
}

func theDrains(e *enclosure.Enclosure) string {
	names := make([]string, len(e.Drains))
	for i := range e.Drains {
		names[i] = "the " + e.Drains[i].Name
	}
	return strings.Join(names, " and ")
}

// valves lists the valves that can be shut.
func valves(e *enclosure.Enclosure) []string {
	var out []string
	for i := range e.Runs {
		for k := range e.Runs[i].Pieces {
			if e.Runs[i].Pieces[k].Kind == catalogue.KindValve {
				out = append(out, fmt.Sprintf("Shut the %s in the %s", e.Runs[i].Pieces[k].Name, e.Runs[i].Name))
			}
		}
	}
	return out
}

// powerOff is what to do when the power fails: nothing, if all fits.
func powerOff(f *FaultSurvey) []string {
	do := []string{"Wait: water runs back into the sump for a while", "See that the sump stays below its rim"}
	if f.WorstSpill(faults.PowerCut, faults.DayStopped) > 0 {
		do = []string{"Lift the end of every hose that hangs in the water out of it", "Bail the sump before it reaches its rim"}
	}
	return append(do, startsAgain(f))
}

func startsAgain(f *FaultSurvey) string {
	for i := range f.Faults {
		if f.Faults[i].Kind == faults.PowerCut && f.failed[i] == nil && f.likely(i).Flowing {
			return "When it is back, see that water comes out of the outlets"
		}
	}
	return "When it is back, start the pump by hand: it does not start by itself"
}
