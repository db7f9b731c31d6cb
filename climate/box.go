package climate

import (
	"errors"
	"fmt"

	"rillwright/climate/moistair"
)

// MaxPanes is the most faces a Box may have: six sides.
const MaxPanes = 6

// WetFace is a face that drips or an open water surface, at the temperature of the
// water.
type WetFace struct {
	Area float64 // wet, m2
	Film float64 // coefficient of heat to the air, W/(m2 K)
}

// Pane is a wall between the air inside and the room: glass, or a back or floor
// that is not wet.
type Pane struct {
	Area       float64 // m2
	In, Out    float64 // film coefficients, W/(m2 K)
	Resistance float64 // of the pane, thickness over conductivity, m2 K/W
	// For the day's course:
	Capacity float64 // of the pane, J/K
	Holds    float64 // water that stays on it before it runs off, kg/m2
}

// Heat is what warms the enclosure, W.
type Heat struct {
	Water float64           // into the water: pump, and lamps that shine on it
	Air   float64           // into the air
	Panes [MaxPanes]float64 // into panes: lamps that lie on them or shine through
}

// Heater is an immersed heater with a thermostat in the water.
type Heater struct {
	Power float64 // W; 0 for none
	Set   float64 // middle of its band, C
	Band  float64 // from where it turns on to where it turns off, K, over 0
}

// Box is an enclosure as its balance sees it.
type Box struct {
	Pressure float64 // Pa
	Lewis    float64 // thermal over vapour diffusivity of air, 0.8 to 0.9
	Wet      []WetFace
	Panes    []Pane // at most MaxPanes
	Vents    Vents
	Sump     float64 // heat from the water to the room through sump and pipes, W/K
	MakeUp   float64 // temperature of the water that replaces what goes, C
	Always   Heat    // what warms it always
	Heater   Heater
	Mist     float64 // water sprayed as droplets that hang in the air, kg/s; it comes from the make-up
	// For the day's course:
	Water  float64 // mass of the water, which make-up holds constant, kg
	Volume float64 // of the air, m3
}

// Room is the air around the enclosure.
type Room struct {
	Celsius  float64
	Humidity float64 // relative, 0 to 1
}

// errBox marks what a box may not be.
var errBox = errors.New("climate")

// Check returns what is wrong, nil if nothing.
func (b *Box) Check() error {
	bad := func(f string, args ...any) error { return fmt.Errorf("%w: "+f, append([]any{errBox}, args...)...) }
	switch v := &b.Vents; {
	case !(b.Pressure >= 5e4 && b.Pressure <= 1.2e5):
		return bad("pressure %g Pa, want 50 to 120 kPa", b.Pressure)
	case !(b.Lewis >= 0.5 && b.Lewis <= 1.5):
		return bad("Lewis number %g, want 0.5 to 1.5; 0.83 to 0.87 for air", b.Lewis)
	case len(b.Panes) > MaxPanes:
		return bad("%d panes, at most %d", len(b.Panes), MaxPanes)
	case !amount(v.Low, v.High, v.Height, v.Leak, v.Fan) || !(v.Discharge >= 0 && v.Discharge <= 1):
		return bad("vents: areas, height and flows must not be under 0, the discharge coefficient from 0 to 1: %+v", *v)
	case !amount(b.Sump, b.Mist, b.Always.Water, b.Always.Air, b.Heater.Power):
		return bad("sump's loss %g W/K, mist %g kg/s, heat %+v and heater %g W must not be under 0", b.Sump, b.Mist, b.Always, b.Heater.Power)
	case b.Heater.Power > 0 && !(b.Heater.Band > 0 && b.Heater.Set >= 0 && b.Heater.Set <= 60):
		return bad("thermostat at %g C with a band of %g K, want 0 to 60 C and over 0 K", b.Heater.Set, b.Heater.Band)
	case !(b.MakeUp >= 0 && b.MakeUp <= 60):
		return bad("make-up water of %g C, want 0 to 60", b.MakeUp)
	}
	out := b.Sump
	for i, p := range b.Panes {
		if !positive(p.Area, p.In, p.Out) || !amount(p.Resistance, b.Always.Panes[i]) {
			return bad("pane %d: area and films must be over 0, resistance and heat not under 0: %+v", i+1, p)
		}
		out += p.Area
	}
	for i, w := range b.Wet {
		if !positive(w.Area, w.Film) {
			return bad("wet face %d: area and film must be over 0: %+v", i+1, w)
		}
	}
	if !(out > 0) {
		return bad("no pane and no sump gives heat to the room: it would warm without end")
	}
	return nil
}

// Check returns what is wrong, nil if nothing: -10 to 50 C, 0 to 1.
func (r Room) Check() error {
	if !(r.Celsius >= -10 && r.Celsius <= 50 && r.Humidity >= 0 && r.Humidity <= 1) {
		return fmt.Errorf("%w: room of %g C and relative humidity %g, want -10 to 50 C and 0 to 1", errBox, r.Celsius, r.Humidity)
	}
	return nil
}

// State is the enclosure at one time.
type State struct {
	Water, Air float64           // C
	Ratio      float64           // vapour to dry air, kg/kg
	Panes      [MaxPanes]float64 // inner faces, C
	Film       [MaxPanes]float64 // water on them, kg
}

// share returns what share of its power the heater gives on average in water of t
// (C): all of it at the low end of its band, none at the high end.
func (h *Heater) share(t float64) float64 {
	return min(max((h.Set+h.Band/2-t)/h.Band, 0), 1)
}

// vapour returns the pressure of the room's vapour, Pa.
func (r Room) vapour() float64 { return r.Humidity * moistair.Saturation(r.Celsius) }

// full returns the humidity ratio of saturated air (kg/kg) at t (C).
func full(t, pressure float64) float64 {
	return moistair.HumidityRatio(moistair.Saturation(t), pressure)
}
