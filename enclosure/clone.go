package enclosure

import "slices"

// Clone returns a copy whose parts can be changed without touching the
// original. The design it came from is shared.
func (e *Enclosure) Clone() *Enclosure {
	c := *e
	c.Doubts = slices.Clone(e.Doubts)
	c.Pumps = slices.Clone(e.Pumps)
	c.Tees = slices.Clone(e.Tees)
	c.Joints = slices.Clone(e.Joints)
	c.Sump.Chambers = slices.Clone(e.Sump.Chambers)
	c.Pool.Zones, c.Pool.Hidden = slices.Clone(e.Pool.Zones), slices.Clone(e.Pool.Hidden)
	c.Ways = slices.Clone(e.Ways)
	c.Wall.Soaks, c.Bridges = slices.Clone(e.Wall.Soaks), slices.Clone(e.Bridges)
	c.Scenarios = slices.Clone(e.Scenarios)
	for i := range c.Scenarios {
		c.Scenarios[i].Steps = slices.Clone(c.Scenarios[i].Steps)
	}
	c.Manifolds = slices.Clone(e.Manifolds)
	for i := range c.Manifolds {
		m := &c.Manifolds[i]
		m.Outlets, m.Groups, m.Feeds = slices.Clone(m.Outlets), slices.Clone(m.Groups), slices.Clone(m.Feeds)
	}
	c.Runs = slices.Clone(e.Runs)
	for i := range c.Runs {
		c.Runs[i].Pieces = slices.Clone(c.Runs[i].Pieces)
	}
	c.Drains = slices.Clone(e.Drains)
	for i := range c.Drains {
		c.Drains[i].Pieces = slices.Clone(c.Drains[i].Pieces)
	}
	return &c
}
