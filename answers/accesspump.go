package answers

import (
	"fmt"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
)

// pumpsOut looks for the way of each pump out of the sump, by sizes that pumps have.
func (s *Survey) pumpsOut(a *Answer, l *layout.Layout) {
	sump, ok := l.Find(layout.KindSump, "sump")
	if !ok {
		return
	}
	apart := s.E.Design.Stand.Sump.Given() && !s.E.Design.Stand.Sump.Value && len(sump.Assumed) > 0
	for _, p := range l.All(layout.KindPump) {
		var fits [2]bool
		var legs []geom.Leg
		for i, size := range []float64{pumpLow, pumpHigh} {
			v := served{name: p.Name, box: pumpBox(l, p, sump.Solid.Bounds(), size), mine: func(*obstacle) bool { return false }}
			way, ok, _ := outOf(&v, s.roundSump(l, sump, apart), "", false, easyLegs)
			fits[i] = ok
			if ok {
				legs = way
			}
		}
		w := wayOut{served: served{name: p.Name, line: p.Line, tool: "its plug first, its hose off the barb"}, legs: legs, ok: fits[0]}
		text := "kept in by what stands over the sump"
		if fits[0] {
			text = strings.Split(s.wayText(&w), "; ")[0] + "; " + w.tool
		}
		a.Figures = append(a.Figures, Figure{Name: p.Name, Text: text, Words: true})
		switch {
		case !fits[0]:
			a.raise(Fails, fmt.Sprintf("The %s cannot be lifted out of the sump%s: with a hand on it even the lowest of pumps, %s, meets what stands over the rim.", p.Name, lines(p.Line, sump.Line), lengthText(pumpLow, s.E.Units)), p.Line)
		case !fits[1]:
			a.raise(Unknown, fmt.Sprintf("A pump of %s with a hand on it comes out of the sump, one of %s does not%s: measure the %s, hose end and all.", lengthText(pumpLow, s.E.Units), lengthText(pumpHigh, s.E.Units), lines(p.Line, sump.Line), p.Name), p.Line)
		}
	}
}

// pumpBox is a pump of a height with a hand on it, where it stands, as wide as it is
// high and no wider than its chamber.
func pumpBox(l *layout.Layout, p *layout.Part, sump geom.Box, size float64) geom.Box {
	at := p.Solid.Bounds().Centre()
	room := sump
	for _, c := range l.All(layout.KindChamber) {
		if c.Solid.Bounds().Has(at) {
			room = c.Solid.Bounds()
		}
	}
	b := geom.Box{Min: at, Max: at}
	for _, x := range []geom.Axis{geom.X, geom.Y} {
		half := min(size, room.Size().On(x)-4*boardWall) / 2
		b.Min, b.Max = b.Min.With(x, at.On(x)-half), b.Max.With(x, at.On(x)+half)
	}
	b.Min.Z = sump.Min.Z
	b.Max.Z = sump.Min.Z + size + handRoom
	return b
}

// roundSump is what a pump may meet: the sump's walls and those between its chambers,
// the enclosure above, and the stand's top and sides, whose front is open.
func (s *Survey) roundSump(l *layout.Layout, sump *layout.Part, apart bool) []obstacle {
	var boxes []geom.Box
	wall := func(b geom.Box, a geom.Axis, at float64) {
		b.Min, b.Max = b.Min.With(a, at), b.Max.With(a, at+boardWall)
		boxes = append(boxes, b)
	}
	in := sump.Solid.Bounds()
	rooms := []geom.Box{in}
	for _, c := range l.All(layout.KindChamber) {
		rooms = append(rooms, c.Solid.Bounds())
	}
	for _, r := range rooms {
		wall(r, geom.X, r.Min.X-boardWall)
		wall(r, geom.X, r.Max.X)
	}
	wall(in, geom.Y, in.Min.Y-boardWall)
	wall(in, geom.Y, in.Max.Y)
	wall(in, geom.Z, in.Min.Z-boardWall)
	if !apart {
		boxes = append(boxes, l.Outside)
		if stand, ok := l.Find(layout.KindStand, "stand"); ok {
			b := stand.Solid.Bounds()
			top := b
			top.Min.Z = b.Max.Z - topBoard
			boxes = append(boxes, top)
			wall(b, geom.X, b.Min.X)
			wall(b, geom.X, b.Max.X-boardWall)
			wall(b, geom.Y, b.Min.Y)
		}
	}
	return []obstacle{{what: "the sump", boxes: boxes}}
}
