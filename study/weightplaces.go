package study

import (
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/structure"
)

func point(v geom.Vec) structure.Point { return structure.Point(v) }

// place returns the middle of all parts of a kind and a name. What the layout
// could not place is taken to be in the middle of the enclosure, and said.
func (b *weigher) place(kind layout.Kind, name string) structure.Point {
	var sum geom.Vec
	n := 0.0
	for _, p := range b.at.All(kind) {
		if p.Name == name {
			sum = sum.Add(p.Solid.Bounds().Centre())
			n++
		}
	}
	if n == 0 {
		return b.nowhere(name)
	}
	return point(sum.Times(1 / n))
}

func (b *weigher) nowhere(name string) structure.Point {
	b.Unplaced = append(b.Unplaced, name)
	return point(b.at.Outside.Centre())
}

// panePlace is the middle of all panes of one entry.
func (b *weigher) panePlace(i int, name string) structure.Point {
	var sum geom.Vec
	n := 0.0
	for k := range b.at.Panes {
		if p := &b.at.Panes[k]; p.Index == i && p.Name == name {
			sum = sum.Add(p.Box.Centre())
			n++
		}
	}
	if n == 0 {
		return b.nowhere("pane " + name)
	}
	return point(sum.Times(1 / n))
}

// before moves a place away from the face that a grid panel stands at or lies on.
func before(at structure.Point, face string, by float64) structure.Point {
	switch face {
	case "left":
		at.X += by
	case "right":
		at.X -= by
	case "floor":
		at.Z += by
	default:
		at.Y += by
	}
	return at
}
