package enclosure

import "rillwright/design"

// The parts of an enclosure that matter when something goes wrong: what holds
// water back, what stops a pump, where water can creep, and the courses of
// events the builder asks about.

// Zone is a part of the pool between two heights whose displacement is its own,
// in place of Pool.Displaced: gravel below, open water above.
type Zone struct {
	Name      string
	From, To  float64 // m above the room floor, From < To
	Displaced Figure  // share of the pool's box, 0 to 1
	Pos       design.Pos
}

// Hidden is water behind grid or foam, joined to the pool by a gap.
type Hidden struct {
	Name  string
	Area  float64 // free plan area, m2, more than 0
	Floor float64 // m above the room floor
	Gap   float64 // open area of the gap to the pool, m2, more than 0
	Pos   design.Pos
}

// Soak is something on the wall that takes water up and lets it go slowly:
// moss, substrate.
type Soak struct {
	Name     string
	Holds    float64 // m3 at most
	Catches  float64 // share of the outlets' water that it meets, 0 to 1
	DrainsIn float64 // time constant of letting go, s
	Pos      design.Pos
}

// Float is a pump's float switch: it stops the pump when the water in its
// chamber falls to Off and starts it again at On.
type Float struct {
	Given   bool
	Off, On float64 // m above the room floor, Off < On
	Pos     design.Pos
}

// Timer runs a pump for On, rests it for Off, again and again, s.
type Timer struct {
	Given   bool
	On, Off float64
	Pos     design.Pos
}

// BreakHole is a hole in a run that lets air in and so stops it siphoning.
type BreakHole struct {
	Height float64 // of its centre, m above the room floor
	Size   float64 // its diameter, m; 0 for none
	Pos    design.Pos
}

// TopUp is a float valve that adds fresh water to the sump.
type TopUp struct {
	Given   bool
	Flow    float64 // m3/s when open
	Level   float64 // it shuts at this water level, m above the room floor
	Holds   float64 // m3 in its reservoir, 0 for a mains supply without end
	Chamber int     // index of the chamber it fills, 0 for a sump without chambers
	Pos     design.Pos
}

// Bridge is a hose, cord, wood, moss, mesh or other thing that hangs from one
// water to another place and can carry water there. Heights are in m above the
// room floor.
type Bridge struct {
	Name, Kind string // Kind: hose, cord, wood, moss, mesh
	From, To   Place
	Foot       float64 // its wet end
	Crest      float64 // its highest point
	End        float64 // its other end
	Bore       float64 // m, of a hose; 0 for others
	Section    float64 // m2 of what can carry water; 0 for a hose
	Length     float64 // m
	Pos        design.Pos
}

// Scenario is a course of events whose outcome the builder asks about.
type Scenario struct {
	Name  string
	Lasts float64 // s
	Steps []Step  // in the order of time
	Pos   design.Pos
}

// Step is one event of a scenario.
type Step struct {
	At    float64 // s from the beginning
	What  string  // power off, drain blocks, ...: a word of the design file
	Which string  // what it befalls, by name, "" if it needs none
	// Place is the pump, pool, sump or chamber that Which names ("sump" is its
	// first chamber); its own Index is -1 if Which names a drain, a run or
	// nothing.
	Place Place
	// Index counts in Pumps if Place is one, else in Drains or Runs, whichever
	// What speaks of; -1 for water and for nothing. A strainer that clogs is a
	// pump's if Place.Kind is AtPump and a drain's otherwise.
	Index int
	Share float64 // 0 to 1, 1 if the file leaves it out; of a top-up, how far open it sticks
	Over  float64 // s that it takes, 0 for at once
	// Flow, m3/s, of water added or taken, runs for Over, or until the end if
	// that is 0. It is 0 where Volume is given.
	Flow   float64
	Size   float64 // diameter of a hole, m
	Height float64 // m above the room floor, NaN if not given: for a hose, its lowest outside point
	Volume float64 // m3
	Pos    design.Pos
}
