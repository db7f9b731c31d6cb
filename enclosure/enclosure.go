// Package enclosure holds what is to be built, resolved: every part looked up,
// every height above one datum (the room floor), every figure in SI, what is
// known only roughly kept as a Doubt. It is read-only after Resolve.
//
// Nothing is computed here beyond adding heights and finding parts; what the
// water does is worked out in package study.
package enclosure

import (
	"math"
	"strconv"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/quantity"
)

// Enclosure is one resolved design. Lengths are in m, heights in m above the
// room floor.
type Enclosure struct {
	Name   string
	Units  quantity.System
	Design *design.Design
	Parts  *catalogue.Catalogue // that its parts were looked up in
	Steps  string               // the builder's own table of steps, "" for the usual one
	Doubts []Doubt
	// Assumed lists what the file leaves open and was therefore assumed, in
	// words, beside the Doubts.
	Assumed []Assumption

	WaterTemperature Figure // C
	Wall             Wall
	Pool             Pool
	Sump             Sump
	Pumps            []Pump
	Shelf            []ShelfPump
	Manifolds        []Manifold
	Tees             []Tee
	Runs             []Run
	Drains           []Drain
	Joints           []Joint
	TopUp            TopUp
	Bridges          []Bridge
	Ways             []Way
	Scenarios        []Scenario

	// Shared multipliers for the doubt about formulas.
	Friction, Fittings, TeeLoss, WallTap, StrainerDirt Figure
	// WaterLost is the share of the outlets' water that does not reach the
	// pool.
	WaterLost Figure
	// FilmHoldUp is the water held by the wet wall, m3 for each m2.
	FilmHoldUp Figure
	// PumpWear is the speed of a worn pump as a share of new.
	PumpWear Figure
	// Evaporation is the depth that open wet area loses, m/s.
	Evaporation Figure
}

// Assumption is something the file does not say and the program took.
type Assumption struct {
	What, Value, Why string
	Field            string // the key that would say it
}

// Wall is the planted wall.
type Wall struct {
	Width, Height float64
	Look          string  // irrigate, trickle, sheet
	Target        float64 // m2/s, 0 if not given
	Soaks         []Soak
	Pos           design.Pos
}

// Pool is the standing water.
type Pool struct {
	Width, Depth float64
	Floor        float64
	DamTop       float64
	DamWidth     float64 // over which it spills
	Displaced    Figure
	Zones        []Zone // by height, none over another
	Hidden       []Hidden
	Pos          design.Pos
}

// Sump is the pump's box.
type Sump struct {
	Width, Depth, Height float64
	Bottom               float64
	Level                float64 // water surface in the pump's chamber
	Running              bool    // that level is while the pump runs
	Chambers             []Chamber
	Pos                  design.Pos
}

// Chamber is one part of the sump with the baffle downstream of it.
type Chamber struct {
	Name        string
	Length      float64
	Over, Under float64 // height above the sump's bottom, 0 for none
}

// Pump is one pump.
type Pump struct {
	Name         string
	Curve        Curve
	Speed        float64
	InSump       bool
	Inlet        float64 // lowest water height it runs at
	Outlet       catalogue.End
	OutletBore   float64 // 0 if not known
	StrainerK    float64 // velocity heads in the outlet bore, clean
	StrainerLoss float64 // m per (m3/s)^2, from a measured loss
	// What faults take, 0 in a sound pump: OutletLoss is of its outlet grown
	// narrow, m per (m3/s)^2, AirHead of air locked in its hose, m.
	OutletLoss, AirHead float64
	Power               float64
	Price               quantity.Money
	Float               Float
	Timer               Timer
	Pos                 design.Pos
}

// Curve is a pump's curve: from a label (with its shape in doubt) or from
// points.
type Curve struct {
	HMax, QMax float64
	Shape      Figure // exponent of Q/QMax; label only
	Flow, Head []float64
	Label      bool
}

