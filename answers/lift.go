package answers

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// wanted returns the flow that the builder asks for, m3/s, and the range of the
// look. Without a target, the low end of the look's range is asked for.
func (s *Survey) wanted() (target, low, high float64, l look) {
	l = lookOf(s.E.Wall.Look)
	w := s.E.Wall.Width
	target = s.E.Wall.Target * w
	if target == 0 {
		target = l.low * w
	}
	return target, l.low * w, l.high * w, l
}

func (s *Survey) flowText(v float64) string { return quantity.Flow(v).Show(s.E.Units) }

// lift answers whether the pump reaches the outlets and what comes out.
func (s *Survey) lift() Answer {
	sys := s.E.Units
	a := Answer{ID: "lift", Question: "Will this pump reach the top, and how much will come out?"}
	m := flowMeasure()
	low, likely, high := s.Band(m)
	target, least, _, l := s.wanted()
	a.Figures = append(a.Figures, figure("flow out of all outlets", quantity.Band[quantity.Flow]{Low: quantity.Flow(low), Likely: quantity.Flow(likely), High: quantity.Flow(high)}, sys))
	wornFlow := math.Inf(1)
	s.detail(&a, func() (out []Figure) {
		for i := range s.E.Pumps {
			out = append(out,
				headFigure("head of the "+s.E.Pumps[i].Name, bandOf[quantity.Length](s, pumpHeadMeasure(i)), sys),
				headFigure("of which plain lift", quantity.Exactly(quantity.Length(s.Likely.Pumps[i].Lift)), sys))
		}
		if worn, err := s.run(s.E, s.E.Likely(), study.Setting{Speed: s.E.PumpWear.Value, Near: s.Likely}); err == nil {
			out = append(out, figure("likely flow when the pump is worn", quantity.Exactly(quantity.Flow(worn.Outlets)), sys))
			wornFlow = worn.Outlets
		}
		return out
	})
	if target > 0 {
		a.Figures[0] = over(a.Figures[0], quantity.Flow(target))
		a.Limit = Limit{Text: fmt.Sprintf("%s wanted; %s needs at least %s here", s.flowText(target), l.name, s.flowText(least)), Source: "practice", Mark: l.mark}
	}
	switch {
	case target <= 0:
		a.Verdict = Unknown
		a.Say = fmt.Sprintf("%s would come out. Whether that is enough cannot be said: the file has no wall.", figureText(a, 0))
	case likely <= 0 && s.shutRun() != "":
		a.Verdict = Fails
		a.Say = "Nothing comes out: a valve in the " + s.shutRun() + " is shut."
	case likely <= 0:
		a.Verdict = Fails
		a.Say = "Nothing comes out: the pump does not lift the water to the outlets."
	case low < least:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("It may be as little as %s, too little for %s.", s.flowText(low), l.name)
	case low < target:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("It reaches the top. Likely %s comes out where you want %s, but it may be only %s.", s.flowText(likely), s.flowText(target), s.flowText(low))
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Yes: at least %s, and you want %s.", s.flowText(low), s.flowText(target))
	}
	if wornFlow < least && low > 0 {
		a.Say += fmt.Sprintf(" Worn to %s of its speed, the pump likely gives %s, too little for %s.", quantity.Ratio(s.E.PumpWear.Value).Show(sys), s.flowText(wornFlow), l.name)
	}
	if target > 0 {
		a.Margin = beyond(low, target, "than you want, at the bad end")
		a.Score = low / target
	}
	a.Limiting, a.LimitingLine = s.hardestPiece()
	a.Matters = s.Matters(m, s.flowText, 5)
	a.Cautions = []string{electricalCaution()}
	return a
}

// shutRun returns the name of a run that a valve shuts, "" if none is.
func (s *Survey) shutRun() string {
	for i := range s.Likely.Runs {
		if s.Likely.Runs[i].Shut {
			return s.E.Runs[i].Name
		}
	}
	return ""
}

func figureText(a Answer, i int) string { return a.Figures[i].Text }

