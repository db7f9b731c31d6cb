package faults

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/catalogue"
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
		s.open(st)
	case "strainer clogs":
		if st.Place.Kind != enclosure.AtPump || st.Place.Index < 0 {
			b := &m.clogged[st.Index]
			*b = ramp{b.at(now), st.Share, now, st.Over}
			s.log("the strainer of the %s %s%s", e.Drains[st.Index].Name, begins("clogs", st.Over), share(st.Share))
			return
		}
		s.log("the strainer of the %s %s%s", e.Pumps[st.Index].Name, begins("clogs", st.Over), share(st.Share))
		s.stage(staged{ramp{m.strainer[st.Index], math.Min(st.Share, 0.999), now, st.Over}, &m.strainer[st.Index], 0})
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

// begins is a word for what takes its time.
func begins(word string, over float64) string {
	if over > 0 {
		return "begins to " + strings.TrimSuffix(word, "s")
	}
	return word
}

// open opens the valves of a run, by how far the step says.
func (s *sim) open(st *enclosure.Step) {
	u := &s.r.E.Runs[st.Index]
	from := 1.0
	for k := range u.Pieces {
		if u.Pieces[k].Kind == catalogue.KindValve {
			from = math.Min(from, u.Pieces[k].Open)
		}
	}
	if v := s.mode.valve[st.Index]; !math.IsNaN(v) {
		from = v
	}
	how := "fully"
	if st.Share < 1 {
		how = fmt.Sprintf("to %.0f %%", 100*st.Share)
	}
	s.log("the valve in the %s is opened %s", u.Name, how)
	s.stage(staged{ramp{from, math.Max(st.Share, from), s.solver.Time(), st.Over}, &s.mode.valve[st.Index], 0})
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
	s.log("the %s %s%s", s.r.E.Drains[i].Name, begins(word, over), share(to+map[bool]float64{true: 1}[word == "clears"]))
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
	m.offAt[st.Index] = at
	s.log("the %s comes off, %.0f mm above the room floor", u.Name, 1000*at)
	for k := range s.lines {
		l := &s.lines[k]
		if !s.inLine(k, st.Index) {
			continue
		}
		s.cutReturns(k)
		if loose := s.x[s.at.column+k] - l.curve.Volume(at); loose > 0 {
			s.shift(s.on.loose+k, loose)
		}
		m.primed[k] = m.driven[k] && s.x[s.at.column+k] >= s.prime(k)*(1-1e-6)
	}
	s.swapCircuit()
}

// cutReturns lets returns whose way is cut empty the pool out of the cut, if they
// were full and end under water.
func (s *sim) cutReturns(k int) {
	l := &s.lines[k]
	for i, run := range l.returns {
		at, cut := s.cut(l.route[i])
		full := s.mode.primed[k] || s.mode.siphoning[run]
		s.mode.siphoning[run] = s.mode.siphoning[run] && !cut
		if cut && full && !s.mode.loose[run] && s.poolLevel() > math.Max(s.r.breaks(run, !s.mode.holesBlocked), at) {
			s.mode.loose[run] = true
			s.log("the pool siphons onto the floor through the %s", s.r.E.Runs[run].Name)
		}
	}
}

// LowestJoint is the height of the lowest joint of a run outside the sump, m
// above the room floor: where it comes over the sump's rim, unless all of it
// is higher.
func (r *Rig) LowestJoint(run int) float64 {
	u := &r.E.Runs[run]
	from, to := r.height(u.From, u), r.height(u.To, u)
	return math.Max(math.Min(from, to), math.Min(r.rim(), math.Max(from, to)))
}

// Joints lists the heights of a run's joints outside the sump, m above the room
// floor, from the lowest up: where it leaves the sump and where its pieces meet,
// hose and pipe taken to rise evenly.
func (r *Rig) Joints(run int) []float64 {
	u := &r.E.Runs[run]
	from, to := r.height(u.From, u), r.height(u.To, u)
	out := []float64{r.LowestJoint(run)}
	total, at := 0.0, 0.0
	for k := range u.Pieces {
		total += u.Pieces[k].Length
	}
	for k := range u.Pieces {
		if at += u.Pieces[k].Length; total > 0 {
			if z := from + (to-from)*at/total; z > out[0] {
				out = append(out, z)
			}
		}
	}
	slices.Sort(out)
	return slices.CompactFunc(out, func(a, b float64) bool { return math.Abs(b-a) < 1e-3 })
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

// stage sets a figure of the circuit that goes on changing.
func (s *sim) stage(g staged) {
	s.mode.staged = append(slices.DeleteFunc(s.mode.staged, func(old staged) bool { return old.of == g.of }), g)
	s.onward(len(s.mode.staged) - 1)
}

// onward takes the next step of a figure that changes in time: an eighth of what
// is left of it, or an eighth of its way.
func (s *sim) onward(i int) {
	g := &s.mode.staged[i]
	now := s.solver.Time()
	*g.of = g.at(now)
	g.next = math.Inf(1)
	if g.moving(now) {
		const stages = 8
		speed := math.Abs(g.to-g.from) / g.over
		left := math.Abs(g.to - g.from)
		if g.to > 0.5 {
			left = math.Min(left, 1-*g.of) // a strainer matters most when it is nearly shut
		}
		g.next = math.Min(now+math.Max(left/stages/speed, g.over/1000), g.start+g.over)
	}
	s.rewire()
	s.swapCircuit()
}

// rewire makes the ways through hoses anew, with valves and strainers as they are.
func (s *sim) rewire() {
	m := &s.mode
	whole := make([]float64, len(m.offAt))
	for i := range whole {
		whole[i] = math.NaN() // where a hose came off is told apart
	}
	e := s.r.altered(&variant{valve: m.valve, offAt: whole, strainer: m.strainer})
	parts, err := study.NewParts(e, s.r.Case, study.Setting{})
	if err != nil {
		s.fail(err)
		return
	}
	for k := range s.lines {
		s.r.ways(parts, e, &s.lines[k])
	}
}
