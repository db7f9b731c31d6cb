package answers

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics/gravity"
	"rillwright/quantity"
	"rillwright/study"
)

// drain answers whether the drains take what the pump can bring.
func (s *Survey) drain() Answer {
	sys := s.E.Units
	a := Answer{ID: "drain", Question: "Is the drain big enough?"}
	m := drainRatioMeasure()
	low, likely, high := s.Band(m)
	a.Figures = append(a.Figures, Figure{Name: "what the drains take over what comes", Low: low, Likely: likely, High: high, Text: fmt.Sprintf("%.1f to %.1f times, likely %.1f", low, high, likely)})
	a.Figures[0] = boundedBelow(a.Figures[0], drainFactor)
	s.detail(&a, func() []Figure {
		return []Figure{
			figure("most the drains take, pool at the dam's top", bandOf[quantity.Flow](s, capacityMeasure()), sys),
			figure("water coming with every valve open", bandOf[quantity.Flow](s, openFlowMeasure()), sys),
			figure("level over the lip while it runs", bandOf[quantity.Length](s, riseMeasure()), sys),
		}
	})
	a.Limit = Limit{Text: "at least twice the pump's open-valve flow, without help from a siphon", Source: "practice", Mark: "common practice, no source"}
	a.Margin = beyond(low, drainFactor, "than twice the flow, at the bad end")
	a.Score = low / drainFactor
	bad := s.End(m, -1)
	dry := s.most(openFlowMeasure()) <= 0
	switch {
	case dry:
		a.Verdict, a.Margin = Unknown, ""
		a.Say = "Nothing comes down to it, so there is nothing to hold it against: see first that the pump reaches the top."
		a.Figures[0] = Figure{Name: a.Figures[0].Name, Text: "nothing comes"}
	case len(s.E.Drains) == 0:
		a.Verdict = Fails
		a.Say = "There is no drain."
	case low < 1:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("No: it may take only %.1f times what comes, and then the pool runs over the dam.", low)
	case low < drainFactor:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("It takes the water, but with little in hand: %.1f times what comes at the bad end, where twice is usual.", low)
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Yes: it takes at least %.1f times what the pump can bring.", low)
	}
	if s.ways() == 1 && a.Verdict != Fails && !dry {
		a.Say += " If it blocks, nothing else carries the water: see to that apart."
	}
	a.Limiting, a.LimitingLine = s.drainLimit(bad)
	if !dry {
		a.Matters = s.Matters(m, func(v float64) string { return fmt.Sprintf("%.2f times", v) }, 4)
	}
	return a
}

// ways counts the drains that do not share a pipe with another.
func (s *Survey) ways() int {
	n := 0
	shared := map[int]bool{}
	for i := range s.E.Drains {
		if to := s.E.Drains[i].To; to.Kind != enclosure.AtTee {
			n++
		} else if !shared[to.Index] {
			shared[to.Index] = true
			n++
		}
	}
	return n
}

// drainLimit says in words what holds the largest drain at the top of the dam.
func (s *Survey) drainLimit(st *study.State) (string, int) {
	best := -1
	for i := range st.Drains {
		if best < 0 || st.Drains[i].Capacity > st.Drains[best].Capacity {
			best = i
		}
	}
	if best < 0 {
		return "", 0
	}
	d := &s.E.Drains[best]
	return LimitWords(st.Drains[best].AtTop, st.Drains[best].Reaches) + " of the " + d.Name, d.Pos.Line
}

// LimitWords says what holds a drain back, with the names of its reaches.
// LimitWords says what holds a drain back, with the names of its reaches.
func LimitWords(l gravity.Limit, reaches []string) string {
	switch l.Kind {
	case gravity.Lip:
		return "the lip, as a weir,"
	case gravity.Opening:
		return "the drowned mouth"
	case gravity.Backed:
		if l.Reach < len(reaches) {
			return "the " + reaches[l.Reach] + ", running full,"
		}
	case gravity.Falling:
		return "the falling pipe"
	case gravity.JoinFull:
		return "the pipe after the tee, running full,"
	case gravity.Dry:
		return "its lip, which lies above the dam's top,"
	}
	return "the pipe"
}