// hardestPiece names what costs the pump the most head beside the lift.
func (s *Survey) hardestPiece() (name string, line int) {
	most := 0.0
	for i := range s.Likely.Runs {
		if to := s.E.Runs[i].To.Kind; to == enclosure.AtPool || to == enclosure.AtSump {
			continue // what holds a return back helps the outlets
		}
		for k, h := range s.Likely.Runs[i].Pieces {
			p := &s.E.Runs[i].Pieces[k]
			if h > most {
				most = h
				name = fmt.Sprintf("%s in the %s, which costs %s of head", p.Name, s.E.Runs[i].Name, headText(h, s.E.Units))
				line = p.Pos.Line
			}
		}
	}
	for i := range s.Likely.Manifolds {
		if h := s.Likely.Manifolds[i].HeadMin; h > most {
			most = h
			name = fmt.Sprintf("the outlets of the %s, which hold back %s of head", s.E.Manifolds[i].Name, headText(h, s.E.Units))
			line = s.E.Manifolds[i].Pos.Line
		}
	}
	return name, line
}

// strong answers whether more water comes than the wall can take.
func (s *Survey) strong() Answer {
	a := Answer{ID: "too-strong", Question: "Is the pump too strong for this wall?"}
	m := flowMeasure()
	_, likely, high := s.Band(m)
	_, _, most, l := s.wanted()
	a.Figures = append(a.Figures, figure("flow out of all outlets", bandOf[quantity.Flow](s, m), s.E.Units))
	s.detail(&a, func() []Figure {
		if !throttled(s.E) {
			return nil
		}
		return []Figure{figure("the same with every valve open", bandOf[quantity.Flow](s, openFlowMeasure()), s.E.Units)}
	})
	for i := range a.Figures {
		a.Figures[i] = against(a.Figures[i], quantity.Flow(most))
	}
	a.Limit = Limit{Text: fmt.Sprintf("%s splashes above about %s here", l.name, s.flowText(most)), Source: "practice", Mark: l.mark}
	a.Margin = beyond(high, most, "than the limit, at the bad end")
	a.Score = most / math.Max(high, 1e-9)
	valve, line := s.valve()
	switch {
	case s.E.Wall.Width == 0:
		a.Verdict, a.Margin, a.Limit = Unknown, "", Limit{}
		a.Say = "The file has no wall to compare with."
	case high <= 0:
		a.Verdict, a.Margin = Unknown, ""
		a.Say = "Nothing comes out as it stands."
	case high <= most:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("No: at most %s, and it takes some %s to splash.", s.flowText(high), s.flowText(most))
	case likely <= most:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Likely not, but it may be %s, more than the wall takes without splashing.", s.flowText(high))
	default:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("As set, yes: likely %s. It would splash and be loud.", s.flowText(likely))
	}
	if valve != "" && a.Verdict != Holds && a.Verdict != Unknown {
		a.Verdict, a.LimitingLine = Tight, line
		a.Say += " The " + valve + " can hold it back."
	}
	a.Matters = s.Matters(m, s.flowText, 3)
	return a
}

// valve returns a valve on the way to the outlets that could be closed further.
func (s *Survey) valve() (name string, line int) {
	for i := range s.E.Runs {
		if to := s.E.Runs[i].To.Kind; to == enclosure.AtPool || to == enclosure.AtSump {
			continue
		}
		for k := range s.E.Runs[i].Pieces {
			if p := &s.E.Runs[i].Pieces[k]; p.Kind == "valve" && p.Open > 0 {
				return p.Name, p.Pos.Line
			}
		}
	}
	return "", 0
}

// Target is the flow that the builder asks for, m3/s, 0 if none.
func (s *Survey) Target() float64 {
	target, _, _, _ := s.wanted()
	return target
}

// LikelyFlow returns what comes out of all outlets of a changed enclosure with
// every doubt at its likely value, m3/s.
func (s *Survey) LikelyFlow(e *enclosure.Enclosure) (float64, error) {
	st, err := s.run(e, e.Likely(), study.Setting{Near: s.Likely})
	if err != nil {
		return 0, err
	}
	return st.Outlets, nil
}
