package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/faults"
	"rillwright/quantity"
)

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
	all := "in all"
	if r.Still > drip {
		all = "in " + ShowTime(r.Ended) + " and still running"
	}
	switch {
	case likely <= drop:
		fmt.Fprintf(&b, "water runs %s, %s %s.", where(r), most, all)
	case amount == most:
		fmt.Fprintf(&b, "water runs %s, %s %s.", where(r), amount, all)
	default:
		fmt.Fprintf(&b, "water runs %s, likely %s %s; %s at the bad end.", where(r), amount, all, most)
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
	case x.Kind == faults.Blocked && len(f.S.E.Drains) > 1 && r.Spilled <= drop && r.Flowing:
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
