package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/layout"
	"rillwright/quantity"
)

// turned answers for a shop tank which pane is which now and what that brings. ok
// is false for an enclosure made from panes.
func (s *Survey) turned(list *openings) (a Answer, ok bool) {
	enc := &s.E.Design.Enclosure
	if enc.Made.Value != "from a tank" {
		return a, false
	}
	a = Answer{ID: "turned", Question: "The tank is turned: which pane is which now?", LimitingLine: enc.Pos.Line}
	if enc.Turned.Value == "upright" {
		a.Question = "The shop tank stands upright: which pane is which?"
	}
	a.Limit = Limit{Text: "where each pane of a tank comes to stand when it is turned; what its rims leave open; an old end as a floor wants support under all of it", Source: "practice", Mark: "geometry; support is common practice, no source"}
	a.Cautions = []string{glassCaution()}
	if !enc.Turned.Given() {
		a.Verdict, a.Say = Unknown, "The file does not say how the tank stands: enclosure.turned would say it."
		return a, true
	}
	t := turning{s: s, l: list.l, a: &a, turned: enc.Turned.Value}
	t.mapping()
	t.missing()
	t.clear()
	t.braces()
	t.floor()
	t.old(list)
	t.goesIn()
	if a.Verdict == Holds {
		t.say("Every pane is where the turning puts it.")
	}
	a.Say = strings.Join(t.words, " ")
	sortMatters(a.Matters)
	return a, true
}

// turning gathers what there is to say of a turned tank.
type turning struct {
	s      *Survey
	l      *layout.Layout
	a      *Answer
	turned string
	words  []string
}

func (t *turning) say(text string) { t.words = append(t.words, text) }

// bad says what is wrong and takes the verdict down to it.
func (t *turning) bad(v Verdict, line int, text string) {
	if v > t.a.Verdict && line > 0 {
		t.a.LimitingLine = line
	}
	t.a.Verdict = max(t.a.Verdict, v)
	t.say(text)
}

func (t *turning) words1(name, text string) {
	t.a.Figures = append(t.a.Figures, Figure{Name: name, Text: text, Words: true})
}

// mapping tells which old pane is where, and names what the file contradicts.
func (t *turning) mapping() {
	enc := &t.s.E.Design.Enclosure
	for _, face := range turnedFaces {
		old, there := turnedTo(t.turned, face)
		names := t.at(face)
		switch {
		case face == openFace(t.turned):
			t.words1("now "+nowWord(face), "the old open top")
		case there && names != "":
			t.words1("now "+nowWord(face), fmt.Sprintf("the old %s: %s", old, names))
		case there:
			t.words1("now "+nowWord(face), fmt.Sprintf("the old %s, which the file does not list", old))
		}
	}
	for i := range t.l.Panes {
		p := &t.l.Panes[i]
		if p.At == "door" || p.At == "dam" || p.Index >= len(enc.Panes) {
			continue
		}
		t.pane(p, &enc.Panes[p.Index])
	}
}

func nowWord(face string) string {
	switch face {
	case "left", "right":
		return "the " + face + " side"
	case "bottom":
		return "the floor"
	}
	return "the " + face
}

// at names the panes that stand at a face.
func (t *turning) at(face string) string {
	var out []string
	for i := range t.l.Panes {
		if p := &t.l.Panes[i]; p.At == face {
			out = append(out, p.Name)
		}
	}
	return strings.Join(out, " and ")
}

// sizeOff is how far a pane's size may be from that of its face, m, before it
// cannot be the pane that stood there: rims and joints, assumed, no source.
const faceOff = 0.05

// pane compares one pane's words and sizes with the turning.
func (t *turning) pane(p *layout.Pane, d *design.Pane) {
	old, there := turnedTo(t.turned, p.At)
	was, known := wasPane(d.Was.Value)
	switch {
	case d.Was.Given() && !known:
		t.bad(Unknown, d.Was.Pos.Line, fmt.Sprintf("Pane %q was %q (line %d), which is no pane of a tank: write bottom, long side or end.", p.Name, d.Was.Value, d.Was.Pos.Line))
	case known && !there && p.At == openFace(t.turned):
		t.bad(Fails, d.Was.Pos.Line, fmt.Sprintf("Pane %q was the old %s (line %d), and where it stands now (%s) the old open top is.", p.Name, was, d.Was.Pos.Line, p.At))
	case known && there && was != old:
		t.bad(Fails, d.Was.Pos.Line, fmt.Sprintf("Pane %q was the old %s (line %d) and stands at the %s, but a tank turned %s has its old %s there: one of the three is wrong.", p.Name, was, d.Was.Pos.Line, p.At, t.turned, old))
	}
	if !there {
		return
	}
	w, h, ok := t.faceSize(p.At)
	if !ok {
		return
	}
	pw, ph := float64(d.Width.Value), float64(d.Height.Value)
	if math.Abs(pw-w) > faceOff || math.Abs(ph-h) > faceOff {
		t.bad(Fails, d.Pos.Line, fmt.Sprintf("Pane %q is %s by %s (line %d), and the face it stands at is %s by %s: it is another pane, or the tank is not turned so.", p.Name, t.s.length(pw), t.s.length(ph), d.Pos.Line, t.s.length(w), t.s.length(h)))
	}
}

