package faults

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/num/stiff"
)

// Options steer a run. The zero value follows the figures only.
type Options struct {
	// Record keeps the state at every step, for a timeline.
	Record bool
	// UntilDry ends the run where a pump first stops for want of water.
	UntilDry bool
	// Tolerance is the error of each step in any body of water, m3; 0 for 1e-8,
	// a hundredth of a millilitre.
	Tolerance float64
	// MaxStep bounds the steps, s; 0 for no bound. It changes nothing beyond
	// the tolerance.
	MaxStep float64
	// NoTimers lets pumps with a timer run all the time: over months that loses
	// no less water and saves thousands of starts.
	NoTimers bool
	// NoSplash leaves out what splashes away.
	NoSplash bool
	// Tended leaves out what evaporates and splashes away, as if somebody made up
	// for it.
	Tended bool
}

// Result is how a course of events ends.
type Result struct {
	Scenario *enclosure.Scenario
	// Ended is the time reached, s; Why says why it ended early, "" if not.
	Ended float64
	Why   string
	// Events are the first thousand; Unlisted counts those that came after.
	Events   []Event
	Unlisted int
	// Stores are the names of bodies of water and ledgers, Begin and End what
	// they hold, m3.
	Stores     []string
	Begin, End []float64
	// Ways are the names of paths and Moved what went along each, m3, backwards
	// negative.
	Ways  []string
	Moved []float64
	// Spilled is all water on the floor, m3, and Spills where from.
	Spilled float64
	Spills  []Spill
	Still   float64 // what runs onto the floor over the last fifth, in the mean, m3/s
	Evaporated,
	SoakedAway,
	Added float64
	// Dry is when a pump first drew air, s, +Inf if never; DryPump which. Short is
	// when a pump first stopped for want of water, by drawing air or by its float.
	Dry     float64
	Short   float64
	DryPump int
	// Starts counts how often pumps took hold again after drawing air, Floats how
	// often floats started them again, and Hunts says that this went on and on.
	// From there the water must rise twice as far each time before the pump is
	// taken to start again, so that a run comes to an end; where the water goes
	// hardly depends on it.
	Starts, Floats int
	Hunts          bool
	// Flowing says that at the end every line that gave water at the start
	// does so again.
	Flowing bool
	// PoolMost, SumpMost and SumpLeast are extreme levels, m above the room
	// floor; PoolFree and SumpFree the least free volume under dam and rim, m3,
	// 0 once it spills.
	PoolMost, SumpMost, SumpLeast float64
	PoolFree, SumpFree            float64
	PoolEnd, SumpEnd              float64
	PumpChamber                   int // index of the pumps' chamber among the sump's
	Track                         *Track
	Steps                         int
}

// Spill is water on the floor from one place.
type Spill struct {
	From   string
	Volume float64 // m3
	First  float64 // s
}

// Event is something that happened at a time, s.
type Event struct {
	At   float64
	What string
}

// Track is the course of a run, one entry of each list at each time.
type Track struct {
	Time   []float64
	Volume [][]float64 // by store, then time, m3
	Level  [][]float64 // of pool, chambers and hidden waters, m above the room floor
	Levels []string
	Rate   [][]float64 // by way, then time, m3/s
}

const (
	// A pump that drew air and took hold again so often hunts.
	hunting = 5
	// Events that a run keeps, and those of any kind that it may have.
	keptEvents, mostEvents = 1000, 20_000
	mostSteps              = 400_000
)

