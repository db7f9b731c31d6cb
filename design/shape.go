package design

import (
	"rillwright/document"
	"rillwright/quantity"
)

// The shape of a design file. Tags:
//
//	yaml     the key as written in the file
//	need     "yes": the key must be there wherever its section is
//	words    the words allowed, separated by |
//	range    least and most in SI units, "[0,1)" takes in 0 and leaves out 1;
//	         see defaultRange for what holds without it
//	doc      one sentence for the schema and for error messages
//
// Every list entry that can be referred to has a Name; names are unique within
// the whole file, since a run of pipe may go from any of them to any other.

type (
	// Field is one value of a file, with its text as typed and its place.
	Field[T any] = document.Field[T]
	// Pos is a place in a file.
	Pos = document.Pos
)

type (
	length   = quantity.Length
	flow     = quantity.Flow
	ratio    = quantity.Ratio
	perWidth = quantity.FlowPerWidth

	// LengthBand is a length known only roughly.
	LengthBand = quantity.Band[quantity.Length]
	flowBand   = quantity.Band[quantity.Flow]
	ratioBand  = quantity.Band[quantity.Ratio]
	tempBand   = quantity.Band[quantity.Temperature]
)

// Design is one enclosure as its builder wrote it down.
type Design struct {
	Pos       Pos           `yaml:"-"`
	Format    Field[int]    `yaml:"rillwright" need:"yes" doc:"Version of this file format: 1."`
	Name      Field[string] `yaml:"name" need:"yes" doc:"What you call this build."`
	Units     Field[string] `yaml:"units" words:"metric|us" need:"yes" doc:"Units that results are shown in: metric or us."`
	Notes     Field[string] `yaml:"notes" doc:"Anything you want to remember."`
	Parts     Field[string] `yaml:"parts" doc:"Your own parts file, beside this file."`
	Place     Place         `yaml:"place" doc:"The room: air, water temperature, floor, power."`
	Occupants []Occupant    `yaml:"occupants" doc:"Who lives in it; leave out for plants only."`
	Enclosure Enclosure     `yaml:"enclosure" need:"yes" doc:"The glass box or cabinet."`
	Wall      Wall          `yaml:"wall" doc:"The planted wall that the water trickles down."`
	Pool      Pool          `yaml:"pool" need:"yes" doc:"The water standing behind the dam."`
	Dam       Dam           `yaml:"dam" doc:"The low pane that holds the pool."`
	Sump      Sump          `yaml:"sump" need:"yes" doc:"The box the pump stands in."`
	Pumps     []Pump        `yaml:"pumps" need:"yes" doc:"Every pump."`
	Shelf     []Pump        `yaml:"shelf" doc:"Other pumps you could buy or have, to choose from."`
	Manifolds []Manifold    `yaml:"manifolds" doc:"Every drip manifold (spray bar) and its outlets."`
	Tees      []Tee         `yaml:"tees" doc:"Every place where pipes join or split."`
	Runs      []Run         `yaml:"runs" need:"yes" doc:"Every length of hose or pipe on the supply side, from where to where."`
	Drains    []Drain       `yaml:"drains" need:"yes" doc:"Every way the water leaves the pool by itself."`
	TopUp     TopUp         `yaml:"top-up" doc:"A float valve that lets fresh water into the sump."`
	Bridges   []Bridge      `yaml:"bridges" doc:"Hoses, cords, wood, moss and mesh that hang out of the water and may carry it where it should not go."`
	Grid      []GridPanel   `yaml:"grid" doc:"Lighting-grid panels that carry the wall."`
	Hardscape []Hardscape   `yaml:"hardscape" doc:"Pieces of wood and rock: what each weighs and what it hangs on."`
	Sealant   Sealant       `yaml:"sealant" doc:"The sealant in hand and how it is laid."`
	Stand     Stand         `yaml:"stand" doc:"What the enclosure stands on."`
	Lights    []Light       `yaml:"lights" doc:"Lamps."`
	Heater    Heater        `yaml:"heater" doc:"A heater in the water."`
	Fan       Fan           `yaml:"fan" doc:"A fan that changes the air inside."`
	Vents     []Vent        `yaml:"vents" doc:"Openings for air that are not cut into a pane: strips of mesh between panes."`
	Misting   Misting       `yaml:"misting" doc:"Fog or spray into the air, from a bottle of its own."`
	Water     Water         `yaml:"water" doc:"What is dissolved in your water, and how it is changed."`
	Foam      []Foam        `yaml:"foam" doc:"Expanding foam: how much of it."`
	Coat      []Coat        `yaml:"coat" doc:"Sealant spread over foam for its texture."`
	Fill      []Fill        `yaml:"fill" doc:"Clay balls, bark, gravel and soil: what lies where."`
	Plants    []Plants      `yaml:"plants" doc:"Plants to be bought."`
	Buy       []Wanted      `yaml:"buy" doc:"Whatever else is to be bought: a tank, an adapter."`
	Stock     []StockItem   `yaml:"stock" doc:"What you already have, and offcuts."`
	Budget    Budget        `yaml:"budget" doc:"Money, working hours and dates."`
	Assume    Assume        `yaml:"assume" doc:"Your own figures in place of the program's assumptions."`
	Scenarios []Scenario    `yaml:"scenarios" doc:"What may go wrong, step by step, to see where the water goes."`
	Done      []DoneStep    `yaml:"done" doc:"Steps of the build that are done, and when."`
	AsBuilt   []AsBuilt     `yaml:"as-built" doc:"Measured facts that override the plan above."`

	overrides []Override
}

