package study

import (
	"math"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/structure/joint"
	"rillwright/structure/plate"
)

// dam adds the dam's three beds. It stands on the floor and between the sides, so
// that the water shears them; the sides' front edges, if no pane stands there,
// pull at its ends.
func (f *jointFinder) dam() {
	d := &f.d.Dam
	g := f.glass("dam")
	switch {
	case d.Pos.Line == 0:
		return
	case g == nil || g.Trouble != "":
		f.out.Lost = append(f.out.Lost, "dam")
		return
	}
	stops := d.Stops.Value
	base := Joint{Count: 1, Bite: g.Thickness, Of: "the dam", Line: g.Line, Fillets: [2]float64{1, 2}}
	low := base
	low.Name, low.Length, low.Leans = "dam, bottom", g.Width, stops == "sides and bottom"
	low.peaks(g, plate.Bottom)
	ends := base
	ends.Name, ends.Length, ends.Count, ends.DamEnd = "dam, ends", g.Height, 2, true
	ends.Leans = stops == "sides" || stops == "sides and bottom"
	ends.peaks(g, plate.Left)
	for i := range g.Brim {
		ends.Slope[i] = joint.EndSlope(g.Brim[i].EdgeBow, g.Width)
	}
	if s := f.side(); s != nil && s.glass != nil && f.where("front") == nil {
		// The dam is all that holds the sides at the front. Where they are reckoned as
		// free there, their rear beds bear no less.
		edge := s.front()
		if s.glass.Holds[edge] != Bonded {
			edge = s.rear()
		}
		ends.peaks(s.glass, edge)
		ends.Pull = Both
	}
	var edges design.Edges
	if w := f.where("dam"); w != nil {
		edges = w.p.Edges
	}
	if bonded(edges.Bottom) {
		f.out.List = append(f.out.List, low)
	}
	if bonded(edges.Left) && bonded(edges.Right) {
		f.out.List = append(f.out.List, ends)
	}
}

// front and rear are the edges of a side pane towards the enclosure's front and
// back, seen from outside. Two alike are described by the left one.
func (w *wall) front() plate.Side {
	if w.at == "right" {
		return plate.Left
	}
	return plate.Right
}

func (w *wall) rear() plate.Side {
	if w.at == "right" {
		return plate.Right
	}
	return plate.Left
}

func (w *wall) edge(s plate.Side) design.Field[string] {
	switch s {
	case plate.Left:
		return w.p.Edges.Left
	case plate.Right:
		return w.p.Edges.Right
	case plate.Bottom:
		return w.p.Edges.Bottom
	}
	return w.p.Edges.Top
}

func (w *wall) isSide() bool { return w.at == "left" || w.at == "right" || w.at == "sides" }

// bottom adds the bed under a wall: on the floor pane, or round it.
func (f *jointFinder) bottom(w *wall) {
	standing := w.isSide() || w.at == "back" || w.at == "front"
	if !standing || !bonded(w.p.Edges.Bottom) || w.p.Up.Value > 0 {
		return
	}
	s := Joint{Name: w.p.Name.Value + ", bottom", Count: w.count, Length: float64(w.p.Width.Value), Bite: w.bite(), Of: w.p.Name.Value, Line: w.p.Pos.Line, Fillets: [2]float64{1, 1}}
	if floor := f.where("bottom"); floor != nil {
		size, depth := floor.p.Width, false
		if !w.isSide() {
			size, depth = floor.p.Height, true
		}
		if !f.reaches(float64(size.Value), depth, w.bite().Likely) {
			s.Bite, s.Of, s.Pull = floor.bite(), floor.p.Name.Value, Pulled
			// The floor ends between the walls' faces; so does the bed.
			s.Length = math.Min(s.Length, float64(floor.across(w.isSide()).Value))
		}
		s.Old = f.old(w) && f.old(floor)
	}
	s.peaks(w.glass, plate.Bottom)
	f.out.List = append(f.out.List, s)
}

// across is a floor's size along a wall.
func (w *wall) across(side bool) design.Field[quantity.Length] {
	if side {
		return w.p.Height
	}
	return w.p.Width
}

