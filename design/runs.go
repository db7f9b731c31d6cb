package design

import (
	"fmt"
	"slices"

	"rillwright/finding"
)

// tees checks that the side leg of a tee is one that touches it.
func (c *checker) tees() {
	for i := range c.d.Tees {
		t := &c.d.Tees[i]
		path := entry("tees", t.Name, i) + ".branch"
		_, ok := c.refer(t.Branch, path, []string{aRun, aDrain})
		if legs := c.legs(t.Name.Value); len(legs) == 3 && !t.Branch.Given() && reads(c, t.Name) && !c.partial {
			c.report(t.Name.Pos, path, fmt.Sprintf("which of the three pipes at tee %q is on its side leg is not said", t.Name.Value), "add branch: with the name of that run; the water pays for the turn")
		}
		if legs := c.legs(t.Name.Value); ok && reads(c, t.Name) && !slices.Contains(legs, t.Branch.Value) {
			c.report(t.Branch.Pos, path, fmt.Sprintf("%q does not touch tee %q", t.Branch.Value, t.Name.Value), "name one of "+either(legs))
		}
	}
}

// drainTees checks that the water of drains that meet in a tee goes on.
func (c *checker) drainTees() {
	for i := range c.d.Drains {
		d := &c.d.Drains[i]
		to := d.To.Value
		isTee := slices.ContainsFunc(c.d.Tees, func(t Tee) bool { return reads(c, t.Name) && t.Name.Value == to })
		goesOn := slices.ContainsFunc(c.d.Runs, func(r Run) bool { return r.From.Value == to })
		if isTee && !goesOn && !c.partial {
			c.report(d.To.Pos, entry("drains", d.Name, i)+".to", fmt.Sprintf("no run leaves tee %q", to), "add a run with from: "+to+" and to: sump")
		}
	}
}

// legs returns the names of the runs and drains that touch a tee.
func (c *checker) legs(tee string) []string {
	var legs []string
	for _, r := range c.d.Runs {
		if r.From.Value == tee || r.To.Value == tee {
			legs = append(legs, r.Name.Value)
		}
	}
	for _, d := range c.d.Drains {
		if d.To.Value == tee {
			legs = append(legs, d.Name.Value)
		}
	}
	return legs
}

// runs checks every run of hose or pipe.
func (c *checker) runs() {
	for i := range c.d.Runs {
		r := &c.d.Runs[i]
		path := entry("runs", r.Name, i)
		c.refer(r.From, path+".from", []string{aPump, aTee, aManifold, aDrain})
		kind, ok := c.refer(r.To, path+".to", []string{aTee, aManifold, aPump, aChamber}, poolName, sumpName)
		if reads(c, r.From) && reads(c, r.To) && r.From.Value == r.To.Value {
			c.report(r.To.Pos, path+".to", fmt.Sprintf("the run goes from %q back to itself", r.To.Value), "name the thing it goes to")
		}
		open := kind == poolName || kind == sumpName || kind == aChamber
		switch {
		case !ok:
		case open && lacks(c, r.EndHeight, path+".end-height"):
			c.report(r.To.Pos, path+".end-height", fmt.Sprintf("the run ends open in %q, and it is not said how high", r.To.Value), `write "end-height:" and the height of its open end`)
		case !open && r.EndHeight.Given():
			c.report(r.EndHeight.Pos, path+".end-height", fmt.Sprintf("the run ends in the %s %q and has no open end", kind, r.To.Value), `leave "end-height" out`)
		}
		if ok && r.At.Given() && kind != aManifold && c.things[r.From.Value].kind != aManifold {
			c.report(r.At.Pos, path+".at", `"at" is for a run that feeds a manifold`, "leave it out")
		}
		c.crest(r, path, kind)
		c.pieces(r.Pieces, path+".pieces")
	}
}

