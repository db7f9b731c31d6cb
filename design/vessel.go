package design

import (
	"fmt"
	"slices"
)

// vessel checks the enclosure, its panes and the wall in it.
func (c *checker) vessel() {
	e := &c.d.Enclosure
	if e.Pos.Line == 0 {
		return
	}
	if !e.Inside.Given() && !e.Outside.Given() && !slices.Contains(c.broken, "enclosure.inside") && !slices.Contains(c.broken, "enclosure.outside") {
		c.report(e.Pos, "enclosure", "the enclosure has neither inside nor outside sizes", `write "inside:" with width, depth and height, measured between the panes`)
	}
	if e.Inside.Given() && e.Outside.Given() {
		const do = "measure both again: the outside is larger by the panes"
		c.below(e.Inside.Width, "enclosure.inside.width", e.Outside.Width, "enclosure.outside.width", do)
		c.below(e.Inside.Depth, "enclosure.inside.depth", e.Outside.Depth, "enclosure.outside.depth", do)
		c.below(e.Inside.Height, "enclosure.inside.height", e.Outside.Height, "enclosure.outside.height", do)
	}
	if reads(c, e.Turned) && reads(c, e.Made) && e.Made.Value != "from a tank" {
		c.report(e.Turned.Pos, "enclosure.turned", `"turned" is for a shop tank, and this enclosure is made from panes`, `leave it out, or write "made: from a tank"`)
	}
	for i, p := range e.Panes {
		if reads(c, p.Was) && reads(c, e.Made) && e.Made.Value != "from a tank" {
			c.report(p.Was.Pos, entry("enclosure.panes", p.Name, i)+".was", `"was" is for a shop tank, and this enclosure is made from panes`, `leave it out, or write "made: from a tank"`)
		}
	}
	w := &c.d.Wall
	c.fits(w.Width, "wall.width", width)
	c.fits(w.Height, "wall.height", height)
}

// A way across the enclosure.
type across int

const (
	width across = iota
	depth
	height
)

func (b *Box) size(a across) Field[length] {
	switch a {
	case width:
		return b.Width
	case depth:
		return b.Depth
	}
	return b.Height
}

// room returns the inside size of the enclosure, or the outside one if only
// that is given, and its path.
func (c *checker) room(a across) (Field[length], string) {
	key := [...]string{"width", "depth", "height"}[a]
	if e := &c.d.Enclosure; e.Inside.Given() {
		return e.Inside.size(a), "enclosure.inside." + key
	}
	return c.d.Enclosure.Outside.size(a), "enclosure.outside." + key
}

// fits checks that something is no larger than the enclosure it stands in.
func (c *checker) fits(f Field[length], path string, a across) {
	room, roomPath := c.room(a)
	c.within(f, path, room, roomPath, "measure both again: it has to stand inside the enclosure")
}

// pool checks the pool and its dam.
func (c *checker) pool() {
	p, dam := &c.d.Pool, &c.d.Dam
	c.fits(p.Width, "pool.width", width)
	c.fits(p.Depth, "pool.depth", depth)
	c.fits(dam.Width, "dam.width", width)
	room, roomPath := c.room(height)
	if !reads(c, dam.Height) || !reads(c, room) || p.Floor.Given() && !reads(c, p.Floor) {
		return
	}
	if top := p.Floor.Value + dam.Height.Value; top > room.Value {
		what := fmt.Sprintf("the dam's top, %s above the pool's floor, is higher than %s of %s", dam.Height.Text, roomPath, room.Text)
		c.report(dam.Height.Pos, "dam.height", what, "measure both again: the dam stands inside the enclosure")
	}
}

// brim returns the height above the pool's floor over which water would leave
// the enclosure: the dam's top, or the enclosure's without a dam.
func (c *checker) brim() (at length, name string, ok bool) {
	if dam := &c.d.Dam; dam.Pos.Line > 0 {
		return dam.Height.Value, "the dam's top at " + dam.Height.Text, reads(c, dam.Height)
	}
	room, path := c.room(height)
	floor := c.d.Pool.Floor
	return room.Value - floor.Value, path + " of " + room.Text, reads(c, room) && (!floor.Given() || reads(c, floor))
}

