package faults

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
	"rillwright/hydraulics/vessel"
	"rillwright/study"
)

// line is a part of the supply side that hangs together: its pumps, hoses and
// manifolds, with the water that stands in them. While it is not running that
// water has a surface, which falls to the sump's when the pump stops and must
// be lifted to the outlets again before anything drips.
type line struct {
	pumps, manifolds, runs []int
	curve                  vessel.Curve
	full                   float64 // what it holds, m3
	prime                  float64 // from so much its lowest open end gives water
	up                     []way   // from each pump to the line's top
	back                   []network.Law
	returns                []int // runs that end in the pool and may siphon
	siphon                 []network.Law
	route                  [][]int // runs that each siphon passes, from the pool on
}

// way is a pump with the law of its hose.
type way struct {
	pump int
	head func(q float64) (h, slope float64)
	law  network.Law
	shut bool
}

// findLines sorts pumps, tees, manifolds and runs into lines.
func (r *Rig) findLines() error {
	e := r.E
	nodes := len(e.Pumps) + len(e.Tees) + len(e.Manifolds)
	parent := make([]int, nodes)
	for i := range parent {
		parent[i] = i
	}
	find := func(i int) int {
		for parent[i] != i {
			i = parent[i]
		}
		return i
	}
	node := func(p enclosure.Place) int {
		switch p.Kind {
		case enclosure.AtPump:
			return p.Index
		case enclosure.AtTee:
			return len(e.Pumps) + p.Index
		case enclosure.AtManifold:
			return len(e.Pumps) + len(e.Tees) + p.Index
		}
		return -1
	}
	for i := range e.Runs {
		if a, b := node(e.Runs[i].From), node(e.Runs[i].To); a >= 0 && b >= 0 {
			parent[find(a)] = find(b)
		}
	}
	index := map[int]int{}
	for i := range e.Pumps {
		root := find(i)
		if _, ok := index[root]; !ok {
			index[root] = len(r.lines)
			r.lines = append(r.lines, line{})
		}
		l := &r.lines[index[root]]
		l.pumps = append(l.pumps, i)
	}
	for i := range e.Manifolds {
		if k, ok := index[find(len(e.Pumps)+len(e.Tees)+i)]; ok {
			r.lines[k].manifolds = append(r.lines[k].manifolds, i)
		}
	}
	for i := range e.Runs {
		if a := node(e.Runs[i].From); a >= 0 {
			if k, ok := index[find(a)]; ok {
				r.lines[k].runs = append(r.lines[k].runs, i)
			}
		}
	}
	for k := range r.lines {
		if err := r.fillLine(&r.lines[k]); err != nil {
			return err
		}
	}
	return nil
}

// height is that of a place on the supply side.
func (r *Rig) height(p enclosure.Place, u *enclosure.Run) float64 {
	e := r.E
	switch p.Kind {
	case enclosure.AtPump:
		return e.Sump.Bottom
	case enclosure.AtTee:
		return e.Tees[p.Index].Height
	case enclosure.AtManifold:
		return e.Manifolds[p.Index].Height
	}
	return u.EndHeight
}

// fillLine works out what a line holds and how its water moves.
func (r *Rig) fillLine(l *line) error {
	e := r.E
	var layers []vessel.Layer
	lowest, top := math.Inf(1), e.Sump.Bottom
	open := func(height float64) {
		lowest, top = math.Min(lowest, height), math.Max(top, height)
	}
	for _, i := range l.runs {
		u := &e.Runs[i]
		volume, bore := 0.0, 0.002
		for k := range u.Pieces {
			d := r.Case.Of(u.Pieces[k].Bore)
			volume += u.Pieces[k].Length * hydraulics.CircleArea(d)
			bore = math.Max(bore, d)
		}
		from, to := r.height(u.From, u), r.height(u.To, u)
		if volume > 0 {
			layers = append(layers, spread(from, to, bore, volume))
		}
		if u.To.Kind == enclosure.AtPool || u.To.Kind == enclosure.AtSump {
			open(to)
		}
	}
	for _, i := range l.manifolds {
		m := &e.Manifolds[i]
		bore := r.Case.Of(m.Bore)
		layers = append(layers, spread(m.Height, m.Height, bore, (m.Length+m.Ring)*hydraulics.CircleArea(bore)))
		open(m.Height + bore)
	}
	// A thread of water joins what hangs together at every height.
	layers = append(layers, vessel.Layer{From: e.Sump.Bottom, To: math.Max(top, e.Sump.Bottom+0.01), Area: 1e-6})
	var err error
	if l.curve, err = vessel.Stack(layers...); err != nil {
		return fmt.Errorf("hoses and pipes: %w", err)
	}
	l.full = l.curve.Volume(top)
	l.prime = l.curve.Volume(math.Min(lowest, top))
	r.ways(r.parts, e, l)
	return nil
}