// Place is the room.
type Place struct {
	Pos      Pos              `yaml:"-"`
	Air      Field[tempBand]  `yaml:"air" range:"[-30,60]" doc:"Room air, coldest to warmest: 18 to 24 C."`
	Humidity Field[ratioBand] `yaml:"humidity" range:"(0,1]" doc:"Relative humidity of the room's air: 35 to 60 %."`
	Water    Field[tempBand]  `yaml:"water" range:"[0,40]" doc:"Water in the circuit, coldest to warmest: 20 to 26 C."`
	Floor    Field[string]    `yaml:"floor" doc:"What the floor is and which way its joists run."`
	Power    Field[string]    `yaml:"power" doc:"Socket and its protection (RCD or GFCI)."`
	Where    Field[string]    `yaml:"where" doc:"Where it will stand."`
	Reach    Field[length]    `yaml:"reach" range:"(0,2]" doc:"How far your arm reaches to a grip, shoulder to hand."`
}

// Occupant is an animal or plant group.
type Occupant struct {
	Pos  Pos           `yaml:"-"`
	Kind Field[string] `yaml:"kind" need:"yes" doc:"Plants, or the animal group."`
	When Field[string] `yaml:"when" doc:"From when."`
}

// Box is three sizes.
type Box struct {
	Pos    Pos           `yaml:"-"`
	Width  Field[length] `yaml:"width" need:"yes" doc:"Left to right."`
	Depth  Field[length] `yaml:"depth" need:"yes" doc:"Front to back."`
	Height Field[length] `yaml:"height" need:"yes" doc:"Bottom to top."`
}

// Given reports whether the file has the section.
func (b Box) Given() bool { return b.Pos.Line > 0 }

// Wall is the planted wall.
type Wall struct {
	Pos    Pos             `yaml:"-"`
	Width  Field[length]   `yaml:"width" need:"yes" doc:"Wetted width."`
	Height Field[length]   `yaml:"height" doc:"Height of the planted face."`
	Look   Field[string]   `yaml:"look" words:"irrigate|trickle|sheet" need:"yes" doc:"irrigate: plants only; trickle: visible drips and rills; sheet: a closed film."`
	Target Field[perWidth] `yaml:"target" doc:"Flow you want for each width: 400 L/h per m."`
	Soaks  []Soak          `yaml:"soaks" doc:"Moss, substrate and the like that takes up water and lets it go slowly."`
}

// Pool is the standing water behind the dam. Heights are above its own floor.
type Pool struct {
	Pos       Pos              `yaml:"-"`
	Width     Field[length]    `yaml:"width" need:"yes" doc:"Inside width."`
	Depth     Field[length]    `yaml:"depth" need:"yes" doc:"Inside, from the dam to the back."`
	Floor     Field[length]    `yaml:"floor" range:"[0,20]" doc:"Height of its floor above the enclosure's inside bottom; 0 if left out."`
	Displaced Field[ratioBand] `yaml:"displaced" range:"[0,1)" doc:"Share of the box taken by wood, rock, foam: 35 %."`
	Zones     []Zone           `yaml:"zones" doc:"Heights between which another share of the box is taken: gravel."`
	Hidden    []Hidden         `yaml:"hidden" doc:"Water behind grid or foam, joined to the pool by a gap and not counted in its width and depth."`
}

