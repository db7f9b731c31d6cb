package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// The bow of a free edge from which joints open and doors bind, as a share of its
// width: assumed, no source. No agreed limit was found; the bow is always shown.
const bowShare = 1.0 / 300

// Glass answers whether the panes that hold water bear it. The pool's level is
// that of the likely running state.
func (s *Survey) Glass() ([]Answer, error) {
	panes, err := s.glass()
	if err != nil {
		return nil, err
	}
	var out []Answer
	for i := range panes {
		a := s.paneAnswer(&panes[i])
		if panes[i].Name == "dam" {
			if err := s.damMore(&a, &panes[i]); err != nil {
				return nil, err
			}
		}
		out = append(out, a)
	}
	return out, nil
}

// Structure answers what glass, holes and floor bear.
func (s *Survey) Structure() ([]Answer, error) {
	out, err := s.Glass()
	if err != nil {
		return nil, err
	}
	joints, err := s.Sealed()
	return append(append(append(out, joints...), s.Holes()...), s.Weight(), s.Standing()), err
}

// stressText shows a stress.
func stressText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f psi", v/6894.757293168)
	}
	return fmt.Sprintf("%.1f MPa", v/1e6)
}

// small shows a bow.
func small(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", v/0.0254)
	}
	return fmt.Sprintf("%.2f mm", v*1000)
}

// stressFigure and bowFigure are those of one state, from thick to thin glass.
func (s *Survey) stressFigure(name string, st [3]study.PaneState) Figure {
	if s.E.Units == quantity.US {
		return s.paneFigure(name, st, stressOf, stressText, "psi", 6894.757293168)
	}
	return s.paneFigure(name, st, stressOf, stressText, "MPa", 1e6)
}

func (s *Survey) bowFigure(name string, st [3]study.PaneState) Figure {
	if s.E.Units == quantity.US {
		return s.paneFigure(name, st, bowOf, small, "in", 0.0254)
	}
	return s.paneFigure(name, st, bowOf, small, "mm", 1e-3)
}

func (s *Survey) paneFigure(name string, st [3]study.PaneState, of func(study.PaneState) float64, show func(float64, quantity.System) string, unit string, si float64) Figure {
	sys := s.E.Units
	low, likely, high := of(st[2]), of(st[1]), of(st[0])
	f := Figure{Name: name, Low: low / si, Likely: likely / si, High: high / si, Unit: unit, Text: show(likely, sys)}
	if show(low, sys) != show(high, sys) {
		f.Text = fromTo(show(low, sys), show(high, sys)) + ", likely " + show(likely, sys)
	}
	return f
}

func same(p study.PaneState) [3]study.PaneState { return [3]study.PaneState{p, p, p} }

func stressOf(p study.PaneState) float64 { return p.Stress }
func bowOf(p study.PaneState) float64    { return math.Max(p.EdgeBow, p.Bow) }

// brim names the level of a full pool: the dam's top, or without a dam that of the
// enclosure.
func (s *Survey) brim() string {
	if s.E.Design.Dam.Pos.Line > 0 {
		return "the dam's top"
	}
	return "the enclosure's top"
}