// faceSize is the outside size of a face.
func (t *turning) faceSize(at string) (w, h float64, ok bool) {
	if !t.s.E.Design.Enclosure.Outside.Given() {
		return 0, 0, false
	}
	size := t.l.Outside.Size()
	switch at {
	case "left", "right":
		return size.Y, size.Z, true
	case "bottom", "top":
		return size.X, size.Y, true
	}
	return size.X, size.Z, true
}

// missing names faces whose old pane is not listed, and a tank that is not as long
// as its turning wants.
func (t *turning) missing() {
	var out []string
	for _, face := range turnedFaces {
		if old, ok := turnedTo(t.turned, face); ok && t.at(face) == "" {
			out = append(out, fmt.Sprintf("%s (the old %s)", face, old))
		}
	}
	if len(out) > 0 {
		t.bad(Unknown, t.s.E.Design.Enclosure.Pos.Line, fmt.Sprintf("The file lists no pane at: %s. Write it under enclosure.panes, with what it is.", strings.Join(out, ", ")))
	}
	size := t.l.Outside.Size()
	line := t.s.E.Design.Enclosure.Turned.Pos.Line
	switch {
	case t.turned == "on end" && size.Z < max(size.X, size.Y):
		t.bad(Fails, line, fmt.Sprintf("A tank on end is higher than it is wide or deep, and this is %s high.", t.s.length(size.Z)))
	case t.turned != "on end" && size.X < max(size.Y, size.Z)-faceOff:
		t.bad(Fails, line, fmt.Sprintf("A tank that stands %s is widest from left to right, and this is %s wide.", t.turned, t.s.length(size.X)))
	}
}

// reckoned is the clear opening by the rim round it, else by the inside.
func (t *turning) reckoned() (w, h float64, by string) {
	face := openFace(t.turned)
	in, out := t.l.Inside.Size(), t.l.Outside.Size()
	w, h, ow, oh := in.X, in.Z, out.X, out.Z
	if face == "top" {
		h, oh = in.Y, out.Y
	}
	for i := range t.s.E.Design.Enclosure.Rims {
		r := &t.s.E.Design.Enclosure.Rims[i]
		if r.At.Value == face {
			flat := float64(r.Flat.Value)
			return min(w, ow-2*flat), min(h, oh-2*flat), "its rim"
		}
	}
	return w, h, "the inside sizes, no rim being listed there"
}

// The opening is measured to less than the rims leave if something else stands in
// it; it cannot be larger. Tape, m: assumed, no source.
const (
	openingOver  = 0.003
	openingUnder = 0.010
)

// clear compares the opening as measured with what rims leave.
func (t *turning) clear() {
	enc := &t.s.E.Design.Enclosure
	w, h, by := t.reckoned()
	both := func(w, h float64) string { return t.s.length(w) + " by " + t.s.length(h) }
	t.words1("clear opening by "+by, both(w, h))
	if !enc.Opening.Given() {
		t.say(fmt.Sprintf("The way in is taken as %s by %s; measure it (enclosure.opening).", both(w, h), by))
		return
	}
	mw, mh := float64(enc.Opening.Width.Value), float64(enc.Opening.Height.Value)
	t.words1("clear opening as measured", both(mw, mh))
	switch {
	case mw > w+openingOver || mh > h+openingOver:
		t.bad(Fails, enc.Opening.Pos.Line, fmt.Sprintf("The opening is measured as %s (line %d), more than the %s that %s leaves: measure it again, inside the rim.", both(mw, mh), enc.Opening.Pos.Line, both(w, h), by))
	case mw < w-openingUnder || mh < h-openingUnder:
		t.say(fmt.Sprintf("The opening is measured as %s where %s would leave %s: something else stands in it.", both(mw, mh), by, both(w, h)))
	}
}

