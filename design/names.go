package design

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"rillwright/finding"
)

// The kinds of thing that can be referred to by name.
const (
	aPump     = "pump"
	aTee      = "tee"
	aManifold = "manifold"
	aRun      = "run"
	aDrain    = "drain"
	aChamber  = "sump chamber"
)

// The names that every design has without giving them.
const (
	poolName  = "pool"
	sumpName  = "sump"
	floorName = "floor" // of the room, for bridges only
)

// thing is what a name stands for.
type thing struct {
	kind string
	path string
	line int
}

// named is a list of things with names, and their places.
type named struct {
	kind, list string
	names      []Field[string]
	at         []Pos
}

func namesOf[T any](kind, list string, of []T, name func(*T) (Field[string], Pos)) named {
	n := named{kind: kind, list: list}
	for i := range of {
		f, at := name(&of[i])
		n.names, n.at = append(n.names, f), append(n.at, at)
	}
	return n
}

// lists returns the lists of things that can be referred to.
func (c *checker) lists() []named {
	d := c.d
	return []named{
		namesOf(aPump, "pumps", d.Pumps, func(p *Pump) (Field[string], Pos) { return p.Name, p.Pos }),
		namesOf(aManifold, "manifolds", d.Manifolds, func(m *Manifold) (Field[string], Pos) { return m.Name, m.Pos }),
		namesOf(aTee, "tees", d.Tees, func(t *Tee) (Field[string], Pos) { return t.Name, t.Pos }),
		namesOf(aRun, "runs", d.Runs, func(r *Run) (Field[string], Pos) { return r.Name, r.Pos }),
		namesOf(aDrain, "drains", d.Drains, func(r *Drain) (Field[string], Pos) { return r.Name, r.Pos }),
		namesOf(aChamber, "sump.chambers", d.Sump.Chambers, func(ch *Chamber) (Field[string], Pos) { return ch.Name, ch.Pos }),
	}
}

func (c *checker) panes() named {
	return namesOf("pane", "enclosure.panes", c.d.Enclosure.Panes, func(p *Pane) (Field[string], Pos) { return p.Name, p.Pos })
}

// names collects what can be referred to, and reports names that are used
// twice or cannot be used.
func (c *checker) names() {
	c.things = map[string]thing{}
	for _, n := range c.lists() {
		c.collect(n, c.things)
	}
	// Nothing on the water's way refers to these; they need to be told apart
	// only within their own list.
	d := c.d
	for _, n := range []named{
		c.panes(),
		namesOf("pump", "shelf", d.Shelf, func(p *Pump) (Field[string], Pos) { return p.Name, p.Pos }),
		namesOf("grid panel", "grid", d.Grid, func(g *GridPanel) (Field[string], Pos) { return g.Name, g.Pos }),
		namesOf("piece", "hardscape", d.Hardscape, func(h *Hardscape) (Field[string], Pos) { return h.Name, h.Pos }),
		namesOf("brace", "enclosure.braces", d.Enclosure.Braces, func(b *Brace) (Field[string], Pos) { return b.Name, b.Pos }),
		namesOf("opening", "enclosure.ways", d.Enclosure.Ways, func(w *Way) (Field[string], Pos) { return w.Name, w.Pos }),
		namesOf("light", "lights", d.Lights, func(l *Light) (Field[string], Pos) { return l.Name, l.Pos }),
		namesOf("vent", "vents", d.Vents, func(v *Vent) (Field[string], Pos) { return v.Name, v.Pos }),
		namesOf("foam", "foam", d.Foam, func(f *Foam) (Field[string], Pos) { return f.Name, f.Pos }),
		namesOf("coat", "coat", d.Coat, func(f *Coat) (Field[string], Pos) { return f.Name, f.Pos }),
		namesOf("zone", "pool.zones", d.Pool.Zones, func(z *Zone) (Field[string], Pos) { return z.Name, z.Pos }),
		namesOf("hidden water", "pool.hidden", d.Pool.Hidden, func(h *Hidden) (Field[string], Pos) { return h.Name, h.Pos }),
		namesOf("soak", "wall.soaks", d.Wall.Soaks, func(s *Soak) (Field[string], Pos) { return s.Name, s.Pos }),
		namesOf("bridge", "bridges", d.Bridges, func(b *Bridge) (Field[string], Pos) { return b.Name, b.Pos }),
		namesOf("scenario", "scenarios", d.Scenarios, func(s *Scenario) (Field[string], Pos) { return s.Name, s.Pos }),
	} {
		c.collect(n, map[string]thing{})
	}
	braces := map[string]thing{} // told apart across panels
	for i := range d.Grid {
		g := &d.Grid[i]
		c.collect(namesOf("brace", entry("grid", g.Name, i)+".braces", g.Braces, func(b *GridBrace) (Field[string], Pos) { return b.Name, b.Pos }), braces)
	}
}

