package faults

import (
	"math"

	"rillwright/num/stiff"
)

// watch is an event with what follows from it.
type watch struct {
	stiff.Event
	happened func()
}

// watch sets up everything that is looked out for. Figures that mean nothing at
// the moment are given a value that does not cross zero.
func (s *sim) watch() {
	r, e := s.r, s.r.E
	last := s.at.chamber + r.last()
	sump := func(x []float64) float64 { return r.chambers[r.last()].Level(x[last]) }
	add := func(rising bool, value func(t float64, x []float64) float64, happened func()) {
		s.watches = append(s.watches, watch{stiff.Event{Value: value, Rising: rising}, happened})
	}
	for i := range e.Pumps {
		if e.Pumps[i].InSump {
			s.watchPump(i, sump, add)
		}
	}
	for k := range s.lines {
		add(true, func(_ float64, x []float64) float64 {
			if !s.mode.driven[k] || s.mode.primed[k] {
				return -1
			}
			// A hair below, where the last drop need not wait for ever.
			return x[s.at.column+k] - s.prime(k)*(1-1e-6)
		}, func() {
			s.mode.primed[k] = true
			if !s.anyOff(k) {
				s.log("water reaches the outlets%s", s.ofLine(k))
			}
			s.solver.Restart()
		})
	}
	pool := func(x []float64) float64 { return r.pool.Level(x[s.at.pool]) }
	for i := range e.Runs {
		add(false, func(_ float64, x []float64) float64 {
			if !s.mode.siphoning[i] {
				return 1
			}
			return pool(x) - r.breaks(i, !s.mode.holesBlocked) - 1e-6
		}, func() {
			s.mode.siphoning[i] = false
			s.log("air gets into the %s: it siphons no more", e.Runs[i].Name)
			s.solver.Restart()
		})
		add(false, func(_ float64, x []float64) float64 {
			if !s.mode.loose[i] {
				return 1
			}
			at, _ := s.cut(s.wayOf(i))
			return pool(x) - math.Max(r.breaks(i, !s.mode.holesBlocked), at) - 1e-6
		}, func() {
			s.mode.loose[i] = false
			s.log("air gets into the %s: no more of the pool comes through it", e.Runs[i].Name)
			s.solver.Restart()
		})
	}
	s.watchRims(pool, add)
	for i := range e.Drains {
		level := func(x []float64) float64 {
			lip := e.Drains[i].Lip
			if s.mode.knocked[i] {
				lip = s.knockedLip(i)
			}
			return pool(x) - lip
		}
		add(false, func(_ float64, x []float64) float64 { return level(x) }, func() {
			s.log("the pool falls below the lip of the %s", e.Drains[i].Name)
		})
		add(true, func(_ float64, x []float64) float64 { return level(x) }, func() {
			s.log("the pool reaches the lip of the %s", e.Drains[i].Name)
		})
	}
}

// look notes all figures before something changes at once.
func (s *sim) look() {
	s.seen = s.seen[:0]
	for i := range s.watches {
		s.seen = append(s.seen, s.watches[i].Value(s.solver.Time(), s.x))
	}
}

// overtaken lets happen what a change at once went past since look: water poured
// over a rim, or taken down to below an inlet, or a pump that starts above the
// water. What follows from one may bring about another.
func (s *sim) overtaken() {
	for again, rounds := true, 0; again && rounds < 10; rounds++ {
		again = false
		for i := range s.watches {
			w := &s.watches[i]
			was, is := s.seen[i], w.Value(s.solver.Time(), s.x)
			s.seen[i] = is
			if w.Rising && was < 0 && is >= 0 || !w.Rising && was > 0 && is <= 0 {
				w.happened()
				again = true
			}
		}
	}
}

type adder func(rising bool, value func(t float64, x []float64) float64, happened func())

