// Package layout places everything that an enclosure is made of in one
// coordinate system, so that weight, clearances, drawings and views agree on
// where things are.
//
// The datum is the inside back left bottom corner of the enclosure, seen from the
// front. x runs to the right, y from the back to the front and z up, all in m.
// Seen so, the system is left-handed: a cross product of x and y points down.
//
// Places come from the design file. What the file leaves open is placed by a
// plain rule, and the rule is named in the part's Assumed; what cannot be placed
// is listed in Left. Sizes that contradict each other are not mended: each thing is
// placed as written, and the contradiction is listed in Sizes.
package layout

import (
	"rillwright/enclosure"
	"rillwright/geom"
)

// Kind is what sort of thing a part is.
type Kind string

// The kinds of part.
const (
	KindPane      Kind = "pane"       // Box
	KindDam       Kind = "dam"        // Box
	KindRim       Kind = "rim"        // Box, four strips to a rim
	KindBrace     Kind = "brace"      // Box
	KindPool      Kind = "pool"       // Box, its water to the brim
	KindHidden    Kind = "hidden"     // Box, water behind grid or foam, to the brim
	KindGrid      Kind = "grid"       // Box, notches and all
	KindGridBrace Kind = "grid brace" // Prism, a strip of grid that leans from panel to pane
	KindManifold  Kind = "manifold"   // Cylinder along x
	KindOutlet    Kind = "outlet"     // Vec
	KindHole      Kind = "hole"       // Cylinder through a pane
	KindWay       Kind = "way"        // Cylinder or Box through a pane
	KindFlange    Kind = "flange"     // Cylinder, a bulkhead's wet side
	KindNut       Kind = "nut"        // Cylinder, its dry side
	KindElbow     Kind = "elbow"      // Path, from a bulkhead to its standpipe
	KindStandpipe Kind = "standpipe"  // Cylinder along z, its top at the lip
	KindStrainer  Kind = "strainer"   // Cylinder
	KindDrainPipe Kind = "drain pipe" // Path, outside
	KindSump      Kind = "sump"       // Box, its inside
	KindChamber   Kind = "chamber"    // Box, inside
	KindSumpWater Kind = "sump water" // Box, to the level of the file
	KindPump      Kind = "pump"       // Vec, its size is not known
	KindRun       Kind = "run"        // Path
	KindTail      Kind = "run inside" // Path, from its opening to its end
	KindStand     Kind = "stand"      // Box, hollow
	KindFoot      Kind = "foot"       // Box
	KindLamp      Kind = "lamp"       // Vec, its size is not known
	KindDoorSpace Kind = "door space" // Box in which a door moves when it is opened
	KindHardscape Kind = "hardscape"  // Vec, its centre of weight
)

// Part is one thing in its place. Parts of a pair have one name.
type Part struct {
	Kind  Kind
	Name  string
	Field string // in the design file: enclosure.panes[back]
	Line  int    // 1-based, 0 if the file has none
	Solid geom.Solid
	// Assumed tells what of its place or size the file leaves open and how it was
	// taken, each in words that follow "taken": Middle.
	Assumed []string
}

// Assumptions that do not bear on every overlap.
const (
	Middle = "in the middle, left to right"
	OnLine = "with its middle line at the height of its outlets"
)

// Left is something that could not be placed.
type Left struct {
	Name, Field string
	Line        int
	Say         string // the key that would place it
}

// Layout is an enclosure with everything in its place.
type Layout struct {
	// Inside and Outside are the boxes of the file's inside and outside sizes, or
	// of the other less or more the panes if one of them is not given.
	Inside, Outside geom.Box
	// Floor is the room floor's height: below 0.
	Floor float64
	Parts []Part
	Panes []Pane // as placed, the dam's pane too; each has a part
	Grids []Grid // in the order of the file, those placed
	// GridBraces are in the order of the file too, those placed; each has a part.
	GridBraces []GridBrace
	Pool       Pool
	Dam        geom.Box // no size if there is none
	HasDam     bool
	Opening    Opening
	Left       []Left
	Sizes      []Mismatch
	// Assumed is of the enclosure as a whole.
	Assumed []string

	e      *enclosure.Enclosure
	taken  Taken
	bottom float64
}

// Pool is the water behind the dam.
type Pool struct {
	Box     geom.Box // from its floor to the brim
	Assumed []string
}

// To returns the pool's box filled to a level, m above the datum; no higher than
// that in which a box without height stands on the floor.
func (p Pool) To(level float64) geom.Box {
	b := p.Box
	b.Max.Z = max(level, b.Min.Z)
	return b
}

// Z returns the height above the datum of a height above the room floor, which is
// what package enclosure counts from. m.
func (l *Layout) Z(aboveFloor float64) float64 { return aboveFloor - l.bottom }

// All returns the parts of a kind, in the order of the file.
func (l *Layout) All(kind Kind) []*Part {
	var out []*Part
	for i := range l.Parts {
		if l.Parts[i].Kind == kind {
			out = append(out, &l.Parts[i])
		}
	}
	return out
}

// Find returns the first part of a kind with a name.
func (l *Layout) Find(kind Kind, name string) (*Part, bool) {
	for i := range l.Parts {
		if l.Parts[i].Kind == kind && l.Parts[i].Name == name {
			return &l.Parts[i], true
		}
	}
	return nil, false
}

// Of places everything that e is made of. It reads e and changes nothing.
func Of(e *enclosure.Enclosure) *Layout { return With(e, Usual()) }

// With is Of with other sizes for what the file leaves open.
func With(e *enclosure.Enclosure, taken Taken) *Layout {
	l := &Layout{e: e, taken: taken, bottom: float64(e.Design.Enclosure.Bottom.Value)}
	l.Floor = -l.bottom
	l.boxes()
	l.panes()
	l.doors()
	l.pool()
	l.opening()
	l.rims()
	l.braces()
	l.grids()
	l.gridBraces()
	l.manifolds()
	l.ways()
	l.drains()
	l.sump()
	l.stand()
	l.runs()
	l.loose()
	l.sizes()
	return l
}

func (l *Layout) add(p Part) { l.Parts = append(l.Parts, p) }

func (l *Layout) left(name, field string, line int, say string) {
	l.Left = append(l.Left, Left{name, field, line, say})
}

// middle returns where a thing of a size begins if it stands in the middle
// between two coordinates.
func middle(lo, hi, size float64) float64 { return (lo + hi - size) / 2 }