// Sump is the box the pump stands in. Heights are above its own inside bottom.
type Sump struct {
	Pos      Pos           `yaml:"-"`
	Inside   Box           `yaml:"inside" need:"yes" doc:"Inside sizes of the box."`
	Bottom   Field[length] `yaml:"bottom" need:"yes" range:"[-20,20]" doc:"Height of its inside bottom above the room floor."`
	Water    SumpWater     `yaml:"water" need:"yes" doc:"How full it is, and when."`
	Left     Field[length] `yaml:"left" range:"[-20,20]" doc:"Its inside left end, to the right of the enclosure's; less than 0 if it is left of it. Under the middle if left out."`
	Front    Field[length] `yaml:"front" range:"[-20,20]" doc:"Its inside front, in front of the enclosure's inside back. Under the middle if left out."`
	Chambers []Chamber     `yaml:"chambers" doc:"Chambers in the order the water passes them; leave out for one open box."`
}

// SumpWater is the sump's fill.
type SumpWater struct {
	Pos   Pos           `yaml:"-"`
	Level Field[length] `yaml:"level" need:"yes" doc:"Water level above the sump's bottom, in the pump's chamber."`
	When  Field[string] `yaml:"when" words:"running|stopped" need:"yes" doc:"Whether that level is while the pump runs or after it stood still."`
}

// Chamber is one part of the sump; the baffle is the one it has downstream.
type Chamber struct {
	Pos    Pos           `yaml:"-"`
	Name   Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Length Field[length] `yaml:"length" need:"yes" doc:"Along the sump's width."`
	Over   Field[length] `yaml:"over" doc:"Water leaves over a baffle with its top at this height."`
	Under  Field[length] `yaml:"under" doc:"Water leaves under a baffle through a gap this high."`
}

// Pump is one pump, from the catalogue, from its label or by a measured curve.
type Pump struct {
	Pos       Pos                   `yaml:"-"`
	Name      Field[string]         `yaml:"name" need:"yes" doc:"Its name."`
	Part      Field[string]         `yaml:"part" doc:"A pump from the catalogue or your parts file."`
	Label     PumpLabel             `yaml:"label" doc:"The two figures on the box."`
	Curve     []CurvePoint          `yaml:"curve" doc:"A measured or printed curve, at least two points."`
	CurveFile Field[string]         `yaml:"curve-file" doc:"The same as a CSV file beside this one, with columns flow and head, units in the heading."`
	In        Field[string]         `yaml:"in" doc:"The sump chamber it stands in, or 'sump'; leave out if a run feeds it."`
	Inlet     Field[length]         `yaml:"inlet" range:"[0,20]" doc:"Lowest water above the sump's bottom at which it still pumps."`
	Outlet    Field[string]         `yaml:"outlet" doc:"Its outlet: barb 1/2 in, thread G 1/2 male."`
	Bore      Field[length]         `yaml:"outlet-bore" doc:"Inside of the outlet nozzle, measured."`
	Power     Field[quantity.Power] `yaml:"power" doc:"Watts on the label."`
	Strainer  Strainer              `yaml:"strainer" doc:"Sponge or cage over the inlet."`
	Speed     Field[ratio]          `yaml:"speed" range:"(0,1]" doc:"Speed setting as a share of full; 100 % if left out."`
	Float     Float                 `yaml:"float" doc:"A float switch that stops the pump when its water is low."`
	Timer     Timer                 `yaml:"timer" doc:"A timer that runs the pump by turns."`
	Price     Field[quantity.Money] `yaml:"price" doc:"What it costs."`
}

// PumpLabel is the two figures on a pump's box; neither is a working point.
type PumpLabel struct {
	Pos  Pos           `yaml:"-"`
	Flow Field[flow]   `yaml:"flow" need:"yes" doc:"Largest flow, at no lift."`
	Head Field[length] `yaml:"head" need:"yes" doc:"Largest lift, at no flow."`
}

// Given reports whether the file has the section.
func (l PumpLabel) Given() bool { return l.Pos.Line > 0 }

