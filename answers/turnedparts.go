package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/layout"
	"rillwright/structure"
)

// entry is how a rigid thing goes in through the opening.
type entry int

const (
	straight entry = iota // as it will stand
	slanting              // one end first
	turnedIn              // otherwise than it will stand: turned inside
	barred                // not at all
)

// rigid is a thing that cannot be bent, with its sizes as it will stand: across
// the opening, along its other side, and away from it.
type rigid struct {
	name         string
	line         int
	w, h, d      float64
	spare, other float64 // what is left over in the opening the way it goes, m
}

// goesIn tells whether dam, grid and manifolds go in through the opening.
func (t *turning) goesIn() {
	w, h, _ := t.reckoned()
	if o := &t.s.E.Design.Enclosure.Opening; o.Given() {
		w, h = min(w, float64(o.Width.Value)), min(h, float64(o.Height.Value))
	}
	things := t.rigids()
	if len(things) == 0 {
		return
	}
	room := t.room()
	groups := map[entry][]string{}
	var order []string
	for i := range things {
		r := &things[i]
		how := r.through(w, h, room)
		groups[how] = append(groups[how], r.name)
		order = append(order, fmt.Sprintf("%s: %s", r.name, [...]string{"straight", "slantwise, one end first", "only turned, otherwise than it will stand", "not at all"}[how]))
		switch how {
		case barred:
			t.bad(Fails, r.line, fmt.Sprintf("The %s, %s by %s, does not go in through an opening of %s by %s (line %d).", r.name, t.s.length(r.w), t.s.length(r.h), t.s.length(w), t.s.length(h), r.line))
		case turnedIn:
			t.bad(Tight, r.line, fmt.Sprintf("The %s goes in only turned otherwise than it will stand (line %d): try it with a card of its size before anything is bonded.", r.name, r.line))
		}
	}
	t.words1("goes in through the opening", strings.Join(order, "; "))
	if list := groups[slanting]; len(list) > 0 {
		t.say(fmt.Sprintf("Slantwise, one end first: %s.", strings.Join(list, ", ")))
	}
	if t.a.Verdict != Fails && len(groups[straight])+len(groups[slanting]) == len(things) {
		t.say("Dam, grid and manifolds go in through the opening.")
	}
	t.inMatter(things, w, h, room)
}

// room is the inside as seen from the opening: across, along and away.
func (t *turning) room() [3]float64 {
	in := t.l.Inside.Size()
	if openFace(t.turned) == "top" {
		return [3]float64{in.X, in.Y, in.Z}
	}
	return [3]float64{in.X, in.Z, in.Y}
}

func (t *turning) rigids() []rigid {
	var out []rigid
	add := func(name string, line int, p *layout.Part) {
		s := p.Solid.Bounds().Size()
		r := rigid{name: name, line: line, w: s.X, h: s.Z, d: s.Y}
		if openFace(t.turned) == "top" {
			r.h, r.d = s.Y, s.Z
		}
		out = append(out, r)
	}
	for i := range t.l.Parts {
		p := &t.l.Parts[i]
		switch p.Kind {
		case layout.KindDam:
			add("dam", p.Line, p)
		case layout.KindGrid, layout.KindManifold:
			add(p.Name, p.Line, p)
		}
	}
	return out
}

// through tells how a thing goes in through an opening of w by h into a room. One
// end first, it is laid aslant about an upright or a level axis: the end that goes
// in last must pass the opening while the other is already behind the frame, with
// the thing no deeper than the room. Derived; a soft test for anything that is not
// flat or slender: try it.
func (r *rigid) through(w, h float64, room [3]float64) entry {
	if r.w <= w && r.h <= h {
		return straight
	}
	if r.w > room[0] || r.h > room[1] || r.d > room[2] {
		return barred
	}
	if r.h <= h && aslant(r.w, r.d, w+(room[0]-w)/2, room[2]) || r.w <= w && aslant(r.h, r.d, h+(room[1]-h)/2, room[2]) {
		return slanting
	}
	if r.d <= room[2] && structure.RectangleFits(r.w, r.h, w, h) {
		if r.w <= w || r.h <= h { // it is tipped, and laid back inside
			if aslant(r.w, r.h, w, h) || aslant(r.h, r.w, h, w) {
				return slanting
			}
		}
		return turnedIn
	}
	if structure.RectangleFits(r.d, r.h, w, h) || structure.RectangleFits(r.d, r.w, w, h) {
		return turnedIn
	}
	return barred
}

// aslant reports whether a rectangle of long by thin, turned by some angle, lies
// within a by b.
func aslant(long, thin, a, b float64) bool {
	const steps = 900
	for i := range steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
		if long*cos+thin*sin <= a && long*sin+thin*cos <= b {
			return true
		}
	}
	return false
}

// inMatter moves the opening by what a tape may be off and looks again.
func (t *turning) inMatter(things []rigid, w, h float64, room [3]float64) {
	worst := func(off float64) entry {
		v := straight
		for i := range things {
			v = max(v, things[i].through(w+off, h+off, room))
		}
		return v
	}
	low, high := worst(-openingOver), worst(openingOver)
	if low == high {
		return
	}
	words := [...]string{"all go in straight", "something goes in slantwise", "something goes in only turned", "something does not go in"}
	line := t.s.E.Design.Enclosure.Opening.Pos.Line
	t.a.Matters = append(t.a.Matters, Matter{
		What: "true size of the opening", Range: t.s.length(openingOver) + " either way", Effect: words[low] + " to " + words[high],
		Swing: float64(low - high), Why: "assumed, no source", Settle: "a card of the part's size", Line: line,
	})
}