// Run follows the rig through a course of events.
func (r *Rig) Run(sc *enclosure.Scenario, o Options) (*Result, error) {
	s := newSim(r, o)
	if s.err != nil {
		return nil, s.err
	}
	s.out = &Result{Scenario: sc, PumpChamber: r.last(), Stores: s.names, Ways: s.ways, Dry: math.Inf(1), Short: math.Inf(1), DryPump: -1, PoolFree: math.Inf(1), SumpFree: math.Inf(1), SumpLeast: math.Inf(1), PoolMost: math.Inf(-1), SumpMost: math.Inf(-1)}
	s.steps = sc.Steps
	s.newMode()
	s.begin()
	s.out.Begin = append([]float64(nil), s.x...)
	s.watch()
	sys := stiff.System{Stores: len(s.names), Felt: s.at.felt, Paths: s.paths, Rates: s.rates}
	for i := range s.watches {
		sys.Events = append(sys.Events, s.watches[i].Event)
	}
	sys.Changing = changing(sc)
	s.solver = stiff.NewSolver(sys, stiff.Settings{Tolerance: o.Tolerance})
	s.solver.Start(0, s.x)
	s.x = s.solver.X()
	s.sample()
	err := s.follow(sc.Lasts)
	s.finish()
	if s.err != nil {
		err = s.err
	}
	return s.out, err
}

// changing reports whether anything in a course of events goes on by the clock.
func changing(sc *enclosure.Scenario) bool {
	for i := range sc.Steps {
		if sc.Steps[i].Over > 0 || sc.Steps[i].Flow > 0 {
			return true
		}
	}
	return false
}

func (s *sim) follow(end float64) error {
	for s.due(); s.solver.Time() < end && s.err == nil && !s.over(); s.due() {
		until := math.Min(end, s.nextTurn())
		if s.o.MaxStep > 0 {
			until = math.Min(until, s.solver.Time()+s.o.MaxStep)
		}
		event, err := s.solver.Step(until)
		s.x = s.solver.X()
		s.out.Steps++
		if err != nil {
			s.out.Why = fmt.Sprintf("the run was given up: %v", err)
			return fmt.Errorf("%s: %w", s.out.Scenario.Name, errors.Join(err, s.trouble))
		}
		if event >= 0 {
			s.look()
			s.watches[event].happened()
			s.overtaken()
			s.happened++
		}
		if s.happened > mostEvents || s.out.Steps > mostSteps {
			s.out.Why = fmt.Sprintf("the run was given up at %.0f s after %d events in %d steps, the last event: %s", s.solver.Time(), s.happened, s.out.Steps, s.last)
			return errors.New(s.out.Scenario.Name + ": " + s.out.Why)
		}
		s.sample()
	}
	return s.err
}

// over reports whether there is nothing more to be learnt.
func (s *sim) over() bool {
	return s.o.UntilDry && !math.IsInf(s.out.Short, 1)
}

// nextTurn is the time of the next step, timer turn or end of a ramp.
func (s *sim) nextTurn() float64 {
	t, now := math.Inf(1), s.solver.Time()
	if s.next < len(s.steps) {
		t = s.steps[s.next].At
	}
	for i := range s.mode.turn {
		t = math.Min(t, s.mode.turn[i])
	}
	later := func(at float64) {
		if at > now {
			t = math.Min(t, at)
		}
	}
	for i := range s.mode.blocked {
		later(s.mode.blocked[i].start + s.mode.blocked[i].over)
		later(s.mode.clogged[i].start + s.mode.clogged[i].over)
	}
	for i := range s.mode.staged {
		later(s.mode.staged[i].next)
	}
	for i := range s.mode.streams {
		later(s.mode.streams[i].until)
	}
	return t
}

// due does what is due at the time reached.
func (s *sim) due() {
	now := s.solver.Time()
	s.look()
	changed := false
	for s.next < len(s.steps) && s.steps[s.next].At <= now {
		s.apply(&s.steps[s.next])
		s.next++
		changed = true
	}
	for i := range s.mode.turn {
		if s.mode.turn[i] <= now {
			s.happened++
			t := &s.r.E.Pumps[i].Timer
			s.mode.resting[i] = !s.mode.resting[i]
			s.mode.turn[i] = now + t.On
			if s.mode.resting[i] {
				s.mode.turn[i] = now + t.Off
			}
			changed = true
		}
	}
	for i := range s.mode.staged {
		if s.mode.staged[i].next <= now {
			s.onward(i)
			changed = true
		}
	}
	// A stream ends here and not by the clock: at the very time of its end it would
	// seem to fall from all to nothing within a moment, and the slope by time without
	// bound.
	before := len(s.mode.streams)
	s.mode.streams = slices.DeleteFunc(s.mode.streams, func(w stream) bool { return w.until <= now })
	changed = changed || len(s.mode.streams) < before
	if changed {
		s.settleRunning()
		s.solver.Restart()
		s.overtaken()
	}
}

