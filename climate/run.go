package climate

import (
	"math"
	"slices"

	"rillwright/climate/moistair"
	"rillwright/num/stiff"
)

// Stores that rates depend on. Heat is kept in kJ against liquid water at 0 C,
// water in g, so that a thousandth matters as little in each.
const (
	heatWater = iota // kJ
	heatAir          // kJ
	vapourAir        // g
	firstPane        // kJ of each pane with its film, then g of each film
	kilo      = 1e3
)

// Ways from store to store, before those of each pane.
const (
	powerWater = iota
	powerHeater
	powerAir
	waterAir // sensible and with vapour
	waterRoom
	supplyWater // heat of make-up
	supplyAir   // heat of mist
	airWater    // heat of haze
	airRoom
	evaporated // g, from the supply, since make-up holds the water
	misted     // g
	hazed      // g
	vented     // g
	perBox
)

// Ways of each pane.
const (
	powerPane = iota
	airPane
	paneRoom
	paneWater
	settled // g
	ranOff  // g
	perPane
)

// run follows a box through days.
type run struct {
	b      *Box
	d      *Day
	n      int // panes
	dry    float64
	vapour float64 // of the room, which stays, Pa
	heats  bool    // the heater is on
	now    Box     // with what is timed
	heat   Heat

	s        *stiff.Solver
	paths    []stiff.Path
	f        Flows
	at       State
	x, from  []float64 // stores, and at the start of a step
	gainFrom []float64 // what those felt gain at its start and its end
	gainTo   []float64
	timed    []Timed
	switches []float64
}

// tolerance is the largest error of a step in any store: 0.005 kJ is 0.01 K of the air in
// a small enclosure, and less in the rest. A day that only leads up to another may err
// by more: what is left of it a day later is in that day's drift.
const (
	tolerance      = 0.005
	toleranceAhead = 20 * tolerance
)

// newRun prepares to follow.
func newRun(b *Box, d *Day) *run {
	n := len(b.Panes)
	r := &run{b: b, d: d, n: n, now: *b, vapour: d.Room.vapour()}
	// The air that is in it stays in mass: its volume, at the room's state.
	o := b.outside(d.Room.Celsius, r.vapour)
	r.dry = b.Volume / o.volume

	felt := firstPane + 2*n
	power, supply, roomHeat, water, roomWater := felt, felt+1, felt+2, felt+3, felt+4
	paths := make([]stiff.Path, perBox+perPane*n)
	paths[powerWater] = stiff.Path{From: power, To: heatWater}
	paths[powerHeater] = stiff.Path{From: power, To: heatWater}
	paths[powerAir] = stiff.Path{From: power, To: heatAir}
	paths[waterAir] = stiff.Path{From: heatWater, To: heatAir}
	paths[waterRoom] = stiff.Path{From: heatWater, To: roomHeat}
	paths[supplyWater] = stiff.Path{From: supply, To: heatWater}
	paths[supplyAir] = stiff.Path{From: supply, To: heatAir}
	paths[airWater] = stiff.Path{From: heatAir, To: heatWater}
	paths[airRoom] = stiff.Path{From: heatAir, To: roomHeat}
	paths[evaporated] = stiff.Path{From: water, To: vapourAir}
	paths[misted] = stiff.Path{From: water, To: vapourAir}
	paths[hazed] = stiff.Path{From: vapourAir, To: water}
	paths[vented] = stiff.Path{From: vapourAir, To: roomWater}
	for i := range n {
		p, pane, film := paths[perBox+perPane*i:], firstPane+i, firstPane+n+i
		p[powerPane] = stiff.Path{From: power, To: pane}
		p[airPane] = stiff.Path{From: heatAir, To: pane}
		p[paneRoom] = stiff.Path{From: pane, To: roomHeat}
		p[paneWater] = stiff.Path{From: pane, To: heatWater}
		p[settled] = stiff.Path{From: vapourAir, To: film}
		p[ranOff] = stiff.Path{From: film, To: water}
	}
	sys := stiff.System{Stores: felt + 5, Felt: felt, Paths: paths, Rates: r.rates, Changing: d.Room.Swing > 0}
	if h := &b.Heater; h.Power > 0 {
		sys.Events = []stiff.Event{
			{Value: func(_ float64, x []float64) float64 { return r.waterAt(x) - (h.Set - h.Band/2) }},
			{Value: func(_ float64, x []float64) float64 { return r.waterAt(x) - (h.Set + h.Band/2) }, Rising: true},
		}
	}
	r.s = stiff.NewSolver(sys, stiff.Settings{Tolerance: tolerance, First: 1, MaxSteps: 100_000})
	r.paths = paths
	r.x, r.from, r.gainFrom, r.gainTo = make([]float64, felt+5), make([]float64, felt+5), make([]float64, felt), make([]float64, felt)
	// To whole seconds, so that no two switches lie closer than a step can be.
	r.timed = slices.Clone(d.Timed)
	for i := range r.timed {
		t := &r.timed[i]
		t.On, t.Off = math.Round(t.On), math.Round(t.Off)
		r.switches = append(r.switches, t.On, t.Off)
	}
	r.switches = append(r.switches, DayLength)
	slices.Sort(r.switches)
	return r
}

