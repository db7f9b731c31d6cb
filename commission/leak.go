package commission

import (
	"fmt"

	"rillwright/enclosure"
	"rillwright/study"
)

// Mark is one filling of the leak test.
type Mark struct {
	Height float64 // above the pool's floor, m
	Volume float64 // in the bare pool, m3
	Hours  float64 // it stands
}

// Leak is the leak test: the bare pool filled in stages, before anything hides its
// joints.
type Leak struct {
	Marks  []Mark
	Points []string // where a dry tissue is laid
	// Drop is how far the level may fall at the last mark by evaporation at its
	// bad end, with what cannot be read off a mark, m.
	Drop float64
	From string
}

const (
	// reading is how exactly a water level is read off a mark on glass, m: assumed,
	// no source.
	reading = 0.001
	hour    = 3600.0

	leakRule = "a quarter first, then 24 h, or 48 h above 190 L (50 US gal): hobby guides, from memory; the hour at a quarter and at a half is common practice, no source"
)

// leak is the test of joints and bulkheads, filled to the dam's top.
func (p *planner) leak() Leak {
	e := p.s.E
	full := e.Pool.DamTop - e.Pool.Floor
	area := e.Pool.Width * e.Pool.Depth
	last := 24.0
	if full*area > 0.190 {
		last = 48
	}
	l := Leak{From: leakRule}
	for _, m := range []struct{ share, hours float64 }{{0.25, 1}, {0.5, 1}, {1, last}} {
		l.Marks = append(l.Marks, Mark{full * m.share, full * m.share * area, m.hours})
	}
	l.Drop = worst(e, e.Evaporation)*last*hour + reading
	joints := study.SealedJoints(e, study.Glass(e, e.Likely(), p.s.Likely.PoolLevel))
	for i := range joints.List {
		j := &joints.List[i]
		if !j.Loaded {
			continue // no water reaches it
		}
		name := j.Name
		if j.Count > 1 {
			name = fmt.Sprintf("%s: %d of them", name, j.Count)
		}
		l.Points = append(l.Points, name)
	}
	for i := range e.Drains {
		l.Points = append(l.Points, e.Drains[i].Name+": flange, nut and plug")
	}
	for i := range e.Ways {
		l.Points = append(l.Points, e.Ways[i].Name+": its edge, if water stands that high")
	}
	return l
}

// worst is the high end of a figure.
func worst(e *enclosure.Enclosure, f enclosure.Figure) float64 {
	if i, ok := f.Doubt(); ok {
		return max(e.Doubts[i].High, f.Value)
	}
	return f.Value
}
