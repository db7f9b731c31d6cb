package design

import "fmt"

// bridges checks everything that hangs out of the water.
func (c *checker) bridges() {
	for i := range c.d.Bridges {
		b := &c.d.Bridges[i]
		path := entry("bridges", b.Name, i)
		from, ok1 := c.refer(b.From, path+".from", []string{aChamber}, poolName, sumpName)
		c.noWholeSump(b.From, path+".from", from, ok1)
		to, ok2 := c.refer(b.To, path+".to", []string{aChamber}, poolName, sumpName, floorName)
		c.noWholeSump(b.To, path+".to", to, ok2)
		if ok1 && ok2 && b.From.Value == b.To.Value {
			c.report(b.To.Pos, path+".to", fmt.Sprintf("it hangs in %q with both ends", b.To.Value), "name where its other end is, or leave it out if it carries nothing away")
		}
		c.carries(b, path)
		if ok2 && to != floorName && lacks(c, b.End, path+".end") {
			c.report(b.To.Pos, path+".end", "it is not said how high its other end is", `write "end:" and that height`)
		}
		if ok1 && ok2 {
			c.hangs(b, path, from, to)
		}
	}
	c.siphonLoop()
}

// siphonLoop checks that hoses do not lead round in a ring: water only runs down,
// so one of them is written the wrong way round.
func (c *checker) siphonLoop() {
	next := map[string][]string{}
	var reaches func(from, to string, seen map[string]bool) bool
	reaches = func(from, to string, seen map[string]bool) bool {
		if from == to {
			return true
		}
		seen[from] = true
		for _, n := range next[from] {
			if !seen[n] && reaches(n, to, seen) {
				return true
			}
		}
		return false
	}
	for i := range c.d.Bridges {
		b := &c.d.Bridges[i]
		if b.Kind.Value != "hose" || !reads(c, b.From) || !reads(c, b.To) || b.From.Value == b.To.Value {
			continue
		}
		if reaches(b.To.Value, b.From.Value, map[string]bool{}) {
			c.report(b.From.Pos, entry("bridges", b.Name, i)+".from", fmt.Sprintf("hoses lead from %q to %q and back again: a loop of siphons, and water runs down only", b.From.Value, b.To.Value), `write "from:" with the water that stands higher`)
			continue
		}
		next[b.From.Value] = append(next[b.From.Value], b.To.Value)
	}
}

// carries checks that a hose has its bore, and anything else its section.
func (c *checker) carries(b *Bridge, path string) {
	if !reads(c, b.Kind) {
		return
	}
	hose := b.Kind.Value == "hose"
	switch {
	case hose && b.Section.Given():
		c.report(b.Section.Pos, path+".section", "a hose carries water inside: a section of what?", `write "bore:" for a hose, or another kind`)
	case !hose && b.Bore.Given():
		c.report(b.Bore.Pos, path+".bore", fmt.Sprintf("a bore beside \"kind: %s\": is it a hose?", b.Kind.Value), `write "kind: hose", or "section:" and what can carry water across it`)
	case hose && lacks(c, b.Bore, path+".bore"):
		c.report(b.Kind.Pos, path+".bore", "the bore of this hose is not given", `write "bore:" and its inside diameter`)
	case !hose && lacks(c, b.Section, path+".section"):
		c.report(b.Kind.Pos, path+".section", "it is not said how much of it can carry water", `write "section:", such as 1 cm2: for a cord of strands, all of it that wets through`)
	}
}

// hangs checks a bridge's heights: its wet end within the water it hangs in,
// its crest above both ends, and long enough to reach.
func (c *checker) hangs(b *Bridge, path, from, to string) {
	low, ok1 := c.datum(from)
	far, ok2 := c.datum(to)
	bottom := c.d.Enclosure.Bottom
	if reads(c, b.Foot) {
		if rim, name, ok := c.rim(from); ok && b.Foot.Value >= rim {
			c.report(b.Foot.Pos, path+".foot", fmt.Sprintf("its wet end at %s is not below %s", b.Foot.Text, name), "measure the wet end from the floor of the water it hangs in")
		}
	}
	if !ok1 || !ok2 || !reads(c, bottom) || !reads(c, b.Foot) || !reads(c, b.Crest) || b.End.Given() && !reads(c, b.End) {
		return
	}
	foot, crest, end := low+b.Foot.Value, bottom.Value+b.Crest.Value, far+b.End.Value
	const do = "the crest counts from the enclosure's inside bottom; measure it at the highest point"
	switch {
	case foot >= crest:
		c.report(b.Crest.Pos, path+".crest", fmt.Sprintf("its highest point is %s above the room floor, not above its wet end at %s", metres(float64(crest)), metres(float64(foot))), do)
	case end >= crest:
		c.report(b.Crest.Pos, path+".crest", fmt.Sprintf("its highest point is %s above the room floor, not above its other end at %s", metres(float64(crest)), metres(float64(end))), do)
	case reads(c, b.Length) && float64(b.Length.Value) < float64(crest-foot+crest-end)*(1-1e-9):
		c.report(b.Length.Pos, path+".length", fmt.Sprintf("%s is too short to go up %s and down %s", b.Length.Text, metres(float64(crest-foot)), metres(float64(crest-end))), "measure it again, with its two ends")
	}
}

// datum returns the height above the room floor of what heights in a water, or
// on the floor, count from. Kind is as refer tells it.
func (c *checker) datum(kind string) (at length, ok bool) {
	e, p, s := &c.d.Enclosure, &c.d.Pool, &c.d.Sump
	switch kind {
	case floorName:
		return 0, true
	case poolName:
		return e.Bottom.Value + p.Floor.Value, reads(c, e.Bottom) && (!p.Floor.Given() || reads(c, p.Floor))
	}
	return s.Bottom.Value, reads(c, s.Bottom)
}

// rim returns the height above its own floor at which a water leaves its box.
func (c *checker) rim(kind string) (at length, name string, ok bool) {
	if kind == poolName {
		return c.brim()
	}
	h := c.d.Sump.Inside.Height
	return h.Value, "sump.inside.height of " + h.Text, reads(c, h)
}
