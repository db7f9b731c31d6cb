package climate

import (
	"math"

	"rillwright/quantity"
	"rillwright/source"
)

// Figure is a band with where it comes from.
type Figure struct {
	quantity.Band[float64]

	Source source.Key
	Note   string // what of it is not from the source
}

// ClearDischarge returns the discharge coefficient of an open vent on its area.
func ClearDischarge() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.55, Likely: 0.6, High: 0.65}, Source: "stack-flow", Note: "width of the band assumed"}
}

// MeshDischarge returns the discharge coefficient of a vent covered with mesh, on
// its gross area; fine or dusty mesh lies low.
func MeshDischarge() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.3, Likely: 0.4, High: 0.45}, Source: "stack-flow"}
}

// EffectiveArea returns the one opening (m2) that lets through as much as two in a
// row (m2, not under 0): A1 A2/sqrt(A1^2 + A2^2).
//
// Source: stack-flow.
func EffectiveArea(a, b float64) float64 {
	less, more := min(a, b), max(a, b)
	if less == 0 {
		return 0
	}
	return less * (more / math.Hypot(a, b)) // their product could fall under the least number
}

// StackFlow returns the air (m3/s) that two openings let through because what is
// inside weighs less, or more, than the room: C_d A sqrt(2 g dz |dT_v|/T_v,room),
// with their effective area (m2), the heights apart (m), virtual temperatures of
// both sides (K). It enters low and leaves high if the inside is lighter, the other
// way if it is heavier.
//
// Source: stack-flow.
func StackFlow(discharge, area, height, inside, room float64) float64 {
	return discharge * area * math.Sqrt(2*G*height*math.Abs(inside-room)/room)
}

// stir is the difference of virtual temperature that air is never without, K: a
// room is not that still. It rounds the corner of StackFlow at 0, where its slope
// has no end, and is nothing beside 1 K. Assumed.
const stir = 0.01

// Vents are the ways of air between enclosure and room.
type Vents struct {
	Low, High float64 // gross areas of the openings, m2
	Discharge float64 // coefficient of both, 0 to 1
	Height    float64 // of the middle of the high one over that of the low one, m
	Leak      float64 // through gaps whatever the weather, m3/s
	Fan       float64 // of a fan that blows in or out, m3/s
}

// Flow returns what the vents let through (m3/s) between virtual temperatures (K)
// inside and in the room, and whether it goes down. Stack and fan add by squares,
// since they push through the same openings (stack-flow).
func (v *Vents) Flow(inside, room float64) (flow float64, down bool) {
	d := math.Hypot(inside-room, stir)
	stack := StackFlow(v.Discharge, EffectiveArea(v.Low, v.High), v.Height, room+d, room)
	return math.Hypot(stack, v.Fan) + v.Leak, inside < room
}
