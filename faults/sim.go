package faults

import (
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/num/stiff"
	"rillwright/study"
)

// sim is one run of a rig through one course of events.
type sim struct {
	r    *Rig
	o    Options
	mode mode

	names []string // of stores
	paths []stiff.Path
	ways  []string // what each path is, for people
	at    stores
	on    routes

	lines   []line // those of the rig, with valves and strainers as they are now
	outflow *study.Outflow
	circuit *circuit
	solver  *stiff.Solver
	watches []watch
	seen    []float64 // figures of the watches before something changed at once
	steps   []enclosure.Step
	next    int // step to come

	x                 []float64 // the solver's stores
	chambers          []float64 // levels, scratch
	flows             []float64 // of manifolds, then runs
	moved             []float64 // what moved at once, by path
	first             map[string]float64
	trouble           error   // of the last circuit that could not be solved
	sampled           float64 // time of the last sample
	late, spilledLate float64 // time of the last sample in the first four fifths, and what was spilled by then
	happened          int     // events so far
	last              string  // the last one in words
	err               error
	out               *Result
}

// stores are the indices of stores.
type stores struct {
	pool, hidden, chamber, film, soak, column, reservoir int
	felt                                                 int
	floor, air, soil, outside                            int
}

// routes are the indices of paths.
type routes struct {
	toFilm, toSoak, toSoil, toPool, toChamber, fill      int
	film, soak, drain, baffle, hidden, dam, rim          int
	leakPool, leakSump, off, loose, lost, siphon, bridge int
	poolAir, air                                         int
	topUp, addPool, addSump                              int
}

func newSim(r *Rig, o Options) *sim {
	s := &sim{r: r, o: o, lines: slices.Clone(r.lines)}
	e := r.E
	add := func(name string) int { s.names = append(s.names, name); return len(s.names) - 1 }
	s.at.pool = add("pool")
	s.at.hidden = len(s.names)
	for i := range e.Pool.Hidden {
		add(e.Pool.Hidden[i].Name)
	}
	s.at.chamber = len(s.names)
	for i := range r.chambers {
		if name := "sump"; len(e.Sump.Chambers) == 0 {
			add(name)
		} else {
			add(e.Sump.Chambers[i].Name)
		}
	}
	s.at.film = add("film on the wall")
	s.at.soak = len(s.names)
	for i := range e.Wall.Soaks {
		add(e.Wall.Soaks[i].Name)
	}
	s.at.column = len(s.names)
	for k := range r.lines {
		name := "hose and manifold"
		if len(r.lines) > 1 && len(r.lines[k].pumps) > 0 {
			name += " of the " + e.Pumps[r.lines[k].pumps[0]].Name
		}
		add(name)
	}
	s.at.reservoir = add("top-up reservoir")
	s.at.felt = len(s.names)
	s.at.floor, s.at.air, s.at.soil, s.at.outside = add("spilled"), add("evaporated"), add("splashed and soaked away"), add("added")
	s.route()
	s.x = make([]float64, len(s.names))
	s.chambers = make([]float64, len(r.chambers))
	s.flows = make([]float64, len(e.Manifolds)+len(e.Runs))
	s.moved = make([]float64, len(s.paths))
	s.first = map[string]float64{}
	return s
}

// route lays all paths.
func (s *sim) route() {
	e, at := s.r.E, &s.at
	path := func(from, to int, name string) int {
		s.paths, s.ways = append(s.paths, stiff.Path{From: from, To: to}), append(s.ways, name)
		return len(s.paths) - 1
	}
	many := func(n int, each func(i int)) int {
		first := len(s.paths)
		for i := range n {
			each(i)
		}
		return first
	}
	pump := at.chamber + s.r.last()
	on := &s.on
	on.toFilm = path(pump, at.film, "over the wall")
	on.toSoak = many(len(e.Wall.Soaks), func(i int) { path(pump, at.soak+i, "into the "+e.Wall.Soaks[i].Name) })
	on.toSoil = path(pump, at.soil, "splashed away")
	on.toPool = path(pump, at.pool, "returned to the pool")
	on.toChamber = many(len(s.r.chambers), func(i int) { path(pump, at.chamber+i, "returned to the sump") })
	on.fill = many(len(s.r.lines), func(i int) { path(pump, at.column+i, "into "+s.names[at.column+i]) })
	on.film = path(at.film, at.pool, "off the wall")
	on.soak = many(len(e.Wall.Soaks), func(i int) { path(at.soak+i, at.pool, "out of the "+e.Wall.Soaks[i].Name) })
	on.drain = many(len(e.Drains), func(i int) {
		path(at.pool, at.chamber+s.drainEnd(i), "down the "+e.Drains[i].Name)
	})
	on.baffle = many(len(s.r.chambers)-1, func(i int) { path(at.chamber+i, at.chamber+i+1, "past a baffle") })
	on.hidden = many(len(e.Pool.Hidden), func(i int) { path(at.pool, at.hidden+i, "into "+e.Pool.Hidden[i].Name) })
	on.dam = path(at.pool, at.floor, "over the dam")
	on.rim = many(len(s.r.chambers), func(i int) { path(at.chamber+i, at.floor, "over the rim of the "+s.names[at.chamber+i]) })
	on.leakPool = path(at.pool, at.floor, "out of the leak in the pool")
	on.leakSump = many(len(s.r.chambers), func(i int) { path(at.chamber+i, at.floor, "out of the leak in the sump") })
	on.off = path(pump, at.floor, "out of the hose that came off")
	on.loose = many(len(s.r.lines), func(i int) { path(at.column+i, at.floor, "out of the hose that came off") })
	on.siphon = many(len(e.Runs), func(i int) { path(at.pool, pump, "siphoned back through the "+e.Runs[i].Name) })
	on.lost = many(len(e.Runs), func(i int) { path(at.pool, at.floor, "out of the pool through the "+e.Runs[i].Name) })
	on.bridge = many(len(e.Bridges), func(i int) {
		b := &e.Bridges[i]
		path(s.storeOf(b.From), s.storeOf(b.To), "along the "+b.Name)
	})
	on.poolAir, on.air = path(at.pool, at.air, "evaporated from the pool"), path(at.film, at.air, "evaporated from the wall")
	from := at.outside
	if e.TopUp.Holds > 0 {
		from = at.reservoir
	}
	on.topUp = path(from, at.chamber+min(e.TopUp.Chamber, s.r.last()), "topped up")
	on.addPool = path(at.outside, at.pool, "added to the pool")
	on.addSump = many(len(s.r.chambers), func(i int) { path(at.outside, at.chamber+i, "added to the sump") })
}