// paneAnswer answers for one pane.
func (s *Survey) paneAnswer(p *study.GlassPane) Answer {
	sys, brim := s.E.Units, s.brim()
	a := Answer{ID: "pane[" + p.Name + "]", Question: fmt.Sprintf("Does the %s pane hold the pool?", p.Name), LimitingLine: p.Line}
	if p.Name == "dam" {
		a.ID, a.Question = "dam", "Does the dam hold?"
	}
	a.Figures = append(a.Figures,
		s.stressFigure("stress, pool full to "+brim, p.Brim),
		s.stressFigure("stress while it runs", same(p.Running)),
		s.bowFigure("bow, pool full to "+brim, p.Brim),
		s.bowFigure("bow while it runs", same(p.Running)),
	)
	limit, ok := structure.PermanentLimit(p.Kind)
	worst := p.Brim[0]
	a.Cautions = append(a.Cautions, glassCaution())
	if !ok {
		a.Verdict = Unknown
		a.Say = "Nobody has said what this pane is: look for a mark, and at it through polarised light, before anything is reckoned with it."
		return a
	}
	a.Limit = Limit{Text: fmt.Sprintf("%s for good in %s; bow of a free edge within a 300th of its width", stressText(limit.Likely, sys), p.Kind), Source: string(limit.Source), Mark: "tank trade; bow assumed, no source"}
	a.Margin = beyond(worst.Stress, limit.Likely, "than the glass bears for good, pool full, thinnest glass")
	a.Score = limit.Likely / math.Max(worst.Stress, 1)
	side := p.Width
	switch {
	case worst.Stress > limit.Likely:
		a.Verdict, a.Say = Fails, fmt.Sprintf("No: with the pool full to %s the stress may be %s.", brim, stressText(worst.Stress, sys))
	case p.FreeTop && bowOf(worst) > side*bowShare:
		a.Verdict, a.Say = Tight, fmt.Sprintf("The glass bears it, but its free edge bows %s: joints open and doors bind.", small(bowOf(worst), sys))
	default:
		a.Verdict, a.Say = Holds, fmt.Sprintf("Yes: with the pool full to %s the stress is %s at most, and the bow %s.", brim, stressText(worst.Stress, sys), small(bowOf(worst), sys))
	}
	if p.Lying {
		a.Say += " It is reckoned as held at its rim alone: put a board under all of it."
	}
	a.Matters = append(a.Matters, s.thicknessMatter(p))
	return a
}

// thicknessMatter tells what the name of a thickness hides.
func (s *Survey) thicknessMatter(p *study.GlassPane) Matter {
	sys := s.E.Units
	m := Matter{
		What: "true thickness of the glass", Range: fromTo(showThickness(p.Thickness.Low, sys), showThickness(p.Thickness.High, sys)),
		Effect: fromTo(stressText(p.Brim[2].Stress, sys), stressText(p.Brim[0].Stress, sys)),
		Swing:  (p.Brim[0].Stress - p.Brim[2].Stress) / math.Max(p.Brim[1].Stress, 1), Why: "the name is not the size", Settle: "callipers on the edge", Line: p.Line,
	}
	if !p.Named {
		m.Why = "as the file has it"
	}
	return m
}

func showThickness(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", v*1000)
}

func glassCaution() string {
	return "Glass: gloves and eye cover, wet drilling by hand with no mains tool over standing water; a glazier or an engineer has the last word, not this arithmetic."
}

// damMore adds to the dam's answer what a table of tank sides would say, and other
// thicknesses.
func (s *Survey) damMore(a *Answer, p *study.GlassPane) error {
	sys := s.E.Units
	weight := study.WaterWeight(s.E, s.E.Likely())
	held, err := p.HeldTop(weight)
	if err != nil {
		return err
	}
	if held.Bow > 0 {
		times := bowOf(p.Brim[1]) / held.Bow
		a.Figures = append(a.Figures, Figure{
			Name: "bow over that of tables of tank sides, whose top is held", Low: times, Likely: times, High: times,
			Text: fmt.Sprintf("%.0f times", times),
		})
	}
	nominal := structure.MetricFloat()
	if sys == quantity.US {
		nominal = structure.USFloat()
	}
	shown := 0
	for i := range nominal {
		if t := nominal[i].Actual; t.Likely <= p.Thickness.Likely*0.75 || shown == 3 || math.Abs(t.Likely-p.Thickness.Likely) < 1e-4 {
			continue
		}
		q, err := p.OfThickness(nominal[i].Actual.Low, weight)
		if err != nil {
			return err
		}
		shown++
		a.Figures = append(a.Figures,
			s.stressFigure("in "+nominal[i].Name+" glass at most, pool full", same(q)),
			s.bowFigure("with a bow of", same(q)))
	}
	return nil
}
