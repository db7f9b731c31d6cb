// Package pieces tells what is to be cut: the finished size of every pane with the
// rule that it follows from, every length of pipe and hose, every panel of lighting
// grid in cells, and how they are laid onto what is on hand and what is bought.
//
// A size that the rest of the file fixes is computed from it and held against the
// one typed; where nothing fixes it the typed one stands. Sizes are rounded to
// what the shop cuts, a whole millimetre or in US designs a sixteenth of an inch,
// and to the side that does no harm: a pane that goes between others down, a dam's
// height and a pipe's length up.
//
// Lengths in m, masses in kg.
package pieces

import (
	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/quantity"
)

// List is all that is to be cut for one enclosure.
type List struct {
	Pieces  []Piece
	Lengths []Length
	Panels  []Panel
	Layouts Layouts
	// Bond is the thinnest, likely and thickest bond line between panes, m.
	Bond [3]float64
	// Assumed are figures taken without a source, in words.
	Assumed []string
}

// Build returns all that is to be cut for e, whose layout is l. It reads both and
// changes nothing.
func Build(e *enclosure.Enclosure, l *layout.Layout) *List {
	b := &builder{e: e, l: l, out: &List{}}
	b.pieces()
	b.lengths()
	b.panels()
	b.braces()
	b.layouts()
	return b.out
}

// Sizes is the part of Build that gives finished sizes: Pieces alone.
func Sizes(e *enclosure.Enclosure, l *layout.Layout) *List {
	b := &builder{e: e, l: l, out: &List{}}
	b.pieces()
	return b.out
}

// builder is a List on its way.
type builder struct {
	e   *enclosure.Enclosure
	l   *layout.Layout
	out *List
	box *box
}

func (b *builder) us() bool { return b.e.Units == quantity.US }