// waterAt returns the water's temperature (C) from stores.
func (r *run) waterAt(x []float64) float64 { return x[heatWater] * kilo / (r.b.Water * CpWater) }

// state reads a state from stores.
func (r *run) state(x []float64, s *State) {
	s.Water = r.waterAt(x)
	s.Ratio = x[vapourAir] / kilo / r.dry
	s.Air = moistair.Temperature(x[heatAir]*kilo/r.dry, s.Ratio)
	for i := range r.n {
		s.Film[i] = x[firstPane+r.n+i] / kilo
		s.Panes[i] = x[firstPane+i] * kilo / (r.b.Panes[i].Capacity + CpWater*s.Film[i])
	}
}

// begin fills the stores from a balance: panes on which vapour settles hold what
// they can, the others are dry.
func (r *run) begin(from *Balance) {
	s := from.State
	for i, p := range r.b.Panes {
		if m := from.Settles[i]; m > 0 {
			s.Film[i] = p.Holds*p.Area + m*runOffTime
		}
	}
	clear(r.x)
	r.x[heatWater] = s.Water * r.b.Water * CpWater / kilo
	r.x[vapourAir] = s.Ratio * r.dry * kilo
	r.x[heatAir] = moistair.Enthalpy(s.Air, s.Ratio) * r.dry / kilo
	for i := range r.n {
		r.x[firstPane+i] = s.Panes[i] * (r.b.Panes[i].Capacity + CpWater*s.Film[i]) / kilo
		r.x[firstPane+r.n+i] = s.Film[i] * kilo
	}
	r.heats = s.Water < r.b.Heater.Set
}

// filmDries is how thin a film is that leaves part of a pane dry, kg/m2: a breath
// of droplets that just clouds it. Assumed.
const filmDries = 2e-3

// rates gives what moves each second.
func (r *run) rates(t float64, x, rate []float64) {
	r.state(x, &r.at)
	var wet [MaxPanes]float64
	for i := range r.n {
		if f := r.at.Film[i]; f > 0 {
			wet[i] = f / (f + filmDries*r.b.Panes[i].Area)
		}
	}
	o := r.now.outside(r.d.Room.at(t), r.vapour)
	on := 0.0
	if r.heats {
		on = 1
	}
	f := &r.f
	r.now.flows(f, &r.at, &o, on, &wet)
	rate[powerWater] = r.heat.Water / kilo
	rate[powerHeater] = f.HeaterOutput / kilo
	rate[powerAir] = r.heat.Air / kilo
	rate[waterAir] = (f.WaterToAir + f.Evaporated) / kilo
	rate[waterRoom] = f.SumpOut / kilo
	rate[supplyWater] = f.MakeUpHeat / kilo
	rate[supplyAir] = f.MistHeat / kilo
	rate[airWater] = f.HazeHeat / kilo
	rate[airRoom] = f.VentOut / kilo
	rate[evaporated] = f.Evaporation * kilo
	rate[misted] = r.now.Mist * kilo
	rate[hazed] = f.Haze * kilo
	rate[vented] = f.VentVapour * kilo
	for i := range r.n {
		p := rate[perBox+perPane*i:]
		p[powerPane] = r.heat.Panes[i] / kilo
		p[airPane] = (f.PaneIn[i] + f.SettledIn[i]) / kilo
		p[paneRoom] = f.PaneOut[i] / kilo
		p[paneWater] = f.RunOffHeat[i] / kilo
		p[settled] = f.Settles[i] * kilo
		p[ranOff] = f.RunsOff[i] * kilo
	}
}

// setTimed puts in force what is on at a time of day.
func (r *run) setTimed(at float64) {
	r.now.Vents.Fan, r.now.Mist, r.heat = r.b.Vents.Fan, r.b.Mist, r.b.Always
	for i := range r.timed {
		if t := &r.timed[i]; t.running(at) {
			r.now.Vents.Fan += t.Fan
			r.now.Mist += t.Mist
			r.heat = r.heat.add(t.Heat, 1)
		}
	}
}

