package climate

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rillwright/climate/moistair"
)

// cabinet is a planted enclosure of middling size with lamps by day, and its room.
func cabinet() (*Box, *Day) {
	b := &Box{
		Pressure: moistair.Standard, Lewis: 0.865,
		Wet:   []WetFace{{0.6, 3.5}, {0.15, 3}},
		Vents: Vents{Low: 0.004, High: 0.004, Discharge: 0.4, Height: 0.7, Leak: 0.2 / 3600},
		Sump:  1.5, MakeUp: 20, Water: 60, Volume: 0.35,
		Always: Heat{Water: 12},
		Heater: Heater{Power: 50, Set: 22, Band: 1},
	}
	for _, area := range []float64{0.6, 0.8, 0.5} {
		b.Panes = append(b.Panes, Pane{Area: area, In: 4, Out: 8, Resistance: 0.006, Capacity: area * 0.006 * 2500 * 840, Holds: 0.05})
	}
	day := &Day{
		Room:  RoomDay{Room: Room{19, 0.5}, Swing: 2, Warmest: 15 * 3600},
		Timed: []Timed{{On: 8 * 3600, Off: 20 * 3600, Heat: Heat{Water: 6, Air: 14, Panes: [MaxPanes]float64{20}}}},
	}
	return b, day
}

func TestDayConserves(t *testing.T) {
	var c Course
	check := func(rt interface{ Fatalf(string, ...any) }, b *Box, d *Day) {
		if err := b.Follow(d, &c); err != nil {
			rt.Fatalf("%v", err)
		}
		if c.Totals.HeatError > 1e-9 || c.Totals.WaterError > 1e-9 {
			rt.Fatalf("heat lost %g, water lost %g", c.Totals.HeatError, c.Totals.WaterError)
		}
		// The same from the states, as anyone would who has only them.
		dry := b.Volume / b.outside(d.Room.Celsius, d.Room.vapour()).volume
		heat := func(s *State) float64 {
			h := b.Water*CpWater*s.Water + dry*moistair.Enthalpy(s.Air, s.Ratio)
			for i, p := range b.Panes {
				h += (p.Capacity + CpWater*s.Film[i]) * s.Panes[i]
			}
			return h
		}
		first, last := &c.States[0], &c.States[Minutes-1]
		if got, want := heat(last)-heat(first), c.Totals.Stored; math.Abs(got-want) > 1e-9*(c.Totals.Power+heat(first)) {
			rt.Fatalf("states hold %g J more, totals say %g", got, want)
		}
		for i := range c.States {
			s := &c.States[i]
			if !(s.Ratio >= 0) || !(s.Air > 0 && s.Air < 70) || !(s.Water > 0 && s.Water < 70) {
				rt.Fatalf("minute %d: %+v", i, s)
			}
			for k := range b.Panes {
				// A step may err by 0.005 g.
				if s.Film[k] < -1e-5 {
					rt.Fatalf("minute %d: film of %g kg", i, s.Film[k])
				}
			}
		}
	}
	b, d := cabinet()
	check(t, b, d)
	rapid.Check(t, func(rt *rapid.T) {
		b, room := draw(rt)
		d := &Day{
			Room:   RoomDay{Room: Room{max(room.Celsius, 14), min(room.Humidity, 0.7)}, Swing: rapid.Float64Range(0, 3).Draw(rt, "swing"), Warmest: 15 * 3600},
			Timed:  []Timed{{On: rapid.Float64Range(0, DayLength).Draw(rt, "on"), Off: rapid.Float64Range(0, DayLength).Draw(rt, "off"), Heat: Heat{Air: b.Always.Air * rapid.Float64Range(0, 0.5).Draw(rt, "lamp")}}},
			Settle: 2,
		}
		check(rt, b, d)
	})
}