// ShelfPump is a pump that could take the place of the one in the design.
type ShelfPump struct {
	Name  string
	Curve Curve
	Price quantity.Money
}

// Manifold is a drip manifold.
type Manifold struct {
	Name       string
	Part       string
	Pipe       catalogue.Part // zero if the file names none
	Bore       Figure
	Roughness  float64
	Length     float64
	Height     float64
	LevelError Figure    // of one end over the other
	Ring       float64   // length of the return leg, 0 for capped ends
	Feeds      []float64 // distance of each feed from the left end
	Outlets    []Outlet
	Groups     []OutletGroup
	Inlet      catalogue.End
	Pos        design.Pos
}

// OutletGroup is a group of equal outlets as designed.
type OutletGroup struct {
	Count     int
	Pitch     float64
	Hole      Figure // m; 0 for emitters
	HoleError float64
	Wall      float64 // of the pipe where the holes are; 0 if not known
	Discharge Figure  // discharge coefficient at high Reynolds number
	EmitterK  float64 // q = K h^X
	EmitterX  float64
	Cv        float64 // spread from one outlet to the next
	Pos       design.Pos
}

// Outlet is one outlet: its place along the manifold and its group.
type Outlet struct {
	At    float64
	Group int
}

// Tee is where runs meet.
type Tee struct {
	Name   string
	Bore   float64
	Branch string
	Height float64
	Ends   []catalogue.End // the two in line, then the side one; nil if not known
	Pos    design.Pos
}

// Run is plumbing from one place to another.
type Run struct {
	Name      string
	From, To  Place
	At        float64 // for a manifold: distance of the feed from its left end
	FromAt    float64
	EndHeight float64 // of an open end
	Pieces    []Piece
	Heads     float64 // velocity heads besides
	Crest     float64 // highest point of its path, NaN if not given
	BreakHole BreakHole
	Pos       design.Pos
}

// PlaceKind is what a run joins.
type PlaceKind int

// The places.
const (
	AtPump PlaceKind = iota
	AtTee
	AtManifold
	AtPool
	AtSump
	AtFloor // the room floor; only bridges end there
)

// Place is one end of a run.
type Place struct {
	Kind  PlaceKind
	Index int
	Name  string
}

// Piece is one part of a run or drain.
type Piece struct {
	Name      string
	Kind      catalogue.Kind
	Bore      Figure
	Length    float64
	Roughness float64
	Count     int
	Loss      catalogue.Loss
	Open      float64 // 0 to 1
	Gate      bool    // throttles like a gate rather than a cock
	Kv        float64 // m3/s at 1 bar, 0 if not given
	OneWay    bool
	// Flat says that a drain pipe lies nearly flat, falling by Fall; others
	// share what height is left.
	Flat bool
	Fall float64
	Ends []catalogue.End
	Part catalogue.Part
	Pos  design.Pos
}

// Drain is one way out of the pool.
type Drain struct {
	Name         string
	Kind         string // standpipe, wall opening, floor opening
	Lip          float64
	LipBore      Figure
	Standpipe    catalogue.Part // zero if the file names none
	Bulkhead     Figure         // bore
	BulkheadAt   float64        // height of its axis
	Intake       Figure
	StrainerArea float64 // open area as a multiple of the mouth's; 0 for no strainer
	StrainerLoss float64 // m per (m3/s)^2
	Vented       bool
	Hole         design.Hole
	Part         catalogue.Part
	To           Place // sump or tee
	Chamber      int
	End          float64 // height of its lower end
	Pieces       []Piece
	Pos          design.Pos
}

// Joint is two ends that meet.
type Joint struct {
	Where string // "riser: vinyl hose 16 mm to ball valve 16 mm"
	A, B  catalogue.End
	OK    bool
	Known bool // both ends are known
	Why   string
	Say   string   // the field that would tell an end that is not known
	Help  []string // adapters that would join them
	Pos   design.Pos
}

func trim(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}
