// Package takeoff counts what a design is made of: sealant, foam, grid, hose, pipe,
// fittings, glass, media, plants and what is used up on the way, each as a band and
// with what it comes from. It knows no packs and no prices.
package takeoff

import (
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/study"
)

// Group is what kind of trade a need belongs to.
type Group string

// The groups.
const (
	Glass      Group = "glass"
	Sealing    Group = "sealing"
	Plumbing   Group = "plumbing"
	Electric   Group = "electric"
	Structure  Group = "structure"
	Media      Group = "media"
	Planting   Group = "plants"
	Consumable Group = "consumables"
	Other      Group = "other"
)

// Unit is what an amount is counted in.
type Unit int

// The units, all SI.
const (
	Pieces Unit = iota
	Metres
	SquareMetres
	CubicMetres
	Kilograms
)

// Band is an amount in its unit.
type Band = quantity.Band[float64]

// Share is one thing that an amount is made of.
type Share struct {
	What   string
	Amount Band
}

// Length is one length that must come out of one piece, m.
type Length struct {
	Name   string
	Length float64
	Count  int
}

// Panel is a panel of grid, in cells.
type Panel struct {
	Name         string
	Across, High int
	Pitch        float64 // m
}

// Need is one thing to be had.
type Need struct {
	Name   string // as it stands on the list
	Key    string // what it is sold as, see catalogue.Goods
	Group  Group
	Unit   Unit
	Amount Band // never below the sum of From
	From   []Share
	// Layers says that it is used up on so many days: a pack that was opened for one
	// does not keep for the next. 0 for what keeps.
	Layers  int
	Lengths []Length // of what is cut from stock lengths
	Panels  []Panel  // of grid
	Spare   bool     // not needed to build
	Note    string   // what to say at the counter
	// Square is the area of a pane, m2, Thick its thickness, m, and Holes how many
	// are to be drilled in it.
	Square, Thick float64
	Holes         int
	Part          catalogue.Part // zero if it is none of the catalogue
	Price         quantity.Money // typed where it is used; zero if it is not
	Field         string         // the key it comes from
	Line          int
}

// add sums a share into a need.
func (n *Need) add(what string, amount Band) {
	n.From = append(n.From, Share{what, amount})
	n.Amount = plus(n.Amount, amount)
}

func plus(a, b Band) Band {
	return Band{Low: a.Low + b.Low, Likely: a.Likely + b.Likely, High: a.High + b.High}
}

func exactly(v float64) Band { return Band{Low: v, Likely: v, High: v} }

// taker gathers needs.
type taker struct {
	e     *enclosure.Enclosure
	d     *design.Design
	l     *layout.Layout
	list  []Need
	parts map[string]int // by name, into list
}

// Of counts what an enclosure with these sealed joints is made of, in the order in
// which it is built. It changes nothing.
func Of(e *enclosure.Enclosure, joints study.Joints) []Need {
	t := &taker{e: e, d: e.Design, l: layout.Of(e), parts: map[string]int{}}
	t.glass()
	t.sealant(joints)
	t.plumbing()
	t.grid()
	t.foam()
	t.loose()
	t.plants()
	t.electric()
	t.usedUp()
	for i := range t.d.Buy {
		w := &t.d.Buy[i]
		t.piece(Need{
			Name: w.What.Value, Key: w.Shop.Value, Group: Other, Price: w.Price.Value,
			Field: "buy[" + w.What.Value + "]", Line: w.Pos.Line,
		}, "as the file lists it", count(w.Count))
	}
	return t.list
}

// count reads a number that is one if it is left out.
func count(f design.Field[int]) int {
	if f.Given() {
		return f.Value
	}
	return 1
}

// piece adds some pieces; more of a name already listed are added to it.
func (t *taker) piece(n Need, why string, many int) {
	if many < 1 {
		return
	}
	i, ok := t.parts[n.Name]
	if !ok || t.list[i].Spare != n.Spare || t.list[i].Group != n.Group {
		t.parts[n.Name] = len(t.list)
		t.list = append(t.list, n)
		i = len(t.list) - 1
	}
	t.list[i].add(why, exactly(float64(many)))
}
