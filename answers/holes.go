package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
)

// Holes answers whether each drain's hole and each other opening lies where glass
// bears it and what goes in has room, and for a shop tank which pane is which now.
// Panes in which a hole is drawn must be listed in the file.
func (s *Survey) Holes() []Answer {
	l := layout.Of(s.E)
	list := openingsOf(s.E, l)
	var out []Answer
	for i := range list.list {
		if o := list.list[i]; o.drain >= 0 {
			out = append(out, s.hole(list, o))
		} else {
			out = append(out, s.way(list, o))
		}
	}
	if a, ok := s.turned(list); ok {
		out = append(out, a)
	}
	return out
}

func (s *Survey) hole(list *openings, o opening) Answer {
	sys := s.E.Units
	d := &s.E.Drains[o.drain]
	a := Answer{ID: "hole[" + o.name + "]", Question: fmt.Sprintf("May the hole of the %s be drilled there?", o.name), LimitingLine: o.line}
	a.Limit = drillLimit()
	a.Cautions = []string{glassCaution()}
	spares, err := list.spares(o, 1)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The hole does not lie on its pane as the file has it: "+err.Error()+"."
		return a
	}
	s.spareFigures(&a, spares)
	s.markFigures(&a, &o)
	thread := structure.ThreadForHole(o.w)
	f := figure("thread it takes, measured over its outside", quantity.Band[quantity.Length]{Low: quantity.Length(thread.Low), Likely: quantity.Length(thread.Likely), High: quantity.Length(thread.High)}, sys)
	f.Text = fromTo(s.fine(thread.Low), s.fine(thread.High)) + ", likely " + s.fine(thread.Likely)
	a.Figures = append(a.Figures, f)
	s.drillVerdict(&a, list, &o, spares)
	if t := d.Part.Hole; t.High > 0 && (quantity.Length(o.w) < t.Low-0.5e-3 || quantity.Length(o.w) > t.High+0.5e-3) && a.Verdict <= Tight {
		a.Verdict = Tight
		a.Say += fmt.Sprintf(" But a hole of %s is not what a %s mostly wants, %s: measure the thread in your hand.", d.Hole.Size.Text, d.Part.Name, t.Show(sys))
	}
	a.Cautions = append(a.Cautions, s.holeCautions(list, &o)...)
	a.Cautions = append(a.Cautions, list.overrideNote(&o)...)
	a.Matters = s.drillMatters(list, o)
	return a
}

func drillLimit() Limit {
	return Limit{Text: "the glaziers' distances; the hobby's, one diameter to the edge, is shown beside them", Source: "en-12150-1", Mark: "read in secondary pages; room for the fitting from memory"}
}

// far is how much a distance to another opening may have to spare before it is not
// worth a line, m.
const far = 0.1

// spareFigures shows every distance; of openings that are far from this one only
// the nearest.
func (s *Survey) spareFigures(a *Answer, list []spare) {
	nearest := spare{have: math.Inf(1)}
	near := false
	for i := range list {
		c := &list[i]
		if c.other {
			near = near || c.left() < far
			if c.rule != "" && c.have < nearest.have {
				nearest = *c
			}
		}
		if c.other && c.left() >= far {
			continue
		}
		a.Figures = append(a.Figures, c.figure(s))
	}
	if !near && !math.IsInf(nearest.have, 1) {
		a.Figures = append(a.Figures, over(figure(nearest.what, quantity.Exactly(quantity.Length(nearest.have)), s.E.Units), quantity.Length(nearest.need)))
	}
}

// short shows what is left of a distance: little of it as callipers do.
func (s *Survey) short(v float64) string {
	if math.Abs(v) < 1e-3 {
		return s.fine(v)
	}
	return s.length(v)
}

// fine shows a length to a tenth of a millimetre or a thousandth of an inch, as
// callipers do.
func (s *Survey) fine(v float64) string { return showThickness(v, s.E.Units) }

func (s *Survey) length(v float64) string { return lengthText(v, s.E.Units) }

// markFigures tells where the centre is marked, and from which edges.
func (s *Survey) markFigures(a *Answer, o *opening) {
	in, up, edge := s.markOf(o)
	low := "lower"
	if o.place != nil && o.place.Lies() {
		low = "front"
		if edge == "rear" || edge == "front" {
			low = "left"
		}
	}
	seen := ""
	if edge == "left" || edge == "right" || low == "left" {
		seen = " as seen from the front"
	}
	a.Figures = append(
		a.Figures,
		figure("its centre, from the "+edge+" edge"+seen, quantity.Exactly(quantity.Length(in)), s.E.Units),
		figure("its centre, from the "+low+" edge", quantity.Exactly(quantity.Length(up)), s.E.Units),
	)
}

