package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
)

// What hand building is off by, m: assumed, no source. Things that are drawn
// nearer than this may touch.
const handBuilt = 0.003

// standRoom is the least that a stand's sides and a sump's walls take together
// across the stand, m: two boards of 10 mm and two walls of 5 mm; assumed, no
// source.
const standRoom = 0.030

// Places answers what follows from where things are: whether they clash, whether a
// hand gets to them, whether a hose kinks.
func (s *Survey) Places() []Answer {
	out := []Answer{s.Clash(), s.Finished()}
	if a, ok := s.Cells(); ok {
		out = append(out, a)
	}
	out = append(out, s.Reach())
	if a, ok := s.Bend(); ok {
		out = append(out, a)
	}
	return out
}

// Clash answers whether everything fits where the file places it, and whether its
// sizes agree.
func (s *Survey) Clash() Answer {
	sys := s.E.Units
	l := layout.Of(s.E)
	a := Answer{ID: "clash", Question: "Does everything fit where it is drawn?", Figures: []Figure{}}
	list := meetings(l)
	a.Limit = Limit{Text: quantity.Length(handBuilt).Show(sys) + " between things that must not touch", Mark: "what hand building is off by; assumed, no source"}
	least := nearest(list)
	good, bad := s.clashMatters(&a, least)
	s.clashFigures(&a, l, list, good, bad)
	a.Score = nearest(bad)
	for _, m := range list {
		switch {
		case m.gap >= handBuilt:
			continue
		case m.gap >= -drawnSame:
			a.raise(Tight, fmt.Sprintf("%s and %s are drawn %s apart%s.", upperFirst(thing(m.a)), thing(m.b), tenths(max(m.gap, 0), sys), lines(m.a.Line, m.b.Line)), m.a.Line)
		case m.placed:
			a.raise(Fails, fmt.Sprintf("%s and %s are in each other's way by %s%s.", upperFirst(thing(m.a)), thing(m.b), tenths(-m.gap, sys), lines(m.a.Line, m.b.Line)), m.a.Line)
		default:
			a.raise(Unknown, fmt.Sprintf("%s and %s are in each other's way by %s%s, as far as they can be drawn: %s. Measure them.", upperFirst(thing(m.a)), thing(m.b), tenths(-m.gap, sys), lines(m.a.Line, m.b.Line), guesses(m.a, m.b)), m.a.Line)
		}
	}
	for i, m := range bad {
		if m.gap < -drawnSame && list[i].gap >= handBuilt {
			a.raise(Tight, fmt.Sprintf("%s and %s may be in each other's way by up to %s%s: measure the fitting in your hand.", upperFirst(thing(m.a)), thing(m.b), tenths(-m.gap, sys), lines(m.a.Line, m.b.Line)), m.a.Line)
		}
	}
	s.tooLarge(&a, l)
	s.outOfIt(&a, l)
	s.sumpRoom(&a, l)
	s.sizesAgree(&a, l)
	a.Limiting, a.LimitingLine = firstOf(a.Limiting, a.LimitingLine, list)
	a.sayWorst("Yes, as far as the file places things: nothing is in the way of anything else, and the sizes agree.", "Only just.", "No.")
	if !math.IsInf(a.Score, 1) {
		a.Margin = tenths(a.Score-handBuilt, sys) + " over what hand building is off by, at the bad end"
		if a.Score < handBuilt {
			a.Margin = tenths(handBuilt-a.Score, sys) + " short of it, at the bad end"
		}
	}
	a.Cautions = append(a.Cautions, takenNotes(l)...)
	return a
}

// drawnSame is the overlap that counts as touching, m: half a millimetre.
const drawnSame = 0.0005

// raise adds a note and lifts the verdict to at least v. The first note of the
// worst verdict comes first and names the limiting line.
func (a *Answer) raise(v Verdict, note string, line int) {
	if v <= a.Verdict {
		a.Cautions = append(a.Cautions, note)
		return
	}
	a.Verdict = v
	a.Limiting, a.LimitingLine = "", line
	a.Cautions = slices.Insert(a.Cautions, 0, note)
}

// sayWorst makes the first note of the worst verdict the answer, after a word for
// each verdict; what holds says holds.
func (a *Answer) sayWorst(holds, tight, fails string) {
	if a.Verdict == Holds {
		a.Say = holds
		return
	}
	word := map[Verdict]string{Tight: tight, Unknown: "Not known yet.", Fails: fails}[a.Verdict]
	a.Say, a.Cautions = word+" "+a.Cautions[0], a.Cautions[1:]
}

// firstOf returns what limits: a line found already, else the nearest meeting.
func firstOf(what string, line int, list []meeting) (string, int) {
	if line > 0 || len(list) == 0 {
		return what, line
	}
	m := list[0]
	for _, k := range list {
		if k.gap < m.gap {
			m = k
		}
	}
	return thing(m.a) + " and " + thing(m.b), m.a.Line
}