// corners adds the upright beds between a side and the back or front.
func (f *jointFinder) corners(w *wall) {
	if !w.isSide() {
		return
	}
	for _, c := range [...]struct {
		at   string
		edge plate.Side
	}{{"back", w.rear()}, {"front", w.front()}} {
		other := f.where(c.at)
		switch {
		case other == nil && c.at == "front" && bonded(w.edge(c.edge)) && f.d.Dam.Pos.Line == 0 && w.glass != nil:
			f.out.Open = append(f.out.Open, w.p.Name.Value)
			continue
		case other == nil || !bonded(w.edge(c.edge)):
			continue
		}
		s := Joint{
			Name: other.p.Name.Value + " and " + w.p.Name.Value, Count: w.count, Length: math.Min(float64(w.p.Height.Value), float64(other.p.Height.Value)),
			Bite: w.bite(), Of: w.p.Name.Value, Pull: Both, Line: w.p.Pos.Line, Fillets: [2]float64{1, 1}, Old: f.old(w) && f.old(other),
		}
		over := f.reaches(float64(other.p.Width.Value), false, w.bite().Likely)  // covers the side's edge
		beside := f.reaches(float64(w.p.Width.Value), true, other.bite().Likely) // the side covers it
		switch {
		case over && !beside:
		case beside && !over:
			s.Bite, s.Of = other.bite(), other.p.Name.Value
		default:
			s.Unsure = true
			if other.bite().Low < s.Bite.Low {
				s.Bite, s.Of = other.bite(), other.p.Name.Value
			}
		}
		s.peaks(other.glass, facing(other, w))
		s.peaks(w.glass, c.edge)
		f.out.List = append(f.out.List, s)
	}
}

// facing is the edge of a back or front pane at a side, seen from outside.
func facing(other, w *wall) plate.Side {
	if (w.at == "right") == (other.at == "back") {
		return plate.Left
	}
	return plate.Right
}

// others adds beds that the pool does not load: those of panes in the top, of
// dividers and of panes that begin higher up. Doors have none.
func (f *jointFinder) others(w *wall) {
	up := w.p.Up.Value > 0
	if w.at != "top" && w.at != "inside" && !(up && (w.isSide() || w.at == "back" || w.at == "front")) {
		return
	}
	s := Joint{Name: w.p.Name.Value + ", its edges", Count: w.count, Bite: w.bite(), Of: w.p.Name.Value, Line: w.p.Pos.Line, Fillets: [2]float64{0, 1}}
	if w.at == "top" {
		s.Old = f.old(w)
	}
	wide, high := float64(w.p.Width.Value), float64(w.p.Height.Value)
	// A pane that begins higher up stands on nothing that the file names.
	if bonded(w.p.Edges.Bottom) && (!up || w.p.Edges.Bottom.Given()) {
		s.Length += wide
	}
	if w.p.Edges.Top.Value == "bonded" {
		s.Length += wide
	}
	for _, edge := range [...]design.Field[string]{w.p.Edges.Left, w.p.Edges.Right} {
		if bonded(edge) {
			s.Length += high
		}
	}
	if w.glass != nil {
		s.peaks(w.glass, plate.Left)
		low := s
		low.Loaded, low.Running, low.Brim = false, 0, [3]float64{}
		low.peaks(w.glass, plate.Bottom)
		if low.Brim[0] > s.Brim[0] {
			s = low
		}
	}
	if s.Length > 0 {
		f.out.List = append(f.out.List, s)
	}
}

// braces adds the beds of braces. One that goes across is bonded over its width
// at each end, one along an edge over its length.
func (f *jointFinder) braces() {
	seen := map[string]int{}
	for i := range f.d.Enclosure.Braces {
		b := &f.d.Enclosure.Braces[i]
		pane := b.Pane.Value
		held, across := f.named(pane), b.Runs.Value == "across"
		if held != nil && held.at == "dam" {
			pane = "dam" // by which it is known among the panes that hold water
		}
		k := seen[pane]
		seen[pane]++
		g := f.glass(pane)
		s := Joint{Name: "brace " + b.Name.Value, Count: 1, Line: b.Pos.Line, Of: "the brace"}
		switch {
		case b.Bond.Given():
			s.Bite = quantity.Exactly(float64(b.Bond.Value))
		case held != nil:
			s.Bite = held.bite()
		case g != nil:
			s.Bite = g.Thickness
		default:
			continue
		}
		switch {
		case across:
			s.Length, s.Count = float64(b.Width.Value), 2
		case b.Length.Given():
			s.Length = float64(b.Length.Value)
		case held != nil:
			s.Length = float64(held.along(b.Edge.Value).Value)
		default:
			s.Length = g.Width
		}
		s.Old = f.old(held) && b.Of.Value != ""
		if g != nil && k < len(g.Running.Braces) {
			s.Loaded = true
			s.Running = math.Abs(g.Running.Braces[k].Peak)
			for j := range g.Brim {
				if k < len(g.Brim[j].Braces) {
					s.Brim[j] = math.Abs(g.Brim[j].Braces[k].Peak)
				}
			}
		}
		f.out.List = append(f.out.List, s)
	}
}

func (f *jointFinder) named(name string) *wall {
	for i := range f.walls {
		if f.walls[i].p.Name.Value == name {
			return &f.walls[i]
		}
	}
	return nil
}

func (w *wall) along(edge string) design.Field[quantity.Length] {
	if edge == "left" || edge == "right" {
		return w.p.Height
	}
	return w.p.Width
}
