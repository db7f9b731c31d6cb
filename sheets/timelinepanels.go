package sheets

import (
	"math"
	"slices"
	"strings"

	"rillwright/drawing"
	"rillwright/quantity"
)

// panel is a strip with what is drawn in it.
type panel struct {
	strip
	unit    unit
	courses []course
	fill    fill
}

// fill says how what a panel's last course bounds is filled.
type fill int

const (
	dry fill = iota
	standing
	onFloor
)

// add adds a panel whose axis reaches to the most of what it shows.
func (t *timeline) add(name string, u unit, f fill, courses []course, notes ...note) {
	p := panel{unit: u, courses: courses, fill: f}
	most := 0.0
	for i := range courses {
		most = math.Max(most, courses[i].most())
		p.keys = append(p.keys, key{courses[i].name, courses[i].pen})
	}
	for _, n := range notes {
		most = math.Max(most, n.at)
		p.notes = append(p.notes, note{n.name, u.of(n.at)})
	}
	p.name = name + ", " + u.name
	p.y = newAxis(0, u.of(most)*1.08, 4, false)
	t.panels = append(t.panels, p)
}

// Pens in the order in which the lines of a panel take them.
func curvePen(i int) drawing.Pen {
	pens := [...]drawing.Pen{drawing.Thick, drawing.LongDashes, drawing.DashDots, drawing.Dots, drawing.Thin}
	return pens[min(i, len(pens)-1)]
}

// above returns figures less a base.
func above(figures []float64, base float64) []float64 {
	out := make([]float64, len(figures))
	for i, v := range figures {
		out[i] = v - base
	}
	return out
}

// levels adds the panels of pool and sump, each above its own floor.
func (t *timeline) levels() {
	e, track := t.e, t.r.Track
	in := func(most float64) unit {
		_, name := quantity.Length(most).In(e.Units)
		return lengthUnit(name)
	}
	dam := e.Pool.DamTop - e.Pool.Floor
	pool := course{"pool", curvePen(0), track.Time, above(track.Level[0], e.Pool.Floor)}
	t.add("Water in the pool, over its floor", in(dam), standing, []course{pool}, note{"dam's top", dam})

	chambers := max(len(e.Sump.Chambers), 1)
	var sump []course
	for i := range chambers {
		// The pumps' chamber, the last, has the full line.
		sump = append(sump, course{track.Levels[1+i], curvePen(chambers - 1 - i), track.Time, above(track.Level[1+i], e.Sump.Bottom)})
	}
	notes := []note{{"rim", e.Sump.Height}}
	for i := range e.Pumps {
		p := &e.Pumps[i]
		if !p.InSump {
			continue
		}
		at := p.Inlet - e.Sump.Bottom
		if slices.ContainsFunc(notes[1:], func(n note) bool { return n.at == at }) {
			continue // one line stands for both
		}
		notes = append(notes, note{"inlet, " + p.Name, at})
	}
	if len(notes) == 2 {
		notes[1].name = "inlet"
	}
	t.add("Water in the sump, over its bottom", in(e.Sump.Height), standing, sump, notes...)
}

// mostFlows is how many flows a panel shows: more names do not fit over it.
const mostFlows = 4

// flows adds the panel of flows: over the wall, down the drains, onto the
// floor, then others if there is room.
func (t *timeline) flows() {
	r, track := t.r, t.r.Track
	sum := func(name string) []float64 {
		var out []float64
		for i, w := range r.Ways {
			if w != name {
				continue
			}
			if out == nil {
				out = make([]float64, len(track.Time))
			}
			for k, q := range track.Rate[i] {
				out[k] += q
			}
		}
		return out
	}
	var courses []course
	pens := 0
	show := func(name string) {
		c := course{name: name, pen: curvePen(pens), time: track.Time, figure: sum(name)}
		if c.figure != nil && len(courses) < mostFlows {
			c.jump(t.r.Events)
			courses = append(courses, c)
			pens++
		}
	}
	show("over the wall")
	for i := range t.e.Drains {
		show("down the " + t.e.Drains[i].Name)
	}
	var floor []float64
	for _, s := range merged(r.Spills) {
		part := sum(s.From)
		if floor == nil {
			floor = make([]float64, len(track.Time))
		}
		for k := range part {
			floor[k] += part[k]
		}
	}
	if spilled := (course{"onto the floor", drawing.Heavy, track.Time, floor}); floor != nil && spilled.most() > 0 {
		spilled.jump(r.Events)
		courses = append(courses[:min(len(courses), mostFlows-1)], spilled)
	}
	// Others only where something to speak of flows.
	most := 0.0
	for i := range courses {
		most = math.Max(most, courses[i].most())
	}
	for i, name := range r.Ways {
		other := strings.HasPrefix(name, "siphoned") || strings.HasPrefix(name, "returned") || name == "topped up"
		if other && slices.Index(r.Ways, name) == i && slices.Max(sum(name)) > 0.02*most {
			show(name)
		}
	}
	most = 0
	for i := range courses {
		most = math.Max(most, courses[i].most())
	}
	_, unitName := quantity.Flow(most).In(t.e.Units)
	u, _ := quantity.ParseFlow("1 " + unitName) // names come from package quantity
	t.add("Flow", unit{unitName, float64(u)}, dry, courses)
}

// spilled adds the panel of water on the floor, if there is any.
func (t *timeline) spilled() {
	r := t.r
	k := -1
	for i, s := range r.Stores { // the last so called: a chamber may be, too
		if s == "spilled" {
			k = i
		}
	}
	if k < 0 || !(r.Spilled > leastSpill) {
		return
	}
	u := volumeUnit(r.Spilled, t.e.Units)
	t.add("Water on the floor", u, onFloor, []course{{"water on the floor", drawing.Heavy, r.Track.Time, r.Track.Volume[k]}})
}

// leastSpill is the volume below which nothing is said to be spilled, m3: a
// drop.
const leastSpill = 5e-8

// volumeUnit is the unit in which a volume is shown.
func volumeUnit(v float64, sys quantity.System) unit {
	_, name := quantity.Volume(v).In(sys)
	u, _ := quantity.ParseVolume("1 " + name) // names come from package quantity
	return unit{name, float64(u)}
}