func (c *checker) collect(n named, into map[string]thing) {
	for i, name := range n.names {
		if !reads(c, name) {
			continue
		}
		path := entry(n.list, name, i) + ".name"
		switch known, taken := into[name.Value]; {
		case taken:
			c.report(name.Pos, path, fmt.Sprintf("the name %q is taken by the %s on line %d", name.Value, known.kind, known.line), "give every one a name of its own")
			continue
		case name.Value == poolName || name.Value == sumpName:
			c.report(name.Pos, path, fmt.Sprintf("the name %q always means the %s of the design", name.Value, name.Value), fmt.Sprintf("give this %s another name", n.kind))
			continue
		case name.Value == floorName && n.kind == aChamber:
			c.report(name.Pos, path, "the name \"floor\" always means the floor of the room", "give this sump chamber another name")
			continue
		case strings.ContainsAny(name.Value, "[]\n"):
			c.report(name.Pos, path, fmt.Sprintf("the name %q holds a bracket or goes over two lines", name.Value), "use letters, digits and blanks")
		}
		into[name.Value] = thing{n.kind, strings.TrimSuffix(path, ".name"), name.Pos.Line}
	}
}

// refer checks that a name refers to one of the kinds allowed, or is one of the
// fixed names, and returns the kind; ok is false if it does not or nothing can
// be said.
func (c *checker) refer(f Field[string], path string, kinds []string, fixed ...string) (kind string, ok bool) {
	if !reads(c, f) {
		return "", false
	}
	if slices.Contains(fixed, f.Value) {
		return f.Value, true
	}
	t, known := c.things[f.Value]
	wants := either(slices.Concat(articles(kinds), fixed))
	switch {
	case known && slices.Contains(kinds, t.kind):
		return t.kind, true
	case known:
		c.report(f.Pos, path, fmt.Sprintf("%q is a %s", f.Value, t.kind), "name "+wants)
		return "", false
	case f.Value == poolName || f.Value == sumpName || f.Value == floorName:
		c.report(f.Pos, path, fmt.Sprintf("%q cannot stand here", f.Value), "name "+wants)
		return "", false
	case c.partial:
		return "", false
	}
	c.lost = append(c.lost, f.Value)
	var all, fit []string
	for _, name := range slices.Sorted(maps.Keys(c.things)) {
		all = append(all, name)
		if slices.Contains(kinds, c.things[name].kind) {
			fit = append(fit, name)
		}
	}
	fit = append(fit, fixed...)
	do := "name " + wants
	near, ok := finding.Nearest(f.Value, fit)
	if !ok {
		near, ok = finding.Nearest(f.Value, all)
	}
	switch {
	case ok:
		do = fmt.Sprintf("did you mean %q?", near)
	case len(fit) > 0:
		do += "; there are: " + strings.Join(fit, ", ")
	}
	c.report(f.Pos, path, fmt.Sprintf("nothing is named %q", f.Value), do)
	return "", false
}

func articles(kinds []string) []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		out[i] = "a " + k
	}
	return out
}

// either writes a list as "a, b or c".
func either(words []string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
}

// noPane reports a pane that is not listed.
func (c *checker) noPane(f Field[string], path string) {
	if c.panesPartial {
		return // the pane may be one that could not be read
	}
	var names []string
	for _, p := range c.d.Enclosure.Panes {
		names = append(names, p.Name.Value)
	}
	do := "list it under enclosure.panes"
	if near, ok := finding.Nearest(f.Value, names); ok {
		do = fmt.Sprintf("did you mean %q?", near)
	} else if len(names) > 0 {
		do = "name one of " + either(names) + ", or list it under enclosure.panes"
	}
	c.report(f.Pos, path, fmt.Sprintf("no pane is named %q", f.Value), do)
}