// quiet answers whether the drains run with an open core of air.
func (s *Survey) quiet() Answer {
	sys := s.E.Units
	a := Answer{ID: "quiet", Question: "Will the drain gurgle?"}
	m := quietMeasure()
	likely, high := s.at(m), s.most(m)
	a.Limit = Limit{Text: "speed in the full bore under 0.3 of the root of g times bore", Source: "hills-1983", Mark: "read in secondary pages"}
	a.Figures = append(a.Figures, Figure{Name: "flow over the quiet flow", Likely: likely, High: high, Low: likely, Text: fmt.Sprintf("%.1f times likely, at most %.1f", likely, high)})
	a.Figures[0] = bounded(a.Figures[0], 1)
	most := 0.0
	for i := range s.Likely.Drains {
		d := &s.Likely.Drains[i]
		a.Figures = append(a.Figures,
			against(figure("flow down the "+s.E.Drains[i].Name, quantity.Exactly(quantity.Flow(d.Flow)), sys), quantity.Flow(d.Quiet)),
			figure("which is quiet up to, "+s.E.Drains[i].Name, quantity.Exactly(quantity.Flow(d.Quiet)), sys),
			figure("and gulps above about, "+s.E.Drains[i].Name, quantity.Exactly(quantity.Flow(d.Gulps)), sys))
		if d.Flow/d.Quiet > most {
			most, a.LimitingLine, a.Limiting = d.Flow/d.Quiet, s.E.Drains[i].Pos.Line, "the narrowest bore of the "+s.E.Drains[i].Name
		}
	}
	for i := range s.Likely.Joined {
		j := &s.Likely.Joined[i]
		a.Figures = append(a.Figures,
			against(figure("flow in the "+j.Name, quantity.Exactly(quantity.Flow(j.Flow)), sys), quantity.Flow(j.Quiet)),
			figure("which is quiet up to, "+j.Name, quantity.Exactly(quantity.Flow(j.Quiet)), sys))
		if j.Flow/j.Quiet > most {
			most, a.LimitingLine, a.Limiting = j.Flow/j.Quiet, 0, "the narrowest bore of the "+j.Name
		}
	}
	switch {
	case high <= 0:
		a.Verdict = Unknown
		a.Say = "Nothing runs down it as it stands."
	case high <= 1:
		a.Verdict = Holds
		a.Say = "No: it keeps an open core of air."
	case likely <= 3:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("It will be heard: likely %.1f times the flow that an open core of air lets through quietly. A pipe one size up calms it.", likely)
	default:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("Yes: likely %.1f times the quiet flow. It will gulp, and the level will saw.", likely)
	}
	for i := range s.E.Drains {
		if s.E.Drains[i].Kind == "standpipe" && !s.E.Drains[i].Vented {
			a.Say += fmt.Sprintf(" The %s is not said to be vented: without air at its top it flips between weir and siphon.", s.E.Drains[i].Name)
			a.Verdict = max(a.Verdict, Tight)
		}
	}
	a.Margin = fmt.Sprintf("%.1f times what runs quietly, at the bad end", high)
	if high <= 0 {
		a.Margin = ""
	}
	a.Score = 1 / math.Max(high, 1e-9)
	a.Matters = s.Matters(m, func(v float64) string { return fmt.Sprintf("%.2f times", v) }, 3)
	return a
}

