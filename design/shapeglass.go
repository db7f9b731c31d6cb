package design

import "rillwright/quantity"

type mass = quantity.Mass

// Enclosure is the glass box.
type Enclosure struct {
	Pos     Pos           `yaml:"-"`
	Made    Field[string] `yaml:"made" words:"from panes|from a tank" doc:"Built from panes, or a shop tank."`
	Turned  Field[string] `yaml:"turned" words:"upright|on end|on its back" doc:"How a shop tank stands."`
	Outside Box           `yaml:"outside" doc:"Outside sizes as it stands."`
	Inside  Box           `yaml:"inside" doc:"Inside (clear) sizes as it stands."`
	Bottom  Field[length] `yaml:"bottom" need:"yes" range:"[0,20]" doc:"Height of its inside bottom above the room floor."`
	Panes   []Pane        `yaml:"panes" doc:"Every pane of glass."`
	Rests   Field[string] `yaml:"rests" words:"on a full board|on its rim|on pads" doc:"What holds up its floor pane."`
	Opening Clear         `yaml:"opening" doc:"Clear size of the way in, measured inside rim, braces and frame."`
	Rims    []Rim         `yaml:"rims" doc:"Plastic or metal frames round the edges of a shop tank."`
	Braces  []Brace       `yaml:"braces" doc:"Strips that hold the edges of panes."`
	Ways    []Way         `yaml:"ways" doc:"Other openings in its panes, and what passes through them."`
	Notes   Field[string] `yaml:"notes" doc:"Anything else."`
}

// Pane is one sheet of glass.
type Pane struct {
	Pos       Pos           `yaml:"-"`
	Name      Field[string] `yaml:"name" need:"yes" doc:"Base, back, left, right, front, door."`
	Width     Field[length] `yaml:"width" need:"yes" doc:"Finished width."`
	Height    Field[length] `yaml:"height" need:"yes" doc:"Finished height (for a base: depth)."`
	Thickness Field[length] `yaml:"thickness" need:"yes" doc:"Measured or nominal thickness."`
	Count     Field[int]    `yaml:"count" doc:"How many alike; one if left out."`
	Ply       Field[length] `yaml:"ply" doc:"Thickness of each sheet of laminated glass, measured or nominal."`
	At        Field[string] `yaml:"at" words:"bottom|back|left|right|sides|front|top|door|dam|inside" doc:"Where it stands: sides for two alike, left and right; inside for a divider."`
	Up        Field[length] `yaml:"up" range:"[0,20]" doc:"Its lower edge above the enclosure's inside bottom; 0 if left out."`
	Edges     Edges         `yaml:"edges" doc:"What holds each edge; bonded at the bottom and both sides and free at the top if left out. The front edges of sides are free too where no pane stands at the front, only a dam."`
	Outer     Field[length] `yaml:"water-outside" range:"[0,20]" doc:"Water on its other side, above its lower edge."`
	Opens     Field[string] `yaml:"opens" words:"slides|hinged left|hinged right|hinged top|hinged bottom|lifts out" doc:"How a door opens."`
	Glass     Field[string] `yaml:"glass" words:"annealed|toughened|laminated|acrylic|polycarbonate|not checked" need:"yes" doc:"What it is; say 'not checked' if nobody has looked."`
	Was       Field[string] `yaml:"was" doc:"Which pane of the shop tank it was."`
}

// Edges is what holds each edge of a pane, as seen from outside.
type Edges struct {
	Pos    Pos           `yaml:"-"`
	Bottom Field[string] `yaml:"bottom" words:"bonded|rim|free" doc:"Its lower edge."`
	Left   Field[string] `yaml:"left" words:"bonded|rim|free" doc:"Its left edge."`
	Right  Field[string] `yaml:"right" words:"bonded|rim|free" doc:"Its right edge."`
	Top    Field[string] `yaml:"top" words:"bonded|rim|free" doc:"Its upper edge."`
}

// Clear is the clear size of an opening.
type Clear struct {
	Pos    Pos           `yaml:"-"`
	Width  Field[length] `yaml:"width" need:"yes" doc:"Left to right."`
	Height Field[length] `yaml:"height" need:"yes" doc:"Bottom to top; for an opening in the top, front to back."`
}

// Given reports whether the file has the section.
func (c Clear) Given() bool { return c.Pos.Line > 0 }

