package design

import (
	"fmt"
	"regexp"
	"strings"
)

// glass checks what panes are, what holds them and what passes through them.
func (c *checker) glass() {
	e := &c.d.Enclosure
	for i := range e.Panes {
		c.pane(&e.Panes[i], entry("enclosure.panes", e.Panes[i].Name, i))
	}
	if reads(c, e.Opening.Width) || reads(c, e.Opening.Height) {
		c.fits(e.Opening.Width, "enclosure.opening.width", width)
	}
	for i := range c.d.Drains {
		c.overridden(c.d.Drains[i].Hole.Override, entry("drains", c.d.Drains[i].Name, i)+".hole.override")
	}
	for i := range e.Rims {
		r := &e.Rims[i]
		path := fmt.Sprintf("enclosure.rims[%d]", i+1)
		c.below(r.Wall, path+".wall", r.Flat, path+".flat", "measure the thickness of its flat part, and how far that reaches across")
	}
	for i := range e.Braces {
		c.brace(&e.Braces[i], entry("enclosure.braces", e.Braces[i].Name, i))
	}
	for i := range e.Ways {
		c.way(&e.Ways[i], entry("enclosure.ways", e.Ways[i].Name, i))
	}
	c.hangings()
	c.stand()
}

func (c *checker) pane(p *Pane, path string) {
	if reads(c, p.At) {
		switch pair := p.At.Value == "sides"; {
		case pair && p.Count.Value != 2 && (!p.Count.Given() || reads(c, p.Count)):
			c.report(p.At.Pos, path+".at", `"sides" is for two panes alike, left and right`, `write "count: 2", or "at: left" or "at: right"`)
		case !pair && p.Count.Value > 1 && reads(c, p.Count) && (p.At.Value == "left" || p.At.Value == "right" || p.At.Value == "back"):
			c.report(p.Count.Pos, path+".count", fmt.Sprintf("%d panes cannot all stand at the %s", p.Count.Value, p.At.Value), `write each as a pane of its own, or "at: sides" for one left and one right`)
		}
	}
	if reads(c, p.Opens) && reads(c, p.At) && p.At.Value != "door" && p.At.Value != "top" {
		c.report(p.Opens.Pos, path+".opens", fmt.Sprintf("a pane at the %s does not open", p.At.Value), `leave "opens" out, or write "at: door" or "at: top"`)
	}
	if p.Ply.Given() && reads(c, p.Glass) && p.Glass.Value != "laminated" {
		c.report(p.Ply.Pos, path+".ply", fmt.Sprintf("sheets in a pane that is %s", p.Glass.Value), `leave "ply" out, or write "glass: laminated"`)
	}
	if reads(c, p.Ply) && reads(c, p.Thickness) && float64(2*p.Ply.Value) > float64(p.Thickness.Value)*1.1 {
		c.report(p.Ply.Pos, path+".ply", fmt.Sprintf("two sheets of %s are thicker than the pane's %s", p.Ply.Text, p.Thickness.Text), "measure one sheet at the edge, without the film")
	}
	c.within(p.Outer, path+".water-outside", p.Height, path+".height", "measure it from the pane's lower edge; water above the top runs over")
	for _, edge := range []struct {
		f    Field[string]
		name string
	}{{p.Edges.Bottom, "bottom"}, {p.Edges.Left, "left"}, {p.Edges.Right, "right"}, {p.Edges.Top, "top"}} {
		if reads(c, edge.f) && edge.f.Value == "rim" && len(c.d.Enclosure.Rims) == 0 && !c.panesPartial {
			c.report(edge.f.Pos, path+".edges."+edge.name, "a rim holds this edge, and no rim is listed", `describe it under "enclosure.rims": what it is of, how far its flat part reaches and how thick that is`)
		}
	}
}

// paneNamed returns the pane of a name; dam is a name too, for the dam of the
// section of its own.
func (c *checker) paneNamed(f Field[string], path string) (*Pane, bool) {
	if !reads(c, f) {
		return nil, false
	}
	for i := range c.d.Enclosure.Panes {
		if p := &c.d.Enclosure.Panes[i]; p.Name.Value == f.Value {
			return p, true
		}
	}
	c.noPane(f, path)
	return nil, false
}

