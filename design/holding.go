package design

import "fmt"

// zones checks the heights between which the pool is taken up by more or less
// than its own figure.
func (c *checker) zones() {
	list := c.d.Pool.Zones
	brim, name, ok := c.brim()
	for i := range list {
		z := &list[i]
		path := entry("pool.zones", z.Name, i)
		c.below(z.From, path+".from", z.To, path+".to", "a zone has a bottom and a top: write the lower height as from, or leave the zone out")
		if ok && reads(c, z.To) && z.To.Value > brim {
			c.report(z.To.Pos, path+".to", fmt.Sprintf("the zone ends at %s, above %s", z.To.Text, name), "measure both from the pool's floor; write the height up to which water can stand in it")
		}
		if !reads(c, z.From) || !reads(c, z.To) {
			continue
		}
		for j := range i {
			o := &list[j]
			if reads(c, o.From) && reads(c, o.To) && z.From.Value < o.To.Value && o.From.Value < z.To.Value {
				c.report(z.From.Pos, path+".from", fmt.Sprintf("the zone from %s to %s lies over the one on line %d, from %s to %s", z.From.Text, z.To.Text, o.Pos.Line, o.From.Text, o.To.Text), "let one zone begin where the other ends; what both take up together is one share")
			}
		}
	}
}

// hidden checks water behind grid or foam. It is no part of the pool's own box,
// so that the two together have to fit into the enclosure.
func (c *checker) hidden() {
	p := &c.d.Pool
	brim, name, ok := c.brim()
	w, _ := c.room(width)
	d, _ := c.room(depth)
	fits := func(across, deep Field[length]) bool {
		return reads(c, w) && reads(c, d) && reads(c, across) && reads(c, deep) && across.Value <= w.Value && deep.Value <= d.Value
	}
	all := fits(p.Width, p.Depth) // one that is too large by itself has been told of
	total := float64(p.Width.Value * p.Depth.Value)
	for i := range p.Hidden {
		h := &p.Hidden[i]
		path := entry("pool.hidden", h.Name, i)
		c.fits(h.Width, path+".width", width)
		c.fits(h.Depth, path+".depth", depth)
		if reads(c, h.Floor) && ok && h.Floor.Value >= brim {
			c.report(h.Floor.Pos, path+".floor", fmt.Sprintf("its floor at %s is not below %s: it holds no water", h.Floor.Text, name), "measure both from the pool's floor")
		}
		if reads(c, h.Floor) && (!p.Floor.Given() || reads(c, p.Floor)) && p.Floor.Value+h.Floor.Value < 0 {
			c.report(h.Floor.Pos, path+".floor", fmt.Sprintf("its floor, %s from the pool's, lies below the enclosure's inside bottom", h.Floor.Text), "measure it from the pool's floor, less than 0 if it is lower; pool.floor says how high that is")
		}
		all = all && fits(h.Width, h.Depth)
		total += float64(h.Width.Value * h.Depth.Value)
	}
	if n := len(p.Hidden); n > 0 && all && total > float64(w.Value*d.Value)*(1+1e-9) {
		c.report(p.Hidden[n-1].Pos, entry("pool.hidden", p.Hidden[n-1].Name, n-1),
			fmt.Sprintf("the pool and the water hidden beside it cover %.3f m2 together, and the enclosure %.3f m2", total, float64(w.Value*d.Value)),
			"measure the pool's width and depth to the grid or foam, not to the pane behind it: hidden water is counted besides")
	}
}

// soaks checks that what the wall takes up is less than what comes.
func (c *checker) soaks() {
	total := ratio(0)
	for i := range c.d.Wall.Soaks {
		s := &c.d.Wall.Soaks[i]
		if !reads(c, s.Catches) {
			return
		}
		total += s.Catches.Value
		if total >= 1 {
			c.report(s.Catches.Pos, entry("wall.soaks", s.Name, i)+".catches", fmt.Sprintf("the soaks together catch %s of the outlets' water, and nothing would run past them", perCent(float64(total))), "share it out: less than 100 % for all of them together")
			return
		}
	}
}
