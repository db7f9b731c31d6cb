package design

import (
	"fmt"
	"slices"
)

// manifolds checks every manifold and its outlets.
func (c *checker) manifolds() {
	for i := range c.d.Manifolds {
		m := &c.d.Manifolds[i]
		path := entry("manifolds", m.Name, i)
		if lacks(c, m.Part, path+".part") && lacks(c, m.Bore, path+".bore") {
			c.report(m.Pos, path, "nothing says what pipe this manifold is made of", `write "part:" and the pipe, or "bore:" and its inside`)
		}
		c.fits(m.Length, path+".length", width)
		c.fits(m.Height, path+".height", height)
		c.below(m.LevelError, path+".level-error", m.Length, path+".length", "write how much higher one end may hang than the other")
		c.ring(m, path)
		for j := range m.Outlets {
			c.outlets(m, j, fmt.Sprintf("%s.outlets[%d]", path, j+1))
		}
		c.inOrder(m, path)
	}
}

func (c *checker) ring(m *Manifold, path string) {
	joined := reads(c, m.Ends) && m.Ends.Value == "joined"
	switch {
	case joined && lacks(c, m.Ring, path+".ring"):
		c.report(m.Ends.Pos, path+".ends", "the ends are joined, and the length of the leg that joins them is not given", `write "ring:" and that length`)
	case m.Ring.Given() && !joined && !slices.Contains(c.broken, path+".ends"):
		c.report(m.Ring.Pos, path+".ring", "a ring leg is given, and the ends are not joined", `write "ends: joined", or leave "ring" out`)
	}
}

// outlets checks one group of outlets.
func (c *checker) outlets(m *Manifold, j int, path string) {
	o := &m.Outlets[j]
	switch hole, emitter := o.Hole.Given(), o.Emitter.Given(); {
	case hole && emitter:
		c.report(o.Emitter.Pos, path+".emitter", "these outlets are drilled holes and emitters at once", "keep one; write two groups if there are both")
	case !hole && !emitter && lacks(c, o.Hole, path+".hole") && lacks(c, o.Emitter, path+".emitter"):
		c.report(o.Pos, path, "nothing says what these outlets are", `write "hole:" and its size, or "emitter:" and its name`)
	case o.HoleError.Given() && !hole && emitter:
		c.report(o.HoleError.Pos, path+".hole-error", `"hole-error" is for drilled holes`, "leave it out of a group of emitters")
	}
	c.below(o.HoleError, path+".hole-error", o.Hole, path+".hole", "write how far a hole may be off, not its size")
	if reads(c, o.Hole) && reads(c, m.Bore) && o.Hole.Value >= m.Bore.Value.Low {
		c.report(o.Hole.Pos, path+".hole", fmt.Sprintf("a hole of %s in a pipe of %s inside", o.Hole.Text, m.Bore.Text), "measure both again")
	}
	if reads(c, o.Blocked) && reads(c, o.Count) && o.Blocked.Value > o.Count.Value {
		c.report(o.Blocked.Pos, path+".blocked", fmt.Sprintf("%s of %s outlets are blocked", o.Blocked.Text, o.Count.Text), "count again")
	}
	many := reads(c, o.Count) && o.Count.Value > 1
	if many && lacks(c, o.Pitch, path+".pitch") {
		c.report(o.Count.Pos, path+".pitch", fmt.Sprintf("%s outlets and no pitch", o.Count.Text), `write "pitch:" and the distance from centre to centre`)
	}
	if many {
		c.below(o.Hole, path+".hole", o.Pitch, path+".pitch", "the holes would run into one another: measure again")
	}
	first, last, ok := c.span(m, o)
	if ok && (last > m.Length.Value*(1+1e-9) || first < -1e-9) {
		at, what := o.Count.Pos, fmt.Sprintf("%s outlets, the last %s from the first, in a manifold of %s", o.Count.Text, metres(float64(last-first)), m.Length.Text)
		if o.First.Given() {
			at, what = o.First.Pos, fmt.Sprintf("the last outlet would be %s from the left end of a manifold of %s", metres(float64(last)), m.Length.Text)
		}
		c.report(at, path, what, "fewer outlets, a smaller pitch, or a longer manifold")
	}
}

// span returns where the first and last outlet of a group are, from the left
// end.
func (c *checker) span(m *Manifold, o *Outlets) (first, last length, ok bool) {
	if !reads(c, m.Length) || !reads(c, o.Count) || o.First.Given() && !reads(c, o.First) {
		return 0, 0, false
	}
	if o.Count.Value > 1 && !reads(c, o.Pitch) {
		return 0, 0, false
	}
	whole := length(o.Count.Value-1) * o.Pitch.Value
	first = (m.Length.Value - whole) / 2
	if o.First.Given() {
		first = o.First.Value
	}
	return first, first + whole, true
}

// inOrder checks that several groups do not lie over one another.
func (c *checker) inOrder(m *Manifold, path string) {
	if len(m.Outlets) < 2 {
		return
	}
	end, endLine, known := length(0), 0, false
	for j := range m.Outlets {
		o := &m.Outlets[j]
		at := fmt.Sprintf("%s.outlets[%d]", path, j+1)
		if lacks(c, o.First, at+".first") {
			c.report(o.Pos, at, "one of several groups of outlets does not say where it begins", `write "first:" and the distance of its first outlet from the manifold's left end`)
			known = false
			continue
		}
		first, last, ok := c.span(m, o)
		if ok && known && first <= end {
			c.report(o.First.Pos, at+".first", fmt.Sprintf("this group begins before the end of the group on line %d", endLine), "write the groups from the left, one behind the other")
		}
		end, endLine, known = last, o.Pos.Line, ok
	}
}