// watchPump looks out for a pump's inlet and its float.
func (s *sim) watchPump(i int, sump func(x []float64) float64, add adder) {
	r, p := s.r, &s.r.E.Pumps[i]
	add(false, func(_ float64, x []float64) float64 {
		if s.mode.dry[i] || !s.passes(i) {
			return 1
		}
		return sump(x) - r.inlet(i)
	}, func() {
		s.mode.dry[i] = true
		if math.IsInf(s.out.Dry, 1) {
			s.out.Dry, s.out.DryPump = s.solver.Time(), i
		}
		s.out.Short = math.Min(s.out.Short, s.solver.Time())
		s.log("the %s draws air: the sump is down to its inlet", p.Name)
		s.turn()
	})
	add(true, func(_ float64, x []float64) float64 {
		if !s.mode.dry[i] {
			return -1
		}
		return sump(x) - r.inlet(i) - s.mode.regain[i]
	}, func() {
		s.mode.dry[i] = false
		if s.out.Starts++; s.out.Starts >= hunting {
			s.mode.regain[i] *= 2
			s.hunts("the %s hunts: it draws air and takes hold again, over and over", p.Name)
		}
		s.log("the inlet of the %s is covered again", p.Name)
		s.turn()
	})
	if !p.Float.Given {
		return
	}
	add(false, func(_ float64, x []float64) float64 {
		if s.mode.floatOff[i] || s.mode.stuckOn[i] {
			return 1
		}
		return sump(x) - p.Float.Off
	}, func() {
		s.mode.floatOff[i] = true
		s.out.Short = math.Min(s.out.Short, s.solver.Time())
		s.log("the float stops the %s", p.Name)
		s.turn()
	})
	add(true, func(_ float64, x []float64) float64 {
		if !s.mode.floatOff[i] {
			return -1
		}
		return sump(x) - p.Float.Off - s.mode.travel[i]
	}, func() {
		s.mode.floatOff[i] = false
		if s.out.Floats++; s.out.Floats >= hunting {
			s.mode.travel[i] *= 2
			s.hunts("the %s hunts: its float stops it and starts it again, over and over", p.Name)
		}
		s.log("the float starts the %s", p.Name)
		s.turn()
	})
}

// hunts notes, once, that a pump starts and stops without end.
func (s *sim) hunts(what, pump string) {
	if !s.out.Hunts {
		s.out.Hunts = true
		s.log(what, pump)
	}
}

// turn settles pumps after one was switched.
func (s *sim) turn() {
	s.settleRunning()
	s.solver.Restart()
}

// watchRims looks out for water that leaves over dam and rims.
func (s *sim) watchRims(pool func(x []float64) float64, add adder) {
	r, e := s.r, s.r.E
	over := func(way, begins, ends string, head func(x []float64) float64) {
		add(true, func(_ float64, x []float64) float64 { return head(x) }, func() {
			if _, ok := s.first[way]; !ok {
				s.first[way] = s.solver.Time()
			}
			s.log("%s", begins)
		})
		add(false, func(_ float64, x []float64) float64 { return head(x) - 1e-4 }, func() {
			if _, ok := s.first[way]; ok {
				s.log("%s", ends)
			}
		})
	}
	over(s.ways[s.on.dam], "the pool runs over the dam", "hardly any water runs over the dam any more",
		func(x []float64) float64 { return pool(x) - e.Pool.DamTop })
	for i := range r.chambers {
		name := s.names[s.at.chamber+i]
		over(s.ways[s.on.rim+i], "the "+name+" runs over its rim", "hardly any water runs over the rim of the "+name+" any more",
			func(x []float64) float64 { return r.chambers[i].Level(x[s.at.chamber+i]) - r.rim() })
	}
}

// ofLine names a line where there are several.
func (s *sim) ofLine(k int) string {
	l := &s.lines[k]
	if len(s.lines) < 2 || len(l.pumps) == 0 {
		return ""
	}
	return " of the " + s.r.E.Pumps[l.pumps[0]].Name
}
