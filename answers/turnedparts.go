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

func (e entry) String() string {
	return [...]string{"straight", "slantwise, one end first", "only turned otherwise than it will stand", "not at all"}[e]
}

// rigid is a thing that cannot be bent, with its sizes as it will stand: across
// the opening, along its other side, and away from it.
type rigid struct {
	name    string
	line    int
	w, h, d float64
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
	var aslant []string
	worst := straight
	for i := range things {
		r := &things[i]
		how := r.through(w, h, room)
		worst = max(worst, how)
		t.words1(r.name+" goes in", how.String())
		switch how {
		case barred:
			t.bad(Fails, r.line, fmt.Sprintf("The %s, %s by %s (line %d), does not go in through an opening of %s by %s.", r.name, t.s.length(r.w), t.s.length(r.h), r.line, t.s.length(w), t.s.length(h)))
		case turnedIn:
			t.bad(Tight, r.line, fmt.Sprintf("The %s (line %d) goes in only turned otherwise than it will stand: try it with a card of its size before anything is bonded.", r.name, r.line))
		case slanting:
			aslant = append(aslant, r.name)
		}
	}
	switch {
	case worst == straight:
		t.say("Dam, grid and manifolds go in through the opening.")
	case worst == slanting:
		t.say(fmt.Sprintf("Dam, grid and manifolds go in through the opening, the %s one end first.", listed(aslant)))
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
// in last must pass the opening while the other is already behind the frame. Or it
// is tipped in the plane of the opening. Either way it is then laid straight inside.
// Derived, for flat and slender things; a thing with corners of its own wants trying.
func (r *rigid) through(w, h float64, room [3]float64) entry {
	if r.w <= w && r.h <= h {
		return straight
	}
	if r.w > room[0] || r.h > room[1] || r.d > room[2] {
		return barred
	}
	switch {
	case r.h <= h && tips(r.w, r.d, w+(room[0]-w)/2, room[2], room[0], room[2]),
		r.w <= w && tips(r.h, r.d, h+(room[1]-h)/2, room[2], room[1], room[2]),
		tips(r.w, r.h, w, h, room[0], room[1]), tips(r.h, r.w, h, w, room[1], room[0]):
		return slanting
	case structure.RectangleFits(r.w, r.h, w, h), structure.RectangleFits(r.d, r.h, w, h), structure.RectangleFits(r.d, r.w, w, h):
		return turnedIn
	}
	return barred
}

// tips reports whether a rectangle, long by thin, lies within a by b when it is
// turned by some angle, and can be turned back to straight within wide by deep. In
// steps of a tenth of a degree.
func tips(long, thin, a, b, wide, deep float64) bool {
	const steps = 900
	for i := range steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(i) / steps)
		across, along := long*cos+thin*sin, long*sin+thin*cos
		if across > wide || along > deep {
			return false
		}
		if across <= a && along <= b {
			return true
		}
	}
	return false
}

// listed joins names: "dam", "dam and the grid", "dam, the grid and the bar".
func listed(names []string) string {
	if n := len(names) - 1; n > 0 {
		return strings.Join(names[:n], ", the ") + " and the " + names[n]
	}
	return strings.Join(names, "")
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
