package structure

import (
	"math"

	"rillwright/quantity"
)

// FlangeClearance returns what is left (m, negative if it fouls) between the
// flange of a fitting and the toe of a sealant fillet, with the hole's centre at
// some distance (m) from the face of the pane that the fillet runs along. Derived.
func FlangeClearance(distance, flange, fillet float64) float64 {
	return distance - flange/2 - fillet
}

// NutRoom is the room to leave all round a nut for hand or spanner, m: 25 mm,
// from memory.
const NutRoom = 0.025

// NutClearance returns what is left (m, negative if it is too tight) beside a
// nut with some width across its corners when the room (m, see NutRoom) is kept,
// with the hole's centre at some distance (m) from what stands beside it.
// Derived.
func NutClearance(distance, acrossCorners, room float64) float64 {
	return distance - acrossCorners/2 - room
}

// HoleForThread returns the diameters (m) of hole through which a fitting goes
// whose thread was measured (m, outside): from 0.5 mm over, for a passage by
// hand, likely 1.5 mm, to 3 mm over (assumed, no source), and never so wide that
// less than a seat (m) of its flange (m) is left all round; ok is false if that
// leaves nothing. Measure the fitting in hand: a nominal size is no dimension.
func HoleForThread(thread, flange, seat float64) (d quantity.Band[float64], ok bool) {
	most := min(thread+0.003, flange-2*seat)
	least := thread + 0.0005
	if !positive(thread) || !(most >= least) {
		return quantity.Band[float64]{}, false
	}
	return quantity.Band[float64]{Low: least, Likely: min(thread+0.0015, most), High: most}, true
}

// ThreadForHole returns the outside diameters (m) of thread that a hole of some
// diameter (m) takes, as HoleForThread has it: from 3 mm under to 0.5 mm under,
// likely 1.5 mm under.
func ThreadForHole(d float64) quantity.Band[float64] {
	return quantity.Band[float64]{Low: d - 0.003, Likely: d - 0.0015, High: d - 0.0005}
}

// SawFor returns the hole saw, of those at hand (diameters, m, in any order),
// that lies within a band and nearest its likely value, the wider of two as near;
// ok is false if none fits.
func SawFor(d quantity.Band[float64], saws ...float64) (saw float64, ok bool) {
	for _, s := range saws {
		if s < d.Low || s > d.High {
			continue
		}
		better := math.Abs(s-d.Likely) - math.Abs(saw-d.Likely)
		if !ok || better < 0 || better == 0 && s > saw {
			saw, ok = s, true
		}
	}
	return saw, ok
}

// RoundOpening returns the least diameter (m) of a round opening through which
// a thing passes end on, with a clearance (m) all round: for a box the diagonal
// of its end, w by h (m); for a round thing give its diameter as w and 0 as h.
// Derived. A cord passes with the plug that is moulded to it.
func RoundOpening(w, h, clearance float64) float64 {
	return math.Hypot(w, h) + 2*clearance
}
