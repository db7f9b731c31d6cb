package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
)

// sizesAgree tells of sizes in the file that contradict each other.
func (s *Survey) sizesAgree(a *Answer, l *layout.Layout) {
	sys := s.E.Units
	mm := func(v float64) string { return tenths(math.Abs(v), sys) }
	var outer []string
	for _, m := range l.Sizes {
		at := lines(m.Line, m.Other)
		axis := [...]string{"width", "depth", "height"}[m.Axis]
		switch m.Kind {
		case layout.Sum:
			if m.By < 0 {
				a.raise(Fails, fmt.Sprintf("The inside %s and the panes are together %s more than the outside%s: measure both again.", axis, mm(m.By), at), m.Line)
				continue
			}
			a.raise(Tight, fmt.Sprintf("The outside %s is %s more than the inside and the panes, and joints and rims take %s at most%s: measure both again.", axis, mm(m.By), mm(m.Allow), at), m.Line)
		case layout.StandsOut:
			a.raise(Tight, fmt.Sprintf("The pane %s stands %s out of the outside %s%s: measure it, or say what stands proud.", m.A, mm(m.By), axis, at), m.Line)
		case layout.PanesMeet:
			if m.Outer {
				outer = append(outer, m.A+" and "+m.B)
				continue
			}
			a.raise(Fails, fmt.Sprintf("The panes %s and %s are cut to take the same room, %s deep%s: one must be shorter by that and a joint.", m.A, m.B, mm(m.By), at), m.Line)
		case layout.DoorShut:
			a.raise(Fails, fmt.Sprintf("The %s does not shut: the dam stands %s in its way%s, and there is no room in front of it within the outside depth.", m.A, mm(m.By), at), m.Line)
		case layout.DamGap:
			switch {
			case m.By < -drawnSame:
				a.raise(Fails, fmt.Sprintf("The dam is %s wider than the inside%s.", mm(2*m.By), at), m.Line)
			case m.By < m.Least:
				a.raise(Tight, fmt.Sprintf("The dam leaves %s at each side, and the sealant there is to be %s thick at least%s: cut it narrower, or say how wide the inside is between the sides.", mm(m.By), mm(m.Least), at), m.Line)
			default:
				a.raise(Tight, fmt.Sprintf("The dam leaves %s at each side, more than the sealant's %s%s: the joints there are thicker than you plan.", mm(m.By), mm(m.Allow), at), m.Line)
			}
		case layout.DamPlace:
			way := "behind"
			if m.By < 0 {
				way = "in front of"
			}
			a.raise(Tight, fmt.Sprintf("The pool's depth puts the dam's dry face %s %s the place that its set-back tells%s: measure one of them again.", mm(m.By), way, at), m.Line)
		case layout.DamPane:
			size := [...]string{"width", "thickness", "height"}[m.Axis]
			more := "more"
			if m.By < 0 {
				more = "less"
			}
			a.raise(Unknown, fmt.Sprintf("The pane listed for the dam has %s %s %s than the dam's own section%s: which is it?", mm(m.By), more, size, at), m.Line)
		case layout.PoolWide:
			a.raise(Tight, fmt.Sprintf("The pool is %s narrower than the inside%s: if something fills that, it is not in the file.", mm(m.By), at), m.Line)
		}
	}
	if len(outer) > 0 {
		a.Cautions = append(a.Cautions, fmt.Sprintf("These panes of the shop tank are measured over its outside, so that they share their corners: %s. A hole's height counts from the outer lower edge here, which lies %s under the inside bottom.", strings.Join(outer, ", "), tenths(s.lowest(l), s.E.Units)))
	}
}

// lowest returns how far the lowest upright pane reaches under the inside bottom, m.
func (s *Survey) lowest(l *layout.Layout) float64 {
	z := 0.0
	for i := range l.Panes {
		if p := &l.Panes[i]; p.Across() != geom.Z {
			z = min(z, p.Box.Min.Z)
		}
	}
	return -z
}
