package hydraulics

import (
	"fmt"
	"math"

	"rillwright/fluid"
)

// Siphon is a hose or tube that runs full from an upper water over a crest to a
// lower end. All heights are over one datum of the caller's, m.
type Siphon struct {
	// Pipe is the whole hose with all its losses, entrance and exit among
	// them. It needs a length over 0, or the flow's slope at no drop is not
	// finite.
	Pipe   Pipe
	Crest  float64 // the inside bottom of the hose at its highest place
	Intake float64 // the mouth in the upper water
	Outlet float64 // the lower end
	Break  float64 // lower edge of a hole that lets air in; Intake or lower if there is none
}

// Check returns what is wrong with the siphon, nil if nothing: heights must be
// finite and the crest no lower than the ends.
func (s Siphon) Check() error {
	switch {
	case !(s.Pipe.lOverD > 0):
		return fmt.Errorf("siphon: the pipe needs a length over 0; make it with NewPipe")
	case !finite(s.Crest, s.Intake, s.Outlet, s.Break):
		return fmt.Errorf("siphon: crest %g, intake %g, outlet %g and break %g m must be finite", s.Crest, s.Intake, s.Outlet, s.Break)
	case s.Crest < max(s.Intake, s.Outlet):
		return fmt.Errorf("siphon: crest %g m must not lie below the intake %g m or the outlet %g m", s.Crest, s.Intake, s.Outlet)
	}
	return nil
}

// Flow returns the flow (m3/s) from an upper water at level upper (m) while the
// hose is full: that of Darcy-Weisbach for the drop from upper to the higher of
// Outlet and the level lower of the water there, -Inf if it drips free. It is 0
// at and below Stop, never falls as upper rises, never rises with lower, is
// continuous in both, and its slope is finite everywhere. One way only: for the
// other, exchange the ends.
//
// As air gets in the flow is taken to fade in proportion, over one bore: from
// the hole's lower edge down to one bore below it, and from one bore over the
// intake down to it. Derived, the fading assumed, no source. A real siphon may
// break earlier, or suck on in gulps.
func (s Siphon) Flow(upper, lower float64) float64 {
	if !(upper > s.Stop(lower)) {
		return 0
	}
	q := s.Pipe.Flow(upper - max(s.Outlet, lower))
	return q * unit((upper-s.air())/s.Pipe.bore)
}

// Stop returns the level (m) of the upper water at which the siphon ends, the
// highest of: the intake, the break hole's lower edge less one bore, the outlet
// and the level lower of the water there. The bore is for the water that runs
// on while air is drawn in (assumed, no source).
func (s Siphon) Stop(lower float64) float64 {
	return max(s.air(), s.Outlet, lower)
}

// air is the level at which only air enters.
func (s Siphon) air() float64 { return max(s.Intake, s.Break-s.Pipe.bore) }

// CrestHead returns the gauge head (m, negative for suction) at the crest for
// the flow at these levels; up is the part of the hose before the crest, with
// the entrance and what else is lost there. See SiphonCrestHead, and
// SiphonMargin for what is left before the water boils: Flow does not look.
func (s Siphon) CrestHead(upper, lower float64, up Pipe) float64 {
	q := s.Flow(upper, lower)
	loss, _ := up.HeadLoss(q)
	return SiphonCrestHead(s.Crest-upper, s.Pipe.Velocity(q), loss)
}

// StartsAlone reports whether an empty hose may fill by itself: the upper water
// stands over the crest, or the hose is so narrow that water climbs to the
// crest by the given capillary rise (m; see CapillaryRise). Cautious: a trickle
// over the crest of a wide hose need not fill it. A hose that a pump, a hand or
// a mouth has filled needs no start.
func (s Siphon) StartsAlone(upper, rise float64) bool {
	return upper > s.Crest || upper > s.Intake && s.Crest-upper < rise
}

// CapillaryRise returns the height (m) that water climbs in an upright tube of
// the given bore (m, over 0): 4 sigma cos(angle)/(rho g bore), the contact
// angle in radians, 0 to pi; negative over pi/2, where the wall repels water.
// At 0, the cautious choice for a start, it is CapillaryHead. Good for bores
// well under 5 mm, where the meniscus is nearly round.
//
// Source: Jurin's law, derived from the balance of surface tension and weight.
func CapillaryRise(bore, angle float64, w fluid.Water) float64 {
	return CapillaryHead(bore, w) * math.Cos(angle)
}

// unit clamps x to 0 to 1.
func unit(x float64) float64 { return min(max(x, 0), 1) }

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
