package design

import "rillwright/quantity"

// What matters when something goes wrong: what holds water back, what stops a
// pump, where water can creep, and the courses of events to look at. The rest of
// the file's shape is in shape.go, with what the tags mean.

type (
	area      = quantity.Area
	volume    = quantity.Volume
	duration  = quantity.Duration
	speedBand = quantity.Band[quantity.Speed]
)

// Zone is a part of the pool between two heights above its floor.
type Zone struct {
	Pos       Pos              `yaml:"-"`
	Name      Field[string]    `yaml:"name" need:"yes" doc:"Its name: gravel."`
	From      Field[length]    `yaml:"from" need:"yes" range:"[0,20]" doc:"Where it begins, above the pool's floor."`
	To        Field[length]    `yaml:"to" need:"yes" doc:"Where it ends, above the pool's floor."`
	Displaced Field[ratioBand] `yaml:"displaced" need:"yes" range:"[0,1)" doc:"Share of the box taken between these heights, in place of the pool's own figure: 40 to 50 %."`
}

// Hidden is water behind grid or foam, beside the pool's own box.
type Hidden struct {
	Pos       Pos           `yaml:"-"`
	Name      Field[string] `yaml:"name" need:"yes" doc:"Its name: behind the grid."`
	Width     Field[length] `yaml:"width" need:"yes" doc:"Inside, left to right."`
	Depth     Field[length] `yaml:"depth" need:"yes" doc:"Inside, front to back; the pool's own depth then ends at the grid or foam."`
	Floor     Field[length] `yaml:"floor" range:"[-20,20]" doc:"Height of its floor above the pool's floor; 0 if left out."`
	GapWidth  Field[length] `yaml:"gap-width" need:"yes" doc:"Width of the gap that joins it to the pool; for a grid, of the open cells together."`
	GapHeight Field[length] `yaml:"gap-height" need:"yes" doc:"Height of that gap."`
	Displaced Field[ratio]  `yaml:"displaced" range:"[0,1)" doc:"Share of it taken by foam, pipe or rock; 0 if left out."`
}

// Soak is something on the wall that takes water up and lets it go slowly.
type Soak struct {
	Pos      Pos             `yaml:"-"`
	Name     Field[string]   `yaml:"name" need:"yes" doc:"Its name: moss."`
	Holds    Field[volume]   `yaml:"holds" need:"yes" doc:"Water it holds at most, above what never drains from it."`
	Catches  Field[ratio]    `yaml:"catches" need:"yes" range:"(0,1)" doc:"Share of the outlets' water that runs over it: 20 %."`
	DrainsIn Field[duration] `yaml:"drains-in" need:"yes" doc:"Time after which about a third (37 %) of its water is left in it, once nothing comes."`
}

// Float is a pump's float switch. Heights are above the sump's bottom.
type Float struct {
	Pos Pos           `yaml:"-"`
	Off Field[length] `yaml:"off" need:"yes" doc:"Water above the sump's bottom at which it stops the pump."`
	On  Field[length] `yaml:"on" need:"yes" doc:"Water above the sump's bottom at which it starts the pump again."`
}

// Given reports whether the file has the section.
func (f Float) Given() bool { return f.Pos.Line > 0 }

// Timer runs a pump and rests it, again and again.
type Timer struct {
	Pos Pos             `yaml:"-"`
	On  Field[duration] `yaml:"on" need:"yes" doc:"How long the pump runs."`
	Off Field[duration] `yaml:"off" need:"yes" doc:"How long it rests before it runs again."`
}

// Given reports whether the file has the section.
func (t Timer) Given() bool { return t.Pos.Line > 0 }

// BreakHole is a small hole in a run that lets air in and so ends a siphon.
type BreakHole struct {
	Pos    Pos           `yaml:"-"`
	Height Field[length] `yaml:"height" need:"yes" range:"[-20,20]" doc:"Height of its centre above the enclosure's inside bottom."`
	Size   Field[length] `yaml:"size" need:"yes" range:"(0,0.1]" doc:"Diameter, as drilled."`
}

// Given reports whether the file has the section.
func (b BreakHole) Given() bool { return b.Pos.Line > 0 }

