package climate

import (
	"math"

	"rillwright/climate/moistair"
)

// Flows is what moves at one state.
type Flows struct {
	Vent float64 // air through the vents, m3/s at the room's density
	Dry  float64 // the dry air in it, kg/s
	Down bool    // it enters high and leaves low

	Evaporation float64           // from wet faces, kg/s; negative where vapour settles on cold water
	Settles     [MaxPanes]float64 // vapour onto each pane, kg/s; negative while its film dries
	RunsOff     [MaxPanes]float64 // from each pane back to the water, kg/s
	Haze        float64           // vapour that turns to droplets in the air and falls, kg/s
	VentVapour  float64           // vapour that leaves through the vents, kg/s; negative if the room is damper
	MakeUp      float64           // water to be added, kg/s; negative if water is gained

	// Heat, W. Liquid water at 0 C counts as none.
	WaterToAir   float64 // sensible
	Evaporated   float64 // with the vapour from wet faces
	PaneIn       [MaxPanes]float64
	SettledIn    [MaxPanes]float64 // with the vapour that settles
	PaneOut      [MaxPanes]float64
	RunOffHeat   [MaxPanes]float64
	HazeHeat     float64
	SumpOut      float64
	VentOut      float64
	MakeUpHeat   float64 // with the make-up into the water
	MistHeat     float64
	HeaterOutput float64

	quiet float64 // a thousandth of what wet faces would give to dry air, kg/s
}

// outside is what of the room the balance needs, worked out once.
type outside struct {
	celsius, ratio, enthalpy, virtual, volume float64
	mass                                      float64 // a film's coefficient of vapour over that of heat
	fixed                                     float64 // flow of air to take instead of the vents', m3/s; under 0 for theirs
}

func (b *Box) outside(celsius, vapour float64) outside {
	w := moistair.HumidityRatio(vapour, b.Pressure)
	return outside{
		celsius: celsius, ratio: w, enthalpy: moistair.Enthalpy(celsius, w),
		virtual: moistair.VirtualTemperature(celsius, vapour, b.Pressure),
		volume:  moistair.Volume(celsius, w, b.Pressure),
		mass:    MassCoefficient(1, b.Pressure/(moistair.RDry*(celsius+zeroCelsius)), b.Lewis),
		fixed:   -1,
	}
}

// haze returns the vapour (kg/s) that turns to droplets in air with a density of
// vapour over that when saturated (kg/m3): what a flow of 0.3 m3/s, fast beside any
// vent, would carry off, softly from where it begins, so that air is at most a few
// hundredths over saturated, a tenth in a storm of mist. Assumed.
func haze(vapour, full float64) float64 {
	const flow, soft = 0.3, 0.02
	x := vapour - full
	if !(x > 0) {
		return 0
	}
	return flow * x * x / (x + soft*full)
}

// flows works out what moves at a state. heater is the share of its power that the
// heater gives; wet says of each pane what share of it bears a film that can dry.
// Nil for none: then all that settles runs off.
func (b *Box) flows(f *Flows, s *State, o *outside, heater float64, wet *[MaxPanes]float64) {
	pv := moistair.VapourPressure(s.Ratio, b.Pressure)
	f.Vent, f.Down = b.Vents.Flow(moistair.VirtualTemperature(s.Air, pv, b.Pressure), o.virtual)
	if o.fixed >= 0 {
		f.Vent = o.fixed
	}
	f.Dry = f.Vent / o.volume
	f.VentVapour = f.Dry * (s.Ratio - o.ratio)
	f.VentOut = f.Dry * (moistair.Enthalpy(s.Air, s.Ratio) - o.enthalpy)

	inAir := moistair.VapourDensity(pv, s.Air)
	conductance := 0.0
	for i := range b.Wet {
		conductance += b.Wet[i].Area * b.Wet[i].Film
	}
	f.WaterToAir = conductance * (s.Water - s.Air)
	wetAir := moistair.VapourDensity(moistair.Saturation(s.Water), s.Water)
	f.Evaporation = conductance * o.mass * (wetAir - inAir)
	f.quiet = 1e-3*conductance*o.mass*wetAir + 1e-12
	f.Evaporated = f.Evaporation * moistair.VapourEnthalpy(s.Water)
	f.Haze = haze(inAir, moistair.VapourDensity(moistair.Saturation(s.Air), s.Air))
	f.HazeHeat = f.Haze * CpWater * s.Air
	f.SumpOut = b.Sump * (s.Water - o.celsius)
	f.HeaterOutput = heater * b.Heater.Power
	f.MistHeat = b.Mist * CpWater * b.MakeUp

	back := f.Haze
	for i := range b.Panes {
		p, t := &b.Panes[i], s.Panes[i]
		conductance := p.In * p.Area
		m := conductance * o.mass * (inAir - moistair.VapourDensity(moistair.Saturation(t), t))
		from := s.Air
		if m < 0 {
			from = t
			if wet == nil {
				m = 0
			} else {
				m *= wet[i]
			}
		}
		f.Settles[i] = m
		f.SettledIn[i] = m * moistair.VapourEnthalpy(from)
		f.RunsOff[i] = m
		if wet != nil {
			f.RunsOff[i] = max(0, s.Film[i]-p.Holds*p.Area) / runOffTime
		}
		f.RunOffHeat[i] = f.RunsOff[i] * CpWater * t
		f.PaneIn[i] = conductance * (s.Air - t)
		f.PaneOut[i] = p.Area * (t - o.celsius) / (p.Resistance + 1/p.Out)
		back += f.RunsOff[i]
	}
	f.MakeUp = f.Evaporation - back
	f.MakeUpHeat = max(0, f.MakeUp)*CpWater*b.MakeUp + min(0, f.MakeUp)*CpWater*s.Water
}

// runOffTime is how long what is too much on a pane takes to run off, s. Assumed.
const runOffTime = 60

// gains returns what heat and vapour are left over at a state, the heat in W of
// water, air and panes, vapour in kg/s, and how much flows altogether in and out of
// each: heat in W, vapour in kg/s and never nothing, for a sealed box.
func (b *Box) gains(f *Flows, heat *Heat, into *[3 + MaxPanes]float64) (size, vapour float64) {
	water := heat.Water + f.HeaterOutput - f.WaterToAir - f.Evaporated - f.SumpOut + f.MakeUpHeat + f.HazeHeat
	air := heat.Air + f.WaterToAir + f.Evaporated + f.MistHeat - f.HazeHeat - f.VentOut
	w := f.Evaporation + b.Mist - f.Haze - f.VentVapour
	size = heat.Water + heat.Air + f.HeaterOutput + math.Abs(f.WaterToAir) + math.Abs(f.Evaporated) + math.Abs(f.SumpOut) + math.Abs(f.VentOut)
	vapour = math.Abs(f.Evaporation) + b.Mist + f.Haze + math.Abs(f.VentVapour) + f.quiet
	for i := range b.Panes {
		air -= f.PaneIn[i] + f.SettledIn[i]
		w -= f.Settles[i]
		water += f.RunOffHeat[i]
		into[3+i] = heat.Panes[i] + f.PaneIn[i] + f.SettledIn[i] - f.RunOffHeat[i] - f.PaneOut[i]
		size += heat.Panes[i] + math.Abs(f.PaneIn[i]) + math.Abs(f.SettledIn[i])
		vapour += math.Abs(f.Settles[i])
	}
	into[0], into[1], into[2] = water, air, w
	return size, vapour
}
