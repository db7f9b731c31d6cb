package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/structure"
	"rillwright/study"
)

// paneMatters computes the pane with each doubt at its ends.
func (s *Survey) paneMatters(a *Answer, p *study.GlassPane) error {
	sys := s.E.Units
	if m := s.thicknessMatter(p); m.Swing > 0.005 {
		a.Matters = append(a.Matters, m)
	}
	var err error
	ask := func(q study.Ask) study.PaneState {
		st, e := p.State(q)
		if e != nil {
			err = e
		}
		return st
	}
	// both shows stress and bow at two ends of a doubt.
	both := func(m Matter, u, v study.PaneState) {
		m.Effect = fmt.Sprintf("%s, bow %s", between(stressText(u.Stress, sys), stressText(v.Stress, sys)), between(small(bowOf(u), sys), small(bowOf(v), sys)))
		m.Swing = max(math.Abs(u.Stress-v.Stress)/max(p.Brim[1].Stress, 1), math.Abs(bowOf(u)-bowOf(v))/max(bowOf(p.Brim[1]), 1e-9))
		a.Matters = append(a.Matters, m)
	}
	both(Matter{
		What: "how high the water stands", Range: "from its level while it runs to " + s.brim(),
		Why: "a blocked drain fills it", Settle: "a second drain", Line: s.E.Pool.Pos.Line,
	}, p.Running, p.Brim[1])
	if p.IsHeldByStrips() {
		line := p.Strips[0].Line
		m := Matter{What: "whether " + stripNames(p) + " really holds", Range: "not at all to as well as reckoned", Why: "its sealant or corners may have let go", Settle: "press on the edge, full of water, and look", Line: line}
		if st, e := p.State(study.Ask{Unheld: true, Coarse: true}); e == nil { // else it would swing
			both(m, st, p.Brim[1])
		}
		m = Matter{What: "how stiff " + stripNames(p) + " is", Range: "what is known roughly of it, soft to stiff", Why: "moduli of plastic and sealant from memory or assumed", Settle: "measure the bow with a straight edge, full of water", Line: line}
		both(m, ask(study.Ask{Strip: -1, Coarse: true}), ask(study.Ask{Strip: 1, Coarse: true}))
	}
	if p.IsPlastic() {
		m, _ := structure.MaterialOf(p.Kind)
		both(Matter{
			What: "how far it creeps", Range: fmt.Sprintf("modulus after years %.1f to %.1f GPa", m.Creep.Low/1e9, m.Creep.High/1e9), Why: "from memory", Settle: "lay a straight edge on it every month", Line: p.Line,
		}, ask(study.Ask{Modulus: -1, Coarse: true}), ask(study.Ask{Modulus: 1, Coarse: true}))
	}
	rank(a.Matters)
	return err
}

// between is fromTo of figures that may be the same.
func between(low, high string) string {
	if low == high {
		return low + " either way"
	}
	return fromTo(low, high)
}

// stripNames names what holds a pane besides its sealant.
func stripNames(p *study.GlassPane) string {
	var names []string
	for i := range p.Strips {
		if name := "the " + p.Strips[i].Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, " and ")
}

// thicknessMatter tells what the name of a thickness hides.
func (s *Survey) thicknessMatter(p *study.GlassPane) Matter {
	sys := s.E.Units
	t := p.Thickness
	what := "true thickness of the glass"
	if p.IsPlastic() {
		what = "true thickness of the sheet"
	}
	if p.Plies > 0 {
		t, what = p.Ply, "true thickness of each sheet of it"
	}
	m := Matter{
		What: what, Range: fromTo(showThickness(t.Low, sys), showThickness(t.High, sys)),
		Effect: between(stressText(p.Brim[2].Stress, sys), stressText(p.Brim[0].Stress, sys)),
		Swing:  (p.Brim[0].Stress - p.Brim[2].Stress) / math.Max(p.Brim[1].Stress, 1), Why: "the name is not the size", Settle: "callipers on the edge", Line: p.Line,
	}
	if !p.Named {
		m.Why = "as the file has it"
	}
	return m
}