// TopUp is a float valve that lets fresh water into the sump.
type TopUp struct {
	Pos   Pos           `yaml:"-"`
	Flow  Field[flow]   `yaml:"flow" need:"yes" doc:"What it delivers when open: into a jug, with a watch."`
	Level Field[length] `yaml:"level" need:"yes" doc:"Water above the sump's bottom at which it shuts."`
	Into  Field[string] `yaml:"into" doc:"Chamber it fills; leave out if the sump is one open box."`
	From  Field[string] `yaml:"from" words:"mains|reservoir" need:"yes" doc:"mains: a supply without end; reservoir: a tank of its own."`
	Holds Field[volume] `yaml:"holds" doc:"What the full reservoir holds."`
}

// Given reports whether the file has the section.
func (t TopUp) Given() bool { return t.Pos.Line > 0 }

// Bridge is a thing that hangs from one water to another place.
type Bridge struct {
	Pos     Pos           `yaml:"-"`
	Name    Field[string] `yaml:"name" need:"yes" doc:"Its name: power cord."`
	Kind    Field[string] `yaml:"kind" words:"hose|cord|cable|wood|moss|mesh" need:"yes" doc:"hose: open inside, so that it can siphon; the others draw water along themselves, cord of fibres more than cable in a smooth sheath."`
	From    Field[string] `yaml:"from" need:"yes" doc:"The water it hangs in: pool, sump or a sump chamber."`
	To      Field[string] `yaml:"to" need:"yes" doc:"Where its other end is: floor (of the room), pool, sump or a sump chamber."`
	Foot    Field[length] `yaml:"foot" need:"yes" range:"[0,20]" doc:"Height of its wet end above the pool's floor or the sump's bottom, whichever it hangs in."`
	Crest   Field[length] `yaml:"crest" need:"yes" range:"[-20,20]" doc:"Height of its highest point above the enclosure's inside bottom."`
	End     Field[length] `yaml:"end" range:"[0,20]" doc:"Height of its other end above the room floor, the pool's floor or the sump's bottom, whichever it leads to; for floor, 0 if left out."`
	Bore    Field[length] `yaml:"bore" range:"(0,0.5]" doc:"Inside of a hose."`
	Section Field[area]   `yaml:"section" doc:"What can carry water across it, for all but a hose: 1 cm2."`
	Length  Field[length] `yaml:"length" need:"yes" doc:"Its length from one end to the other."`
}

// Scenario is a course of events to look at.
type Scenario struct {
	Pos   Pos             `yaml:"-"`
	Name  Field[string]   `yaml:"name" need:"yes" doc:"What you call it: leaf and a power cut."`
	Lasts Field[duration] `yaml:"lasts" need:"yes" range:"(0,31622400]" doc:"How long it is followed."`
	Steps []Step          `yaml:"steps" need:"yes" doc:"What happens, in the order of time."`
}

// Step is one event of a scenario.
type Step struct {
	Pos    Pos             `yaml:"-"`
	At     Field[duration] `yaml:"at" need:"yes" range:"[0,31622400]" doc:"When, from the beginning of the scenario."`
	What   Field[string]   `yaml:"what" words:"power off|power on|pump stops|pump starts|drain blocks|drain clears|standpipe out|hose off|valve opens|strainer clogs|top-up sticks|leak starts|water added|water taken" need:"yes" doc:"What happens; see below for what each needs."`
	Which  Field[string]   `yaml:"which" doc:"What it happens to, by name."`
	Share  Field[ratio]    `yaml:"share" range:"[0,1]" doc:"How much of it is blocked, clogged or open; all of it if left out."`
	Over   Field[duration] `yaml:"over" range:"[0,31622400]" doc:"How long it takes; at once if left out."`
	Size   Field[length]   `yaml:"size" range:"(0,0.1]" doc:"Diameter of the leak, as a round hole."`
	Height Field[length]   `yaml:"height" range:"[-20,20]" doc:"For a leak, above the pool's floor or the sump's bottom; for a hose, of the joint above the enclosure's inside bottom, less than 0 below it."`
	Volume Field[volume]   `yaml:"volume" doc:"How much water is added or taken."`
	Flow   Field[flow]     `yaml:"flow" doc:"In place of volume: water runs in or out at this rate, for \"over\", or until the end."`
}