// levels answers where the water stands while the pump runs.
func (s *Survey) levels() Answer {
	sys := s.E.Units
	a := Answer{ID: "levels", Question: "Where does the water stand while it runs?"}
	m := openPoolMeasure()
	bad := s.End(m, 1)
	floor := s.E.Pool.Floor
	least, good := freeboards(sys)
	free := s.E.Pool.DamTop - bad.PoolLevel
	a.Figures = append(a.Figures, over(figure("freeboard at the bad end, valves open", quantity.Exactly(quantity.Length(free)), sys), quantity.Length(least)))
	s.detail(&a, func() []Figure {
		out := []Figure{
			against(figure("pool, above its floor", above(bandOf[quantity.Length](s, poolMeasure()), floor), sys), quantity.Length(s.E.Pool.DamTop-floor-good)),
			figure("sump, above its bottom", above(bandOf[quantity.Length](s, sumpMeasure()), s.E.Sump.Bottom), sys),
			against(figure("sump after the pump stops, above its bottom", above(bandOf[quantity.Length](s, stopMeasure()), s.E.Sump.Bottom), sys), quantity.Length(s.E.Sump.Height-good)),
			figure("water the sump gives up when the pump starts", bandOf[quantity.Volume](s, heldMeasure()), sys),
		}
		for i := range s.E.Sump.Chambers {
			if i < len(s.Likely.Chambers)-1 {
				out = append(out, figure("water in the "+s.E.Sump.Chambers[i].Name+", above the sump's bottom", quantity.Exactly(quantity.Length(s.Likely.Chambers[i]-s.E.Sump.Bottom)), sys))
			}
		}
		return out
	})
	a.Limit = Limit{Text: fmt.Sprintf("%s of freeboard in the pool while running, %s with valves open; %s in the sump after a stop", quantity.Length(good).Show(sys), quantity.Length(least).Show(sys), quantity.Length(good).Show(sys)), Source: "practice", Mark: "from memory of the trade"}
	a.Verdict, a.Say = Holds, "The pool stands behind its dam and the pump stays covered."
	a.Margin = fmt.Sprintf("%s of freeboard left at the bad end", quantity.Length(free).Show(sys))
	a.Score = free / good
	low := s.End(sumpMeasure(), -1)
	rim := s.E.Sump.Bottom + s.E.Sump.Height
	stop, chamber := rim-s.most(stopMeasure()), rim-s.most(chamberMeasure())
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	switch {
	case len(low.Dry) > 0:
		p := &s.E.Pumps[low.Dry[0]]
		a.Verdict, a.LimitingLine = Fails, p.Pos.Line
		a.Say = fmt.Sprintf("No steady state: with the water that pool, pipes and wall hold, the sump falls to %s and uncovers the inlet of the %s.", length(low.SumpLevel-s.E.Sump.Bottom), p.Name)
	case bad.Spills:
		a.Verdict, a.LimitingLine = Fails, s.E.Pool.Pos.Line
		may := "may spill"
		if s.open.Spills {
			may = "spills likely " + s.flowText(s.open.Spill) + " and may spill"
		}
		a.Say = fmt.Sprintf("No steady state: with the valves open the pool %s %s over the dam until the sump is empty.", may, s.flowText(bad.Spill))
		a.Margin = ""
	case stop < 0:
		a.Verdict, a.LimitingLine = Fails, s.E.Sump.Pos.Line
		a.Say = fmt.Sprintf("When the pump stops, the water that comes back may stand %s above the sump's rim.", length(-stop))
	case chamber < 0:
		a.Verdict, a.LimitingLine = Fails, s.E.Sump.Pos.Line
		a.Say = fmt.Sprintf("While it runs, the water upstream of a baffle may stand %s above the sump's rim.", length(-chamber))
	case free < least:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The pool stays behind the dam, but with the valves open it may stand within %s of its top.", quantity.Length(free).Show(sys))
	case s.E.Pool.DamTop-s.most(poolMeasure()) < good:
		a.Verdict = Tight
		a.Say = "The pool stays behind the dam, with little freeboard."
	case stop < good:
		a.Verdict, a.LimitingLine = Tight, s.E.Sump.Pos.Line
		a.Say = fmt.Sprintf("When the pump stops, the sump may fill to within %s of its rim.", length(stop))
	case chamber < least:
		a.Verdict, a.LimitingLine = Tight, s.E.Sump.Pos.Line
		a.Say = fmt.Sprintf("Upstream of a baffle the water may stand within %s of the sump's rim.", length(chamber))
	}
	a.Matters = s.Matters(openRiseMeasure(), func(v float64) string { return quantity.Length(v).Show(sys) + " over the lip" }, 3)
	return a
}

// above puts a band of heights above another datum.
func above(b quantity.Band[quantity.Length], datum float64) quantity.Band[quantity.Length] {
	d := quantity.Length(datum)
	return quantity.Band[quantity.Length]{Low: b.Low - d, Likely: b.Likely - d, High: b.High - d}
}