// CurvePoint is one point of a pump curve.
type CurvePoint struct {
	Pos  Pos           `yaml:"-"`
	Flow Field[flow]   `yaml:"flow" need:"yes" range:"[0,1]" doc:"Flow."`
	Head Field[length] `yaml:"head" need:"yes" range:"[0,100]" doc:"Head at that flow."`
}

// Strainer is anything the water must pass to get into an opening.
type Strainer struct {
	Pos      Pos           `yaml:"-"`
	Part     Field[string] `yaml:"part" doc:"A strainer from the catalogue."`
	OpenArea Field[ratio]  `yaml:"open-area" range:"(0,1000]" doc:"Its open area as a multiple of the pipe's: 400 %."`
	Loss     Field[length] `yaml:"loss" range:"[0,20]" doc:"Head it costs, if measured."`
	At       Field[flow]   `yaml:"at" doc:"The flow at which that loss was measured."`
}

// Given reports whether the file has the section.
func (s Strainer) Given() bool { return s.Pos.Line > 0 }

// Manifold is a drip manifold. Its height is that of its outlets above the
// enclosure's inside bottom.
type Manifold struct {
	Pos        Pos               `yaml:"-"`
	Name       Field[string]     `yaml:"name" need:"yes" doc:"Its name."`
	Part       Field[string]     `yaml:"part" doc:"The pipe it is made of."`
	Bore       Field[LengthBand] `yaml:"bore" doc:"Inside of that pipe, if measured."`
	Length     Field[length]     `yaml:"length" need:"yes" doc:"End to end."`
	Height     Field[length]     `yaml:"height" need:"yes" doc:"Height of its outlets above the enclosure's inside bottom."`
	Left       Field[length]     `yaml:"left" range:"[-20,20]" doc:"Its left end from the enclosure's inside left; in the middle if left out."`
	Out        Field[length]     `yaml:"out" range:"[0,20]" doc:"Its middle line from the inside of the back pane."`
	LevelError Field[length]     `yaml:"level-error" range:"[0,1]" doc:"How far one end may be above the other when hung."`
	Inlet      Field[string]     `yaml:"inlet" doc:"The end that the hose or pipe is joined to: barb 16 mm, socket 20 mm."`
	Feed       Field[string]     `yaml:"feed" words:"left|centre|right|both ends" doc:"Where the water enters."`
	Ends       Field[string]     `yaml:"ends" words:"capped|joined" doc:"capped, or joined into a ring by a return leg of the same pipe."`
	Ring       Field[length]     `yaml:"ring" doc:"Length of that return leg."`
	Wall       Field[length]     `yaml:"pipe-wall" doc:"Thickness of the pipe's wall where the holes are."`
	Outlets    []Outlets         `yaml:"outlets" need:"yes" doc:"Groups of equal outlets, from the left."`
}

// Outlets is a group of equal outlets at an even pitch.
type Outlets struct {
	Pos       Pos           `yaml:"-"`
	Count     Field[int]    `yaml:"count" need:"yes" doc:"How many."`
	Pitch     Field[length] `yaml:"pitch" doc:"Centre to centre; needed for more than one."`
	First     Field[length] `yaml:"first" range:"[0,100]" doc:"From the manifold's left end to the first one; the group is centred if left out."`
	Hole      Field[length] `yaml:"hole" doc:"Hole size, as drilled."`
	HoleError Field[length] `yaml:"hole-error" range:"[0,0.1]" doc:"How far a hole may be off that size."`
	Emitter   Field[string] `yaml:"emitter" doc:"An emitter from the catalogue, in place of a hole."`
	Blocked   Field[int]    `yaml:"blocked" range:"[0,1000000]" doc:"How many of them are known to be blocked."`
}

// Tee is a place where pipes join or split.
type Tee struct {
	Pos    Pos           `yaml:"-"`
	Name   Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Part   Field[string] `yaml:"part" doc:"A tee from the catalogue."`
	Bore   Field[length] `yaml:"bore" doc:"Inside of the tee, if measured."`
	Branch Field[string] `yaml:"branch" doc:"Name of the run on its side leg; the others go straight through."`
	Height Field[length] `yaml:"height" range:"[-20,20]" doc:"Height above the enclosure's inside bottom."`
}