// sample notes extremes and, if asked, the whole state.
func (s *sim) sample() {
	r, o := s.r, s.out
	for k, p := range s.paths {
		if p.To != s.at.floor || s.moved[k]+s.solver.Moved()[k] <= 1e-9 {
			continue
		}
		// What has no event of its own, as water along a cord, began with the
		// step before.
		if _, ok := s.first[s.ways[k]]; !ok {
			s.first[s.ways[k]] = s.sampled
		}
	}
	s.sampled = s.solver.Time()
	if s.sampled <= 0.8*o.Scenario.Lasts {
		s.late, s.spilledLate = s.sampled, s.x[s.at.floor]
	}
	pool := s.poolLevel()
	o.PoolMost = math.Max(o.PoolMost, pool)
	o.PoolFree = math.Min(o.PoolFree, math.Max(r.pool.Volume(r.E.Pool.DamTop)-s.x[s.at.pool], 0))
	for i := range r.chambers {
		level := r.chambers[i].Level(s.x[s.at.chamber+i])
		o.SumpMost = math.Max(o.SumpMost, level)
		if i == r.last() {
			o.SumpLeast = math.Min(o.SumpLeast, level)
		}
	}
	free := 0.0
	for i := range r.chambers {
		free += r.chambers[i].Volume(r.rim()) - s.x[s.at.chamber+i]
	}
	o.SumpFree = math.Min(o.SumpFree, math.Max(free, 0))
	if s.o.Record {
		s.record(pool)
	}
}

func (s *sim) record(pool float64) {
	t := s.out.Track
	if t == nil {
		t = &Track{Volume: make([][]float64, len(s.names)), Rate: make([][]float64, len(s.ways)), Levels: []string{"pool"}}
		t.Levels = append(t.Levels, s.names[s.at.chamber:s.at.chamber+len(s.r.chambers)]...)
		t.Levels = append(t.Levels, s.names[s.at.hidden:s.at.hidden+len(s.r.hidden)]...)
		t.Level = make([][]float64, len(t.Levels))
		s.out.Track = t
	}
	t.Time = append(t.Time, s.solver.Time())
	for i, v := range s.x {
		t.Volume[i] = append(t.Volume[i], v)
	}
	for k, q := range s.solver.Rate() {
		t.Rate[k] = append(t.Rate[k], q)
	}
	levels := []float64{pool}
	for i := range s.r.chambers {
		levels = append(levels, s.r.chambers[i].Level(s.x[s.at.chamber+i]))
	}
	for i := range s.r.hidden {
		levels = append(levels, s.r.hidden[i].Level(s.x[s.at.hidden+i]))
	}
	for i, z := range levels {
		t.Level[i] = append(t.Level[i], z)
	}
}

// finish draws up the account.
func (s *sim) finish() {
	o := s.out
	o.Ended = s.solver.Time()
	o.End = append([]float64(nil), s.x...)
	for k, v := range s.solver.Moved() {
		s.moved[k] += v
	}
	o.Moved = s.moved
	o.Spilled, o.Evaporated, o.SoakedAway = s.x[s.at.floor], s.x[s.at.air], s.x[s.at.soil]
	o.Added = -s.x[s.at.outside]
	for k, v := range o.Moved {
		if s.paths[k].To == s.at.floor && v > 1e-9 {
			s.spill(s.ways[k], v)
		}
	}
	if s.late < o.Ended {
		o.Still = (s.x[s.at.floor] - s.spilledLate) / (o.Ended - s.late)
	}
	o.Flowing = true
	for k := range s.r.lines {
		if s.flowing(k) && !(s.mode.driven[k] && s.mode.primed[k]) {
			o.Flowing = false
		}
	}
	o.PoolEnd = s.poolLevel()
	o.SumpEnd = s.r.chambers[s.r.last()].Level(s.x[s.at.chamber+s.r.last()])
}
