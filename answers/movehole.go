package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
)

// muchFarther is how much farther (m) a place that holds may be than one that is
// only better before both are told.
const muchFarther = 0.05

// moveFix looks for the nearest place on the pane where an opening does better:
// along first, since its height bears on the water, then along and up. Each place
// is reckoned as the answer was.
func (s *Survey) moveFix(a *Answer, list *openings, o opening) {
	step := 0.001
	if s.E.Units == quantity.US {
		step = 0.0254 / 16
	}
	now := a.Verdict
	type place struct {
		opening
		Verdict
	}
	var found []place
	verdict := now
	try := func(dx, dy float64) {
		m := o.moved(dx, dy)
		spares, err := list.spares(m, 1)
		if err != nil {
			return
		}
		if v := spareVerdict(spares); v < verdict {
			verdict = v
			found = append(found, place{m, v})
		}
	}
	width, height := float64(o.pane.Width.Value), float64(o.pane.Height.Value)
	dx, dy := step, step
	if o.x > width/2 {
		dx = -step
	}
	if o.y > height/2 {
		dy = -step
	}
	limit := func(at, size float64) int { return int(math.Abs(size/2-at) / step) }
	nx, ny := limit(o.x, width), limit(o.y, height)
	for k := 1; k <= nx && verdict != Holds; k++ {
		try(float64(k)*dx, 0)
	}
	if o.drain < 0 || verdict == now {
		for k := 1; k <= max(nx, ny) && verdict != Holds; k++ {
			try(0, float64(min(k, ny))*dy)
			try(float64(min(k, nx))*dx, float64(min(k, ny))*dy)
		}
	}
	for i := range found {
		f := &found[i]
		if i+1 < len(found) {
			next := &found[i+1]
			if math.Hypot(next.x-o.x, next.y-o.y) < math.Hypot(f.x-o.x, f.y-o.y)+muchFarther {
				continue
			}
		}
		a.Fixes = append(a.Fixes, s.moved(&o, &f.opening, f.Verdict, list))
	}
}

// spareVerdict is the verdict of distances alone.
func spareVerdict(list []spare) Verdict {
	v := Holds
	for i := range list {
		switch c := &list[i]; {
		case c.kept():
		case c.kind == glaziers || c.kind == fouls:
			return Fails
		default:
			v = Tight
		}
	}
	return v
}

// moved tells a place in the file's own words: from the same edges.
func (s *Survey) moved(from, to *opening, v Verdict, list *openings) Fix {
	in, up, edge := s.markOf(from)
	field := "enclosure.ways[" + from.name + "]"
	if from.drain >= 0 {
		field = "drains[" + from.name + "].hole"
	}
	inNow, upNow := s.nearer(from, to)
	along, high := math.Abs(inNow-in) > 1e-9, math.Abs(upNow-up) > 1e-9
	inText, upText := s.exact(inNow), s.exact(upNow)
	f := Fix{Cost: "nothing before drilling", Verdict: v}
	var edits []Edit
	if along {
		edits = append(edits, Edit{Path: field + ".in", To: inText})
	}
	if high {
		edits = append(edits, Edit{Path: field + ".up", To: upText})
	}
	switch {
	case !high:
		f.Do = fmt.Sprintf("mark its centre %s from the %s edge in place of %s", inText, edge, s.exact(in))
		f.Change = field + ".in: " + inText
	case !along:
		f.Do = fmt.Sprintf("mark its centre %s up in place of %s", upText, s.exact(up))
		f.Change = field + ".up: " + upText
	default:
		f.Do = fmt.Sprintf("mark its centre %s from the %s edge and %s up", inText, edge, upText)
		f.Change = field + ".in: " + inText + ", up: " + upText
	}
	why := ""
	if high && from.drain >= 0 && s.E.Drains[from.drain].HoleUpright() {
		f.Do += "; the drain then has another height, so see to it again"
		var more []Edit
		if more, why = s.lifted(from.drain, upNow-up, upNow); why == "" {
			edits = append(edits, more...)
		}
	}
	if why == "" {
		var ok bool
		if edits, ok = s.E.Design.Replanned(edits); !ok {
			why = "a measured fact stands against it"
		}
	}
	if why != "" {
		f.Do += " (write it into the file yourself: " + why + ")"
		edits = nil
	}
	f.Edits = edits
	told := func(o opening) string {
		c, err := list.spares(o, 1)
		if w, ok := tightest(c); err == nil && ok {
			if !w.kept() {
				return s.short(-w.left()) + " short"
			}
			return s.short(math.Max(w.left(), 0)) + " to spare"
		}
		return ""
	}
	f.Before, f.After = told(*from), told(*to)
	return f
}

// lifted returns what else the file must say of a drain whose hole, now up above its
// pane's lower edge, is moved by so much, m: the lip of an opening in the wall goes with
// its bore. If the builder must choose, it says why.
func (s *Survey) lifted(drain int, by, up float64) ([]Edit, string) {
	d := &s.E.Drains[drain]
	lip := d.Lip + by
	switch {
	case d.Kind == "standpipe" && up-float64(s.E.Design.Pool.Floor.Value) > d.Lip-s.E.Pool.Floor:
		return nil, "its lip must then be higher too, and how high is yours to choose"
	case d.Kind != "wall opening":
		return nil, ""
	case lip >= s.E.Pool.DamTop:
		return nil, "its lip then comes up to the top of the dam"
	}
	return []Edit{{Path: "drains[" + d.Name + "].lip", To: s.exact(lip - s.E.Pool.Floor)}}, ""
}

// exact shows a length as people do, or with all its digits where that would be
// another length.
func (s *Survey) exact(v float64) string {
	v = math.Round(v*1e7) / 1e7
	text := s.length(v)
	if back, err := quantity.ParseLength(text); err == nil && math.Abs(float64(back)-v) < 1e-5 {
		return text
	}
	if s.E.Units == quantity.US {
		return quantity.Length(v).ShowIn("in")
	}
	return quantity.Length(v).ShowIn("mm")
}

// nearer turns a place on the pane into what the file would say of it. The place
// moves towards the pane's middle, so what counts from a near edge grows. On a pane
// that lies, what counts from its rear or front edge goes up the pane.
func (s *Survey) nearer(from, to *opening) (in, up float64) {
	in, up, edge := s.markOf(from)
	width, height := float64(from.pane.Width.Value), float64(from.pane.Height.Value)
	dx, dy := math.Abs(to.x-from.x), math.Abs(to.y-from.y)
	if from.place != nil && from.place.Lies() && (edge == "rear" || edge == "front") {
		width, height, dx, dy = height, width, dy, dx
	}
	return in + dx*towards(in, width), up + dy*towards(up, height)
}

// towards is 1 if a distance from an edge grows towards the middle, -1 if it counts
// from the far edge and falls.
func towards(distance, size float64) float64 {
	if distance > size/2 {
		return -1
	}
	return 1
}