// sump checks the sump's level, chambers and baffles.
func (c *checker) sump() {
	s := &c.d.Sump
	if s.Pos.Line == 0 {
		return
	}
	c.below(s.Water.Level, "sump.water.level", s.Inside.Height, "sump.inside.height", "measure both from the sump's inside bottom")
	total, all := length(0), len(s.Chambers) > 0
	for i := range s.Chambers {
		ch := &s.Chambers[i]
		path := entry("sump.chambers", ch.Name, i)
		all = all && reads(c, ch.Length)
		total += ch.Length.Value
		c.baffle(ch, path, i == len(s.Chambers)-1)
	}
	// A hair of tolerance, as a sum of inches is not exact in metres.
	if all && reads(c, s.Inside.Width) && total > s.Inside.Width.Value*(1+1e-9) {
		last := &s.Chambers[len(s.Chambers)-1]
		c.report(last.Length.Pos, entry("sump.chambers", last.Name, len(s.Chambers)-1)+".length",
			fmt.Sprintf("the chambers together are %s long, and sump.inside.width is %s", metres(float64(total)), s.Inside.Width.Text),
			"measure each chamber between its walls and baffles")
	}
}

func (c *checker) baffle(ch *Chamber, path string, last bool) {
	over, under := ch.Over.Given(), ch.Under.Given()
	switch {
	case last && (over || under):
		c.report(ch.Pos, path, "the last chamber has a baffle behind it, and no chamber to lead to", `leave "over" and "under" out of the last chamber, or add the chamber behind it`)
	case last:
	case over && under:
		c.report(ch.Under.Pos, path+".under", `water leaves a chamber either over or under its baffle, and both are given`, "keep one; for two baffles, write the narrow space between them as a chamber")
	case !over && !under && lacks(c, ch.Over, path+".over") && lacks(c, ch.Under, path+".under"):
		c.report(ch.Pos, path, "it is not said how the water leaves this chamber", `write "over:" with the height of the baffle's top, or "under:" with the gap below it`)
	}
	const do = "measure both from the sump's inside bottom"
	c.below(ch.Over, path+".over", c.d.Sump.Inside.Height, "sump.inside.height", do)
	c.below(ch.Under, path+".under", c.d.Sump.Inside.Height, "sump.inside.height", do)
}

// grid checks that notches and slots lie within their panels.
func (c *checker) grid() {
	for i, g := range c.d.Grid {
		for j, n := range g.Notches {
			path := fmt.Sprintf("%s.notches[%d]", entry("grid", g.Name, i), j+1)
			c.cells(n.Across, path+".across", g.Across)
			c.cells(n.Up, path+".up", g.Up)
			c.notchAt(n.Left, n.Across, path+".left", g.Across)
			c.notchAt(n.Bottom, n.Up, path+".bottom", g.Up)
		}
		for j := range g.Braces {
			c.gridBrace(&g, &g.Braces[j], entry(entry("grid", g.Name, i)+".braces", g.Braces[j].Name, j))
		}
	}
}

func (c *checker) cells(notch Field[int], path string, panel Field[int]) {
	if reads(c, notch) && reads(c, panel) && notch.Value > panel.Value {
		c.report(notch.Pos, path, fmt.Sprintf("a notch of %s cells in a panel of %s", notch.Text, panel.Text), "count the cells again, or the other way round")
	}
}

// notchAt checks that a notch ends within its panel.
func (c *checker) notchAt(at, cells Field[int], path string, panel Field[int]) {
	if reads(c, at) && reads(c, cells) && reads(c, panel) && cells.Value <= panel.Value && at.Value+cells.Value > panel.Value {
		c.report(at.Pos, path, fmt.Sprintf("a notch of %s cells begun after %s ends beyond the panel's %s", cells.Text, at.Text, panel.Text), "count the cells before the notch")
	}
}
