package design

import "rillwright/quantity"

// Light is one lamp. Heights are above the enclosure's inside bottom.
type Light struct {
	Pos    Pos                      `yaml:"-"`
	Name   Field[string]            `yaml:"name" need:"yes" doc:"Its name."`
	Power  Field[quantity.Power]    `yaml:"power" doc:"Watts."`
	Hours  Field[quantity.Duration] `yaml:"hours" range:"(0,86400]" doc:"Hours a day."`
	Lumens Field[int]               `yaml:"lumens" doc:"Lumens on its label."`
	Kind   Field[string]            `yaml:"kind" words:"strip|panel|spot" doc:"What glows: a bar, a rectangle, or one point; strip if left out."`
	Sits   Field[string]            `yaml:"sits" words:"inside|on the top|above" doc:"Where its heat goes: inside the enclosure, on its top pane, or hung above it; above if left out."`
	Up     Field[length]            `yaml:"up" range:"[0,20]" doc:"Height of what glows."`
	Out    Field[length]            `yaml:"out" range:"[0,20]" doc:"Its middle line from the inside of the back pane; over the middle if left out."`
	Left   Field[length]            `yaml:"left" range:"[-20,20]" doc:"Its left end from the enclosure's inside left; in the middle if left out."`
	Length Field[length]            `yaml:"length" doc:"How long what glows is, left to right."`
	Width  Field[length]            `yaml:"width" doc:"How wide a panel is, front to back."`
	Beam   Field[quantity.Angle]    `yaml:"beam" range:"(0,3)" doc:"Angle between the sides of its beam where it is half as bright: 60 deg; 120 deg if left out, as without a lens."`
	Price  Field[quantity.Money]    `yaml:"price" doc:"What it costs."`
}

// Heater is a heater with a thermostat in the water.
type Heater struct {
	Pos   Pos                   `yaml:"-"`
	Power Field[quantity.Power] `yaml:"power" need:"yes" doc:"Watts."`
	Keeps Field[tempBand]       `yaml:"keeps" need:"yes" range:"[5,40]" doc:"Where its thermostat turns on and off: 22 to 23 C."`
	Price Field[quantity.Money] `yaml:"price" doc:"What it costs."`
}

// Given reports whether the file has the section.
func (h Heater) Given() bool { return h.Pos.Line > 0 }

// Fan is a fan that changes the air inside.
type Fan struct {
	Pos   Pos                      `yaml:"-"`
	Flow  Field[flow]              `yaml:"flow" need:"yes" doc:"Air it really moves, mounted: 5 m3/h."`
	Hours Field[quantity.Duration] `yaml:"hours" range:"(0,86400]" doc:"Hours a day, about noon; all day if left out."`
	Price Field[quantity.Money]    `yaml:"price" doc:"What it costs."`
}

// Given reports whether the file has the section.
func (f Fan) Given() bool { return f.Pos.Line > 0 }

// Vent is an opening for air that is not cut into a pane.
type Vent struct {
	Pos    Pos           `yaml:"-"`
	Name   Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Width  Field[length] `yaml:"width" need:"yes" doc:"How wide it is open."`
	Height Field[length] `yaml:"height" need:"yes" doc:"How high it is open; in the top, front to back."`
	Up     Field[length] `yaml:"up" need:"yes" range:"[0,20]" doc:"Its middle above the enclosure's inside bottom."`
	Closed Field[string] `yaml:"closed" words:"mesh|left open" doc:"What covers it; mesh if left out."`
}

// Misting is fog or spray into the air.
type Misting struct {
	Pos   Pos                      `yaml:"-"`
	Kind  Field[string]            `yaml:"kind" words:"fog|spray" need:"yes" doc:"fog of a disc that hangs in the air, or spray of nozzles, most of which falls."`
	Flow  Field[flow]              `yaml:"flow" need:"yes" doc:"Water that it puts out while it runs: 0.3 L/h."`
	Times Field[int]               `yaml:"times" range:"[1,24]" doc:"How often a day, spread evenly over the twelve hours about noon; once if left out."`
	Each  Field[quantity.Duration] `yaml:"each" need:"yes" range:"(0,86400]" doc:"How long each time: 2 min."`
	Price Field[quantity.Money]    `yaml:"price" doc:"What it costs."`
}

// Given reports whether the file has the section.
func (m Misting) Given() bool { return m.Pos.Line > 0 }

// Runs returns how often a day it runs, and for how long each time, s.
func (m Misting) Runs() (times int, each float64) {
	return max(1, m.Times.Value), float64(m.Each.Value)
}

// Water is what is dissolved in the water and how it is cared for.
type Water struct {
	Pos       Pos                      `yaml:"-"`
	Solids    Field[int]               `yaml:"solids" need:"yes" range:"[0,5000]" doc:"Dissolved in your tap water, mg/L."`
	Hardness  Field[int]               `yaml:"hardness" range:"[0,100]" doc:"Its hardness in German degrees (mg/L of calcium carbonate over 17.8)."`
	Carbonate Field[int]               `yaml:"carbonate" range:"[0,100]" doc:"Its carbonate hardness (alkalinity) in the same degrees."`
	TopUp     Field[string]            `yaml:"top-up" words:"tap|rain or osmosis" doc:"What makes good what evaporates; tap if left out."`
	Change    Field[ratio]             `yaml:"change" range:"(0,1]" doc:"Share of the water that a change replaces, with tap water: 25 %."`
	Every     Field[quantity.Duration] `yaml:"every" doc:"Time between changes: 14 days."`
}

// Given reports whether the file has the section.
func (w Water) Given() bool { return w.Pos.Line > 0 }
