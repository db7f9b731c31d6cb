package answers

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"rillwright/quantity"
	"rillwright/study"
)

// Glass answers whether the panes that hold water bear it. The pool's level is
// that of the likely running state.
func (s *Survey) Glass() ([]Answer, error) {
	panes := s.glass()
	out := make([]Answer, len(panes))
	errs := make([]error, len(panes))
	InParallel(len(panes), func(i int) { out[i], errs[i] = s.paneAnswer(&panes[i]) })
	return out, errors.Join(errs...)
}

// Structure answers what glass, holes and floor bear.
func (s *Survey) Structure() ([]Answer, error) {
	out, err := s.Glass()
	if err != nil {
		return nil, err
	}
	return slices.Concat(out, s.Sealed(), s.Holes(), []Answer{s.Weight(), s.Standing()}, s.Places()), nil
}

// stressText shows a stress.
func stressText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f psi", v/psi)
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

// stressUnit is that of stresses shown, Pa.
func (s *Survey) stressUnit() float64 {
	if s.E.Units == quantity.US {
		return psi
	}
	return 1e6
}

// stressFigure and bowFigure are those of one state, from thick to thin glass.
func (s *Survey) stressFigure(name string, st [3]study.PaneState) Figure {
	if s.E.Units == quantity.US {
		return s.paneFigure(name, st, stressOf, stressText, "psi", psi)
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

func showThickness(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", v*1000)
}

func glassCaution() string {
	return "Glass: gloves and eye cover, wet drilling by hand with no mains tool over standing water; a glazier or an engineer has the last word, not this arithmetic."
}
