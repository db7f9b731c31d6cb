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

	siphoning []bool    // by run
	loose     []bool    // returns that empty the pool onto the floor where their way is cut
	blocked   []ramp    // share of each drain that is shut
	clogged   []ramp    // share of each drain's strainer that is
	knocked   []bool    // standpipes that are out
	offAt     []float64 // of runs: height of the joint that came off, NaN for none
	valve     []float64 // of runs: how far valves stand open that are not as planned, else NaN
	strainer  []float64 // of pumps: share of the strainer that is clogged
	staged    []staged
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

// staged is a figure of the circuit that changes in time: in steps, since each is
// a circuit of its own.
type staged struct {
	ramp
	of   *float64
	next float64 // when the next step is due, +Inf when it is done
}

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
	m.power, m.stuck = true, math.NaN()
	np, nl := len(e.Pumps), len(s.r.lines)
	m.stopped, m.resting, m.floatOff, m.stuckOn = make([]bool, np), make([]bool, np), make([]bool, np), make([]bool, np)
	m.dry, m.running = make([]bool, np), make([]bool, np)
	m.regain, m.travel = make([]float64, np), make([]float64, np)
	m.turn, m.strainer = make([]float64, np), make([]float64, np)
	m.driven, m.primed = make([]bool, nl), make([]bool, nl)
	m.siphoning, m.loose = make([]bool, len(e.Runs)), make([]bool, len(e.Runs))
	m.blocked, m.clogged, m.knocked = make([]ramp, len(e.Drains)), make([]ramp, len(e.Drains)), make([]bool, len(e.Drains))
	m.offAt, m.valve = make([]float64, len(e.Runs)), make([]float64, len(e.Runs))
	for i := range e.Runs {
		m.offAt[i], m.valve[i] = math.NaN(), math.NaN()
	}
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
	for k := range s.lines {
		l := &s.lines[k]
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
		// What a siphon kept full needs no filling.
		m.primed[k] = s.x[s.at.column+k] >= s.prime(k)*(1-1e-6)
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
	l := &s.lines[k]
	was := s.mode.primed[k]
	s.mode.primed[k] = false
	if !was {
		return
	}
	for i, run := range l.returns {
		if _, cut := s.cut(l.route[i]); cut {
			continue
		}
		if s.poolLevel() > s.r.breaks(run, !s.mode.holesBlocked)+1e-9 {
			s.mode.siphoning[run] = true
			s.log("the pool siphons back through the %s", s.r.E.Runs[run].Name)
		}
	}
}

// isOff reports whether a run has come off.
func (s *sim) isOff(run int) bool { return !math.IsNaN(s.mode.offAt[run]) }

// cut returns the height at which a way is cut by the first of its runs that came
// off.
func (s *sim) cut(route []int) (at float64, ok bool) {
	for _, run := range route {
		if s.isOff(run) {
			return s.mode.offAt[run], true
		}
	}
	return 0, false
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
	v := variant{stopped: stopped, valve: m.valve, offAt: m.offAt, strainer: m.strainer}
	c, err := s.r.circuitFor(&v)
	if err != nil {
		s.fail(err)
		return
	}
	s.circuit = c
}
