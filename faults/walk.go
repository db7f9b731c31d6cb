package faults

import (
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// Link is one thing that joins two waters, or a water and the floor, by which
// water may leave by itself.
type Link struct {
	Name, Kind string // Kind: hose, cord, ..., or return for a run that ends in the pool
	From, To   string
	Place      enclosure.Place // where it leads
	// Flow, Stop and Drawn are by the low, likely and high ends of what such
	// things carry, with the waters as they stand while the pump runs.
	Flow  [3]float64 // m3/s to begin with
	Stop  [3]float64 // level to which it draws the upper water, m above the room floor
	Drawn [3]float64 // m3 that it can take until then, if nothing is added
	// Starts is whether it begins by itself; a hose may have to be filled first.
	Starts bool
	Crest  float64
	Upper  float64 // level of the upper water
	Line   int
}

// Walk goes through every pair of a water and a lower place that something
// joins: bridges of the design file, and returns that end under the pool's
// water and siphon once the pump stops.
func (r *Rig) Walk() ([]Link, error) {
	e := r.E
	var out []Link
	pool, sump := r.Start.PoolLevel, r.Start.SumpLevel
	level := func(p enclosure.Place) float64 {
		switch p.Kind {
		case enclosure.AtPool:
			return pool
		case enclosure.AtSump:
			return sump
		}
		return math.Inf(-1)
	}
	holds := func(p enclosure.Place, z float64) float64 {
		if p.Kind == enclosure.AtPool {
			return r.pool.Volume(z)
		}
		return r.SumpVolume(z)
	}
	for i := range e.Bridges {
		b := &e.Bridges[i]
		l := Link{Name: b.Name, Kind: b.Kind, From: b.From.Name, To: b.To.Name, Place: b.To, Crest: b.Crest, Upper: level(b.From), Line: b.Pos.Line}
		for side := -1; side <= 1; side++ {
			c, err := r.creep(b, side)
			if err != nil {
				return nil, err
			}
			k := side + 1
			l.Flow[k] = c.flow(l.Upper, level(b.To))
			l.Stop[k] = math.Min(c.stop(level(b.To)), l.Upper)
			if l.Flow[k] > 0 {
				l.Drawn[k] = holds(b.From, l.Upper) - holds(b.From, l.Stop[k])
			}
			if side == 0 {
				l.Starts = c.starts(l.Upper)
			}
		}
		out = append(out, l)
	}
	for k := range r.lines {
		for i, run := range r.lines[k].returns {
			u := &e.Runs[run]
			stop := math.Max(r.breaks(run, true), sump)
			l := Link{Name: u.Name, Kind: "return", From: "pool", To: "sump", Place: enclosure.Place{Kind: enclosure.AtSump}, Crest: u.Crest, Upper: pool, Starts: true, Line: u.Pos.Line}
			for side := range 3 {
				if l.Stop[side] = math.Min(stop, pool); stop < pool {
					l.Flow[side] = network.Through(r.lines[k].siphon[i], pool-sump, 0)
					l.Drawn[side] = r.pool.Volume(pool) - r.pool.Volume(stop)
				}
			}
			out = append(out, l)
		}
	}
	return out, nil
}