// Rim is a frame round the edges of a shop tank. Its part that lies flat over the
// edges is what stiffens them.
type Rim struct {
	Pos  Pos           `yaml:"-"`
	At   Field[string] `yaml:"at" words:"top|bottom|front|back" need:"yes" doc:"Which face of the enclosure, as it stands, it goes round."`
	Of   Field[string] `yaml:"of" words:"plastic|aluminium|steel" need:"yes" doc:"What it is made of."`
	Flat Field[length] `yaml:"flat" need:"yes" doc:"How far its flat part reaches across, from its outside."`
	Wall Field[length] `yaml:"wall" need:"yes" doc:"Thickness of that part."`
	Over Field[length] `yaml:"over" doc:"How far it laps down over the panes."`
}

// Brace is a strip that holds an edge.
type Brace struct {
	Pos       Pos           `yaml:"-"`
	Name      Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Pane      Field[string] `yaml:"pane" need:"yes" doc:"Which pane it holds, or dam."`
	To        Field[string] `yaml:"to" doc:"The pane opposite, for a strip that goes across."`
	Edge      Field[string] `yaml:"edge" words:"top|left|right|bottom" doc:"Which edge of that pane; top if left out."`
	Runs      Field[string] `yaml:"runs" words:"across|along" need:"yes" doc:"across: a tie to the pane opposite; along: a strip bonded flat along the edge."`
	Width     Field[length] `yaml:"width" need:"yes" doc:"Width of the strip."`
	Thickness Field[length] `yaml:"thickness" need:"yes" doc:"Its thickness."`
	Of        Field[string] `yaml:"of" words:"glass|acrylic|polycarbonate|aluminium|steel" need:"yes" doc:"What it is made of."`
	From      Field[length] `yaml:"from" range:"[0,20]" doc:"Where it begins along that edge, from its left or lower end; in the middle if left out."`
	Length    Field[length] `yaml:"length" doc:"Along the edge, for a strip that runs along it; all of it if left out."`
	Bond      Field[length] `yaml:"bond" doc:"How wide the sealant between strip and pane is; the pane's thickness if left out."`
}

// Way is an opening in a pane besides the drains' holes.
type Way struct {
	Pos      Pos           `yaml:"-"`
	Name     Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Pane     Field[string] `yaml:"pane" need:"yes" doc:"Which pane."`
	Size     Field[length] `yaml:"size" doc:"Diameter, if it is round."`
	Width    Field[length] `yaml:"width" doc:"Width, if it has corners: a slot or a notch."`
	Height   Field[length] `yaml:"height" doc:"Height, if it has corners."`
	Corner   Field[length] `yaml:"corner" range:"[0,1]" doc:"Radius of its corners; 0 if they are sharp."`
	Up       Field[length] `yaml:"up" need:"yes" range:"[0,20]" doc:"Centre above the pane's lower edge."`
	In       Field[length] `yaml:"in" need:"yes" range:"[0,20]" doc:"Centre from the pane's nearer side edge."`
	Edge     Field[string] `yaml:"edge" words:"left|right|rear|front" doc:"Which edge that is."`
	Passes   []Passing     `yaml:"passes" doc:"What must pass through it."`
	Closed   Field[string] `yaml:"closed" words:"left open|mesh|foam plug|grommet|cover plate|sealant" doc:"How what is left of it is closed."`
	Override Field[string] `yaml:"override" doc:"Why you make it here although it breaks a rule of distance, in your own words, with the date: the template then prints, with these words in a box. It lifts nothing that a pane is."`
}

// Passing is something that must pass an opening.
type Passing struct {
	Pos    Pos           `yaml:"-"`
	What   Field[string] `yaml:"what" need:"yes" doc:"What: a cord with its plug, a hose, the pump."`
	Part   Field[string] `yaml:"part" doc:"A hose or pipe from the catalogue, whose outside is known."`
	Width  Field[length] `yaml:"width" doc:"Its widest end, measured: across; for something round, its diameter."`
	Height Field[length] `yaml:"height" doc:"And the other way; leave it out for something round."`
	Stays  Field[length] `yaml:"stays" doc:"Diameter of what stays in the opening afterwards: the cord behind its plug. Leave it out if all of it does."`
	Leaves Field[bool]   `yaml:"leaves" doc:"yes if nothing of it stays in the opening."`
}