func (c *checker) brace(b *Brace, path string) {
	var held *Pane
	if b.Pane.Value != "dam" || c.d.Dam.Pos.Line == 0 {
		held, _ = c.paneNamed(b.Pane, path+".pane")
	}
	along := b.Runs.Value == "along"
	switch {
	case !reads(c, b.Runs):
	case along && b.To.Given():
		c.report(b.To.Pos, path+".to", "a strip along an edge does not go across to another pane", `leave "to" out, or write "runs: across"`)
	case along:
	case b.Length.Given():
		c.report(b.Length.Pos, path+".length", "a strip that goes across holds the edge over its width", `leave "length" out; its width is enough`)
	case b.To.Given():
		_, _ = c.paneNamed(b.To, path+".to")
	case lacks(c, b.To, path+".to"):
		c.report(b.Runs.Pos, path+".to", "it is not said what holds the other end of this strip", `write "to:" and the pane opposite`)
	}
	if held == nil || !reads(c, b.From) {
		return
	}
	edge, name := held.Width, "width"
	if b.Edge.Value == "left" || b.Edge.Value == "right" {
		edge, name = held.Height, "height"
	}
	taken := b.Width
	if along {
		taken = b.Length
	}
	if reads(c, edge) && (!taken.Given() || reads(c, taken)) && b.From.Value+taken.Value > edge.Value {
		c.report(b.From.Pos, path+".from", fmt.Sprintf("begun at %s it ends at %s, beyond the pane's %s of %s", b.From.Text, metres(float64(b.From.Value+taken.Value)), name, edge.Text), "measure from the left or lower end of the edge to where the strip begins")
	}
}

// way checks an opening and what passes through it.
func (c *checker) way(w *Way, path string) {
	c.overridden(w.Override, path+".override")
	p, ok := c.paneNamed(w.Pane, path+".pane")
	if ok && p.Count.Value > 1 && reads(c, p.Count) {
		c.report(w.Pane.Pos, path+".pane", fmt.Sprintf("there are %d panes named %q, and the opening is in one of them", p.Count.Value, p.Name.Value), "write each as a pane with a name of its own, and name the one with the opening")
	}
	round := w.Size.Given()
	wide, high := w.Width, w.Height
	switch {
	case round && (wide.Given() || high.Given()):
		c.report(w.Size.Pos, path+".size", "an opening that is round and has a width or height", `keep "size:" for a round one, "width:" and "height:" for any other`)
		return
	case round:
		wide, high = w.Size, w.Size
	case lacks(c, wide, path+".width") || lacks(c, high, path+".height"):
		c.report(w.Pos, path, "it is not said how large this opening is", `write "size:" if it is round, else "width:" and "height:"`)
		return
	}
	const do = "measure from the pane's lower edge and its nearer side edge to the opening's centre; half of a notch at an edge counts to its edge"
	if ok && reads(c, wide) && reads(c, high) {
		if reads(c, w.Up) && reads(c, p.Height) && (w.Up.Value+high.Value/2 > p.Height.Value*(1+1e-9) || w.Up.Value < high.Value/2*(1-1e-9)) {
			c.report(w.Up.Pos, path+".up", fmt.Sprintf("an opening %s high, %s up, does not lie within pane %q, which is %s high", high.Text, w.Up.Text, w.Pane.Value, p.Height.Text), do)
		}
		if reads(c, w.In) && reads(c, p.Width) && (w.In.Value+wide.Value/2 > p.Width.Value*(1+1e-9) || w.In.Value < wide.Value/2*(1-1e-9)) {
			c.report(w.In.Pos, path+".in", fmt.Sprintf("an opening %s wide, %s in, does not lie within pane %q, which is %s wide", wide.Text, w.In.Text, w.Pane.Value, p.Width.Text), do)
		}
		if !round && reads(c, w.Corner) && 2*w.Corner.Value > min(wide.Value, high.Value)*(1+1e-9) {
			c.report(w.Corner.Pos, path+".corner", fmt.Sprintf("corners of %s do not fit into %s by %s", w.Corner.Text, wide.Text, high.Text), "measure the radius of one corner")
		}
	}
	for j := range w.Passes {
		q := &w.Passes[j]
		at := fmt.Sprintf("%s.passes[%d]", path, j+1)
		switch {
		case q.Part.Given() && (q.Width.Given() || q.Height.Given()):
			c.report(q.Part.Pos, at+".part", "a part and a measured size of the same thing", "keep what you measured, or the part")
		case lacks(c, q.Part, at+".part") && lacks(c, q.Width, at+".width"):
			c.report(q.Pos, at, "it is not said how thick it is", `write "width:" (and "height:" if it is not round) of its widest end, the plug of a cord, or "part:" for a hose or pipe`)
		}
		if q.Leaves.Value && q.Stays.Given() {
			c.report(q.Stays.Pos, at+".stays", "something stays, and nothing of it stays", `leave out "stays", or "leaves"`)
		}
		if q.Width.Given() {
			c.within(q.Stays, at+".stays", q.Width, at+".width", "what stays behind its widest end is thinner than that")
		}
	}
}