// Run is a length of plumbing from one named thing to another: from a pump, tee
// or manifold to a tee, manifold, pump, the pool, the sump or one of its chambers.
type Run struct {
	Pos       Pos           `yaml:"-"`
	Name      Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	From      Field[string] `yaml:"from" need:"yes" doc:"Pump, tee, manifold or drain it comes from."`
	To        Field[string] `yaml:"to" need:"yes" doc:"Tee, manifold, pump, pool, sump or sump chamber it goes to."`
	At        Field[string] `yaml:"at" words:"left|centre|right" doc:"Which point of a manifold it feeds, if there are several."`
	EndHeight Field[length] `yaml:"end-height" range:"[0,20]" doc:"Height of its open end above the enclosure's inside bottom (pool) or the sump's bottom (sump)."`
	Pieces    []Piece       `yaml:"pieces" need:"yes" doc:"What the water passes, in order."`
	Heads     Field[ratio]  `yaml:"velocity-heads" range:"[0,1000]" doc:"Other losses, as a number of velocity heads."`
	Crest     Field[length] `yaml:"crest" range:"[-20,20]" doc:"Highest point of its path above the enclosure's inside bottom."`
	BreakHole BreakHole     `yaml:"break-hole" doc:"A small hole that lets air in, so that the run cannot siphon the pool."`
}

// Piece is one hose, pipe, fitting or valve of a run.
type Piece struct {
	Pos    Pos               `yaml:"-"`
	Part   Field[string]     `yaml:"part" need:"yes" doc:"A part from the catalogue or your parts file."`
	Length Field[length]     `yaml:"length" doc:"Length, for hose and pipe."`
	Count  Field[int]        `yaml:"count" doc:"How many alike; one if left out."`
	Open   Field[ratio]      `yaml:"open" range:"[0,1]" doc:"How far a valve is open; 100 % if left out."`
	Bore   Field[LengthBand] `yaml:"bore" doc:"Inside diameter, if measured."`
	Fall   Field[length]     `yaml:"fall" range:"[0,20]" doc:"How much lower its far end is, for a drain pipe that lies nearly flat."`
	Bend   Field[length]     `yaml:"bend" doc:"Radius of the tightest bend of a hose, to its middle line."`
	Kv     Field[flow]       `yaml:"kv" doc:"Flow at 1 bar, if the maker gives it."`
}

// Drain is one way out of the pool by gravity. Heights are above the pool's
// floor unless said otherwise.
type Drain struct {
	Pos       Pos               `yaml:"-"`
	Name      Field[string]     `yaml:"name" need:"yes" doc:"Its name."`
	Kind      Field[string]     `yaml:"kind" words:"standpipe|wall opening|floor opening" need:"yes" doc:"standpipe: upright pipe whose lip sets the level; wall opening: a bulkhead through a side; floor opening: a bulkhead in the floor."`
	Lip       Field[length]     `yaml:"lip" need:"yes" range:"[0,20]" doc:"Height of the standpipe's lip; for a wall opening, its lowest wet point; for a floor opening 0."`
	Part      Field[string]     `yaml:"part" doc:"The bulkhead, from the catalogue."`
	Bore      Field[LengthBand] `yaml:"bore" doc:"Smallest inside of the bulkhead, if measured."`
	Standpipe Field[string]     `yaml:"standpipe" doc:"The pipe that stands up, from the catalogue; its bore is the lip's."`
	LipBore   Field[LengthBand] `yaml:"lip-bore" doc:"Inside of the standpipe at its lip, if measured."`
	Strainer  Strainer          `yaml:"strainer" doc:"What keeps leaves out."`
	Vented    Field[bool]       `yaml:"vented" doc:"Whether air can get in at its top, so that it cannot siphon."`
	Hole      Hole              `yaml:"hole" doc:"The hole in the glass."`
	To        Field[string]     `yaml:"to" need:"yes" doc:"Sump, a chamber, or a tee where drains join."`
	EndHeight Field[length]     `yaml:"end-height" range:"[0,20]" doc:"Height of its lower end above the sump's bottom; below the water it counts as drowned."`
	Pieces    []Piece           `yaml:"pieces" doc:"Pipe and fittings from the bulkhead down."`
}

// StockItem is something already on the shelf.
type StockItem struct {
	Pos   Pos                   `yaml:"-"`
	What  Field[string]         `yaml:"what" need:"yes" doc:"What it is."`
	Count Field[int]            `yaml:"count" range:"[0,1000000]" doc:"How many."`
	Size  Field[string]         `yaml:"size" doc:"Its size, as on the label."`
	Paid  Field[quantity.Money] `yaml:"paid" doc:"What all of it cost, if the budget has to bear that."`
}