// Dam is the low pane that holds the pool.
type Dam struct {
	Pos       Pos           `yaml:"-"`
	Width     Field[length] `yaml:"width" doc:"Finished width."`
	Height    Field[length] `yaml:"height" need:"yes" doc:"Top edge above the pool's floor."`
	Thickness Field[length] `yaml:"thickness" doc:"Measured or nominal thickness."`
	Stops     Field[string] `yaml:"stops" words:"none|sides|sides and bottom" doc:"Strips or a rebate on its dry side that the water presses it against."`
	Outer     Field[length] `yaml:"water-outside" range:"[0,20]" doc:"Water on its dry side, above the pool's floor."`
	SetBack   Field[length] `yaml:"set-back" range:"[0,20]" doc:"From the front edge of the base."`
}

// Hole is a hole in a pane.
type Hole struct {
	Pos      Pos           `yaml:"-"`
	Pane     Field[string] `yaml:"pane" need:"yes" doc:"Which pane."`
	Size     Field[length] `yaml:"size" need:"yes" doc:"Hole size, drilled to the fitting in your hand."`
	Up       Field[length] `yaml:"up" need:"yes" doc:"Centre above the pane's lower edge."`
	In       Field[length] `yaml:"in" need:"yes" doc:"Centre from the pane's nearer side edge."`
	Edge     Field[string] `yaml:"edge" words:"left|right|rear|front" doc:"Which edge that is."`
	Override Field[string] `yaml:"override" doc:"Why you make it here although it breaks a rule of distance, in your own words, with the date: the template then prints, with these words in a box. It lifts nothing that a pane is."`
}

// Given reports whether the file has the section.
func (h Hole) Given() bool { return h.Pos.Line > 0 }

// GridPanel is one panel of lighting grid, in cells.
type GridPanel struct {
	Pos      Pos           `yaml:"-"`
	Name     Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	Across   Field[int]    `yaml:"across" need:"yes" doc:"Cells across."`
	Up       Field[int]    `yaml:"up" need:"yes" doc:"Cells up (or back, for a false bottom)."`
	Pitch    Field[length] `yaml:"pitch" need:"yes" doc:"One cell, from ten cells measured on the sheet in hand."`
	StandOff Field[length] `yaml:"stand-off" range:"[0,1]" doc:"Gap behind it; for a false bottom, from the inside of the back pane."`
	At       Field[string] `yaml:"at" words:"back|left|right|floor" doc:"Which face it stands before, or lies on."`
	Left     Field[length] `yaml:"left" range:"[0,20]" doc:"Its left end from the enclosure's inside left (for a side: its rear end from the inside back); in the middle if left out."`
	Bottom   Field[length] `yaml:"bottom" range:"[0,20]" doc:"Its lower edge above the enclosure's inside bottom."`
	Thick    Field[length] `yaml:"thickness" range:"(0,0.1]" doc:"Depth of the sheet."`
	Mass     Field[mass]   `yaml:"weight" doc:"What hangs on it, wet: foam, moss, plants and the panel itself."`
	Bond     GridBond      `yaml:"bond" doc:"How it is bonded to the glass behind it."`
	Notches  []Notch       `yaml:"notches" doc:"Cells cut out."`
	Braces   []GridBrace   `yaml:"braces" doc:"Strips of grid that are slotted between its cells and lean on a pane or another panel."`
}

// GridBrace is a strip of lighting grid that goes through a slot in a panel and leans
// on a pane, the dam or another panel.
type GridBrace struct {
	Pos    Pos                   `yaml:"-"`
	Name   Field[string]         `yaml:"name" need:"yes" doc:"Its name."`
	To     Field[string]         `yaml:"to" need:"yes" doc:"What its other end meets: a pane, dam, or another grid panel, which gets a slot too."`
	Wide   Field[int]            `yaml:"wide" need:"yes" doc:"Width of the strip in cells; its slot is one cell wider, since a strip has a wall more than cells."`
	Left   Field[int]            `yaml:"left" need:"yes" range:"[0,1000000]" doc:"Cells of the panel left of its slot (behind it, for a panel at a side)."`
	Bottom Field[int]            `yaml:"bottom" need:"yes" range:"[0,1000000]" doc:"Cells of the panel below its slot (behind it, for a false bottom)."`
	Leans  Field[string]         `yaml:"leans" words:"up|down|left|right|front|rear" doc:"Which way it leans on its way from the panel; leave it out where only one way leads to what it meets. Its width lies across that."`
	Angle  Field[quantity.Angle] `yaml:"angle" range:"[0,1.309]" doc:"How far it leans from straight out of the panel: 45 deg, at most 75 deg."`
	End    Field[length]         `yaml:"end" range:"[0,20]" doc:"In place of the angle, where the middle of its other end is: how far out from the panel's face, or, on something that faces the panel, how far it has gone the way it leans."`
}

