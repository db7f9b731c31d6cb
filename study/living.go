package study

import (
	"math"

	"rillwright/climate"
	"rillwright/climate/moistair"
	"rillwright/enclosure"
)

// Living poses heat and moisture of an enclosure: what of its design counts, with
// its own doubts, which have nothing to do with how the water flows.
type Living struct {
	Doubts []enclosure.Doubt
	// Assumed lists what the file leaves open and how it was taken, in words.
	Assumed []string

	in livingParts
	e  *enclosure.Enclosure

	front         [3]float64
	openTop, deep float64
}

// Inputs are the figures of heat and moisture, SI, temperatures in C. They may be
// changed before a season is followed.
type Inputs struct {
	Low, High float64 // gross areas of vents in the lower and upper half, m2
	Apart     float64 // their heights apart, m
	Discharge float64
	Gaps      float64 // air through gaps, m3/s
	Fan       float64 // m3/s
	FanHours  float64 // s a day
	Mist      Mist
	Heater    climate.Heater
	Pump      float64 // W
	Lamps     []LampHeat
	RoomCold  float64 // the room at its coldest and warmest
	RoomWarm  float64
	Humidity  float64 // of the room

	// Of the water that goes and comes: whether top-up is free of salts, the share
	// of a change and the time between changes, s; 0 for none.
	PureTopUp   bool
	ChangeShare float64
	ChangeEvery float64

	faces     []livingPane
	wall      climate.WetFace
	pool      climate.WetFace
	sump      float64 // W/K
	water     float64 // kg
	air       float64 // m3
	inside    float64 // film of the panes, W/(m2 K)
	outside   float64
	lampShare float64
}

// LampHeat is a lamp as a heater.
type LampHeat struct {
	Name  string
	Watts float64
	Hours float64 // s a day
	Sits  string
}

// livingParts is what doubts do not touch.
type livingParts struct {
	Inputs

	wallArea, poolArea float64
	wallFilm, poolFilm float64
}

type livingPane struct {
	name  string
	area  float64
	thick float64 // of glass, m
	back  float64 // resistance besides, m2 K/W: foam behind a planted wall
}

// Places of the doubts in Living.Doubts.
const (
	doubtHumidity = iota
	doubtWet
	doubtFilm
	doubtInside
	doubtOutside
	doubtGaps
	doubtLamp
	doubtDischarge
	doubtMist
	livingDoubts
)

// roomSwing is half of what a room's air swings in a day, K; assumed.
const roomSwing = 1.0

// Inputs returns the figures with every doubt where the case has it.
func (l *Living) Inputs(c []float64) Inputs {
	in := l.in.Inputs
	in.Humidity = c[doubtHumidity]
	in.wall = climate.WetFace{Area: math.Max(l.in.wallArea*c[doubtWet], 1e-3), Film: l.in.wallFilm * c[doubtFilm]}
	in.pool = climate.WetFace{Area: math.Max(l.in.poolArea, 1e-3), Film: l.in.poolFilm * c[doubtFilm]}
	in.inside, in.outside = c[doubtInside], c[doubtOutside]
	in.Gaps *= c[doubtGaps]
	in.lampShare = c[doubtLamp]
	in.Discharge = c[doubtDischarge]
	in.Mist.Hangs = c[doubtMist]
	in.Lamps = append([]LampHeat(nil), in.Lamps...)
	return in
}

// RoomCold and RoomWarm are the room at its coldest and warmest, C, as they are taken.
func (l *Living) RoomCold() float64 { return l.in.RoomCold }

// RoomWarm is told under RoomCold.
func (l *Living) RoomWarm() float64 { return l.in.RoomWarm }

// Likely returns the case with every doubt at its likely value.
func (l *Living) Likely() []float64 {
	c := make([]float64, len(l.Doubts))
	for i := range l.Doubts {
		c[i] = l.Doubts[i].Likely
	}
	return c
}

// Season is a day in the enclosure with its room cold or warm.
type Season struct {
	AirLow, AirHigh     float64 // C
	WaterLow, WaterHigh float64
	Humidity            float64 // relative, mean over the day
	HumidityLow         float64
	// Fogged is how long a day the panes through which one looks in are fogged, s,
	// FogFrom when it begins and FogTo when it clears again, seconds after midnight, the
	// longest time if there are some; both -1 where it never begins or never ends.
	Fogged, FogFrom, FogTo float64
	// Clear is how far those panes stay warmer than the dew point, K, at the worst
	// time; negative where vapour settles.
	Clear      float64
	Evaporated float64 // off wall and pool, kg a day
	MakeUp     float64 // kg a day to hold the water, mist counted in: what settles on glass comes back
	Misted     float64 // put out as mist, kg a day, which brings some of MakeUp
	Changes    float64 // of its air an hour, mean
	Heating    float64 // of the heater, W, mean
	Course     *climate.Course
}

// fogged is from how much water on a pane it cannot be looked through, kg/m2: a
// fine mist of droplets. Assumed.
const fogged = 0.003

