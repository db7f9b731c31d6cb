package design

import "fmt"

// gridBrace checks what can be told of a brace without placing it: that what it meets
// is listed, that its slot begins on the panel, and that it is said how it leans.
func (c *checker) gridBrace(g *GridPanel, b *GridBrace, path string) {
	c.braceMeets(g, b, path+".to")
	if reads(c, b.Wide) && reads(c, g.Across) && reads(c, g.Up) && b.Wide.Value+1 > max(g.Across.Value, g.Up.Value) {
		c.report(b.Wide.Pos, path+".wide", fmt.Sprintf("a strip of %s cells in a panel of %s x %s", b.Wide.Text, g.Across.Text, g.Up.Text), "count the cells across the strip; its slot is one cell wider")
	}
	for _, at := range []struct {
		f, of Field[int]
		key   string
	}{{b.Left, g.Across, ".left"}, {b.Bottom, g.Up, ".bottom"}} {
		if reads(c, at.f) && reads(c, at.of) && at.f.Value >= at.of.Value {
			c.report(at.f.Pos, path+at.key, fmt.Sprintf("a slot begun after %s cells begins beyond the panel's %s", at.f.Text, at.of.Text), "count the cells before the slot")
		}
	}
	switch {
	case b.Angle.Given() && b.End.Given():
		c.report(b.End.Pos, path+".end", "an angle and a place of the other end of the same brace", "keep the one you set out by; the other follows")
	case lacks(c, b.Angle, path+".angle") && lacks(c, b.End, path+".end"):
		c.report(b.Pos, path+".angle", "how far does this brace lean?", `write "angle:" from straight out of the panel (angle: 45 deg; 0 deg if it does not lean), or "end:" with where its other end is`)
	}
	c.braceLeans(g, b, path+".leans")
}

// braceMeets checks that what a brace meets is one thing of the file.
func (c *checker) braceMeets(g *GridPanel, b *GridBrace, path string) {
	if !reads(c, b.To) {
		return
	}
	panel, pane := false, false
	for i := range c.d.Grid {
		panel = panel || c.d.Grid[i].Name.Value == b.To.Value
	}
	for i := range c.d.Enclosure.Panes {
		pane = pane || c.d.Enclosure.Panes[i].Name.Value == b.To.Value
	}
	switch {
	case b.To.Value == g.Name.Value:
		c.report(b.To.Pos, path, "a brace cannot meet the panel that it comes from", "name the pane or the other panel that it leans on")
	case panel && pane:
		c.report(b.To.Pos, path, fmt.Sprintf("%q is a pane and a grid panel: which does the brace lean on?", b.To.Value), "give the panel another name")
	case panel, pane, b.To.Value == "dam" && c.d.Dam.Pos.Line > 0:
	default:
		c.noPane(b.To, path)
	}
}

// braceLeans checks that a brace leans along its panel.
func (c *checker) braceLeans(g *GridPanel, b *GridBrace, path string) {
	if !reads(c, b.Leans) || !reads(c, g.At) {
		return
	}
	ways := map[string][4]string{
		"back": {"up", "down", "left", "right"}, "left": {"up", "down", "front", "rear"},
		"right": {"up", "down", "front", "rear"}, "floor": {"left", "right", "front", "rear"},
	}[g.At.Value]
	for _, w := range ways {
		if w == b.Leans.Value {
			return
		}
	}
	c.report(b.Leans.Pos, path, fmt.Sprintf("%q leads straight out of a panel at the %s, or into it", b.Leans.Value, g.At.Value), "write "+either(ways[:])+": the way along the panel that the brace leans")
}