// spread is a volume of pipe from one height to another, over at least its bore.
func spread(a, b, bore, volume float64) vessel.Layer {
	lo, hi := math.Min(a, b), math.Max(a, b)
	hi = math.Max(hi, lo+bore)
	return vessel.Layer{From: lo, To: hi, Area: volume / (hi - lo)}
}

// ways finds how water goes up from the pumps, back through them, and from
// drowned ends back to the sump, with valves and strainers as they are in e.
func (r *Rig) ways(parts *study.Parts, e *enclosure.Enclosure, l *line) {
	l.up, l.back, l.returns, l.siphon, l.route = nil, nil, nil, nil, nil
	for _, p := range l.pumps {
		w := way{pump: p, head: parts.Pump(p), law: network.NewConduit(parts.Kinematic()), shut: true}
		for _, i := range l.runs {
			if u := &e.Runs[i]; u.From.Kind == enclosure.AtPump && u.From.Index == p {
				w.law, w.shut = parts.Run(i)
			}
		}
		l.up = append(l.up, w)
		if !w.shut && e.Pumps[p].InSump {
			l.back = append(l.back, network.Series{w.law, parts.Stopped(p)})
		}
	}
	for _, i := range l.runs {
		if u := &e.Runs[i]; u.To.Kind == enclosure.AtPool && u.EndHeight < e.Pool.DamTop+0.05 {
			law, route, shut := siphonLaw(parts, e, l, i)
			if !shut {
				l.returns, l.siphon, l.route = append(l.returns, i), append(l.siphon, law), append(l.route, route)
			}
		}
	}
}

// siphonLaw is the law from the end of a return back through its line and a
// stopped pump to the sump, with the runs on that way.
func siphonLaw(parts *study.Parts, e *enclosure.Enclosure, l *line, run int) (law network.Law, route []int, shut bool) {
	law, shut = parts.Run(run)
	route = append(route, run)
	at := e.Runs[run].From
	for range len(l.runs) + 1 {
		if at.Kind == enclosure.AtPump || shut {
			break
		}
		found := false
		for _, i := range l.runs {
			if u := &e.Runs[i]; i != run && u.To.Kind == at.Kind && u.To.Index == at.Index {
				more, closed := parts.Run(i)
				law, shut = network.Series{law, more}, shut || closed
				at, found, route = u.From, true, append(route, i)
				break
			}
		}
		if !found {
			return law, route, true
		}
	}
	if at.Kind == enclosure.AtPump {
		law = network.Series{law, parts.Stopped(at.Index)}
	}
	return law, route, shut
}

// breaks is the pool level at which a siphon through a run breaks: its end, or
// its break hole less what it goes on falling while air is drawn, one bore.
func (r *Rig) breaks(run int, hole bool) float64 {
	u := &r.E.Runs[run]
	level := u.EndHeight
	if b := u.BreakHole; hole && b.Size > 0 {
		bore := 0.0
		for k := range u.Pieces {
			bore = math.Max(bore, r.Case.Of(u.Pieces[k].Bore))
		}
		level = math.Max(level, b.Height-b.Size/2-bore)
	}
	return level
}
