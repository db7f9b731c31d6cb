package answers

import "rillwright/quantity"

// Limits of the trade. Each says how far to trust it.

// look is the range of flow for each width of wall that gives a look, m2/s.
type look struct {
	name      string
	low, high float64
	mark      string
}

const perHourMetre = 1e-3 / 3600 // L/h for each m, in m2/s

// lookOf returns the flow range of a look. Figures from memory of the trade: a
// rough porous face stays wet from about 80 L/h per m, drips and rills show
// from 200 and splash from 700; a closed film over a lip takes some 7,450.
func lookOf(name string) look {
	switch name {
	case "irrigate":
		return look{"irrigating plants", 20 * perHourMetre, 200 * perHourMetre, "from memory of the trade"}
	case "sheet":
		return look{"a closed sheet", 7450 * perHourMetre, 29800 * perHourMetre, "pond trade, 50 to 200 US gal/h per inch of lip"}
	}
	return look{"visible drips and rills", 200 * perHourMetre, 700 * perHourMetre, "from memory of the trade"}
}

const (
	// A drain takes at least this many times the pump's open-valve flow.
	drainFactor = 2.0
	// Low-quarter uniformity.
	evenGood, evenFair = 0.80, 0.70
	// Outlet area over the manifold's bore area.
	areaShare = 0.5
	// Head at the outlets over the manifold's level error.
	levelFactor = 10.0
	// Head at the outlets over that which a hole needs to start.
	capillaryFactor = 2.0
)

// freeboards returns the freeboard to keep at the dam with the valves open and
// while running as set, m: 15 and 25 mm, or 5/8 and 1 in. From memory of the
// trade.
func freeboards(sys quantity.System) (least, good float64) {
	if sys == quantity.US {
		return 5.0 / 8 * inch, inch
	}
	return 0.015, 0.025
}

// pitchOf returns the usual pitch of outlets for a look, m: 25 to 50 mm (1 to 2
// in) for a wall that must look wet, 75 to 150 mm (3 to 6 in) for plants only.
// From memory of the trade.
func pitchOf(name string, sys quantity.System) (low, high float64) {
	unit := 0.025
	if sys == quantity.US {
		unit = inch
	}
	if name == "irrigate" {
		return 3 * unit, 6 * unit
	}
	return unit, 2 * unit
}

// drillSizes are the drills at hand for outlets, m.
func drillSizes(sys quantity.System) []float64 {
	if sys == quantity.US {
		return []float64{inch / 16, 5 * inch / 64, 3 * inch / 32, 7 * inch / 64, inch / 8}
	}
	return []float64{1.5e-3, 2e-3, 2.5e-3, 3e-3, 3.5e-3}
}

func electricalCaution() string {
	return "Mains power near water: use an RCD or GFCI and a drip loop on every cord; wiring changes belong to a licensed electrician."
}
