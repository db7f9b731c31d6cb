package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
)

const (
	// armLow, arm and armHigh are how far an arm reaches to a grip, m: 600 mm, from
	// memory; the band about it is assumed, no source.
	armLow, arm, armHigh = 0.5, 0.6, 0.7
	// handRoom is the clear width that a hand with a grip needs, m: 100 mm, from
	// memory.
	handRoom = 0.100
	// pumpLow and pumpHigh are the least and greatest height of pumps that such
	// enclosures have, m: assumed, no source.
	pumpLow, pumpHigh = 0.06, 0.15
)

// Reach answers whether a hand gets to what must be serviced once all is built.
func (s *Survey) Reach() Answer {
	sys := s.E.Units
	l := layout.Of(s.E)
	a := Answer{ID: "reach", Question: "Can your hand and tools get there later?", Figures: []Figure{}}
	reach := quantity.Band[quantity.Length]{Low: armLow, Likely: arm, High: armHigh}
	own := s.E.Design.Place.Reach
	if own.Given() {
		reach = quantity.Exactly(own.Value)
	}
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	grips := s.grips(l)
	a.Limit = Limit{
		Text: fmt.Sprintf("%s from the opening to the grip, %s clear for a hand, %s round a nut", reach.Show(sys), length(handRoom), length(structure.NutRoom)),
		Mark: "from memory",
	}
	if own.Given() {
		a.Limit.Mark = "your own reach; the rest from memory"
	}
	room := l.Opening.Box.Size()
	across := min(room.X, max(room.Y, room.Z))
	f := figure("opening, the narrower way", quantity.Exactly(quantity.Length(across)), sys)
	a.Figures = append(a.Figures, over(f, quantity.Length(handRoom)))
	if across < handRoom {
		a.raise(Fails, fmt.Sprintf("The opening is %s wide or high%s: a hand wants %s.", length(across), lines(l.Opening.Line, 0), length(handRoom)), l.Opening.Line)
	}
	// Until the builder has measured an arm, the verdict is that of a short one.
	limit := float64(reach.Low)
	spare := math.Inf(1)
	for i := range grips {
		g := &grips[i]
		f := figure(g.name+", from the opening", quantity.Exactly(quantity.Length(g.far)), sys)
		a.Figures = append(a.Figures, against(f, reach.Low))
		if limit-g.far < spare {
			spare = limit - g.far
			a.Limiting, a.LimitingLine = g.name, g.line
		}
		s.judgeGrip(&a, g, reach)
	}
	a.Score = spare
	what := ""
	for i := range grips {
		if limit-grips[i].far == spare {
			what = grips[i].name
		}
	}
	if !math.IsInf(spare, 1) {
		a.Margin = fmt.Sprintf("%s of reach to spare to the %s", length(spare), what)
		if spare < 0 {
			a.Margin = fmt.Sprintf("%s of reach missing to the %s", length(-spare), what)
		}
	}
	s.nuts(&a, l)
	s.liftPump(&a, l)
	s.outsideThings(&a, l)
	a.sayWorst("Yes: all that wants servicing is within reach of the opening, with room for a hand.", "Mostly.", "No.")
	if !own.Given() && len(grips) > 0 {
		far := limit - spare
		a.Matters = append(a.Matters, Matter{
			What: "how far your arm reaches", Range: fromTo(length(armLow), length(armHigh)),
			Effect: fmt.Sprintf("%s to %s", spareText(armLow-far, sys), spareText(armHigh-far, sys)), Swing: (armHigh - armLow) / max(math.Abs(arm-far), handRoom),
			Why: "from memory; arms differ", Settle: "shoulder to a grip in your hand, with a tape; write it as place.reach",
		})
	}
	a.Cautions = append(a.Cautions, openingNote(l)...)
	a.Cautions = append(a.Cautions, "Pull every plug before a hand goes into the water.")
	return a
}

func spareText(v float64, sys quantity.System) string {
	if v < 0 {
		return quantity.Length(-v).Show(sys) + " missing"
	}
	return quantity.Length(v).Show(sys) + " to spare"
}

// judgeGrip holds one grip against an arm.
func (s *Survey) judgeGrip(a *Answer, g *grip, reach quantity.Band[quantity.Length]) {
	sys := s.E.Units
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	name := "The " + g.name
	switch {
	case g.far > float64(reach.Likely) && g.keep:
		a.raise(Fails, fmt.Sprintf("%s is %s from the opening%s, and an arm reaches %s.", name, length(g.far), lines(g.line, 0), reach.ShowLikely(sys)), g.line)
	case g.far > float64(reach.Low):
		a.raise(Tight, fmt.Sprintf("%s is %s from the opening%s: a short arm does not get there.", name, length(g.far), lines(g.line, 0)), g.line)
	}
	switch {
	case g.under != "":
		a.raise(Tight, fmt.Sprintf("%s lies behind or under the %s%s, and no notch is before it: the panel must be lifted out first, with what stands on it.", name, g.under, lines(g.line, 0)), g.line)
	case g.narrow < handRoom:
		a.raise(Tight, fmt.Sprintf("%s is reached through a notch %s wide%s, and a hand wants %s.", name, length(g.narrow), lines(g.line, 0), length(handRoom)), g.line)
	}
}