// storeOf is the store that a place is.
func (s *sim) storeOf(p enclosure.Place) int {
	switch p.Kind {
	case enclosure.AtPool:
		return s.at.pool
	case enclosure.AtSump:
		return s.at.chamber + min(p.Index, s.r.last())
	}
	return s.at.floor
}

// drainEnd is the chamber in which a drain's water ends.
func (s *sim) drainEnd(i int) int {
	if s.outflow == nil {
		o, err := study.NewOutflow(s.r.E, s.r.Case)
		if err != nil {
			s.fail(err)
			return 0
		}
		s.outflow = o
	}
	return min(s.outflow.Into(i), s.r.last())
}

func (s *sim) fail(err error) {
	if s.err == nil {
		s.err = err
	}
}

// poolLevel is the pool's level now.
func (s *sim) poolLevel() float64 { return s.r.pool.Level(s.x[s.at.pool]) }

// begin fills the stores with what is there while it runs steadily.
func (s *sim) begin() {
	r, e := s.r, s.r.E
	st := r.Start
	s.x[s.at.pool] = r.pool.Volume(st.PoolLevel)
	for i := range r.hidden {
		s.x[s.at.hidden+i] = r.hidden[i].Volume(st.PoolLevel)
	}
	s.steadyChambers(st.SumpLevel, st.Inflow)
	for i := range r.chambers {
		s.x[s.at.chamber+i] = r.chambers[i].Volume(s.chambers[i])
	}
	s.x[s.at.film] = r.film.held
	for i := range r.soaks {
		s.x[s.at.soak+i] = r.soaks[i].held
	}
	for i := range e.Pumps {
		s.mode.dry[i] = e.Pumps[i].InSump && st.SumpLevel <= r.inlet(i)
		s.mode.floatOff[i] = e.Pumps[i].Float.Given && st.SumpLevel <= e.Pumps[i].Float.Off
	}
	s.settleRunning()
	for k := range r.lines {
		l := &r.lines[k]
		s.mode.primed[k] = s.mode.driven[k] && s.flowing(k)
		switch {
		case s.mode.primed[k]:
			s.x[s.at.column+k] = l.full
		default:
			s.x[s.at.column+k] = math.Min(l.curve.Volume(st.SumpLevel), l.full)
		}
	}
	if e.TopUp.Given {
		s.x[s.at.reservoir] = e.TopUp.Holds
	}
}

// flowing reports whether anything came out of a line in the steady state.
func (s *sim) flowing(k int) bool {
	for _, i := range s.r.lines[k].manifolds {
		if s.r.Start.Manifolds[i].Total > 0 {
			return true
		}
	}
	for _, i := range s.r.lines[k].runs {
		if s.r.Start.Runs[i].Flow > 0 {
			return true
		}
	}
	return false
}

// steadyChambers sets the levels of all chambers so that a flow passes from the
// first to the last, in which the pumps stand.
func (s *sim) steadyChambers(last, q float64) {
	n := len(s.chambers)
	s.chambers[n-1] = last
	for i := n - 2; i >= 0; i-- {
		down := s.chambers[i+1]
		lo, hi := down, math.Max(down, s.r.E.Sump.Bottom+s.r.E.Sump.Chambers[i].Over)+1
		for range 80 {
			if mid := (lo + hi) / 2; s.baffle(i, mid, down) < q {
				lo = mid
			} else {
				hi = mid
			}
		}
		s.chambers[i] = hi
	}
}

const (
	// still is the head difference within which the flow between two waters is
	// slow, m: they answer at once otherwise.
	still = 1e-5
	// stillJet is the same for a hole into air, to which nothing answers quickly.
	stillJet = 1e-9
)

// baffle is the flow from chamber i to the next at two levels.
func (s *sim) baffle(i int, up, down float64) float64 {
	sump := &s.r.E.Sump
	c := &sump.Chambers[i]
	if c.Under > 0 {
		wet := math.Min(c.Under, math.Max(math.Max(up, down)-sump.Bottom, 0))
		return hydraulics.OpeningFlow(wet*sump.Depth, up-down, still)
	}
	top := sump.Bottom + c.Over
	return hydraulics.SharpCrestFlow(sump.Depth, up-top) - hydraulics.SharpCrestFlow(sump.Depth, down-top)
}

func (s *sim) log(format string, args ...any) {
	t := 0.0
	if s.solver != nil {
		t = s.solver.Time()
	}
	s.last = fmt.Sprintf(format, args...)
	if len(s.out.Events) >= keptEvents {
		s.out.Unlisted++
		return
	}
	s.out.Events = append(s.out.Events, Event{At: t, What: s.last})
}
