// Package minerals follows what is dissolved in the water of an enclosure: how it
// gathers as water evaporates and is topped up, what changing water does against
// it, and how much scale may be left behind.
//
// SI: m3, m3/s, s, kg/m3 (1 kg/m3 is 1000 mg/L), kg, m. The package is pure.
// Nothing is taken up by plants, nothing dissolves out of stones, nothing settles
// (assumed): the first makes figures high, the second low.
package minerals

import (
	"fmt"
	"math"
)

// Regime is how a body of water is kept.
type Regime struct {
	Volume      float64 // of all the water, m3
	Evaporation float64 // made good as it goes, m3/s
	TopUp       float64 // dissolved in the water that makes it good, kg/m3
	ChangeWater float64 // dissolved in the water of changes, kg/m3
	Share       float64 // of the volume that a change replaces, 0 to 1; 0 for none
	Every       float64 // between changes, s
}

// Check returns what is wrong, nil if nothing.
func (r *Regime) Check() error {
	switch {
	case !(r.Volume > 0) || math.IsInf(r.Volume, 1):
		return fmt.Errorf("minerals: volume of %g m3, want over 0", r.Volume)
	case !(r.Evaporation >= 0 && r.TopUp >= 0 && r.ChangeWater >= 0):
		return fmt.Errorf("minerals: evaporation %g m3/s and what is dissolved in top-up %g and change %g kg/m3 must not be under 0", r.Evaporation, r.TopUp, r.ChangeWater)
	case !(r.Share >= 0 && r.Share <= 1):
		return fmt.Errorf("minerals: a change of %g of the volume, want 0 to 1", r.Share)
	case r.Share > 0 && !(r.Every > 0):
		return fmt.Errorf("minerals: changes every %g s, want over 0", r.Every)
	}
	return nil
}

// Growth returns how fast what is dissolved grows between changes, kg/(m3 s).
func (r *Regime) Growth() float64 { return r.Evaporation * r.TopUp / r.Volume }

// Limit returns what is dissolved in the long run just before a change and just
// after one, kg/m3: c_s + g/f and that less g, where g = E c_t P/V gathers between
// changes. Without changes there is no end to it unless nothing is brought in:
// both are +Inf, or NaN if they depend on the start alone.
//
// Derived.
func (r *Regime) Limit() (before, after float64) {
	if r.Share == 0 {
		if r.Growth() > 0 {
			return math.Inf(1), math.Inf(1)
		}
		return math.NaN(), math.NaN()
	}
	g := r.Growth() * r.Every
	before = r.ChangeWater + g/r.Share
	return before, before - g
}

// After returns what is dissolved (kg/m3) at a time (s, not under 0) if it was
// start (kg/m3) at 0, and the first change comes after one interval; at the time of
// a change, just after it: (C* - g) + (C_0 - C* + g)(1 - f)^n and what has gathered
// since. Check must be nil.
//
// Derived.
func (r *Regime) After(start, time float64) float64 {
	if r.Share == 0 {
		return start + r.Growth()*time
	}
	n := math.Floor(time/r.Every + 1e-12)
	_, low := r.Limit()
	return low + (start-low)*math.Pow(1-r.Share, n) + r.Growth()*max(0, time-n*r.Every)
}

// EveryFor returns how long there may be between changes of Share (s) so that
// what is dissolved just before one stays at or under a limit (kg/m3) in the long
// run: (limit - c_s) f V/(E c_t). +Inf if none is needed for it, 0 if no interval
// is short enough since the water of changes has more, or no share is changed.
//
// Derived.
func (r *Regime) EveryFor(limit float64) float64 {
	switch {
	case r.Growth() == 0 && r.ChangeWater <= limit:
		return math.Inf(1)
	case !(limit > r.ChangeWater):
		return 0
	}
	return (limit - r.ChangeWater) * r.Share / r.Growth()
}

// BroughtIn returns what top-up brings in a time (s), kg.
func (r *Regime) BroughtIn(time float64) float64 { return r.Evaporation * r.TopUp * time }
