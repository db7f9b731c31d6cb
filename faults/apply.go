package faults

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/study"
)

// apply does one step of a course of events.
func (s *sim) apply(st *enclosure.Step) {
	e, m := s.r.E, &s.mode
	now := s.solver.Time()
	switch st.What {
	case "power off":
		m.power = false
		s.log("the power fails")
	case "power on":
		m.power = true
		s.log("the power comes back")
	case "pump stops", "pump starts":
		m.stopped[st.Index] = st.What == "pump stops"
		s.log("the %s %s", e.Pumps[st.Index].Name, map[bool]string{true: "stops", false: "starts"}[m.stopped[st.Index]])
	case "drain blocks":
		s.block(st.Index, st.Share, st.Over, "blocks")
	case "drain clears":
		s.block(st.Index, 0, st.Over, "clears")
	case "standpipe out":
		m.knocked[st.Index] = true
		s.log("the standpipe of the %s is knocked out", e.Drains[st.Index].Name)
		s.redrain()
	case "hose off":
		s.comeOff(st)
	case "valve opens":
		m.open[st.Index] = true
		s.log("the valve in the %s is opened fully", e.Runs[st.Index].Name)
		s.swapCircuit()
	case "strainer clogs":
		if st.Place.Kind != enclosure.AtPump || st.Place.Index < 0 {
			s.block(st.Index, st.Share, st.Over, "clogs")
			return
		}
		m.staged[st.Index] = ramp{m.strainer[st.Index], math.Min(st.Share, 0.999), now, st.Over}
		s.log("the strainer of the %s clogs%s", e.Pumps[st.Index].Name, share(st.Share))
		s.clog(st.Index)
	case "top-up sticks":
		m.stuck = st.Share
		s.log("the top-up sticks%s", map[bool]string{true: " shut", false: " open"}[st.Share == 0])
	case "float sticks":
		m.stuckOn[st.Index], m.floatOff[st.Index] = true, false
		s.log("the float of the %s sticks", e.Pumps[st.Index].Name)
	case "holes block":
		m.holesBlocked = true
		s.log("the siphon-break holes are blocked")
	case "leak starts":
		s.leak(st)
	case "water added", "water taken":
		s.add(st)
	default:
		s.fail(fmt.Errorf("nothing is known of %q", st.What))
	}
}

func share(v float64) string {
	if v >= 1 {
		return ""
	}
	return fmt.Sprintf(" by %.0f %%", 100*v)
}

func (s *sim) block(i int, to, over float64, word string) {
	b := &s.mode.blocked[i]
	*b = ramp{b.at(s.solver.Time()), to, s.solver.Time(), over}
	s.log("the %s %s%s", s.r.E.Drains[i].Name, word, share(to+map[bool]float64{true: 1}[word == "clears"]))
}

// knockedLip is the lowest wet point of a drain whose standpipe is out.
func (s *sim) knockedLip(i int) float64 {
	d := &s.r.E.Drains[i]
	return math.Max(d.BulkheadAt-s.r.Case.Of(d.Bulkhead)/2, s.r.E.Pool.Floor)
}

// redrain makes the drains anew, those without a standpipe as openings in the
// wall at their bulkheads, or in the floor if they sit there.
func (s *sim) redrain() {
	e := s.r.E.Clone()
	for i, out := range s.mode.knocked {
		if d := &e.Drains[i]; out {
			d.Kind, d.Lip, d.LipBore = "wall opening", s.knockedLip(i), d.Bulkhead
			if lying(d) {
				d.Kind = "floor opening"
			}
		}
	}
	o, err := study.NewOutflow(e, s.r.Case)
	if err != nil {
		s.fail(err)
		return
	}
	s.outflow = o
}

// lying reports whether a drain's bulkhead sits in a floor.
func lying(d *enclosure.Drain) bool { return !d.Hole.Given() }

// comeOff lets a run come off at a joint: what stands above the joint runs out,
// and a return that ends under water siphons out of it.
func (s *sim) comeOff(st *enclosure.Step) {
	r, m := s.r, &s.mode
	u := &r.E.Runs[st.Index]
	at := st.Height
	if math.IsNaN(at) {
		at = r.LowestJoint(st.Index)
	}
	m.off, m.offAt = st.Index, at
	s.log("the %s comes off, %.0f mm above the room floor", u.Name, 1000*at)
	for k := range r.lines {
		l := &r.lines[k]
		if !s.inLine(k, st.Index) {
			continue
		}
		if loose := s.x[s.at.column+k] - l.curve.Volume(at); loose > 0 {
			s.shift(s.on.loose+k, loose)
		}
		m.primed[k] = m.driven[k] && s.x[s.at.column+k] >= s.prime(k)*(1-1e-6)
	}
	m.siphoning[st.Index] = false
	if u.To.Kind == enclosure.AtPool && s.poolLevel() > math.Max(r.breaks(st.Index, !s.mode.holesBlocked), at) {
		s.drop(st.Index, at)
	}
	s.swapCircuit()
}

