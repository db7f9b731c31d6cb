package answers

import (
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/quantity"
)

// even answers whether every outlet of a manifold gets its share.
func (s *Survey) even(i int) Answer {
	sys := s.E.Units
	man := &s.E.Manifolds[i]
	a := Answer{ID: "even[" + man.Name + "]", Question: "Are the outlets of the " + man.Name + " even?"}
	dry, low4 := driestMeasure(i), lowQuarterMeasure(i)
	worst, likely := s.least(low4), s.at(low4)
	cv := 0.0
	for k := range man.Groups {
		cv = math.Max(cv, man.Groups[k].Cv)
	}
	// Holes differ from one another on top of what the heads do.
	spread := 1 - 1.27*cv
	head, need := s.least(headMeasure(i)), s.startHead(man)
	a.Figures = append(a.Figures, figure("lowest quarter, share of the mean, with holes as uneven as drilled",
		quantity.Band[quantity.Ratio]{Low: quantity.Ratio(worst * spread), Likely: quantity.Ratio(likely * spread), High: quantity.Ratio(likely * spread)}, sys))
	s.detail(&a, func() []Figure {
		out := []Figure{
			figure("the same with equal holes", bandOf[quantity.Ratio](s, low4), sys),
			figure("driest outlet, share of the mean", bandOf[quantity.Ratio](s, dry), sys),
			figure("emission uniformity", quantity.Exactly(quantity.Ratio(emission(s.Likely.Manifolds[i].Flow, cv))), sys),
			figure("head at the outlets", bandOf[quantity.Length](s, headMeasure(i)), sys),
		}
		if need > 0 {
			out = append(out, figure("head a hole needs to start", quantity.Exactly(quantity.Length(need)), sys))
		}
		return out
	})
	a.Figures[0] = over(a.Figures[0], quantity.Ratio(evenGood))
	a.Limit = Limit{Text: "the lowest quarter at 80 % of the mean is good, 70 % fair", Source: "uniformity-practice", Mark: "greenhouse trade practice"}
	bad := worst * spread
	a.Margin = beyond(bad, evenGood, "than good, at the bad end")
	a.Score = bad / evenGood
	switch {
	case s.Likely.Manifolds[i].Total <= 0:
		a.Verdict, a.Margin = Fails, ""
		a.Say = "No water reaches it."
	case head < need:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("Some holes may never start: they need %s of head and may have %s.", quantity.Length(need).Show(sys), quantity.Length(head).Show(sys))
	case bad < evenFair:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("No: the driest outlets may get %s of the mean.", quantity.Ratio(bad).Show(sys))
	case bad < evenGood:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Fair: the driest outlets may get %s of the mean.", quantity.Ratio(bad).Show(sys))
	case head < capillaryFactor*need:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Even, but with %s of head, little over the %s that a hole needs to start, some may stay dry at first.", quantity.Length(head).Show(sys), quantity.Length(need).Show(sys))
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Yes: even the driest quarter gets %s of the mean.", quantity.Ratio(bad).Show(sys))
	}
	if !s.quick {
		a.Limiting, a.LimitingLine = s.driest(i)
	}
	a.Matters = s.Matters(dry, func(v float64) string { return quantity.Ratio(v).Show(sys) }, 4)
	return a
}

// emission is the emission uniformity of flows, 0 if nothing flows.
func emission(flow []float64, cv float64) float64 {
	if len(flow) == 0 || slices.Max(flow) <= 0 {
		return 0
	}
	return hydraulics.EmissionUniformity(flow, cv, 1)
}

// startHead is the largest head that any hole of a manifold needs to start.
func (s *Survey) startHead(m *enclosure.Manifold) float64 {
	need := 0.0
	for k := range m.Groups {
		if d := m.Groups[k].Hole.Value; d > 0 {
			need = math.Max(need, s.Likely.CapillaryHead(d))
		}
	}
	return need
}

// driest names the outlet that gets least when all goes badly.
func (s *Survey) driest(i int) (string, int) {
	st := s.End(driestMeasure(i), -1)
	f := st.Manifolds[i].Flow
	if len(f) == 0 || st.Manifolds[i].Total <= 0 {
		return "", 0
	}
	k := slices.Index(f, slices.Min(f))
	o := s.E.Manifolds[i].Outlets[k]
	return fmt.Sprintf("outlet %d of %d, %s from the left end", k+1, len(f), quantity.Length(o.At).Show(s.E.Units)), s.E.Manifolds[i].Pos.Line
}