// markOf returns what the file has, and the edge that it counts from: where that
// is left out, the one that it is taken to be.
func (s *Survey) markOf(o *opening) (in, up float64, edge string) {
	if o.drain >= 0 {
		h := &s.E.Drains[o.drain].Hole
		in, up, edge = float64(h.In.Value), float64(h.Up.Value), h.Edge.Value
	} else {
		w := s.E.Ways[o.way].Design
		in, up, edge = float64(w.In.Value), float64(w.Up.Value), w.Edge.Value
	}
	if edge == "" {
		edge = "left"
		if o.place != nil && (o.place.At == "left" || o.place.At == "right") {
			edge = "rear"
		}
	}
	return in, up, edge
}

// tightest returns the distance with the least to spare of those whose breach is a
// failure; a size only where it is not kept.
func tightest(list []spare) (spare, bool) {
	var worst spare
	found := false
	for i := range list {
		if c := &list[i]; (c.kind == glaziers || c.kind == fouls) && (!c.size || !c.kept()) && (!found || c.left() < worst.left()) {
			worst, found = *c, true
		}
	}
	return worst, found
}

// broken returns the distance of a kind that is missed by most, if any is.
func broken(list []spare, kind spareKind) (spare, bool) {
	var worst spare
	found := false
	for i := range list {
		if c := &list[i]; c.kind == kind && !c.kept() && (!found || c.left() < worst.left()) {
			worst, found = *c, true
		}
	}
	return worst, found
}

// drillVerdict takes the verdict of what the pane is and of the distances.
func (s *Survey) drillVerdict(a *Answer, list *openings, o *opening, spares []spare) {
	if worst, ok := tightest(spares); ok {
		a.Score, a.Limiting = worst.left(), worst.what
		a.Margin = fmt.Sprintf("%s over the tightest distance: %s", s.short(worst.left()), worst.name())
		if worst.left() < 0 {
			a.Margin = fmt.Sprintf("%s short of a distance: %s", s.short(-worst.left()), worst.name())
		}
	}
	if v, say, ok := drillKind(s.E, o.pane); !ok {
		a.Verdict, a.Margin, a.Say = v, "", say
		return
	}
	if c, bad := broken(spares, glaziers); bad {
		a.Verdict = Fails
		a.Say = fmt.Sprintf("No: it lies nearer to an edge, a corner or another opening, or is larger, than glaziers drill: %s, %s.", c.what, c.text(s.length))
		if !o.round {
			a.Say = fmt.Sprintf("No: glaziers do not cut it so: %s, %s.", c.what, c.text(s.length))
		}
		s.moveFix(a, list, *o)
		return
	}
	if c, bad := broken(spares, fouls); bad {
		a.Verdict = Fails
		a.Say = fmt.Sprintf("The glass bears it, but what goes in has no room: %s, %s too near.", c.what, s.short(-c.left()))
		s.moveFix(a, list, *o)
		return
	}
	if c, bad := broken(spares, hobby); bad {
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Glaziers drill it there; the hobby keeps one diameter to the edge, and this is nearer: %s, %s.", c.what, c.text(s.length))
		if strings.HasPrefix(c.what, "rim to rim") {
			a.Say = fmt.Sprintf("Glaziers drill it there; the hobby keeps holes two diameters apart, centre to centre, and these are nearer: %s, %s.", c.what, c.text(s.length))
		}
		if !o.round {
			a.Say = fmt.Sprintf("Some glaziers cut it so, others do not: %s, %s.", c.what, c.text(s.length))
		}
		s.moveFix(a, list, *o)
		return
	}
	if c, bad := broken(spares, hand); bad {
		a.Verdict = Tight
		a.Say = fmt.Sprintf("The glass bears it, but there is little room: %s, %s.", c.what, c.text(s.length))
		s.moveFix(a, list, *o)
		return
	}
	a.Verdict, a.Say = Holds, "Yes: it keeps the glaziers' distances and the hobby's."
	if !o.round {
		a.Say = "Yes: it keeps the glaziers' distances, the stricter ones too."
	}
}