// day follows one day from midnight. One that is not kept leaves only the states at its
// ends.
func (r *run) day(c *Course, kept bool) error {
	if r.s.Tolerate(0); !kept {
		r.s.Tolerate(toleranceAhead)
	}
	r.s.Start(0, r.x)
	start := slices.Clone(r.x)
	c.Steps, c.Heats = 0, 0
	minute, t := 0, 0.0
	r.state(r.x, &c.States[0])
	for _, until := range r.switches {
		if until <= t {
			continue
		}
		r.setTimed(t)
		r.s.Restart()
		for r.s.Time() < until {
			if kept {
				copy(r.from, r.s.X())
				r.gains(r.gainFrom)
			}
			t0 := r.s.Time()
			event, err := r.s.Step(until)
			if err != nil {
				return err
			}
			c.Steps++
			if kept {
				minute = r.fill(c, minute, t0)
			}
			if event >= 0 {
				if r.heats = event == 0; r.heats {
					c.Heats++
				}
				r.s.Restart()
			}
		}
		t = until
	}
	copy(r.x, r.s.X())
	r.state(r.x, &c.States[Minutes-1])
	r.total(c, start)
	return nil
}

// gains sets what each store that rates depend on gains a second at the time reached.
func (r *run) gains(gain []float64) {
	clear(gain)
	rate, n := r.s.Rate(), len(gain)
	for k, p := range r.paths {
		if p.From < n {
			gain[p.From] -= rate[k]
		}
		if p.To < n {
			gain[p.To] += rate[k]
		}
	}
}

// fill writes the states of the minutes that the last step, from a time (s), went
// over; between its ends what the stores hold follows a cubic with what they gain at
// both.
func (r *run) fill(c *Course, minute int, t0 float64) int {
	t1 := r.s.Time()
	if float64(minute+1)*60 > t1 || minute+1 >= Minutes-1 {
		return minute
	}
	x, h := r.s.X(), t1-t0
	r.gains(r.gainTo)
	for float64(minute+1)*60 <= t1 && minute+1 < Minutes-1 {
		minute++
		u := (float64(minute)*60 - t0) / h
		v := 1 - u
		a, b, p, q := v*v*(1+2*u), u*u*(3-2*u), h*u*v*v, -h*u*u*v
		for k := range r.gainTo {
			r.x[k] = a*r.from[k] + b*x[k] + p*r.gainFrom[k] + q*r.gainTo[k]
		}
		r.state(r.x, &c.States[minute])
	}
	return minute
}

// mend takes away what a film is short of nothing by, after a day of rough steps, at the
// pane's temperature.
func (r *run) mend() {
	r.state(r.x, &r.at)
	for i := range r.n {
		if r.at.Film[i] < 0 {
			r.x[firstPane+r.n+i] = 0
			r.x[firstPane+i] = r.at.Panes[i] * r.b.Panes[i].Capacity / kilo
		}
	}
}

// total fills the totals of a day that began with the stores start.
func (r *run) total(c *Course, start []float64) {
	m, x := r.s.Moved(), r.s.X()
	t := &c.Totals
	*t = Totals{
		Power: m[powerWater] + m[powerHeater] + m[powerAir], Heater: m[powerHeater],
		Added: m[supplyWater] + m[supplyAir], Sump: m[waterRoom], Vents: m[airRoom],
		Evaporated: m[evaporated], Mist: m[misted], Vented: m[vented],
		RanOff: m[hazed],
	}
	for i := range r.n {
		p := m[perBox+perPane*i:]
		t.Power += p[powerPane]
		t.Panes += p[paneRoom]
		t.Condensed += p[settled]
		t.RanOff += p[ranOff]
		t.Stored += x[firstPane+i] - start[firstPane+i]
		t.Kept += x[firstPane+r.n+i] - start[firstPane+r.n+i]
	}
	t.Stored += x[heatWater] - start[heatWater] + x[heatAir] - start[heatAir]
	t.Kept += x[vapourAir] - start[vapourAir]
	t.MakeUp = t.Evaporated + t.Mist - t.RanOff
	t.HeatError = math.Abs(t.Power+t.Added-t.Panes-t.Sump-t.Vents-t.Stored) / (t.Power + math.Abs(t.Added) + math.Abs(t.Panes) + math.Abs(t.Sump) + math.Abs(t.Vents))
	t.WaterError = math.Abs(t.MakeUp-t.Vented-t.Kept) / (math.Abs(t.Evaporated) + t.Mist + math.Abs(t.RanOff) + math.Abs(t.Vented) + 1e-12)
	for _, heat := range []*float64{&t.Power, &t.Heater, &t.Added, &t.Panes, &t.Sump, &t.Vents, &t.Stored} {
		*heat *= kilo
	}
	for _, mass := range []*float64{&t.Evaporated, &t.Mist, &t.Condensed, &t.RanOff, &t.Vented, &t.MakeUp, &t.Kept} {
		*mass /= kilo
	}
}