// nuts looks for room for hand or spanner round every nut outside.
func (s *Survey) nuts(a *Answer, l *layout.Layout) {
	sys := s.E.Units
	for _, n := range l.All(layout.KindNut) {
		least, what, line := math.Inf(1), "", 0
		for i := range l.Parts {
			p := &l.Parts[i]
			switch p.Kind {
			case layout.KindStand, layout.KindRim:
			case layout.KindNut:
				if p == n {
					continue
				}
			default:
				continue
			}
			if g := geom.Gap(n.Solid, p.Solid); g < least {
				least, what, line = g, thing(p), p.Line
			}
		}
		if math.IsInf(least, 1) {
			continue
		}
		f := figure(fmt.Sprintf("%s to %s", strings.TrimPrefix(thing(n), "the "), what), quantity.Exactly(quantity.Length(least)), sys)
		a.Figures = append(a.Figures, over(f, quantity.Length(structure.NutRoom)))
		if least < structure.NutRoom {
			a.raise(Tight, fmt.Sprintf("%s is %s from %s%s: hand or spanner wants %s round it.", upperFirst(thing(n)), tenths(least, sys), what, lines(n.Line, line), quantity.Length(structure.NutRoom).Show(sys)), n.Line)
		}
	}
}

// liftPump tells what height is free to lift a pump out over the sump's rim.
func (s *Survey) liftPump(a *Answer, l *layout.Layout) {
	sys := s.E.Units
	sump, ok := l.Find(layout.KindSump, "sump")
	if !ok {
		return
	}
	box := sump.Solid.Bounds()
	roof := l.Outside
	if stand, ok := l.Find(layout.KindStand, "stand"); ok {
		roof = roof.Union(stand.Solid.Bounds())
	}
	apart := s.E.Design.Stand.Sump.Given() && !s.E.Design.Stand.Sump.Value && len(sump.Assumed) > 0
	over := box.Min.X < roof.Max.X && box.Max.X > roof.Min.X && box.Min.Y < roof.Max.Y && box.Max.Y > roof.Min.Y
	for _, p := range l.All(layout.KindPump) {
		if apart || !over {
			a.Cautions = append(a.Cautions, fmt.Sprintf("The %s stands apart from the enclosure and lifts out freely.", p.Name))
			continue
		}
		free := l.Outside.Min.Z - box.Max.Z
		f := figure("free over the sump's rim to lift the "+p.Name, quantity.Exactly(quantity.Length(free)), sys)
		a.Figures = append(a.Figures, f)
		fits := free - handRoom
		length := func(v float64) string { return quantity.Length(v).Show(sys) }
		switch {
		case fits < pumpLow:
			a.raise(Fails, fmt.Sprintf("Over the sump's rim %s are free%s, a hand wants %s of them, and what is left is less than any pump is high: the sump must come out with the pump in it, or stand apart.", length(max(free, 0)), lines(sump.Line, 0), length(handRoom)), sump.Line)
		case fits < pumpHigh:
			a.raise(Unknown, fmt.Sprintf("Over the sump's rim a hand and a pump of %s come out%s, less the thickness of the stand's top: measure the %s, hose end and all.", length(fits), lines(sump.Line, 0), p.Name), sump.Line)
		default:
			a.Cautions = append(a.Cautions, fmt.Sprintf("The %s comes out over the sump's rim if it is no higher than %s with its hose end, less the thickness of the stand's top: neither is in the file.", p.Name, length(fits)))
		}
	}
}

// outsideThings names valves and unions, which stand outside by the route that is
// drawn.
func (s *Survey) outsideThings(a *Answer, l *layout.Layout) {
	var names []string
	for i := range s.E.Runs {
		u := &s.E.Runs[i]
		if _, ok := l.Find(layout.KindRun, u.Name); !ok {
			continue
		}
		for k := range u.Pieces {
			if p := &u.Pieces[k]; p.Kind == catalogue.KindValve || p.Kind == catalogue.KindUnion {
				names = append(names, fmt.Sprintf("%s of the %s%s", p.Name, u.Name, lines(p.Pos.Line, 0)))
			}
		}
	}
	if len(names) > 0 {
		a.Cautions = append(a.Cautions, "Taken to stand outside, free to reach, since the file does not place it: "+strings.Join(names, ", ")+". Keep it where it can be turned with the stand against its wall.")
	}
}

func openingNote(l *layout.Layout) []string {
	if len(l.Opening.Assumed) == 0 {
		return nil
	}
	return []string{"The opening is taken " + strings.Join(l.Opening.Assumed, ", ") + "."}
}
