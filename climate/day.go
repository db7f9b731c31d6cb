package climate

import (
	"errors"
	"fmt"
	"math"
)

// DayLength is a day, s.
const DayLength = 86400.0

// Timed is what is on for a part of each day: lamps, a fan, mist.
type Timed struct {
	On, Off float64 // whole seconds after midnight, 0 to DayLength; Off before On goes through midnight
	Heat    Heat
	Fan     float64 // air more that a fan moves, m3/s
	Mist    float64 // water more that hangs in the air, kg/s
}

// running reports whether it is on at a time of day (s).
func (t *Timed) running(at float64) bool {
	if t.On <= t.Off {
		return at >= t.On && at < t.Off
	}
	return at >= t.On || at < t.Off
}

// RoomDay is a room through a day: its temperature swings as a cosine, the vapour in
// it stays (assumed: what breathes and cooks in it is left out), so that it is driest
// when warmest.
type RoomDay struct {
	Room            // in the middle
	Swing   float64 // half of the range, K
	Warmest float64 // seconds after midnight
}

// at returns the room's temperature (C) at a time of day (s).
func (r *RoomDay) at(t float64) float64 {
	return r.Celsius + r.Swing*math.Cos(2*math.Pi*(t-r.Warmest)/DayLength)
}

// Check returns what is wrong, nil if nothing: the middle as for a Room, at most 15
// K of swing, never so cool that its vapour would settle.
func (r *RoomDay) Check() error {
	if err := r.Room.Check(); err != nil {
		return err
	}
	if !(r.Swing >= 0 && r.Swing <= 15) || !(r.Warmest >= 0 && r.Warmest <= DayLength) {
		return fmt.Errorf("%w: room that swings by %g K about noon at %g s, want 0 to 15 K and 0 to 86400 s", errBox, r.Swing, r.Warmest)
	}
	coolest := Room{r.Celsius - r.Swing, 1}
	if r.vapour() > coolest.vapour() {
		return fmt.Errorf("%w: the vapour of a room of %g C and %.0f %% would settle at %g C: less swing, or drier", errBox, r.Celsius, 100*r.Humidity, coolest.Celsius)
	}
	return nil
}

// Day is what a day brings.
type Day struct {
	Room  RoomDay
	Timed []Timed
	// Settle is how many days may go before the one that is kept, until it ends
	// as it began to 0.05 K; 0 for 10.
	Settle int
}

// Check returns what is wrong, nil if nothing.
func (d *Day) Check() error {
	if err := d.Room.Check(); err != nil {
		return err
	}
	for i, t := range d.Timed {
		if !(t.On >= 0 && t.On <= DayLength && t.Off >= 0 && t.Off <= DayLength) {
			return fmt.Errorf("%w: entry %d of what is timed: on at %g s, off at %g s, want 0 to 86400", errBox, i+1, t.On, t.Off)
		}
		if !amount(t.Fan, t.Mist, t.Heat.Water, t.Heat.Air) || !amount(t.Heat.Panes[:]...) {
			return fmt.Errorf("%w: entry %d of what is timed: heat, fan and mist must not be under 0: %+v", errBox, i+1, t)
		}
	}
	return nil
}

// checkCourse returns what a day's course needs beyond Check.
func (b *Box) checkCourse() error {
	if !positive(b.Water, b.Volume) {
		return fmt.Errorf("%w: a course needs mass of water (%g kg) and volume of air (%g m3) over 0", errBox, b.Water, b.Volume)
	}
	for i, p := range b.Panes {
		if !positive(p.Capacity, p.Holds) {
			return fmt.Errorf("%w: a course needs capacity (%g J/K) of pane %d and what water it holds (%g kg/m2) over 0", errBox, p.Capacity, i+1, p.Holds)
		}
	}
	return nil
}

// Minutes is how many states a Course holds: one a minute, both ends included.
const Minutes = 1441

// Totals is what has moved in a day: heat in J, water in kg.
type Totals struct {
	// Heat into the enclosure from lamps, pump and heater; with water that was
	// added; out through panes, sump and vents. Stored is what more is in it.
	Power, Added, Panes, Sump, Vents, Stored float64
	Heater                                   float64 // part of Power

	Evaporated, Mist, Condensed, RanOff, Vented, MakeUp float64
	// Kept is the vapour and the water on panes that is more in the enclosure.
	Kept float64
	// HeatError and WaterError are what was lost or made by the computation, as
	// part of what moved.
	HeatError, WaterError float64
}

// Course is a day at one state a minute.
type Course struct {
	States [Minutes]State
	Totals Totals
	Days   int     // gone before this one
	Drift  float64 // how far it ends from where it began, K
	Steps  int
	Heats  int // times the thermostat turned on
}

// add returns h and share times more.
func (h Heat) add(more Heat, share float64) Heat {
	h.Water += share * more.Water
	h.Air += share * more.Air
	for i := range h.Panes {
		h.Panes[i] += share * more.Panes[i]
	}
	return h
}

// Average returns the box as it is on average over a day: what is timed counts for its
// hours.
func (b *Box) Average(d *Day) Box {
	avg := *b
	for _, t := range d.Timed {
		hours := t.Off - t.On
		if hours < 0 {
			hours += DayLength
		}
		share := hours / DayLength
		avg.Always = avg.Always.add(t.Heat, share)
		avg.Vents.Fan += share * t.Fan
		avg.Mist += share * t.Mist
	}
	return avg
}

// Follow fills a course with a day that ends as it began: from the balance of the
// day's average the days go by until one does, or Settle of them are gone. What
// moves is followed along each way from one store to another, so heat and water are
// conserved to rounding. Errors are those of checks, of the balance, and of steps in
// time (num/stiff).
func (b *Box) Follow(d *Day, c *Course) error {
	if err := errors.Join(b.Check(), b.checkCourse(), d.Check()); err != nil {
		return err
	}
	avg := b.Average(d)
	start, err := avg.SteadyState(d.Room.Room)
	if err != nil {
		return err
	}
	r := newRun(b, d)
	r.begin(&start)
	most := d.Settle
	if most <= 0 {
		most = 10
	}
	for c.Days = 0; ; c.Days++ {
		// The first day hardly ever ends as it began.
		kept := c.Days > 0 || most == 1
		if err := r.day(c, kept); err != nil {
			return err
		}
		if !kept {
			r.mend()
			continue
		}
		first, last := &c.States[0], &c.States[Minutes-1]
		c.Drift = max(math.Abs(last.Water-first.Water), math.Abs(last.Air-first.Air))
		if c.Drift <= 0.05 || c.Days+1 >= most {
			return nil
		}
	}
}