// Budget is money and time.
type Budget struct {
	Pos      Pos                   `yaml:"-"`
	Money    Field[quantity.Money] `yaml:"money" doc:"What it may cost: 650 EUR."`
	Start    Field[string]         `yaml:"start" doc:"First day, as 2026-01-31."`
	Deadline Field[string]         `yaml:"deadline" doc:"Day it must run, as 2026-01-31."`
	Week     []WorkHours           `yaml:"week" doc:"When you can work: days of the week with their hours."`
	Hours    Field[WeekHours]      `yaml:"hours" doc:"In place of week, the same in words: Tuesday and Thursday evenings, Saturdays 9:00-17:00."`
	Off      []DaysOff             `yaml:"off" doc:"Holidays and other days on which nobody works."`
	Helper   []HelperHours         `yaml:"helper" doc:"When a second pair of hands can come; whenever you work if left out."`
	Comes    []Delivery            `yaml:"deliveries" doc:"What has to come, and when."`
	Delivery Field[Lead]           `yaml:"delivery" doc:"In place of an entry of deliveries, how long the glass takes."`
	Workshop Workshop              `yaml:"workshop" doc:"The air in which joints cure, if it is not that of the place."`
	Steps    Field[string]         `yaml:"steps-file" doc:"Your own table of steps, as a CSV file beside this one; rillwright plan --table prints the usual one to start from."`
	Prices   []Price               `yaml:"prices" doc:"Prices you know."`
	File     Field[string]         `yaml:"price-file" doc:"More of them, as a CSV file beside this one with columns what, pack, price, shop and note."`
	Spares   Field[bool]           `yaml:"spares" doc:"no leaves spare elbows and gaskets off the list; yes if left out."`
}

// Price is one price the builder knows.
type Price struct {
	Pos   Pos                   `yaml:"-"`
	What  Field[string]         `yaml:"what" need:"yes" doc:"What."`
	Price Field[quantity.Money] `yaml:"price" need:"yes" doc:"How much."`
	Pack  Field[string]         `yaml:"pack" doc:"What one pack holds: 300 ml, 5 m, 10 pieces; lot if the price is for all of it; one as usually sold if left out."`
	Shop  Field[string]         `yaml:"shop" doc:"Where."`
	Note  Field[string]         `yaml:"note" doc:"Anything you want to remember."`
}

// Assume holds the builder's own figures for what the program must otherwise
// assume; each is a band.
type Assume struct {
	Pos           Pos                                   `yaml:"-"`
	HoleDischarge Field[ratioBand]                      `yaml:"hole-discharge" range:"(0,1]" doc:"Discharge coefficient of a drilled outlet: 0.61 to 0.80."`
	PumpWear      Field[ratioBand]                      `yaml:"pump-wear" range:"(0,1]" doc:"Speed of the worn pump as a share of new: 85 %."`
	FittingLoss   Field[ratioBand]                      `yaml:"fitting-loss" range:"(0,10]" doc:"Multiplier on fitting losses: 0.7 to 1.4."`
	DrainIntake   Field[ratioBand]                      `yaml:"drain-intake" range:"(0,1]" doc:"Discharge coefficient of a drain's opening: 0.55 to 0.62."`
	FilmHoldUp    Field[quantity.Band[quantity.Length]] `yaml:"film-hold-up" range:"[0,0.1]" doc:"Water held by the wet wall as a depth over it: 2 to 5 mm (litres for each square metre)."`
	PoolLost      Field[ratioBand]                      `yaml:"splash-lost" range:"[0,1)" doc:"Share of the water that leaves as splash or soaks away: 0 to 2 %."`
	Evaporation   Field[speedBand]                      `yaml:"evaporation" range:"[0,1e-5]" doc:"Depth that open wet area loses to the air: 2 to 6 mm/day."`
}

// AsBuilt is a measured fact that overrides what the plan says.
type AsBuilt struct {
	Pos  Pos           `yaml:"-"`
	Of   Field[string] `yaml:"of" need:"yes" doc:"Which figure: drains[main drain].lip."`
	Is   Field[string] `yaml:"is" need:"yes" doc:"What was measured: 152 mm."`
	On   Field[string] `yaml:"on" doc:"When, as 2026-01-31."`
	Note Field[string] `yaml:"note" doc:"How it was measured."`
}