// holeCautions are how the fitting goes in and what was taken for granted.
func (s *Survey) holeCautions(list *openings, o *opening) []string {
	out := []string{"The flange with its gasket goes on the wet side, the nut on the dry side: hand-tight, then a quarter to half a turn (common practice). Drill to the fitting in your hand, never to its name."}
	out = append(out, drillBut(s.E, o.pane)...)
	taken := []string{"nut as wide as the flange"}
	if o.flangeTaken {
		taken = append(taken, fmt.Sprintf("flange %g times as wide as the hole: put its width into your parts file", list.taken.FlangeShare))
	}
	if list.filletTaken {
		taken = append(taken, "sealant in the corners with a leg of "+s.length(list.fillet)+" (sealant.fillet would say)")
	}
	return append(append(out, "Taken, no source: "+strings.Join(taken, "; ")+"."), s.placeCautions(o)...)
}

// placeCautions tell what of its place the file leaves open.
func (s *Survey) placeCautions(o *opening) []string {
	var out []string
	if o.place == nil {
		out = append(out, fmt.Sprintf("Pane %q has no place: what stands beside the opening is not looked at; enclosure.panes[%s].at would say it.", o.pane.Name.Value, o.pane.Name.Value))
	}
	if !o.edged {
		_, _, edge := s.markOf(o)
		out = append(out, fmt.Sprintf("The file does not say which edge its distance counts from; the %s one is taken.", edge))
	}
	if o.drain >= 0 && s.E.Design.Stand.Pos.Line == 0 {
		out = append(out, "The file has no stand: see yourself that the nut and the pipe clear it.")
	}
	for i := range s.E.Design.Enclosure.Rims {
		r := &s.E.Design.Enclosure.Rims[i]
		if !r.Over.Given() {
			out = append(out, fmt.Sprintf("How far the rim at the %s laps over the panes is not given: enclosure.rims[%d].over would say it.", r.At.Value, i+1))
		}
	}
	if o.place != nil && o.place.At == "bottom" && o.drain >= 0 && s.E.Design.Enclosure.Rests.Value == "on a full board" {
		out = append(out, "The floor pane rests on a full board: cut a hole in the board for the nut and a hand.")
	}
	return out
}

// started is how far a drill may start off its mark, m: assumed, no source.
const started = 0.002

// drillMatters moves each doubt to its ends and looks at the tightest distance.
func (s *Survey) drillMatters(list *openings, o opening) []Matter {
	least := func(l *openings, o opening, side int) float64 {
		c, err := l.spares(o, side)
		if err != nil {
			return math.NaN()
		}
		worst, _ := tightest(c)
		return worst.left()
	}
	likely := least(list, o, 0)
	var out []Matter
	add := func(m Matter, low, high float64) {
		if math.IsNaN(low) || math.IsNaN(high) || math.Abs(high-low) < 1e-5 {
			return
		}
		m.Effect = fromTo(s.fine(math.Min(low, high)), s.fine(math.Max(low, high))) + " to spare"
		m.Swing = math.Abs(high-low) / math.Max(math.Abs(likely), 1e-3)
		out = append(out, m)
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, d := range [][2]float64{{started, 0}, {-started, 0}, {0, started}, {0, -started}} {
		v := least(list, o.moved(d[0], d[1]), 0)
		lo, hi = math.Min(lo, v), math.Max(hi, v)
	}
	add(Matter{What: "where the drill starts", Range: s.fine(started) + " off its mark either way", Why: "assumed, no source", Settle: "a template of wood clamped to the pane", Line: o.line}, lo, hi)
	thin, thick := o.sheet(-1).Thickness, o.sheet(1).Thickness
	add(Matter{What: "true thickness of the pane", Range: fromTo(showThickness(thin, s.E.Units), showThickness(thick, s.E.Units)), Why: "the name is not the size", Settle: "callipers on the edge", Line: o.pane.Thickness.Pos.Line}, least(list, o, 1), least(list, o, -1))
	if list.filletTaken {
		wide, narrow := *list, *list
		wide.fillet, narrow.fillet = mostFillet, leastFillet
		add(Matter{What: "leg of the sealant in the corners", Range: fromTo(s.length(leastFillet), s.length(mostFillet)), Why: "assumed, no source", Settle: "sealant.fillet"}, least(&wide, o, 0), least(&narrow, o, 0))
	}
	if o.flangeTaken {
		least0, most := layout.Ends()
		a, b := o, o
		a.flange, b.flange = o.w*least0.FlangeShare, o.w*most.FlangeShare
		add(Matter{What: "width of the fitting's flange and nut", Range: fromTo(s.length(a.flange), s.length(b.flange)), Why: "assumed, no source", Settle: "measure the fitting in your hand", Line: o.line}, least(list, b, 0), least(list, a, 0))
	}
	sortMatters(out)
	return out
}
