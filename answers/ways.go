package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
)

// way answers for one opening besides the drains' holes.
func (s *Survey) way(list *openings, o opening) Answer {
	w := &s.E.Ways[o.way]
	a := Answer{ID: "way[" + o.name + "]", Question: fmt.Sprintf("Does everything get through the opening %s, and is the rest closed?", o.name), LimitingLine: o.line}
	a.Limit = Limit{
		Text:   fmt.Sprintf("%s all round whatever is led through by hand, one after another; in the glass the glaziers' distances", s.length(passageRoom)),
		Source: "assumed", Mark: "assumed, no source; the distances read in secondary pages",
	}
	a.Cautions = []string{glassCaution()}
	p := s.passages(w)
	p.figures(s, &a)
	s.wayGlass(&a, list, &o)
	s.closing(&a, w, p)
	s.brimWay(&a, list, &o, w)
	before := a.Verdict
	p.verdict(s, &a)
	var passing Answer
	if p.verdict(s, &passing); before > passing.Verdict { // what passes is not what is wrong
		a.Margin, a.Limiting, a.LimitingLine = "", "", o.line
	}
	if a.Verdict == Holds {
		a.Say = strings.TrimSpace("Yes. " + a.Say)
	}
	a.Cautions = append(a.Cautions, s.placeCautions(&o)...)
	a.Matters = append(p.matters(s, w), a.Matters...)
	sortMatters(a.Matters)
	return a
}

// wayGlass takes the glaziers' distances.
func (s *Survey) wayGlass(a *Answer, list *openings, o *opening) {
	spares, err := list.spares(*o, 1)
	if err != nil {
		a.Verdict, a.Say = Unknown, "It does not lie on its pane as the file has it: "+err.Error()+"."
		return
	}
	for _, kind := range []spareKind{glaziers, hobby, fouls, hand} {
		if c, ok := nearestOf(spares, kind); ok && (kind != hand || c.left() < far) {
			a.Figures = append(a.Figures, c.figure(s))
		}
	}
	s.markFigures(a, o)
	b := Answer{}
	s.drillVerdict(&b, list, o, spares)
	a.Verdict, a.Fixes = max(a.Verdict, b.Verdict), append(a.Fixes, b.Fixes...)
	if b.Verdict != Holds {
		a.Say = b.Say
	}
	a.Cautions = append(a.Cautions, drillBut(s.E, o.pane)...)
	if !o.round && o.pane.Glass.Value == "annealed" {
		a.Cautions = append(a.Cautions, "Some glaziers cut no slots and notches in annealed glass at all (fabricators' pages): ask yours, and have it cut by him. A round hole is kinder.")
	}
	a.Matters = append(a.Matters, s.drillMatters(list, *o)...)
}

// nearestOf returns the distance of a kind with the least to spare, a size only
// where it is not kept.
func nearestOf(list []spare, kind spareKind) (spare, bool) {
	var worst spare
	found := false
	for i := range list {
		if c := &list[i]; c.kind == kind && (!c.size || !c.kept()) && (!found || c.left() < worst.left()) {
			worst, found = *c, true
		}
	}
	return worst, found
}

// brimWay refuses an opening through which the pool would run out.
func (s *Survey) brimWay(a *Answer, list *openings, o *opening, w *enclosure.Way) {
	if o.place == nil {
		return
	}
	over, wet := overBrim(list.l, o)
	if !wet {
		return
	}
	f := figure("its lowest point above the brim of the pool", quantity.Exactly(quantity.Length(over)), s.E.Units)
	if over < 0 {
		f.Name = "its lowest point under the brim of the pool"
		f.Text = s.length(-over)
	}
	a.Figures = append(a.Figures, f)
	switch {
	case over >= 0:
	case w.Closed == "sealant":
		a.Verdict = max(a.Verdict, Tight)
		a.Say += " It lies under the brim of the pool, and only sealant keeps the water in, which does not stick to hose: a bulkhead is made for that."
	default:
		a.Verdict = Fails
		a.Say = strings.TrimSpace(fmt.Sprintf("Water runs out of it: it reaches %s under the brim of the pool, and is not sealed.", s.length(-over)) + " " + a.Say)
	}
}

// overBrim returns how far an opening's lowest point is above the brim, m, and
// whether it is in a pane that the pool stands against.
func overBrim(l *layout.Layout, o *opening) (over float64, wet bool) {
	pool := l.Pool.Box
	low := o.at.Z - o.h/2
	if o.place.Lies() {
		low = o.at.Z
	}
	// The pool reaches no further than the pane's joint: a few millimetres.
	near := pool.Grown(0.01)
	at := o.at
	at.Z = math.Min(math.Max(at.Z, pool.Min.Z), pool.Max.Z)
	side := o.across()
	if o.place.Lies() {
		wet = o.place.At == "bottom" && at.X > near.Min.X-side && at.X < near.Max.X+side && at.Y > near.Min.Y-side && at.Y < near.Max.Y+side
		return low - pool.Max.Z, wet
	}
	return low - pool.Max.Z, near.Grown(side).Has(at) && o.place.At != "door" && near.Dist(at) <= side
}