// GridBond is how a grid panel is bonded to the glass behind it.
type GridBond struct {
	Pos    Pos               `yaml:"-"`
	Spots  Field[int]        `yaml:"spots" need:"yes" doc:"How many spots or stand-offs are bonded, spread evenly over it."`
	Width  Field[length]     `yaml:"width" need:"yes" doc:"Width of each."`
	Height Field[length]     `yaml:"height" need:"yes" doc:"Height of each."`
	Line   Field[LengthBand] `yaml:"line" doc:"Thickness of the sealant between."`
	Share  Field[ratioBand]  `yaml:"share" range:"(0,1]" doc:"Share of each spot that really meets both faces: 50 to 90 %."`
	Rests  Field[bool]       `yaml:"rests" doc:"yes if its lower edge stands on something, so that the bond only keeps it upright."`
}

// Given reports whether the file has the section.
func (b GridBond) Given() bool { return b.Pos.Line > 0 }

// Notch is a group of cells cut out of a grid panel.
type Notch struct {
	Pos    Pos           `yaml:"-"`
	For    Field[string] `yaml:"for" need:"yes" doc:"What it makes room for."`
	Across Field[int]    `yaml:"across" need:"yes" doc:"Cells across."`
	Up     Field[int]    `yaml:"up" need:"yes" doc:"Cells up."`
	Left   Field[int]    `yaml:"left" range:"[0,1000000]" doc:"Cells left of it."`
	Bottom Field[int]    `yaml:"bottom" range:"[0,1000000]" doc:"Cells below it (behind it, for a false bottom)."`
}

// Hardscape is a piece of wood or rock.
type Hardscape struct {
	Pos  Pos           `yaml:"-"`
	Name Field[string] `yaml:"name" need:"yes" doc:"Its name."`
	On   Field[string] `yaml:"on" need:"yes" doc:"The grid panel it hangs on, or pool if it stands there."`
	Mass Field[mass]   `yaml:"weight" need:"yes" doc:"What it weighs, wet."`
	Out  Field[length] `yaml:"out" range:"[0,20]" doc:"Its centre of weight from the panel's face."`
	Up   Field[length] `yaml:"up" range:"[0,20]" doc:"That centre above the panel's lower edge."`
	Left Field[length] `yaml:"left" range:"[0,20]" doc:"That centre from the panel's left end; in the middle if left out."`
}

// Sealant is what joints are made with.
type Sealant struct {
	Pos      Pos                                     `yaml:"-"`
	Label    Field[string]                           `yaml:"label" doc:"The words on the tube."`
	BondLine Field[LengthBand]                       `yaml:"bond-line" doc:"Thickness of the sealant between glass and glass."`
	Fillet   Field[length]                           `yaml:"fillet" range:"[0,0.1]" doc:"Leg of the bead drawn into inside corners; 0 for none."`
	Strength Field[quantity.Band[quantity.Pressure]] `yaml:"strength" range:"(0,1e8]" doc:"What it may bear for a while, from its data sheet: 0.14 MPa."`
	Waste    Field[ratioBand]                        `yaml:"waste" range:"[0,1]" doc:"Share that stays in the nozzle and on the knife: 10 to 25 %."`
}

// Stand is what the enclosure stands on.
type Stand struct {
	Pos   Pos           `yaml:"-"`
	Width Field[length] `yaml:"width" need:"yes" doc:"Left to right, at its feet."`
	Depth Field[length] `yaml:"depth" need:"yes" doc:"Front to back, at its feet."`
	Mass  Field[mass]   `yaml:"weight" doc:"What it weighs empty."`
	Feet  Field[int]    `yaml:"feet" doc:"How many feet: 4, 6; leave it out if it stands on its whole base."`
	Foot  Field[length] `yaml:"foot" doc:"Side of each square foot, or the diameter of a round one."`
	Inset Field[length] `yaml:"inset" range:"[0,5]" doc:"How far the feet's outer sides stand in from its edges."`
	Front Field[length] `yaml:"front" range:"[-5,5]" doc:"How far its feet reach in front of the enclosure; less than 0 if behind; centred under it if left out."`
	Sump  Field[bool]   `yaml:"carries-sump" doc:"yes if the sump stands in it."`
	Fixed Field[bool]   `yaml:"fixed" doc:"yes if it is fixed to the wall."`
}

// Given reports whether the file has the section.
func (s Stand) Given() bool { return s.Pos.Line > 0 }
