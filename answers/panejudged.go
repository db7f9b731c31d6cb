package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// A share that glass loses where an edge or a drilled hole is stressed (k_e of EN
// 16612, from memory).
const edgeShare = 0.8

// holeShare is what is left beside a drilled hole of what the face bears for good.
// Toughening is not lost there, only the glass's own part of the strength.
func holeShare(k structure.Kind) float64 {
	if k != structure.Toughened {
		return edgeShare
	}
	face, _ := structure.StrengthOf(k, structure.Surface)
	edge, _ := structure.StrengthOf(k, structure.AsCut)
	return edge.Design(structure.Years50) / face.Design(structure.Years50)
}

// judged is one thing that a pane is judged by: how much of what it may bear is
// taken, and what is to be said if that is too much.
type judged struct {
	use     float64 // over 1 is too much
	verdict Verdict // if it is
	key     int     // the figure that shows it
	say     string
	than    string // for the margin: "than the glass bears for good"
}

// paneBounds sets what the figures of a pane are held against: for good on its face,
// beside holes that share of it, for seconds under a push, and a free edge by its
// length.
func (s *Survey) paneBounds(a *Answer, p *study.GlassPane, limit, hole float64) {
	set := func(i int, v float64) {
		if i < len(a.Figures) && a.Figures[i].Unit != "" {
			a.Figures[i] = bounded(a.Figures[i], v)
		}
	}
	unit := s.stressUnit()
	set(0, limit/unit)
	set(1, limit/unit)
	if side, free := p.FreeEdge(); free && p.Brim[0].EdgeBow >= p.Brim[0].Bow {
		for _, i := range []int{2, 3} {
			set(i, quantity.Reading(bowWarn*p.EdgeLength(side), a.Figures[i].Unit))
		}
	}
	if face, _, ok := shortStrength(p.Kind); ok {
		set(4, face/unit)
	}
	for i := range p.Openings {
		set(5+i, hole*limit/unit)
	}
	if p.Outer > 0 {
		set(5+len(p.Openings), limit/unit)
	}
}

// drainedJudged judges a pane with water on its other side when the pool is empty,
// for cleaning or after a leak.
func (s *Survey) drainedJudged(p *study.GlassPane, limit float64) []judged {
	if p.Outer == 0 {
		return nil
	}
	st, key, sys := p.Drained, 5+len(p.Openings), s.E.Units
	list := []judged{{
		use: st.Stress / limit, verdict: Fails, key: key, than: "than it bears for good, with the pool drained",
		say: fmt.Sprintf("No: with the pool drained the water outside may stress it by %s.", stressText(st.Stress, sys)),
	}}
	if side, free := p.FreeEdge(); free {
		list = append(list, judged{
			use: st.EdgeBow / (bowFail * p.EdgeLength(side)), verdict: Fails, key: key, than: "than a 200th of the free edge, with the pool drained",
			say: fmt.Sprintf("No: with the pool drained the water outside bows its free edge by %s.", small(st.EdgeBow, sys)),
		})
	}
	return list
}

// unheldJudged judges a pane as if its rims and braces had let go: what needs them
// holds only while they do.
func (s *Survey) unheldJudged(p *study.GlassPane, limit float64) []judged {
	if !p.IsHeldByStrips() {
		return nil
	}
	j := judged{use: math.Inf(1), verdict: Tight, say: fmt.Sprintf("It hangs on %s: nothing else keeps it up.", stripNames(p))}
	st, err := p.State(study.Ask{Side: -1, Unheld: true, Coarse: true})
	if err == nil { // else it would swing
		use := st.Stress / limit
		if side, free := p.FreeEdge(); free {
			use = max(use, st.EdgeBow/(bowFail*p.EdgeLength(side)))
		}
		j.use, j.than = use, "than it bears for good, should that let go"
		j.say = fmt.Sprintf("It hangs on %s: without, the stress may be %s and the bow %s.", stripNames(p), stressText(st.Stress, s.E.Units), small(bowOf(st), s.E.Units))
	}
	return []judged{j}
}

func paneMark(k structure.Kind) string {
	switch k {
	case structure.Annealed, structure.Laminated:
		return "tank trade; at holes by EN 16612, from memory; bow assumed, no source"
	case structure.Acrylic:
		return "a distributor's page; beside a hole and bow assumed, no source"
	case structure.Polycarbonate:
		return "from memory; beside a hole and bow assumed, no source"
	}
	return "EN 16612 over an assumed factor of 1.35, from memory; bow assumed, no source"
}
