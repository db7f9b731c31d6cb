package study

import (
	"math"

	"rillwright/climate"
	"rillwright/climate/moistair"
)

// DayPoint is the air in and around an enclosure at one time of a season's day,
// temperatures in C, humidity relative, 0 to 1.
type DayPoint struct {
	Time         float64 // s after midnight, 0 to climate.DayLength
	Air, Water   float64
	Humidity     float64
	Room         float64
	RoomHumidity float64
	// Fogged says whether the front can be looked through no more, Clear how far its
	// panes are warmer than the dew point, K; negative where vapour settles.
	Fogged bool
	Clear  float64
	Lit    bool // a lamp that gives heat is on
}

// Points returns the day that Follow found, one point every so many minutes, 1 at
// least; the last one is midnight again.
func (in *Inputs) Points(warm bool, c *climate.Course, minutes int) []DayPoint {
	b, d := in.at(warm)
	vapour := moistair.Saturation(d.Room.Celsius) * d.Room.Humidity
	var out []DayPoint
	for i := 0; i < climate.Minutes; i += max(1, minutes) {
		x := &c.States[i]
		t := float64(i) * 60
		room := d.Room.Celsius + d.Room.Swing*math.Cos(2*math.Pi*(t-d.Room.Warmest)/climate.DayLength)
		p := DayPoint{
			Time: t, Air: x.Air, Water: x.Water, Humidity: math.Min(1, moistair.Relative(x.Air, x.Ratio, b.Pressure)),
			Room: room, RoomHumidity: vapour / moistair.Saturation(room), Fogged: in.fogs(x), Clear: math.Inf(1),
		}
		dew := moistair.DewPoint(moistair.VapourPressure(x.Ratio, b.Pressure))
		for k, f := range in.faces {
			if f.name == "front" {
				p.Clear = math.Min(p.Clear, x.Panes[k]-dew)
			}
		}
		for k := range in.Lamps { // the first things that are on for a part of the day
			if l := &d.Timed[k]; in.Lamps[k].Watts > 0 && t >= l.On && t < l.Off {
				p.Lit = true
			}
		}
		out = append(out, p)
	}
	return out
}

// Held is an enclosure as a day of it is on average: which end of a doubt raises a figure
// of the day is told by it, some twenty times as fast.
type Held struct {
	Air, Water float64 // C
	Humidity   float64 // relative
	Clear      float64 // how far the front is warmer than the dew point, K
	MakeUp     float64 // kg a day, mist counted in
}

// Hold returns the steady state of a season's day.
func (in *Inputs) Hold(warm bool) (Held, error) {
	b, d := in.at(warm)
	b = b.Average(&d)
	s, err := b.SteadyState(d.Room.Room)
	if err != nil {
		return Held{}, err
	}
	vapour := moistair.VapourPressure(s.Ratio, b.Pressure)
	out := Held{Air: s.Air, Water: s.Water, Humidity: math.Min(1, vapour/moistair.Saturation(s.Air)), MakeUp: (s.MakeUp + b.Mist) * climate.DayLength, Clear: math.Inf(1)}
	for k, f := range in.faces {
		if f.name == "front" {
			out.Clear = math.Min(out.Clear, s.Panes[k]-moistair.DewPoint(vapour))
		}
	}
	return out, nil
}

// spells are times of fog in a day that ends as it began, s after midnight.
type spells struct {
	from, to []float64
}

func (f *spells) begins(at float64) { f.from = append(f.from, at) }
func (f *spells) clears(at float64) { f.to = append(f.to, at) }

// longest returns the longest of them, which may go through midnight; -1 for both where
// there is none, or no end of it.
func (f *spells) longest() (from, to float64) {
	from, to = -1, -1
	n := len(f.to)
	if n == 0 || len(f.from) != n {
		return from, to
	}
	most, through := 0.0, 0
	if f.to[0] < f.from[0] { // fogged at midnight: the first end is that of the last
		through = 1
	}
	for i := range f.from {
		end := f.to[(i+through)%n]
		if long := math.Mod(end-f.from[i]+climate.DayLength, climate.DayLength); long > most {
			most, from, to = long, f.from[i], end
		}
	}
	return from, to
}