// pieces checks what a run or drain consists of.
func (c *checker) pieces(list []Piece, path string) {
	for i := range list {
		p := &list[i]
		at := fmt.Sprintf("%s[%d]", path, i+1)
		if reads(c, p.Count) && p.Count.Value > 1 && p.Length.Given() {
			c.report(p.Count.Pos, at+".count", "count and length together: is the length that of each, or of all?", `leave "count" out and write the whole length, or write each piece on its own line`)
		}
		if p.Fall.Given() && lacks(c, p.Length, at+".length") {
			c.report(p.Fall.Pos, at+".fall", "a fall without the length it goes over", `write "length:" as well`)
		}
		c.within(p.Fall, at+".fall", p.Length, at+".length", "write how much lower the far end is")
	}
}

// drains checks every way out of the pool.
func (c *checker) drains() {
	for i := range c.d.Drains {
		d := &c.d.Drains[i]
		path := entry("drains", d.Name, i)
		c.refer(d.To, path+".to", []string{aChamber, aTee}, sumpName)
		c.lip(d, path)
		c.upright(d, path)
		c.strainer(&d.Strainer, path+".strainer")
		c.hole(&d.Hole, path+".hole")
		c.pieces(d.Pieces, path+".pieces")
	}
	if f := c.d.Parts; reads(c, f) {
		c.besides(f, "parts")
	}
}

// lip checks the heights of a drain: below the brim, above its lower end.
func (c *checker) lip(d *Drain, path string) {
	if !reads(c, d.Lip) {
		return
	}
	if reads(c, d.Kind) && d.Kind.Value == "floor opening" && d.Lip.Value != 0 {
		c.report(d.Lip.Pos, path+".lip", fmt.Sprintf("the lip of a floor opening is the floor itself, and %s is given", d.Lip.Text), `write "lip: 0 mm", or "kind: standpipe" if a pipe stands up in it`)
	}
	if at, name, ok := c.brim(); ok && d.Lip.Value >= at {
		c.report(d.Lip.Pos, path+".lip", fmt.Sprintf("the lip at %s is not below %s", d.Lip.Text, name), "measure both from the pool's floor; the water would leave over the front")
	}
	e, s, p := &c.d.Enclosure, &c.d.Sump, &c.d.Pool
	if !reads(c, e.Bottom) || !reads(c, s.Bottom) || p.Floor.Given() && !reads(c, p.Floor) || d.EndHeight.Given() && !reads(c, d.EndHeight) {
		return
	}
	upper := e.Bottom.Value + p.Floor.Value + d.Lip.Value
	lower := s.Bottom.Value + d.EndHeight.Value
	if lower >= upper {
		c.report(d.Lip.Pos, path, fmt.Sprintf("its lower end is %s above the room floor, not below its lip at %s", metres(float64(lower)), metres(float64(upper))),
			"check enclosure.bottom, sump.bottom and end-height: water runs only downwards")
	}
}

// upright checks that a drain has what its kind needs, and nothing else.
func (c *checker) upright(d *Drain, path string) {
	if lacks(c, d.Part, path+".part") && lacks(c, d.Bore, path+".bore") {
		c.report(d.Pos, path, "nothing says what opening this drain has", `write "part:" and the bulkhead, or "bore:" and its smallest inside`)
	}
	if !reads(c, d.Kind) {
		return
	}
	if d.Kind.Value == "standpipe" {
		if lacks(c, d.Standpipe, path+".standpipe") && lacks(c, d.LipBore, path+".lip-bore") {
			c.report(d.Kind.Pos, path, "nothing says what pipe stands up in this drain", `write "standpipe:" and the pipe, or "lip-bore:" and its inside at the lip`)
		}
		return
	}
	const do = `leave it out, or write "kind: standpipe"`
	if d.Standpipe.Given() {
		c.report(d.Standpipe.Pos, path+".standpipe", fmt.Sprintf("a %s has no standpipe", d.Kind.Value), do)
	}
	if d.LipBore.Given() {
		c.report(d.LipBore.Pos, path+".lip-bore", fmt.Sprintf("a %s has no standpipe", d.Kind.Value), do)
	}
}

