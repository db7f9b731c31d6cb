package design

import "fmt"

// switches checks what turns a pump on and off by itself.
func (c *checker) switches(p *Pump, path string, onShelf bool) {
	const do = "leave it out, or write it for a pump that stands in the sump"
	for _, s := range []struct {
		key, what string
		given     bool
		at        Pos
	}{{".float", "a float switch", p.Float.Given(), p.Float.Pos}, {".timer", "a timer", p.Timer.Given(), p.Timer.Pos}} {
		switch {
		case !s.given:
		case onShelf:
			c.report(s.at, path+s.key, s.what+" on a pump that is on the shelf", do)
		case lacks(c, p.In, path+".in") && !c.partial:
			c.report(s.at, path+s.key, s.what+" on a pump that does not stand in the sump", do)
		}
	}
	f := &p.Float
	if !f.Given() || onShelf {
		return
	}
	c.below(f.Off, path+".float.off", f.On, path+".float.on", "the switch stops the pump at the lower of the two and starts it at the higher")
	c.below(f.On, path+".float.on", c.d.Sump.Inside.Height, "sump.inside.height", "measure both from the sump's inside bottom; water never stands higher than the rim")
	if reads(c, f.Off) && reads(c, p.Inlet) && f.Off.Value < p.Inlet.Value {
		c.warn(f.Off.Pos, path+".float.off", fmt.Sprintf("the switch stops the pump at %s, and the pump draws air below %s already", f.Off.Text, p.Inlet.Text), "set the switch higher than the pump's inlet, or it protects nothing")
	}
}

// crest checks the highest point of a run and the hole that ends a siphon in it.
// End is where the run leads, as refer tells it.
func (c *checker) crest(r *Run, path, end string) {
	const do = "the crest is the highest point of the whole run: measure all from the enclosure's inside bottom"
	switch end {
	case poolName:
		c.within(r.EndHeight, path+".end-height", r.Crest, path+".crest", do)
	case aManifold, aTee:
		c.reaches(r, r.To.Value, path, do)
	case sumpName, aChamber:
		e, s := &c.d.Enclosure, &c.d.Sump
		if reads(c, r.Crest) && reads(c, r.EndHeight) && reads(c, e.Bottom) && reads(c, s.Bottom) && s.Bottom.Value+r.EndHeight.Value > e.Bottom.Value+r.Crest.Value {
			c.report(r.Crest.Pos, path+".crest", fmt.Sprintf("the crest at %s lies below the run's own end, %s above the sump's bottom", r.Crest.Text, r.EndHeight.Text), "measure the crest from the enclosure's inside bottom, less than 0 if it is lower")
		}
	}
	c.reaches(r, r.From.Value, path, do)
	b := &r.BreakHole
	if !b.Given() {
		return
	}
	if end != "" && end != poolName {
		c.report(b.Pos, path+".break-hole", fmt.Sprintf("the run ends in %q, not in the pool, and cannot siphon it", r.To.Value), `leave "break-hole" out, or write it in the run whose open end hangs in the pool`)
		return
	}
	c.within(b.Height, path+".break-hole.height", r.Crest, path+".crest", do)
	c.within(r.EndHeight, path+".end-height", b.Height, path+".break-hole.height", "the hole lies between the run's open end and its highest point, where the pool's water can uncover it")
}

// reaches checks that a run's crest is no lower than the manifold or tee it
// touches.
func (c *checker) reaches(r *Run, name, path, do string) {
	for i := range c.d.Manifolds {
		if m := &c.d.Manifolds[i]; m.Name.Value == name {
			c.within(m.Height, entry("manifolds", m.Name, i)+".height", r.Crest, path+".crest", do)
		}
	}
	for i := range c.d.Tees {
		if t := &c.d.Tees[i]; t.Name.Value == name {
			c.within(t.Height, entry("tees", t.Name, i)+".height", r.Crest, path+".crest", do)
		}
	}
}

// topUp checks the float valve that lets fresh water in.
func (c *checker) topUp() {
	t := &c.d.TopUp
	if !t.Given() {
		return
	}
	c.below(t.Level, "top-up.level", c.d.Sump.Inside.Height, "sump.inside.height", "measure both from the sump's inside bottom: a valve that shuts higher than the rim never shuts")
	c.inChamber(t.Into, "top-up.into")
	if n := len(c.d.Sump.Chambers); n > 0 && lacks(c, t.Into, "top-up.into") && !c.partial {
		c.report(t.Pos, "top-up.into", "the sump has chambers, and it is not said which one is topped up", `write "into:" and one of `+either(chamberNames(c.d.Sump.Chambers)))
	}
	if !reads(c, t.From) {
		return
	}
	switch reservoir := t.From.Value == "reservoir"; {
	case reservoir && lacks(c, t.Holds, "top-up.holds"):
		c.report(t.From.Pos, "top-up.holds", "it is not said how much the reservoir holds", `write "holds:" and its volume when full`)
	case !reservoir && t.Holds.Given():
		c.report(t.Holds.Pos, "top-up.holds", "the mains never run dry, and how much is held is given", `leave "holds" out, or write "from: reservoir"`)
	}
}

// inChamber checks that a name is the sump's: one of its chambers, or "sump" if
// it is one open box.
func (c *checker) inChamber(f Field[string], path string) {
	kind, ok := c.refer(f, path, []string{aChamber}, sumpName)
	c.noWholeSump(f, path, kind, ok)
}

// noWholeSump reports "sump" where one of its chambers has to be named.
func (c *checker) noWholeSump(f Field[string], path, kind string, ok bool) {
	if ok && kind == sumpName && len(c.d.Sump.Chambers) > 0 {
		c.report(f.Pos, path, "the sump has chambers, and it is not said which of them", "name one of "+either(chamberNames(c.d.Sump.Chambers)))
	}
}
