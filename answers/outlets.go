package answers

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/quantity"
	"rillwright/study"
)

// outlets answers how many outlets a manifold should have, how big and how far
// apart, by the trade's rules and by computing the drills at hand.
func (s *Survey) outlets(i int) Answer {
	sys := s.E.Units
	man := &s.E.Manifolds[i]
	a := Answer{ID: "outlets[" + man.Name + "]", Question: "How many outlets for the " + man.Name + ", how big, how far apart?"}
	area := 0.0
	pitch := 0.0
	for _, o := range man.Outlets {
		if d := man.Groups[o.Group].Hole.Value; d > 0 {
			area += hydraulics.CircleArea(d)
		}
		pitch = math.Max(pitch, man.Groups[o.Group].Pitch)
	}
	bore := hydraulics.CircleArea(man.Bore.Value)
	low, high := pitchOf(s.E.Wall.Look, sys)
	a.Figures = append(a.Figures,
		Figure{Name: "outlets", Low: float64(len(man.Outlets)), Likely: float64(len(man.Outlets)), High: float64(len(man.Outlets)), Text: fmt.Sprint(len(man.Outlets))},
		against(figure("pitch", quantity.Exactly(quantity.Length(pitch)), sys), quantity.Length(high)),
	)
	if area > 0 {
		a.Figures = append(a.Figures, against(figure("area of all holes, share of the pipe's bore", quantity.Exactly(quantity.Ratio(area/bore)), sys), quantity.Ratio(areaShare)))
	}
	head := s.least(headMeasure(i))
	level := s.levelError(man)
	a.Limit = Limit{
		Text: fmt.Sprintf("holes no more than %s of the bore; pitch %s to %s for this look; head at the holes ten times the level error",
			quantity.Ratio(areaShare).Show(sys), quantity.Length(low).Show(sys), quantity.Length(high).Show(sys)),
		Source: "practice", Mark: "common practice; pitch from memory of the trade",
	}
	a.Say, a.Verdict = "As drawn they follow the rules.", Holds
	worse := func(v Verdict, text string) {
		if v >= a.Verdict {
			a.Say, a.Verdict = text, v
		}
	}
	if pitch > high*1.001 {
		worse(Tight, fmt.Sprintf("The pitch of %s leaves gaps: %s to %s keeps this look.", quantity.Length(pitch).Show(sys), quantity.Length(low).Show(sys), quantity.Length(high).Show(sys)))
	}
	if s.Likely.Manifolds[i].Total <= 0 {
		a.Verdict, a.Say = Unknown, "No water reaches it as it stands."
		a.LimitingLine = man.Pos.Line
		return a
	}
	if head < levelFactor*level {
		worse(Tight, fmt.Sprintf("With %s of head at the holes, %s out of level shows: ten times as much head would even it out.", quantity.Length(head).Show(sys), quantity.Length(level).Show(sys)))
	}
	if area > areaShare*bore {
		worse(Tight, fmt.Sprintf("The holes together are %s of the bore, over the rule of one half: the near ones rob the far ones.", quantity.Ratio(area/bore).Show(sys)))
	}
	if area > 0 && !s.quick {
		a.Figures = append(a.Figures, s.drills(i)...)
	}
	a.LimitingLine = man.Pos.Line
	a.Key = 2
	if area > 0 {
		a.Score = min(areaShare*bore/area, head/max(levelFactor*level, 1e-6))
	}
	return a
}

func (s *Survey) levelError(m *enclosure.Manifold) float64 {
	if d, ok := m.LevelError.Doubt(); ok {
		return s.E.Doubts[d].High
	}
	return m.LevelError.Value
}

// drills computes what each drill at hand would give with the count as drawn.
func (s *Survey) drills(i int) []Figure {
	sys := s.E.Units
	var out []Figure
	sizes := drillSizes(sys)
	found := make([]*study.State, len(sizes))
	InParallel(len(sizes), func(k int) {
		e := s.E.Clone()
		e.Redrill(i, sizes[k])
		if st, err := s.run(e, e.Likely(), study.Setting{Near: s.Likely}); err == nil {
			found[k] = st
		}
	})
	for k, st := range found {
		if st == nil {
			continue
		}
		f := figure("likely flow with holes of "+DrillName(sizes[k], sys), quantity.Exactly(quantity.Flow(st.Manifolds[i].Total)), sys)
		f.Text += ", lowest quarter " + quantity.Ratio(LowQuarter(st.Manifolds[i].Flow)).Show(sys)
		out = append(out, f)
	}
	return out
}

// DrillName writes a drill size as it stands on the shank.
func DrillName(d float64, sys quantity.System) string {
	if sys == quantity.US {
		n := int(math.Round(d / 0.0254 * 64))
		of := 64
		for n%2 == 0 && n > 0 {
			n, of = n/2, of/2
		}
		return fmt.Sprintf("%d/%d in", n, of)
	}
	return quantity.Length(d).Show(sys)
}

// NextDrill returns the drill at hand next larger (step 1) or smaller (step -1)
// than a size.
func NextDrill(d float64, step int, sys quantity.System) (float64, bool) {
	sizes := drillSizes(sys)
	if step > 0 {
		for _, s := range sizes {
			if s > d*1.01 {
				return s, true
			}
		}
		return 0, false
	}
	for i := len(sizes) - 1; i >= 0; i-- {
		if sizes[i] < d*0.99 {
			return sizes[i], true
		}
	}
	return 0, false
}
