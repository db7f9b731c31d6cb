package faults

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/fluid"
	"rillwright/hydraulics"
)

// creep is a bridge as a law: what it carries between two levels, and how far it
// draws the upper water down.
type creep struct {
	flow func(upper, lower float64) float64
	stop func(lower float64) float64
	// starts reports whether it begins by itself with the upper water at a
	// level.
	starts func(upper float64) bool
}

// bridgeLaws makes the laws of all bridges; side is which end of the bands of
// wicking is taken: -1 the low, 0 the likely, 1 the high one.
func (r *Rig) bridgeLaws(side int) error {
	r.bridge = nil
	for i := range r.E.Bridges {
		b := &r.E.Bridges[i]
		c, err := r.creep(b, side)
		if err != nil {
			return fmt.Errorf("%s: %w", b.Name, err)
		}
		r.bridge = append(r.bridge, c)
	}
	return nil
}

func (r *Rig) creep(b *enclosure.Bridge, side int) (creep, error) {
	if b.Kind == "hose" {
		return r.hose(b)
	}
	m := materialOf(b.Kind)
	pick := func(f hydraulics.WickFigure) float64 {
		return [...]float64{f.Low, f.Likely, f.High}[side+1]
	}
	w := hydraulics.Wick{
		Conductivity: pick(m.Conductivity), Capillary: pick(m.Capillary), Area: b.Section, Length: b.Length,
		Crest: math.Max(b.Crest, math.Max(b.Foot, b.End)), Foot: b.Foot, End: b.End,
	}
	if err := w.Check(); err != nil {
		return creep{}, err
	}
	return creep{flow: w.Flow, stop: w.Stop, starts: w.Carries}, nil
}

// materialOf returns the material of a kind of bridge.
func materialOf(kind string) hydraulics.WickMaterial {
	list := hydraulics.WickMaterials()
	index := map[string]int{"cord": 0, "cable": 1, "moss": 2, "wood": 3, "mesh": 4}
	return list[index[kind]]
}

// hose is a hose that hangs over: it is taken to be full, as after somebody has
// let it run; whether it would start alone is told apart.
func (r *Rig) hose(b *enclosure.Bridge) (creep, error) {
	// Entrance, bends and exit as two velocity heads.
	pipe, err := hydraulics.NewPipe(b.Length, b.Bore, 1.5e-6, r.parts.Kinematic(), hydraulics.ConstantK(2))
	if err != nil {
		return creep{}, err
	}
	s := hydraulics.Siphon{Pipe: pipe, Crest: math.Max(b.Crest, math.Max(b.Foot, b.End)), Intake: b.Foot, Outlet: b.End, Break: b.Foot}
	if err := s.Check(); err != nil {
		return creep{}, err
	}
	water, ok := fluid.AtCelsius(r.Case.Of(r.E.WaterTemperature))
	rise := 0.0
	if ok {
		rise = hydraulics.CapillaryRise(b.Bore, 0, water)
	}
	return creep{flow: s.Flow, stop: s.Stop, starts: func(upper float64) bool { return s.StartsAlone(upper, rise) }}, nil
}
