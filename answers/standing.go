package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/structure"
)

// What an enclosure should bear before it tips: a tilt, as of a floor that gives
// or a stand that is moved, and a push at its top, as of a person who stumbles.
// Assumed, no source: furniture standards ask for less and know no water.
const (
	tiltWanted = 10 * math.Pi / 180
	pushWanted = 250.0 // N
)

// Standing answers whether it may tip over its front. The stand is taken to weigh
// nothing and to be as wide and deep as the enclosure, the sump to stand apart:
// both cautious.
func (s *Survey) Standing() Answer {
	e, sys := s.E, s.E.Units
	a := Answer{ID: "standing", Question: "Can it tip over?", LimitingLine: e.Design.Enclosure.Pos.Line}
	box := e.Design.Enclosure.Outside
	if !box.Given() {
		box = e.Design.Enclosure.Inside
	}
	width, depth, height := float64(box.Width.Value), float64(box.Depth.Value), float64(box.Height.Value)
	bottom := float64(e.Design.Enclosure.Bottom.Value)
	part, water := s.standingParts(width, depth, height, bottom)
	stand := structure.StandingOn(part, 0, 0, water)
	a.Limit = Limit{
		Text: fmt.Sprintf("a tilt of %.0f degrees, and a push of %.0f N (%.0f lb) at its top", tiltWanted*180/math.Pi, pushWanted, pushWanted/4.4482216152605),
		Mark: "assumed, no source",
	}
	a.Cautions = []string{"Children climb and people stumble: fix a tall stand to the wall, whatever this says."}
	if err := stand.Check(); err != nil {
		a.Verdict, a.Say = Unknown, "It cannot be reckoned: "+err.Error()+"."
		return a
	}
	tilt, push := stand.TiltAngle(), stand.TipPush(bottom+height)
	a.Figures = append(a.Figures,
		Figure{Name: "tilt towards the front at which it goes over", Low: tilt * 180 / math.Pi, Likely: tilt * 180 / math.Pi, High: tilt * 180 / math.Pi, Unit: "deg", Text: fmt.Sprintf("%.0f degrees", tilt*180/math.Pi)},
		Figure{Name: "push at its top that begins to tip it", Low: push, Likely: push, High: push, Unit: "N", Text: fmt.Sprintf("%.0f N", push)},
		figure("centre of its weight, above the floor", quantity.Exactly(quantity.Length(part.Centre.Z)), sys),
	)
	a.Score = math.Min(tilt/tiltWanted, push/pushWanted)
	switch {
	case a.Score >= 1:
		a.Verdict, a.Say = Holds, fmt.Sprintf("Not easily: it goes over at a tilt of %.0f degrees, or by a push of %.0f N at its top.", tilt*180/math.Pi, push)
	default:
		a.Verdict, a.Say = Tight, fmt.Sprintf("It goes over at a tilt of %.0f degrees, or by a push of %.0f N at its top: fix it to the wall.", tilt*180/math.Pi, push)
	}
	return a
}

// standingParts is the enclosure as one part, with x from its front to its back
// and z from the room floor, and the pool's water, which moves.
func (s *Survey) standingParts(width, depth, height, bottom float64) (structure.Part, structure.FreeWater) {
	e := s.E
	var parts []structure.Part
	glass, _, _ := s.panesMass()
	parts = append(parts, structure.Part{Name: "panes", Mass: glass, Centre: structure.Point{X: depth / 2, Y: width / 2, Z: bottom + height/2}})
	level := s.Likely.PoolLevel - e.Pool.Floor
	mass := e.Pool.Width * e.Pool.Depth * level
	displaced := e.Likely().Of(e.Pool.Displaced)
	at := structure.Point{X: depth - e.Pool.Depth/2, Y: width / 2, Z: e.Pool.Floor + level/2}
	water := mass * (1 - displaced) * s.Likely.Density
	parts = append(parts,
		structure.Part{Name: "pool", Mass: water, Centre: at},
		structure.Part{Name: "wood and stone", Mass: mass * displaced * sunk, Centre: at},
		structure.Part{Name: "wall", Mass: e.Wall.Width * e.Wall.Height * wetWallLikely, Centre: structure.Point{X: depth * 0.9, Y: width / 2, Z: bottom + height/2}},
	)
	all, err := structure.Assemble("enclosure", parts...)
	if err != nil {
		return structure.Part{}, structure.FreeWater{}
	}
	return all, structure.FreeWater{Length: e.Pool.Depth, Depth: math.Max(level, 1e-3), Mass: water}
}
