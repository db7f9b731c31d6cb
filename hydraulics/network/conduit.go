package network

import (
	"math"

	"rillwright/hydraulics"
)

// Conduit is the law of pipes and fittings one behind the other: friction by
// Darcy and Weisbach along each length of pipe, and fittings, each with a loss
// coefficient K = K1/Re + KInf. Make one with NewConduit or a Store and add to it
// in any order; as a law it holds for flow in both directions.
//
// A fitting's K1/Re share grows with the flow itself and its KInf share with
// the flow squared, so that all fittings together are two numbers and cost
// nothing to evaluate.
type Conduit struct {
	kinematic float64 // m2/s
	pipes     []pipe
	linear    float64 // m per m3/s
	square    float64 // m per (m3/s)^2
}

type pipe struct {
	reynolds float64 // Reynolds number for each m3/s
	factor   float64 // head for each f q^2
	friction hydraulics.Friction
}

// NewConduit returns a conduit without loss for water of the given kinematic
// viscosity, m2/s.
func NewConduit(kinematic float64) *Conduit { return &Conduit{kinematic: kinematic} }

// AddPipe adds a full pipe: bore and length in m, absolute roughness in m. The
// friction is multiplied by factor (1 for the formula as it stands), which
// carries the doubt about the formula itself.
func (c *Conduit) AddPipe(bore, length, roughness, factor float64) {
	if length == 0 {
		return
	}
	area := math.Pi * bore * bore / 4
	c.pipes = append(c.pipes, pipe{
		reynolds: bore / (area * c.kinematic),
		factor:   factor * length / bore / (2 * hydraulics.G * area * area),
		friction: hydraulics.NewFriction(roughness / bore),
	})
}

// AddFitting adds a loss of (K1/Re + KInf) V^2/2g, V and Re being those in the
// given bore, m.
func (c *Conduit) AddFitting(k hydraulics.KModel, bore float64) {
	area := math.Pi * bore * bore / 4
	// K1/Re V^2/2g = K1 nu/(V D) V^2/2g = K1 nu q/(2 g A D)
	c.linear += k.K1 * c.kinematic / (2 * hydraulics.G * area * bore)
	c.square += k.KInf / (2 * hydraulics.G * area * area)
}

// Loss implements Law.
func (c *Conduit) Loss(q float64) (h, slope float64) {
	a := math.Abs(q)
	h = (c.linear + c.square*a) * a
	slope = c.linear + 2*c.square*a
	for i := range c.pipes {
		p := &c.pipes[i]
		re := p.reynolds * a
		if re <= 2000 {
			// f = 64/Re: the loss grows with the flow itself.
			k := p.factor * 64 / p.reynolds
			h += k * a
			slope += k
			continue
		}
		f, df := p.friction.At(re)
		h += p.factor * f * a * a
		slope += p.factor * a * (2*f + df*re)
	}
	if q < 0 {
		h = -h
	}
	return h, slope
}

// Velocity returns the speed in a bore, m/s, at flow q, m3/s.
func Velocity(q, bore float64) float64 { return q / (math.Pi * bore * bore / 4) }

// share returns a copy with the same pipes in memory. Pipes are only ever
// added, and the copy has no room beyond its own, so that neither of the two
// sees what is added to the other.
func (c *Conduit) share() Conduit {
	d := *c
	d.pipes = c.pipes[:len(c.pipes):len(c.pipes)]
	return d
}
