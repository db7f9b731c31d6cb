package faults

import (
	"errors"
	"fmt"
	"math"
	"sync"

	"rillwright/enclosure"
	"rillwright/hydraulics/vessel"
	"rillwright/study"
)

// Rig is an enclosure in one case, made ready to be followed through faults. It
// may be used by several goroutines at once.
type Rig struct {
	E     *enclosure.Enclosure
	Case  enclosure.Case
	Start *study.State // the steady running state that faults begin from

	parts    *study.Parts
	lines    []line
	pool     vessel.Curve
	chambers []vessel.Curve
	hidden   []vessel.Curve
	film     film
	soaks    []soak
	bridge   []creep
	// lowestReturn is the height of the lowest end in the pool, +Inf for none.
	lowestReturn float64

	mu       sync.Mutex
	circuits map[string]*circuit
}

// film is the water on the wall: it lets go with the cube of what it holds, as a
// sheet that runs down a wall does (Nusselt).
type film struct{ held, flow float64 }

// soak is a store on the wall that lets go in proportion to what it holds.
type soak struct{ catches, rate, held float64 }

// ErrNoState says that the enclosure cannot be followed since it has no running
// state to begin from.
var ErrNoState = errors.New("no running state")

// NewRig makes a rig of e in a case, running steadily with its valves as set.
func NewRig(e *enclosure.Enclosure, c enclosure.Case) (*Rig, error) {
	return newRig(e, c, study.Setting{})
}

func newRig(e *enclosure.Enclosure, c enclosure.Case, s study.Setting) (*Rig, error) {
	start, err := study.Run(e, c, s)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrNoState, err)
	}
	parts, err := study.NewParts(e, c, s)
	if err != nil {
		return nil, err
	}
	r := &Rig{E: e, Case: c, Start: start, parts: parts, circuits: map[string]*circuit{}}
	if err := r.waters(); err != nil {
		return nil, err
	}
	r.wall()
	if err := r.findLines(); err != nil {
		return nil, err
	}
	if err := r.bridgeLaws(0); err != nil {
		return nil, err
	}
	r.lowestReturn = math.Inf(1)
	for i := range e.Runs {
		if u := &e.Runs[i]; u.To.Kind == enclosure.AtPool {
			r.lowestReturn = math.Min(r.lowestReturn, u.EndHeight)
		}
	}
	return r, nil
}

// waters makes the level-volume curves of pool, hidden waters and sump chambers.
func (r *Rig) waters() error {
	e := r.E
	p := &e.Pool
	var err error
	if r.pool, err = vessel.Stack(study.PoolLayers(e, r.Case)...); err != nil {
		return fmt.Errorf("the pool: %w", err)
	}
	for i := range p.Hidden {
		h := &p.Hidden[i]
		c, err := vessel.Stack(vessel.Layer{From: h.Floor, To: math.Max(p.DamTop, h.Floor+0.01), Area: h.Area})
		if err != nil {
			return fmt.Errorf("%s: %w", h.Name, err)
		}
		r.hidden = append(r.hidden, c)
	}
	s := &e.Sump
	lengths := []float64{s.Width}
	if len(s.Chambers) > 0 {
		lengths = lengths[:0]
		for i := range s.Chambers {
			lengths = append(lengths, s.Chambers[i].Length)
		}
	}
	for _, l := range lengths {
		c, err := vessel.Stack(vessel.Layer{From: s.Bottom, To: s.Bottom + s.Height, Area: l * s.Depth})
		if err != nil {
			return fmt.Errorf("the sump: %w", err)
		}
		r.chambers = append(r.chambers, c)
	}
	return nil
}

// wall settles what film and soaks hold while it runs.
func (r *Rig) wall() {
	e := r.E
	flow := r.Start.Outlets * (1 - r.Case.Of(e.WaterLost))
	share := 1.0
	for i := range e.Wall.Soaks {
		s := &e.Wall.Soaks[i]
		in := s.Catches * flow
		// What it cannot hold runs past: it lets go faster, so that it is full
		// while the wall runs.
		rate := 1 / s.DrainsIn
		if in/rate > s.Holds {
			rate = in / s.Holds
		}
		r.soaks = append(r.soaks, soak{s.Catches, rate, in / rate})
		share -= s.Catches
	}
	r.film = film{held: r.parts.Film(r.Start.Outlets), flow: math.Max(share, 0) * flow}
	if !(r.film.held > 0 && r.film.flow > 0) {
		r.film = film{}
	}
}

