package answers

import (
	"slices"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
)

// mostLegs is how many straight pulls a way out may take; up to easyLegs are what a
// hand finds without trying: off its place, up, and out over a dam. Assumed.
const (
	mostLegs = 5
	easyLegs = 3
)

// wayOut is how a part comes out, or what keeps it in.
type wayOut struct {
	served

	legs  []geom.Leg
	ok    bool
	doors bool // the doors must be lifted out of their tracks
	top   bool // it goes through what the top leaves open, not through the opening
	met   *obstacle
	foam  *obstacle // must leave a window for it
	// by are those things each of which alone keeps it in; of all that are met going
	// forwards, where it takes several.
	by   []*obstacle
	many bool
	far  float64 // m, from the opening
}

// waysOut looks for a way for each part.
func (s *Survey) waysOut(l *layout.Layout) []wayOut {
	sides := [][]obstacle{s.obstacles(l, -1), s.obstacles(l, 1)}
	var out []wayOut
	for _, v := range s.servedParts(l) {
		w := wayOut{served: v}
		w.far, _, _ = wayIn(l, v.box.Centre())
		w.look(l, sides, nil)
		if !w.ok {
			// Foam is masked where it would bury a part: what is left of a way then?
			for i := range sides[0] {
				if o := &sides[0][i]; !w.ok && o.at == byFoam && (w.met == nil || w.met.what == o.what) {
					t := wayOut{served: v, far: w.far}
					if t.look(l, sides, o); t.ok {
						t.foam = o
						w = t
					}
				}
			}
		}
		switch {
		case !w.ok && w.met == nil:
			w.keptBy(append(hull(l, true), sides[0]...), mostLegs)
		case w.long():
			w.keptBy(append(hull(l, true), sides[0]...), easyLegs)
		}
		out = append(out, w)
	}
	for i := range out {
		if w := &out[i]; !w.ok && w.met == nil {
			w.after(l, sides, out)
		}
	}
	return out
}

// after looks for a way of a part that is kept in by others which come out themselves.
func (w *wayOut) after(l *layout.Layout, sides [][]obstacle, list []wayOut) {
	for _, o := range w.by {
		k := slices.IndexFunc(list, func(x wayOut) bool { return "the "+x.name == o.what && x.ok })
		if k < 0 {
			continue
		}
		t := wayOut{served: w.served, far: w.far}
		if t.look(l, sides, o); t.ok {
			t.first = strings.TrimPrefix(t.first+" and "+o.what, " and ")
			*w = t
			return
		}
	}
}

// look looks for a way through the opening, first with the doors slid to either side,
// then with them out of their tracks, last through what the top leaves open.
func (w *wayOut) look(l *layout.Layout, sides [][]obstacle, without *obstacle) {
	name := ""
	if without != nil {
		name = without.what
	}
	lid, open := hull(l, true), hull(l, false)
	for _, o := range sides {
		legs, ok, met := outOf(&w.served, append(lid, o...), name, true, mostLegs)
		if ok && (!w.ok || len(legs) < len(w.legs)) {
			w.legs, w.ok = legs, true
		}
		w.met = met
	}
	if !w.ok || len(w.legs) > 1 { // to lift doors out is one thing more to do
		if legs, ok, met := outOf(&w.served, append(lid, sides[0]...), name, false, mostLegs); ok && (!w.ok || len(legs)+1 < len(w.legs)) {
			w.legs, w.ok, w.doors = legs, true, true
		} else if !w.ok {
			w.met = met
		}
	}
	if !w.ok && w.met == nil && l.Opening.At != "top" {
		w.legs, w.ok, _ = outOf(&w.served, append(open, sides[0]...), name, true, mostLegs)
		w.top = w.ok
	}
}

// hull shuts all faces of the enclosure but that of the opening, and the top too if
// that is wanted, however much the panes leave open there.
func hull(l *layout.Layout, lid bool) []obstacle {
	o := obstacle{what: "the enclosure", at: byPanes}
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		for _, high := range []bool{false, true} {
			front, top := a == geom.Y && high, a == geom.Z && high
			if front && l.Opening.At != "top" || top && (l.Opening.At == "top" || !lid) {
				continue
			}
			b := l.Outside.Grown(0.01)
			if high {
				b.Min = b.Min.With(a, l.Outside.Max.On(a))
			} else {
				b.Max = b.Max.With(a, l.Outside.Min.On(a))
			}
			o.boxes = append(o.boxes, b)
		}
	}
	return []obstacle{o}[:1:1]
}

// outOf looks for a way among obstacles, one of them left out by name. met is what
// the part overlaps where it stands.
func outOf(v *served, list []obstacle, without string, doors bool, most int) (legs []geom.Leg, ok bool, met *obstacle) {
	var boxes []geom.Box
	for i := range list {
		o := &list[i]
		if v.mine(o) || o.what == without && without != "" || o.door && !doors {
			continue
		}
		for _, b := range o.boxes {
			b = shrunk(b)
			if m, both := b.Meet(v.box); both && m.Volume() > 0 {
				met = o
			}
			boxes = append(boxes, b)
		}
	}
	if met != nil {
		return nil, false, met
	}
	legs, ok, _ = geom.WayOut(v.box, boxes, most)
	return legs, ok, nil
}

// shrunk is a box less what things may overlap as drawn, as far as it has that.
func shrunk(b geom.Box) geom.Box {
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		by := min(touch, b.Size().On(a)/4)
		b.Min, b.Max = b.Min.With(a, b.Min.On(a)+by), b.Max.With(a, b.Max.On(a)-by)
	}
	return b
}

// long reports whether a part that is serviced comes out by more pulls than is easy.
func (w *wayOut) long() bool { return w.ok && w.keep && len(w.legs) > easyLegs }

// keptBy finds what keeps a part in, or makes its way long: each thing without which
// there is a way of at most so many pulls, else what is met going straight to the front.
func (w *wayOut) keptBy(list []obstacle, most int) {
	tried := map[string]bool{}
	for i := range list {
		o := &list[i]
		if w.mine(o) || o.door || tried[o.what] {
			continue
		}
		tried[o.what] = true
		if _, ok, _ := outOf(&w.served, list, o.what, false, most); ok {
			w.by = append(w.by, o)
		}
	}
	if len(w.by) > 0 {
		w.by = latest(w.by)
		return
	}
	if w.ok {
		return
	}
	w.many = true
	sweep := w.box
	sweep.Max.Y += 10
	for i := range list {
		o := &list[i]
		if w.mine(o) || o.door {
			continue
		}
		for _, b := range o.boxes {
			if m, both := shrunk(b).Meet(sweep); both && m.Volume() > 0 {
				w.by = append(w.by, o)
				break
			}
		}
	}
	w.by = latest(w.by)
}

// latest leaves those that come last: what was there before is no news.
func latest(by []*obstacle) []*obstacle {
	order := []stage{byPanes, byDam, byGrid, byPipes, byFoam, byPieces}
	last := -1
	for _, o := range by {
		last = max(last, slices.Index(order, o.at))
	}
	return slices.DeleteFunc(by, func(o *obstacle) bool { return slices.Index(order, o.at) < last })
}