// at builds the box and the day of a season.
func (in *Inputs) at(warm bool) (climate.Box, climate.Day) {
	// The room's coldest and warmest air are those of a night and of a day.
	swing := math.Min(roomSwing, (in.RoomWarm-in.RoomCold)/2)
	room := in.RoomCold + swing
	if warm {
		room = in.RoomWarm - swing
	}
	b := climate.Box{
		Pressure: moistair.Standard, Lewis: 0.865, Wet: []climate.WetFace{in.wall, in.pool},
		Vents: climate.Vents{Low: in.Low, High: in.High, Discharge: in.Discharge, Height: in.Apart, Leak: in.Gaps},
		Sump:  in.sump, MakeUp: room, Always: climate.Heat{Water: in.Pump}, Heater: in.Heater, Water: in.water, Volume: in.air,
	}
	top := 0
	for i, f := range in.faces {
		b.Panes = append(b.Panes, climate.Pane{
			Area: f.area, In: in.inside, Out: in.outside, Resistance: f.thick + f.back, // glass conducts 1.0 W/(m K)
			Capacity: f.area * math.Max(f.thick, 0.003) * 2500 * 840, Holds: 0.05,
		})
		if f.name == "top" {
			top = i
		}
	}
	d := climate.Day{Room: climate.RoomDay{Room: climate.Room{Celsius: room, Humidity: in.Humidity}, Swing: swing, Warmest: 15 * 3600}, Settle: 6}
	about := func(hours float64) (on, off float64) { return 43200 - hours/2, 43200 + hours/2 }
	for _, l := range in.Lamps {
		t := climate.Timed{}
		t.On, t.Off = about(l.Hours)
		w := l.Watts * in.lampShare
		switch l.Sits { // shares assumed: a third of a lamp's power is light
		case "inside":
			t.Heat = climate.Heat{Water: 0.2 * w, Air: 0.8 * w}
		case "on the top":
			t.Heat = climate.Heat{Water: 0.15 * w, Air: 0.15 * w}
			t.Heat.Panes[top] = 0.3 * w
		default:
			t.Heat = climate.Heat{Water: 0.15 * w, Air: 0.1 * w}
		}
		d.Timed = append(d.Timed, t)
	}
	if in.Fan > 0 {
		t := climate.Timed{Fan: in.Fan}
		t.On, t.Off = about(in.FanHours)
		d.Timed = append(d.Timed, t)
	}
	d.Timed = in.Mist.timed(d.Timed)
	return b, d
}

// Follow returns the day of the cold or the warm season that ends as it began.
func (in *Inputs) Follow(warm bool) (Season, error) {
	b, d := in.at(warm)
	s := Season{Course: new(climate.Course), Clear: math.Inf(1)}
	if err := b.Follow(&d, s.Course); err != nil {
		return s, err
	}
	first := &s.Course.States[0]
	s.AirLow, s.AirHigh, s.WaterLow, s.WaterHigh, s.HumidityLow = first.Air, first.Air, first.Water, first.Water, 1
	var fog spells
	was := in.fogs(&s.Course.States[climate.Minutes-2])
	for i := range climate.Minutes - 1 {
		x := &s.Course.States[i]
		s.AirLow, s.AirHigh = math.Min(s.AirLow, x.Air), math.Max(s.AirHigh, x.Air)
		s.WaterLow, s.WaterHigh = math.Min(s.WaterLow, x.Water), math.Max(s.WaterHigh, x.Water)
		rh := math.Min(1, moistair.Relative(x.Air, x.Ratio, b.Pressure))
		s.Humidity += rh / (climate.Minutes - 1)
		s.HumidityLow = math.Min(s.HumidityLow, rh)
		vapour := moistair.VapourPressure(x.Ratio, b.Pressure)
		for k, f := range in.faces {
			// The dew point is worked out only where it comes nearer than ever.
			if f.name == "front" && !(vapour <= moistair.Saturation(x.Panes[k]-s.Clear)) {
				s.Clear = math.Min(s.Clear, x.Panes[k]-moistair.DewPoint(vapour))
			}
		}
		is := in.fogs(x)
		switch minute := float64(i) * 60; {
		case is && !was:
			fog.begins(minute)
		case was && !is:
			fog.clears(minute)
		}
		if is {
			s.Fogged += 60
		}
		was = is
	}
	s.FogFrom, s.FogTo = fog.longest()
	t := &s.Course.Totals
	s.Evaporated, s.MakeUp, s.Misted, s.Heating = t.Evaporated, t.MakeUp, in.Mist.Daily(), t.Heater/climate.DayLength
	// What the vents carried off tells how much air that was.
	flow := 0.0
	pv := moistair.Saturation(d.Room.Celsius) * d.Room.Humidity
	for i := 0; i < climate.Minutes-1; i += 10 {
		x := &s.Course.States[i]
		v := b.Vents
		for _, k := range d.Timed {
			if at := float64(i) * 60; at >= k.On && at < k.Off {
				v.Fan += k.Fan
			}
		}
		q, _ := v.Flow(moistair.VirtualTemperature(x.Air, moistair.VapourPressure(x.Ratio, b.Pressure), b.Pressure), moistair.VirtualTemperature(d.Room.Celsius, pv, b.Pressure))
		flow += q
	}
	s.Changes = flow / ((climate.Minutes - 1) / 10) * 3600 / b.Volume
	return s, nil
}

// fogs reports whether a pane through which one looks in is fogged.
func (in *Inputs) fogs(s *climate.State) bool {
	for i, f := range in.faces {
		if f.name == "front" && s.Film[i] > fogged*f.area {
			return true
		}
	}
	return false
}

// WetArea returns the wet area of wall and pool, m2.
func (in *Inputs) WetArea() float64 { return in.wall.Area + in.pool.Area }

// Volume returns the water in it, m3.
func (in *Inputs) Volume() float64 { return in.water / 998 }