// overridden checks that a word against a rule says when it was given, and why.
func (c *checker) overridden(f Field[string], path string) {
	if !reads(c, f) {
		return
	}
	date := regexp.MustCompile(`\b20\d\d-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])\b`).FindString(f.Value)
	if rest := strings.Trim(strings.Replace(f.Value, date, "", 1), " ,:;.-"); date == "" || len(rest) < 10 {
		c.report(f.Pos, path, "an override without its date or its reason", `write the date, who says so and why: override: "2026-05-01, A. B.: the shop drills it at its own risk"`)
	}
}

// hangings checks what hangs on the grid.
func (c *checker) hangings() {
	names := map[string]bool{}
	for i := range c.d.Grid {
		g := &c.d.Grid[i]
		names[g.Name.Value] = true
		path := entry("grid", g.Name, i)
		b := &g.Bond
		if !b.Given() || !reads(c, g.Across) || !reads(c, g.Up) || !reads(c, g.Pitch) {
			continue
		}
		c.spotFits(b.Width, path+".bond.width", g.Across, g.Pitch)
		c.spotFits(b.Height, path+".bond.height", g.Up, g.Pitch)
	}
	for i := range c.d.Hardscape {
		h := &c.d.Hardscape[i]
		path := entry("hardscape", h.Name, i)
		if reads(c, h.On) && h.On.Value != poolName && !names[h.On.Value] {
			c.report(h.On.Pos, path+".on", fmt.Sprintf("no grid panel is named %q", h.On.Value), `name a panel of "grid:", or pool if the piece stands there`)
		}
	}
}

func (c *checker) spotFits(size Field[length], path string, cells Field[int], pitch Field[length]) {
	if whole := length(cells.Value) * pitch.Value; reads(c, size) && size.Value > whole*(1+1e-9) {
		c.report(size.Pos, path, fmt.Sprintf("a spot of %s on a panel of %s", size.Text, metres(float64(whole))), "measure one spot of sealant, or one stand-off")
	}
}

func (c *checker) stand() {
	s := &c.d.Stand
	if !s.Given() {
		return
	}
	if reads(c, s.Feet) && (s.Feet.Value == 2 || s.Feet.Value == 1) {
		c.report(s.Feet.Pos, "stand.feet", fmt.Sprintf("%s feet do not stand", s.Feet.Text), "count them again, or leave them out if it stands on its whole base")
	}
	if s.Foot.Given() && lacks(c, s.Feet, "stand.feet") {
		c.report(s.Foot.Pos, "stand.foot", "a size of feet, and it is not said how many there are", `write "feet: 4"`)
	}
	if reads(c, s.Inset) && reads(c, s.Width) && reads(c, s.Depth) && 2*s.Inset.Value >= min(s.Width.Value, s.Depth.Value) {
		c.report(s.Inset.Pos, "stand.inset", fmt.Sprintf("feet %s in from each side of a stand %s by %s leave nothing to stand on", s.Inset.Text, s.Width.Text, s.Depth.Text), "measure from the stand's edge to the outer side of a foot")
	}
}
