package design

import "rillwright/quantity"

// WorkHours is when the builder can work on a day of the week.
type WorkHours struct {
	Pos   Pos             `yaml:"-"`
	Day   Field[string]   `yaml:"day" words:"Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday|weekdays|weekends|daily" need:"yes" doc:"Which day, every week."`
	Hours Field[DayHours] `yaml:"hours" need:"yes" doc:"From when to when; a day may be listed twice, for a morning and an evening."`
}

// DaysOff is a day, or several in a row, on which nobody works.
type DaysOff struct {
	Pos  Pos           `yaml:"-"`
	From Field[string] `yaml:"from" need:"yes" doc:"The day, or the first of them, as 2026-01-31."`
	To   Field[string] `yaml:"to" doc:"The last of them; that one day if left out."`
	Why  Field[string] `yaml:"why" doc:"What for: Easter."`
}

// HelperHours is when a second pair of hands can come.
type HelperHours struct {
	Pos   Pos             `yaml:"-"`
	Day   Field[string]   `yaml:"day" words:"Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday|weekdays|weekends|daily" doc:"Which day, every week."`
	On    Field[string]   `yaml:"on" doc:"In place of day, one date, as 2026-01-31."`
	Hours Field[DayHours] `yaml:"hours" need:"yes" doc:"From when to when."`
}

// Delivery is something that has to come before it can be worked with.
type Delivery struct {
	Pos   Pos           `yaml:"-"`
	What  Field[string] `yaml:"what" words:"glass|fittings|pump|sump|grid|sealant|foam|plants|lights" need:"yes" doc:"What comes."`
	Takes Field[Lead]   `yaml:"takes" doc:"How long it takes from the order, which for glass is a step and for all else is made on the first day."`
	On    Field[string] `yaml:"on" doc:"In place of takes, the day on which it comes, as 2026-01-31."`
}

// Workshop is the air in which joints cure, in the season of the work.
type Workshop struct {
	Pos      Pos                      `yaml:"-"`
	Air      Field[tempBand]          `yaml:"air" range:"[5,40]" doc:"Coldest to warmest over the days of a cure, nights and all: 10 to 15 C. place.air if left out."`
	Humidity Field[ratioBand]         `yaml:"humidity" range:"[0.1,1]" doc:"Relative humidity, driest to dampest: 35 to 60 %. place.humidity if left out."`
	Skin     Field[length]            `yaml:"skin" doc:"How deep a test bead of your sealant had cured from its open face, cut through in that air: 3 mm. 2 to 4 mm in the first day if left out."`
	After    Field[quantity.Duration] `yaml:"after" range:"[3600,31536000]" doc:"After what time that was: 24 h."`
}

// DoneStep is a step of the build that is done, or under way.
type DoneStep struct {
	Pos   Pos           `yaml:"-"`
	Step  Field[string] `yaml:"step" need:"yes" doc:"Which step, by its short name in the plan: bond-grid, drill: the hole of main drain."`
	Begun Field[Stamp]  `yaml:"begun" doc:"When it was begun; without on it is still under way."`
	On    Field[Stamp]  `yaml:"on" doc:"When its work was done. Its waiting, as for a cure, counts from then."`
	Note  Field[string] `yaml:"note" doc:"Anything that turned out otherwise."`
}