// braces tells of a brace of the old top that now crosses the opening.
func (t *turning) braces() {
	enc := &t.s.E.Design.Enclosure
	for i := range enc.Braces {
		b := &enc.Braces[i]
		part, ok := t.l.Find(layout.KindBrace, b.Name.Value)
		if !ok {
			t.bad(Unknown, b.Pos.Line, fmt.Sprintf("Where the brace %q is is not known: see enclosure.braces[%s].", b.Name.Value, b.Name.Value))
			continue
		}
		box, in := part.Solid.Bounds(), t.l.Inside
		across := b.Runs.Value == "across"
		if openFace(t.turned) == "top" {
			if across && box.Max.Z > in.Max.Z-faceOff {
				lo, hi := box.Min.X-in.Min.X, in.Max.X-box.Max.X
				t.parted(b, max(lo, hi), "left to right")
			}
			continue
		}
		if box.Max.Y < in.Max.Y-faceOff {
			continue // not at the front
		}
		if across {
			t.parted(b, max(box.Min.Z-in.Min.Z, in.Max.Z-box.Max.Z), "bottom to top")
		} else {
			t.bad(Tight, b.Pos.Line, fmt.Sprintf("The strip %q (line %d) runs along the edge of the opening and narrows it by %s.", b.Name.Value, b.Pos.Line, t.s.length(float64(b.Width.Value))))
		}
	}
}

func (t *turning) parted(b *design.Brace, most float64, way string) {
	t.a.Figures = append(t.a.Figures, figure("largest clear part of the opening beside the brace "+b.Name.Value+", "+way, quantity.Exactly(quantity.Length(most)), t.s.E.Units))
	t.bad(Tight, b.Pos.Line, fmt.Sprintf("The old brace %q (line %d) now crosses the opening and leaves %s at most, %s. It holds the panes it is bonded to: do not cut it out before they are reckoned without it.", b.Name.Value, b.Pos.Line, t.s.length(most), way))
}

// floor tells what an old end or side as a floor stands on.
func (t *turning) floor() {
	if t.turned == "upright" {
		return
	}
	enc := &t.s.E.Design.Enclosure
	old, _ := turnedTo(t.turned, "bottom")
	switch enc.Rests.Value {
	case "on a full board":
		t.words1("support of the old "+string(old)+" that is the floor now", "a board under all of it")
	case "":
		t.bad(Unknown, enc.Pos.Line, fmt.Sprintf("The old %s is the floor now and was never made to be one; the file does not say what it rests on (enclosure.rests).", old))
	default:
		t.bad(Tight, enc.Rests.Pos.Line, fmt.Sprintf("The old %s is the floor now and was never made to be one; it rests %s (line %d). Put a board under all of it, as thick as the rims stand proud, with a sheet of foam between.", old, enc.Rests.Value, enc.Rests.Pos.Line))
	}
}

// old tells of the old bottom, which is the pane most often toughened.
func (t *turning) old(list *openings) {
	enc := &t.s.E.Design.Enclosure
	for i := range enc.Panes {
		p := &enc.Panes[i]
		if is, _ := oldBottom(t.s.E, p); !is {
			continue
		}
		var in []string
		for k := range list.list {
			if list.list[k].pane == p {
				in = append(in, list.list[k].name)
			}
		}
		glass := p.Glass.Value
		t.words1("the old bottom, "+p.Name.Value, glass)
		refused := "No template for it"
		if len(in) > 0 {
			refused = "The template of " + strings.Join(in, " and ") + " in it is refused"
		}
		switch {
		case glass == "annealed":
			t.say(fmt.Sprintf("The old bottom, pane %q, is said to be annealed; old bottoms are most often toughened: crossed polarisers first.", p.Name.Value))
		case glass == "not checked" && len(in) > 0:
			t.bad(Unknown, p.Glass.Pos.Line, fmt.Sprintf("Nobody has looked at the old bottom, pane %q (line %d). %s until somebody has, through crossed polarisers.", p.Name.Value, p.Glass.Pos.Line, refused))
		case glass == "not checked":
			t.say(fmt.Sprintf("Nobody has looked at the old bottom, pane %q: %s is made until somebody has, through crossed polarisers.", p.Name.Value, strings.ToLower(refused[:1])+refused[1:]))
		case glass == "toughened" && len(in) > 0:
			t.bad(Fails, p.Glass.Pos.Line, fmt.Sprintf("The old bottom, pane %q (line %d), is toughened. %s: it would burst.", p.Name.Value, p.Glass.Pos.Line, refused))
		case glass == "toughened":
			t.say(fmt.Sprintf("The old bottom, pane %q, is toughened: it may not be drilled, and nothing is drawn in it.", p.Name.Value))
		}
	}
}