// drop turns a return whose hose came off into a leak of the pool through it,
// down to its end or break hole.
func (s *sim) drop(run int, at float64) {
	u := &s.r.E.Runs[run]
	bore := 0.0
	for k := range u.Pieces {
		bore = math.Max(bore, s.r.Case.Of(u.Pieces[k].Bore))
	}
	s.mode.leaks = append(s.mode.leaks, leak{-1, hydraulics.CircleArea(bore), math.Max(s.r.breaks(run, !s.mode.holesBlocked), at)})
	s.log("the pool siphons out of the %s", u.Name)
}

// LowestJoint is the height of the lowest joint of a run outside the sump, m
// above the room floor: where it comes over the sump's rim, unless all of it
// is higher.
func (r *Rig) LowestJoint(run int) float64 {
	u := &r.E.Runs[run]
	from, to := r.height(u.From, u), r.height(u.To, u)
	return math.Max(math.Min(from, to), math.Min(r.rim(), math.Max(from, to)))
}

// leak opens a hole in a pane or joint.
func (s *sim) leak(st *enclosure.Step) {
	l := leak{chamber: -1, area: hydraulics.CircleArea(st.Size), height: st.Height}
	what := "pool"
	floor := s.r.E.Pool.Floor
	if st.Place.Kind == enclosure.AtSump {
		l.chamber = min(max(st.Place.Index, 0), s.r.last())
		what, floor = s.names[s.at.chamber+l.chamber], s.r.E.Sump.Bottom
	}
	if math.IsNaN(l.height) {
		l.height = floor
	}
	s.mode.leaks = append(s.mode.leaks, l)
	way := s.ways[s.on.leakPool]
	if l.chamber >= 0 {
		way = s.ways[s.on.leakSump+l.chamber]
	}
	if _, ok := s.first[way]; !ok {
		s.first[way] = s.solver.Time()
	}
	s.log("the %s leaks", what)
}

// add puts water in or takes it out, at once or at a rate.
func (s *sim) add(st *enclosure.Step) {
	sign, word := 1.0, "added to"
	if st.What == "water taken" {
		sign, word = -1, "taken from"
	}
	chamber, path, store, name := -1, s.on.addPool, s.at.pool, "pool"
	if st.Place.Kind == enclosure.AtSump {
		chamber = min(max(st.Place.Index, 0), s.r.last())
		path, store = s.on.addSump+chamber, s.at.chamber+chamber
		name = s.names[store]
	}
	s.log("water is %s the %s", word, name)
	now := s.solver.Time()
	switch {
	case st.Flow > 0:
		until := math.Inf(1)
		if st.Over > 0 {
			until = now + st.Over
		}
		s.mode.streams = append(s.mode.streams, stream{chamber, sign * st.Flow, until})
	case st.Over > 0:
		s.mode.streams = append(s.mode.streams, stream{chamber, sign * st.Volume / st.Over, now + st.Over})
	default:
		v := sign * st.Volume
		if v < 0 {
			v = -math.Min(-v, math.Max(s.x[store], 0))
		}
		s.shift(path, v)
	}
}

// shift moves an amount along a path at once.
func (s *sim) shift(path int, v float64) {
	p := s.paths[path]
	s.x[p.From] -= v
	s.x[p.To] += v
	s.moved[path] += v
}

// spill enters water on the floor. Several paths may be one way to people, as
// the rims of several chambers are.
func (s *sim) spill(way string, v float64) {
	o := s.out
	for i := range o.Spills {
		if o.Spills[i].From == way {
			o.Spills[i].Volume += v
			return
		}
	}
	first, ok := s.first[way]
	if !ok {
		first = math.NaN()
	}
	o.Spills = append(o.Spills, Spill{From: way, Volume: v, First: first})
}

// clog goes on to the next stage of a strainer that clogs: in steps of an eighth of
// what was open, since each is a circuit of its own.
func (s *sim) clog(i int) {
	m := &s.mode
	now := s.solver.Time()
	g := &m.staged[i]
	// Halfway into the stage to come, so that steps follow the ramp.
	const stages = 8
	m.strainer[i] = g.at(now)
	m.stage[i] = 0
	if g.moving(now) {
		left := 1 - m.strainer[i]
		speed := math.Abs(g.to-g.from) / g.over
		m.stage[i] = math.Min(now+math.Max(left/stages/speed, g.over/1000), g.start+g.over)
	}
	s.swapCircuit()
}