// connected checks that every pump, manifold and tee has its runs. A thing
// whose name was misspelt where it was referred to has been dealt with.
func (c *checker) connected() {
	if c.partial {
		return
	}
	alone := func(name Field[string], path, kind string) bool {
		_, misspelt := finding.Nearest(name.Value, c.lost)
		return reads(c, name) && c.things[name.Value] == thing{kind, path, name.Pos.Line} && !misspelt
	}
	for i, p := range c.d.Pumps {
		if path := entry("pumps", p.Name, i); alone(p.Name, path, aPump) && !c.runFrom(p.Name.Value) {
			c.report(p.Name.Pos, path, fmt.Sprintf("no run comes from pump %q", p.Name.Value), fmt.Sprintf("write a run with %q, or move the pump to the shelf", "from: "+p.Name.Value))
		}
	}
	for i, m := range c.d.Manifolds {
		if path := entry("manifolds", m.Name, i); alone(m.Name, path, aManifold) && !c.runTo(m.Name.Value) && !c.runFrom(m.Name.Value) {
			c.report(m.Name.Pos, path, fmt.Sprintf("no run leads to manifold %q", m.Name.Value), fmt.Sprintf("write a run with %q", "to: "+m.Name.Value))
		}
	}
	for i, t := range c.d.Tees {
		if path := entry("tees", t.Name, i); alone(t.Name, path, aTee) && len(c.legs(t.Name.Value)) < 2 {
			c.report(t.Name.Pos, path, fmt.Sprintf("tee %q joins fewer than two runs or drains", t.Name.Value), `name it as the "from" or "to" of each run that ends in it`)
		}
	}
}

// hole checks that a hole lies in its pane.
func (c *checker) hole(h *Hole, path string) {
	if !reads(c, h.Pane) {
		return
	}
	panes := c.d.Enclosure.Panes
	i := slices.IndexFunc(panes, func(p Pane) bool { return p.Name.Value == h.Pane.Value })
	if i < 0 {
		c.noPane(h.Pane, path+".pane")
		return
	}
	pane := &panes[i]
	if pane.Count.Value > 1 && reads(c, pane.Count) {
		c.report(h.Pane.Pos, path+".pane", fmt.Sprintf("there are %d panes named %q, and the hole is in one of them", pane.Count.Value, pane.Name.Value), "write each as a pane with a name of its own, and name the one with the hole")
	}
	switch pane.Glass.Value {
	case "toughened":
		c.report(h.Pane.Pos, path+".pane", fmt.Sprintf("pane %q is toughened: it bursts when it is drilled", pane.Name.Value), "take another pane, or have one made with the hole in it before it is toughened")
	case "not checked", "laminated":
		c.warn(h.Pane.Pos, path+".pane", fmt.Sprintf("nobody has said that pane %q can be drilled: it is %s", pane.Name.Value, pane.Glass.Value), "look for a mark, and at it through polarised light; ask the seller. Toughened glass bursts when it is drilled")
	}
	const do = "measure from the pane's lower edge and its nearer side edge to the hole's centre"
	if !reads(c, h.Size) {
		return
	}
	r := h.Size.Value / 2
	if reads(c, h.Up) && reads(c, pane.Height) && (h.Up.Value < r || h.Up.Value+r > pane.Height.Value) {
		c.report(h.Up.Pos, path+".up", fmt.Sprintf("a hole of %s, %s up, does not lie within pane %q, which is %s high", h.Size.Text, h.Up.Text, h.Pane.Value, pane.Height.Text), do)
	}
	if reads(c, h.In) && reads(c, pane.Width) {
		switch {
		case h.In.Value < r || h.In.Value+r > pane.Width.Value:
			c.report(h.In.Pos, path+".in", fmt.Sprintf("a hole of %s, %s in, does not lie within pane %q, which is %s wide", h.Size.Text, h.In.Text, h.Pane.Value, pane.Width.Text), do)
		case h.In.Value > pane.Width.Value/2*(1+1e-9):
			c.report(h.In.Pos, path+".in", fmt.Sprintf("%s is more than half of the pane's width of %s: the other edge is nearer", h.In.Text, pane.Width.Text), do)
		}
	}
}