// In a room that stands still, with nothing timed and no thermostat that swings,
// the day is the steady state all through.
func TestDayOfSteadyState(t *testing.T) {
	for _, c := range stackCases(t) {
		b, room := c.pose()
		b.Water, b.Volume = 50, 0.3
		b.Panes[0].Capacity, b.Panes[0].Holds = 2e4, 0.05
		s, err := b.SteadyState(room)
		if err != nil {
			t.Fatal(err)
		}
		var course Course
		if err := b.Follow(&Day{Room: RoomDay{Room: room}, Settle: 3}, &course); err != nil {
			t.Fatal(err)
		}
		for _, i := range []int{0, 300, Minutes - 1} {
			got := &course.States[i]
			// 0.005 kJ a step is the tolerance; where it fogs the film makes
			// the pane wait.
			if math.Abs(got.Water-s.Water) > 0.01 || math.Abs(got.Air-s.Air) > 0.02 || math.Abs(got.Ratio-s.Ratio) > 1e-4*s.Ratio*5 {
				t.Errorf("%s, minute %d: %.4f, %.4f C, %.6f; steady %.4f, %.4f C, %.6f", c.Case, i, got.Water, got.Air, got.Ratio, s.Water, s.Air, s.Ratio)
			}
		}
		if want := s.MakeUp * DayLength; math.Abs(course.Totals.MakeUp-want) > 0.005*want {
			t.Errorf("%s: %.5f kg made up in a day, steady %.5f", c.Case, course.Totals.MakeUp, want)
		}
	}
}

// By day the lamp warms the air, by night the front fogs or it does not, but the
// thermostat holds its band; a dark day has no lamp's heat.
func TestDayOfCabinet(t *testing.T) {
	b, d := cabinet()
	var c Course
	if err := b.Follow(d, &c); err != nil {
		t.Fatal(err)
	}
	if c.Drift > 0.05 {
		t.Errorf("the day ends %g K from where it began after %d days", c.Drift, c.Days)
	}
	if night, noon := c.States[4*60].Air, c.States[14*60].Air; noon < night+1 {
		t.Errorf("air of %g C at 4, %g C at 14", night, noon)
	}
	for i := range c.States {
		if w := c.States[i].Water; w < 21.4 {
			t.Fatalf("minute %d: water of %g C in spite of the thermostat", i, w)
		}
	}
	lamps := c.Totals.Power - c.Totals.Heater - 12*DayLength
	if want := 40 * 12 * 3600.0; math.Abs(lamps-want) > 1e-6*want {
		t.Errorf("%g J of the lamps, want %g", lamps, want)
	}
	d.Timed[0].Heat = Heat{}
	var dark Course
	if err := b.Follow(d, &dark); err != nil {
		t.Fatal(err)
	}
	if got := dark.Totals.Power - dark.Totals.Heater; math.Abs(got-12*DayLength) > 1e-3 {
		t.Errorf("%g J in the dark, want the pump's alone", got)
	}
}

func TestDayRefuses(t *testing.T) {
	for name, change := range map[string]func(*Box, *Day){
		"no water":  func(b *Box, _ *Day) { b.Water = 0 },
		"no volume": func(b *Box, _ *Day) { b.Volume = 0 },
		"pane":      func(b *Box, _ *Day) { b.Panes[1].Capacity = 0 },
		"time":      func(_ *Box, d *Day) { d.Timed[0].On = 8e5 },
		"heat":      func(_ *Box, d *Day) { d.Timed[0].Heat.Air = -1 },
		"swing":     func(_ *Box, d *Day) { d.Room.Swing = 40 },
		"dew":       func(_ *Box, d *Day) { d.Room.Swing, d.Room.Humidity = 10, 0.8 },
	} {
		b, d := cabinet()
		change(b, d)
		if err := b.Follow(d, new(Course)); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// One day, from its start to its end, with no days before it.
func BenchmarkFollowOneDay(b *testing.B) {
	box, d := cabinet()
	d.Settle = 1
	c := new(Course)
	b.ReportAllocs()
	for b.Loop() {
		if err := box.Follow(d, c); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(c.Steps), "steps")
}