// thing names a part as the builder would.
func thing(p *layout.Part) string {
	switch p.Kind {
	case layout.KindPane:
		return "the pane " + p.Name
	case layout.KindFlange:
		return "the flange of the " + p.Name
	case layout.KindNut:
		return "the nut of the " + p.Name
	case layout.KindElbow:
		return "the elbow under the " + p.Name
	case layout.KindStandpipe:
		return "the standpipe of the " + p.Name
	case layout.KindStrainer:
		return "the strainer of the " + p.Name
	case layout.KindTail:
		return "the " + p.Name + " inside"
	case layout.KindBrace, layout.KindGridBrace:
		return "the brace " + p.Name
	}
	return "the " + p.Name
}

func lines(a, b int) string {
	switch {
	case a == 0 && b == 0:
		return ""
	case a == 0 || b == 0 || a == b:
		return fmt.Sprintf(" (line %d)", max(a, b))
	}
	return fmt.Sprintf(" (lines %d and %d)", min(a, b), max(a, b))
}

// guesses lists what of two parts was taken.
func guesses(parts ...*layout.Part) string {
	var out []string
	for _, p := range parts {
		if len(p.Assumed) > 0 {
			out = append(out, thing(p)+" is taken "+strings.Join(p.Assumed, ", "))
		}
	}
	return strings.Join(out, "; ")
}

// tenths shows a length to a tenth of a millimetre, or a thousandth of an inch.
func tenths(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", v*1000)
}

// tooLarge looks at panels that are larger than the inside, wherever they hang.
func (s *Survey) tooLarge(a *Answer, l *layout.Layout) {
	room := l.Inside.Size()
	for i := range l.Parts {
		p := &l.Parts[i]
		if p.Kind != layout.KindGrid {
			continue
		}
		size := p.Solid.Bounds().Size()
		for _, ax := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			if by := size.On(ax) - room.On(ax); by > drawnSame {
				a.raise(Fails, fmt.Sprintf("%s is %s longer than the inside (line %d).", upperFirst(thing(p)), tenths(by, s.E.Units), p.Line), p.Line)
			}
		}
	}
}

// outOfIt looks for things that hang or stand outside the glass.
func (s *Survey) outOfIt(a *Answer, l *layout.Layout) {
	room := l.Inside
	room.Max.Y = max(room.Max.Y, l.Outside.Max.Y)
	for i := range l.Parts {
		p := &l.Parts[i]
		switch p.Kind {
		case layout.KindHardscape, layout.KindGrid, layout.KindGridBrace, layout.KindManifold, layout.KindStandpipe, layout.KindStrainer:
		default:
			continue
		}
		b := p.Solid.Bounds()
		for _, ax := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			by := max(room.Min.On(ax)-b.Min.On(ax), b.Max.On(ax)-room.Max.On(ax))
			if by <= drawnSame || b.Size().On(ax) > room.Size().On(ax)+drawnSame {
				continue
			}
			v := Fails
			note := fmt.Sprintf("%s reaches %s out of the inside (line %d).", upperFirst(thing(p)), tenths(by, s.E.Units), p.Line)
			if len(p.Assumed) > 0 {
				v = Unknown
				note += " It is drawn by guess: " + guesses(p) + "."
			}
			a.raise(v, note, p.Line)
		}
	}
}

// sumpRoom looks whether the sump goes into the stand, or clear of it.
func (s *Survey) sumpRoom(a *Answer, l *layout.Layout) {
	sys := s.E.Units
	sump, ok := l.Find(layout.KindSump, "sump")
	stand, given := l.Find(layout.KindStand, "stand")
	if !ok {
		return
	}
	box := sump.Solid.Bounds()
	carries := s.E.Design.Stand.Sump
	if given && carries.Value {
		room := stand.Solid.Bounds()
		for i, ax := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			left := room.Size().On(ax) - box.Size().On(ax)
			what := [...]string{"side to side", "front to back", "in height"}[i]
			f := figure("stand over the sump's inside, "+what, quantity.Exactly(quantity.Length(left)), sys)
			a.Figures = append(a.Figures, f)
			switch {
			case left < 0:
				a.raise(Fails, fmt.Sprintf("The sump does not go into the stand: its inside is %s larger %s%s.", tenths(-left, sys), what, lines(sump.Line, stand.Line)), stand.Line)
			case left < standRoom && ax != geom.Z:
				a.raise(Tight, fmt.Sprintf("%s are left %s for the sump's walls and the stand's sides%s: measure them.", tenths(left, sys), what, lines(sump.Line, stand.Line)), stand.Line)
			}
		}
		return
	}
	under, hit := box.Meet(l.Outside)
	if given {
		if m, ok := box.Meet(stand.Solid.Bounds()); ok && m.Volume() > 0 && carries.Given() {
			under, hit = m, true
		}
	}
	if !hit || under.Volume() == 0 {
		return
	}
	if len(sump.Assumed) > 0 {
		a.raise(Unknown, "Where the sump stands is not in the file: under the middle it would be in the way of the stand or the enclosure. Write sump.left and sump.front.", sump.Line)
		return
	}
	a.raise(Fails, fmt.Sprintf("The sump is drawn where the stand or the enclosure is (line %d).", sump.Line), sump.Line)
}
