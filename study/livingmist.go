package study

import (
	"math"

	"rillwright/climate"
	"rillwright/enclosure"
)

// Mist is fog or spray into the air.
type Mist struct {
	Flow  float64 // put out while it runs, kg/s
	Times int     // a day, spread over the twelve hours about noon
	Each  float64 // how long each time, s
	Hangs float64 // the share that hangs in the air; the rest falls
}

// Daily returns what is put out in a day, kg.
func (m *Mist) Daily() float64 { return m.Flow * float64(m.Times) * m.Each }

// timed adds when the mist runs: each time in the middle of its part of the twelve
// hours about noon, or of all day where they are too short.
func (m *Mist) timed(list []climate.Timed) []climate.Timed {
	if m.Flow <= 0 || m.Times <= 0 || m.Each <= 0 {
		return list
	}
	from, span := 6*3600.0, 12*3600.0
	if float64(m.Times)*m.Each > span {
		from, span = 0, climate.DayLength
	}
	part := span / float64(m.Times)
	each := math.Min(m.Each, part)
	for i := range m.Times {
		middle := from + (float64(i)+0.5)*part
		list = append(list, climate.Timed{On: middle - each/2, Off: middle + each/2, Mist: m.Flow * m.Hangs})
	}
	return list
}

// mist takes fog and spray. Fog of a disc is drops of some thousandths of a millimetre,
// which hang until they are gone; of a spray most falls.
func (l *Living) mist() {
	d := enclosure.Doubt{ID: "mist", What: "share of the mist that hangs in the air", Unit: enclosure.Percent, Why: "from memory"}
	if m := &l.e.Design.Misting; m.Given() {
		times, each := m.Runs()
		l.in.Mist = Mist{Flow: 998 * float64(m.Flow.Value), Times: times, Each: each}
		d.Low, d.Likely, d.High = 0.1, 0.25, 0.5
		if m.Kind.Value == "fog" {
			d.Low, d.Likely, d.High = 0.6, 0.8, 1
		}
		d.Settle = "run it for a minute in a bucket of a known weight, and look how much of it falls back"
		l.assume("the mist's water is as warm as the room, from a bottle of its own; what falls runs into the pool")
	}
	l.Doubts[doubtMist] = d
}