// reference returns the hold-up and the flow by which the film's outflow goes:
// those of the steady state, or if the wall is dry then, 20 L/h for each metre.
func (r *Rig) reference() (held, flow float64) {
	if r.film.flow > 0 {
		return r.film.held, r.film.flow
	}
	flow = math.Max(20e-3/3600*r.E.Wall.Width, 1e-6)
	return math.Max(r.parts.Film(flow), 1e-6), flow
}

// last is the index of the pumps' chamber.
func (r *Rig) last() int { return len(r.chambers) - 1 }

// rim is the height of the sump's rim.
func (r *Rig) rim() float64 { return r.E.Sump.Bottom + r.E.Sump.Height }

// inlet is the level at which a pump draws air, at least a few millimetres of
// water, in which no pump works.
func (r *Rig) inlet(i int) float64 {
	return math.Max(r.E.Pumps[i].Inlet, r.E.Sump.Bottom+leastCover)
}

const (
	// leastCover is the water that no pump works without, m: assumed.
	leastCover = 0.005
	// regain is how far the water must stand over the inlet before a pump that
	// drew air takes hold again, m: assumed, no source.
	regain = 0.010
)

// InletVolume returns the sump's water below the inlet of its highest-sucking
// pump, m3, and that level; what stands above it can be pumped away.
func (r *Rig) InletVolume() (volume, level float64) {
	level = r.E.Sump.Bottom
	for i := range r.E.Pumps {
		if r.E.Pumps[i].InSump {
			level = math.Max(level, r.inlet(i))
		}
	}
	for i := range r.chambers {
		volume += r.chambers[i].Volume(level)
	}
	return volume, level
}

// SumpVolume returns the water in all chambers with each at the same level, m3.
func (r *Rig) SumpVolume(level float64) float64 {
	v := 0.0
	for i := range r.chambers {
		v += r.chambers[i].Volume(level)
	}
	return v
}

// PoolVolume returns the water in the pool up to a level, m3.
func (r *Rig) PoolVolume(level float64) float64 { return r.pool.Volume(level) }

// PoolArea returns the free area of the pool at its dam's top, m2.
func (r *Rig) PoolArea() float64 { return r.pool.Area(r.E.Pool.DamTop - 1e-9) }

// OutletsClogged returns what the outlets give, m3/s, with a share of a pump's
// strainer clogged and the sump at its running level.
func (r *Rig) OutletsClogged(pump int, share float64) (float64, error) {
	v := variant{stopped: make([]bool, len(r.E.Pumps)), strainer: make([]float64, len(r.E.Pumps))}
	v.strainer[pump] = share
	c, err := study.NewCircuit(r.altered(&v), r.Case, study.Setting{}, v.stopped)
	if err != nil {
		return 0, err
	}
	flows := c.NewFlows()
	if err := c.At(r.Start.SumpLevel, r.Start.PoolLevel, &flows); err != nil {
		return 0, err
	}
	sum := 0.0
	for _, q := range flows.Manifolds {
		sum += q
	}
	return sum, nil
}

// Runs reports whether anything flows at the start: some pump in the sump is
// covered, its float lets it run, and it lifts water out of something.
func (r *Rig) Runs() bool {
	flows := r.Start.Outlets > 0
	for i := range r.Start.Runs {
		flows = flows || r.Start.Runs[i].Flow > 0
	}
	for i := range r.E.Pumps {
		p := &r.E.Pumps[i]
		if p.InSump && flows && r.Start.SumpLevel > r.inlet(i) && !(p.Float.Given && r.Start.SumpLevel <= p.Float.Off) {
			return true
		}
	}
	return false
}
