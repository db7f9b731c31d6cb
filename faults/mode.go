package faults

import "math"

// mode is everything that switches.
type mode struct {
	power    bool
	stopped  []bool // pumps stopped by a step
	resting  []bool // pumps off by their timer
	turn     []float64
	floatOff []bool
	stuckOn  []bool    // pumps whose float no longer stops them
	dry      []bool    // pumps that have drawn air
	regain   []float64 // water over the inlet at which each takes hold again
	travel   []float64 // from where each one's float stops it to where it starts it
	running  []bool

	driven []bool // lines with a running pump
	primed []bool // lines full up to their lowest open end

	siphoning []bool // by run
	blocked   []ramp // share of each drain that is shut
	knocked   []bool // standpipes that are out
	open      []bool // runs whose valves were opened
	off       int    // run that came off, -1 for none
	offAt     float64
	strainer  []float64
	staged    []ramp // strainers that clog over time
	stage     []float64
	leaks     []leak
	stuck     float64 // share by which the top-up sticks open, NaN while it works
	streams   []stream
	// holesBlocked says that no siphon-break hole lets air in any more.
	holesBlocked bool
}

// ramp goes from one share to another in time.
type ramp struct{ from, to, start, over float64 }

func (r *ramp) at(t float64) float64 {
	switch {
	case r.over <= 0 || t >= r.start+r.over:
		return r.to
	case t <= r.start:
		return r.from
	}
	return r.from + (r.to-r.from)*(t-r.start)/r.over
}

// moving reports whether the ramp still changes after t.
func (r *ramp) moving(t float64) bool { return r.over > 0 && t < r.start+r.over && r.from != r.to }

// leak is a hole in pool or sump.
type leak struct {
	chamber      int // -1 for the pool
	area, height float64
}

// stream is water that is added or taken at a rate for a time.
type stream struct {
	chamber int // -1 for the pool
	flow    float64
	until   float64
}

func (s *sim) newMode() {
	e := s.r.E
	m := &s.mode
	m.power, m.off, m.offAt, m.stuck = true, -1, 0, math.NaN()
	np, nl := len(e.Pumps), len(s.r.lines)
	m.stopped, m.resting, m.floatOff, m.stuckOn = make([]bool, np), make([]bool, np), make([]bool, np), make([]bool, np)
	m.dry, m.running = make([]bool, np), make([]bool, np)
	m.regain, m.travel = make([]float64, np), make([]float64, np)
	m.turn, m.strainer, m.staged, m.stage = make([]float64, np), make([]float64, np), make([]ramp, np), make([]float64, np)
	m.driven, m.primed = make([]bool, nl), make([]bool, nl)
	m.siphoning, m.open = make([]bool, len(e.Runs)), make([]bool, len(e.Runs))
	m.blocked, m.knocked = make([]ramp, len(e.Drains)), make([]bool, len(e.Drains))
	for i := range e.Pumps {
		m.turn[i], m.regain[i] = math.Inf(1), regain
		m.travel[i] = e.Pumps[i].Float.On - e.Pumps[i].Float.Off
		if e.Pumps[i].Timer.Given && !s.o.NoTimers {
			m.turn[i] = e.Pumps[i].Timer.On
		}
	}
}

// settleRunning settles which pumps run, and what follows from that for their lines.
// It reports whether anything changed.
func (s *sim) settleRunning() bool {
	m := &s.mode
	changed := false
	for i := range m.running {
		on := m.power && !m.stopped[i] && !m.resting[i] && !m.floatOff[i] && !m.dry[i] && s.r.E.Pumps[i].InSump
		// A pump fed by another runs when its switch says so and water gets to it.
		if !s.r.E.Pumps[i].InSump {
			on = m.power && !m.stopped[i] && !m.resting[i] && s.fed(i)
		}
		if on != m.running[i] {
			m.running[i], changed = on, true
		}
	}
	for k := range s.r.lines {
		l := &s.r.lines[k]
		driven := false
		for _, p := range l.pumps {
			driven = driven || m.running[p]
		}
		if driven == m.driven[k] {
			continue
		}
		m.driven[k], changed = driven, true
		if !driven {
			s.lineStops(k)
			continue
		}
		for _, run := range l.returns {
			m.siphoning[run] = false
		}
	}
	if changed {
		s.swapCircuit()
	}
	return changed
}

// fed reports whether water gets to a pump that stands behind others: one of those
// of its line that stand in the sump has not drawn air.
func (s *sim) fed(pump int) bool {
	for _, i := range s.r.beside(pump) {
		if s.r.E.Pumps[i].InSump && !s.mode.dry[i] {
			return true
		}
	}
	return false
}

// passes reports whether water is drawn through a pump in the sump: it runs, or
// one that stands behind it does.
func (s *sim) passes(pump int) bool {
	if s.mode.running[pump] {
		return true
	}
	for _, i := range s.r.beside(pump) {
		if !s.r.E.Pumps[i].InSump && s.mode.running[i] {
			return true
		}
	}
	return false
}

// beside returns the pumps of a pump's line, itself among them.
func (r *Rig) beside(pump int) []int {
	for k := range r.lines {
		for _, i := range r.lines[k].pumps {
			if i == pump {
				return r.lines[k].pumps
			}
		}
	}
	return nil
}

// lineStops lets a line's water run back, and the pool after it where a return
// ends under water.
func (s *sim) lineStops(k int) {
	l := &s.r.lines[k]
	was := s.mode.primed[k]
	s.mode.primed[k] = false
	if !was {
		return
	}
	for _, run := range l.returns {
		if run == s.mode.off {
			continue
		}
		if s.poolLevel() > s.r.breaks(run, !s.mode.holesBlocked)+1e-9 {
			s.mode.siphoning[run] = true
			s.log("the pool siphons back through the %s", s.r.E.Runs[run].Name)
		}
	}
}

// swapCircuit takes the circuit that fits the mode.
func (s *sim) swapCircuit() {
	m := &s.mode
	some := false
	stopped := make([]bool, len(m.running))
	for i, on := range m.running {
		stopped[i] = !on
		some = some || on
	}
	if !some {
		s.circuit = nil
		return
	}
	v := variant{stopped: stopped, open: m.open, off: m.off, offAt: m.offAt, strainer: m.strainer}
	c, err := s.r.circuitFor(&v)
	if err != nil {
		s.fail(err)
		return
	}
	s.circuit = c
}
