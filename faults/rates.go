package faults

import (
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// rates is what moves along every path each second; it is the right-hand side
// that package stiff integrates.
func (s *sim) rates(t float64, x, rate []float64) {
	r, e, at, on, m := s.r, s.r.E, &s.at, &s.on, &s.mode
	clear(rate)
	pool := r.pool.Level(x[at.pool])
	for i := range r.chambers {
		s.chambers[i] = r.chambers[i].Level(x[at.chamber+i])
	}
	pump := s.chambers[r.last()]
	s.supply(x, rate, pool, pump)

	held, flow := r.reference()
	v := math.Max(x[at.film], 0) / held
	rate[on.film] = flow * v * v * v
	evaporation := r.Case.Of(e.Evaporation)
	if s.o.Tended {
		evaporation = 0
	}
	// A film thinner than a tenth of the usual does not wet everything.
	rate[on.air] = evaporation * e.Wall.Width * e.Wall.Height * math.Min(10*v, 1)
	rate[on.poolAir] = evaporation * e.Pool.Width * e.Pool.Depth * fade(x[at.pool])
	for i := range r.soaks {
		rate[on.soak+i] = r.soaks[i].rate * x[at.soak+i]
	}
	for i, q := range s.outflow.At(pool, s.chambers) {
		rate[on.drain+i] = q * (1 - m.blocked[i].at(t)) * (1 - m.clogged[i].at(t))
	}
	for i := range len(r.chambers) - 1 {
		rate[on.baffle+i] = s.baffle(i, s.chambers[i], s.chambers[i+1])
	}
	for i := range r.hidden {
		// Water passes over the higher of the two floors.
		h := &e.Pool.Hidden[i]
		sill := math.Max(h.Floor, e.Pool.Floor)
		behind := r.hidden[i].Level(x[at.hidden+i])
		if behind >= h.Floor { // else it holds less than nothing by a step's error, and is brought back
			behind = math.Max(behind, sill)
		}
		rate[on.hidden+i] = hydraulics.OpeningFlow(h.Gap, math.Max(pool, sill)-behind, still)
	}
	rate[on.dam] = hydraulics.SharpCrestFlow(e.Pool.DamWidth, pool-e.Pool.DamTop)
	for i := range r.chambers {
		rate[on.rim+i] = hydraulics.SharpCrestFlow(s.rimLength(i), s.chambers[i]-r.rim())
	}
	for i := range m.leaks {
		if l := &m.leaks[i]; l.chamber < 0 {
			rate[on.leakPool] += hydraulics.OpeningFlow(l.area, math.Max(pool-l.height, 0), stillJet)
		} else {
			rate[on.leakSump+l.chamber] += hydraulics.OpeningFlow(l.area, math.Max(s.chambers[l.chamber]-l.height, 0), stillJet)
		}
	}
	for i := range e.Runs {
		if m.siphoning[i] {
			rate[on.siphon+i] = s.siphon(i, pool, math.Max(pump, e.Sump.Bottom))
		}
		if m.loose[i] {
			at, _ := s.cut(s.wayOf(i))
			rate[on.lost+i] = s.siphon(i, pool, at)
		}
	}
	s.bridges(rate, pool)
	s.fresh(x, rate)
}

// fade lets a flow out of a store die as the store runs empty.
func fade(v float64) float64 {
	const empty = 1e-5 // m3, a thimbleful
	return math.Min(math.Max(v/empty, 0), 1)
}

// rimLength is the length of rim over which a chamber can spill.
func (s *sim) rimLength(i int) float64 {
	sump := &s.r.E.Sump
	if len(sump.Chambers) == 0 {
		return 2 * (sump.Width + sump.Depth)
	}
	l := 2 * sump.Chambers[i].Length
	if i == 0 {
		l += sump.Depth
	}
	if i == len(sump.Chambers)-1 {
		l += sump.Depth
	}
	return l
}

// barely is the flow of a manifold below which the pipe up to it is not full, m3/s:
// assumed, no source. It must not be nothing: where the outlets only just run, the
// water that fills the pipe would stop them, and so on without end.
const barely = 1e-6

// supply sets what the pumps move.
func (s *sim) supply(x, rate []float64, pool, sump float64) {
	r, e, on, m := s.r, s.r.E, &s.on, &s.mode
	if s.circuit != nil {
		if err := s.circuit.at(sump, pool, s.flows); err != nil {
			// A step that goes where the circuit has no state is taken again,
			// shorter; only if none is short enough does the run end for it.
			s.trouble = err
			for i := range s.flows {
				s.flows[i] = math.NaN()
			}
		}
	}
	outlets := 0.0
	for k := range s.lines {
		l := &s.lines[k]
		if !m.driven[k] || !m.primed[k] {
			rate[on.fill+k] = s.column(k, x[s.at.column+k], sump)
			continue
		}
		full := 0.0
		for _, i := range l.manifolds {
			outlets += s.flows[i]
			if e.Manifolds[i].Height+r.Case.Of(e.Manifolds[i].Bore) >= l.curve.Level(l.full)-1e-9 {
				full = math.Max(full, math.Min(s.flows[i]/barely, 1))
			}
		}
		for _, i := range l.runs {
			q := s.flows[len(e.Manifolds)+i]
			switch u := &e.Runs[i]; {
			case s.isOff(i):
				rate[on.off] += q
			case u.To.Kind == enclosure.AtPool:
				rate[on.toPool] += q
			case u.To.Kind == enclosure.AtSump:
				if c := min(u.To.Index, r.last()); c != r.last() {
					rate[on.toChamber+c] += q
				}
			}
		}
		// The higher ends of a line fill once water gets there.
		target := s.prime(k)
		if !s.anyOff(k) {
			target += full * (l.full - target)
		}
		rate[on.fill+k] = (target - x[s.at.column+k]) / 2
	}
	if rate[on.toSoil] = outlets * r.Case.Of(e.WaterLost); s.o.Tended || s.o.NoSplash {
		rate[on.toSoil] = 0
	}
	onWall := outlets - rate[on.toSoil]
	rate[on.toFilm] = onWall
	for i := range r.soaks {
		rate[on.toSoak+i] = onWall * r.soaks[i].catches
		rate[on.toFilm] -= rate[on.toSoak+i]
	}
}

// prime is what a line must hold before its lowest open end gives water.
func (s *sim) prime(k int) float64 {
	l := &s.lines[k]
	v := l.prime
	for _, i := range l.runs {
		if s.isOff(i) {
			v = math.Min(v, l.curve.Volume(s.mode.offAt[i]))
		}
	}
	return v
}

// anyOff reports whether a run of a line came off.
func (s *sim) anyOff(k int) bool { return slices.ContainsFunc(s.lines[k].runs, s.isOff) }

func (s *sim) inLine(k, run int) bool {
	return slices.Contains(s.lines[k].runs, run)
}

// column is the flow into the standing water of a line that is being filled, or,
// negative, that runs back.
func (s *sim) column(k int, volume, sump float64) float64 {
	l := &s.lines[k]
	surface := l.curve.Level(volume)
	if s.mode.driven[k] {
		sum := 0.0
		for i := range l.up {
			if w := &l.up[i]; s.mode.running[w.pump] && !w.shut {
				sum += lift(w, surface-sump)
			}
		}
		return sum
	}
	for i := range l.returns {
		if s.mode.siphoning[l.returns[i]] {
			return 0 // it stays full
		}
	}
	sum := 0.0
	for _, law := range l.back {
		sum -= network.Through(law, surface-sump, 0)
	}
	return sum
}

// lift is the flow that a pump gives against a lift and its hose: where its head,
// which falls with the flow, meets the loss, which grows. It begins from the same
// flow each time, so that what it finds depends on nothing that went before.
func lift(w *way, height float64) float64 {
	if h, _ := w.head(0); h <= height {
		return 0
	}
	q, lo, hi := 1e-4, 0.0, math.Inf(1)
	for range 100 {
		h, dh := w.head(q)
		loss, dl := w.law.Loss(q)
		f, slope := height+loss-h, dl-dh
		if f > 0 {
			hi = q
		} else {
			lo = q
		}
		next := q - f/slope
		if math.Abs(next-q) <= 1e-14*q {
			return q
		}
		switch {
		case slope > 0 && next > lo && next < hi:
		case math.IsInf(hi, 1):
			next = 2 * q
		default:
			next = (lo + hi) / 2
		}
		q = next
	}
	return q
}

// wayOf is the way of a return's siphon.
func (s *sim) wayOf(run int) []int {
	for k := range s.lines {
		if i := slices.Index(s.lines[k].returns, run); i >= 0 {
			return s.lines[k].route[i]
		}
	}
	return nil
}

// siphon is the flow of a run that draws the pool down to a lower level.
func (s *sim) siphon(run int, pool, low float64) float64 {
	stop := s.r.breaks(run, !s.mode.holesBlocked)
	if pool <= math.Max(stop, low) {
		return 0
	}
	for k := range s.lines {
		l := &s.lines[k]
		for i, u := range l.returns {
			if u == run {
				return network.Through(l.siphon[i], pool-low, 0)
			}
		}
	}
	return 0
}

// bridges sets what creeps or siphons along what hangs between the waters.
func (s *sim) bridges(rate []float64, pool float64) {
	for i := range s.r.E.Bridges {
		b := &s.r.E.Bridges[i]
		level := func(p enclosure.Place) float64 {
			switch p.Kind {
			case enclosure.AtPool:
				return pool
			case enclosure.AtSump:
				return s.chambers[min(p.Index, s.r.last())]
			}
			return math.Inf(-1)
		}
		rate[s.on.bridge+i] = s.r.bridge[i].flow(level(b.From), level(b.To))
	}
}

// fresh sets what is added and taken.
func (s *sim) fresh(x, rate []float64) {
	e, m := s.r.E, &s.mode
	if up := &e.TopUp; up.Given {
		share := m.stuck
		if math.IsNaN(share) {
			// A float valve opens over its last few millimetres.
			const travel = 0.005
			share = math.Min(math.Max((up.Level-s.chambers[min(up.Chamber, s.r.last())])/travel, 0), 1)
		}
		rate[s.on.topUp] = share * up.Flow
		if up.Holds > 0 {
			rate[s.on.topUp] *= fade(x[s.at.reservoir])
		}
	}
	for i := range m.streams {
		w := &m.streams[i]
		path, store := s.on.addPool, s.at.pool
		if w.chamber >= 0 {
			path, store = s.on.addSump+w.chamber, s.at.chamber+w.chamber
		}
		q := w.flow
		if q < 0 {
			q *= fade(x[store])
		}
		rate[path] += q
	}
}
