// Package cure is the clock of a joint of one-part silicone: when it bears
// itself, when water may come and when it is cured through, from the way that
// moisture has to go and from the air of the place. The law and its figures are
// those of structure/joint; here they meet shapes, places and waiting times.
package cure

import (
	"errors"
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/structure/joint"
)

// Time is a length of time known roughly, s.
type Time = quantity.Band[quantity.Duration]

const (
	hour = 3600
	day  = 24 * hour
)

// ErrInput is wrapped by every error about a shape or an air.
var ErrInput = errors.New("no cure can be computed")

// Shape is where air reaches a joint. Lengths are in m; 0 stands for none.
type Shape struct {
	// Bite is the width of a bed between two faces that let no vapour through.
	Bite float64
	// Edges says how many edges of that bed air can reach: 1 or 2.
	Edges int
	// Leg is that of an equal-leg fillet in a corner, open on its slope.
	Leg float64
	// Layer is the thickness of a coat on a face that lets no vapour through.
	Layer float64
	// Before is the leg of a fillet that covers one of those edges, so that moisture
	// comes to it through the fillet's throat.
	Before float64
}

// Path returns the longest way (m) that moisture goes to the last point to cure:
// of a bed, all its bite, or half of it if both edges are open, more behind a
// fillet; of a fillet, its throat; of a coat, its thickness; of a
// joint that has several, the longest. Derived: each point cures from the nearest
// open face. The error wraps ErrInput: nothing there, a size below 0, or a bed
// that no air reaches.
func Path(s Shape) (float64, error) {
	for _, x := range []float64{s.Bite, s.Leg, s.Layer, s.Before} {
		if !(x >= 0) || x > 1 {
			return 0, fmt.Errorf("%w: a size of %g m: give 0 to 1 m", ErrInput, x)
		}
	}
	way := max(s.Leg/math.Sqrt2, s.Layer)
	if s.Bite > 0 {
		switch s.Edges {
		case 1:
			way = max(way, s.Bite+s.Before/math.Sqrt2)
		case 2: // where what comes through the fillet meets what comes from the other edge
			way = max(way, min(s.Bite, (s.Bite+s.Before/math.Sqrt2)/2))
		default:
			return 0, fmt.Errorf("%w: a bed with %d open edges: one or two must be open to air", ErrInput, s.Edges)
		}
	}
	if way == 0 {
		return 0, fmt.Errorf("%w: a joint of no size", ErrInput)
	}
	return way, nil
}

// Air is that of the place where a joint cures.
type Air struct {
	Celsius  float64 // 5 to 40: below, sealants stop; above, they are not described
	Humidity float64 // relative, 0.1 to 1
}

// Usual returns the air to which the rates belong: 23 C and 50 %.
func Usual() Air { return Air{Celsius: 23, Humidity: 0.5} }

// Range of Air within which the law is used. Assumed.
const (
	Coldest = 5.0
	Hottest = 40.0
	Driest  = 0.1
)

// Margin returns by what a time is multiplied for cold air, over what the vapour
// pressure says: 1 from 15 C up, likely 1.25 and at most 1.5 at 15 C and below,
// where diffusion itself slows down. That half again is common practice (no
// source), the likely value assumed.
func Margin(a Air) quantity.Band[float64] {
	if a.Celsius >= 15 {
		return quantity.Exactly(1.0)
	}
	return quantity.Band[float64]{Low: 1, Likely: 1.25, High: 1.5}
}

// Slowed returns a time of practice, which belongs to a room, in an air: each end
// times that of Margin.
func Slowed(t Time, a Air) Time {
	m := Margin(a)
	return Time{Low: t.Low * quantity.Duration(m.Low), Likely: t.Likely * quantity.Duration(m.Likely), High: t.High * quantity.Duration(m.High)}
}

// Sealant is how fast one cures. The zero value is any one-part silicone.
type Sealant struct {
	// Rate is k in depth = k sqrt(t) at usual air, m/s^0.5; all 0 for that of
	// joint.CureRate.
	Rate quantity.Band[float64]
}

// ReadDoubt is how exactly people read how deep a bead has cured, m: the band of a
// measured rate has it to both sides. Assumed.
const ReadDoubt = 0.5e-3

// Measured returns the sealant of a bead that had cured skin (m) deep after some time
// (s) in an air. The error wraps ErrInput: air out of range, or a skin within ReadDoubt
// of nothing.
func Measured(skin, after float64, a Air) (Sealant, error) {
	if err := a.check(); err != nil {
		return Sealant{}, err
	}
	if !(skin > ReadDoubt && skin <= 1) || !(after > 0) || math.IsInf(after, 0) {
		return Sealant{}, fmt.Errorf("%w: a skin of %g m after %g s: let it cure until it is deeper than %g m", ErrInput, skin, after, ReadDoubt)
	}
	k := math.Sqrt(Margin(a).Likely/after) / joint.CureFactor(a.Celsius, a.Humidity)
	return Sealant{quantity.Band[float64]{Low: (skin - ReadDoubt) * k, Likely: skin * k, High: (skin + ReadDoubt) * k}}, nil
}

// check reports an air in which the law is not used.
func (a Air) check() error {
	if !(a.Celsius >= Coldest && a.Celsius <= Hottest) {
		return fmt.Errorf("%w: at %g C: the law holds from %g to %g C; warm the place or wait for another season", ErrInput, a.Celsius, Coldest, Hottest)
	}
	if !(a.Humidity >= Driest && a.Humidity <= 1) {
		return fmt.Errorf("%w: at a humidity of %g: give a share of %g to 1", ErrInput, a.Humidity, Driest)
	}
	return nil
}

// Through is Sealant.Through of any one-part silicone.
func Through(way float64, a Air) (Time, error) { return Sealant{}.Through(way, a) }

// Through returns the time until a way (m) has cured in an air: (way/k)^2 with k
// the sealant's rate times joint.CureFactor, and Margin, of which only the likely end
// counts where the rate was measured. The error wraps ErrInput: air out of range.
func (k Sealant) Through(way float64, a Air) (Time, error) {
	if err := a.check(); err != nil {
		return Time{}, err
	}
	rate, f, m := joint.CureRate().Band, joint.CureFactor(a.Celsius, a.Humidity), Margin(a)
	if k.Rate.Likely > 0 {
		rate, m = k.Rate, quantity.Exactly(m.Likely)
	}
	return Time{
		Low:    quantity.Duration(joint.CureTime(rate.High*f, way) * m.Low),
		Likely: quantity.Duration(joint.CureTime(rate.Likely*f, way) * m.Likely),
		High:   quantity.Duration(joint.CureTime(rate.Low*f, way) * m.High),
	}, nil
}

// Open returns how long a bead may be worked on before it skins: 10 to 30 min, of
// a processing guide (rtv-notes), at usual air; the likely value is the middle.
// Warm and damp air shortens it: the low end goes with the square of
// joint.CureFactor where that is over 1 (assumed).
func Open(a Air) Time {
	f := joint.CureFactor(a.Celsius, a.Humidity)
	fast := max(f*f, 1)
	return Time{Low: quantity.Duration(600 / fast), Likely: quantity.Duration(1200 / fast), High: 1800}
}

// Use is what a joint is for.
type Use int

// Uses of a joint, which differ in the least time that practice gives them.
const (
	Fillet Use = iota // bead or seal that carries nothing of its own
	Pane              // glass to glass, bearing water
	Grid              // a large bond of grid, stand-off or board
	Coat              // a coat on an open face
)

// Standing returns the time that practice lets a joint stand in a room before the
// next step loads it, whatever its path: fillet 2 to 3 days, pane 3 to 7, grid 4 to 7, coat
// 3 to 7. Common practice, no source; the likely values are assumed.
func Standing(u Use) Time {
	band := func(low, likely, high float64) Time {
		return Time{Low: quantity.Duration(low * day), Likely: quantity.Duration(likely * day), High: quantity.Duration(high * day)}
	}
	switch u {
	case Fillet:
		return band(2, 2, 3)
	case Grid:
		return band(4, 5, 7)
	case Pane:
		return band(3, 4, 7)
	}
	return band(3, 5, 7)
}

// Clock is what a joint allows when, counted from its last bead.
type Clock struct {
	Way float64 // the longest way to an open face, m
	// Off is when props and weights may come off: a day, or the time until half the
	// way has cured if that is longer. Assumed.
	Off Time
	// Water is when water may come: the standing time of practice, with the Margin of
	// cold air, or the full cure, whichever is longer, each end by itself.
	Water Time
	// Full is when the last point has cured.
	Full Time
	// ByPath says that the way decides about water, not practice, as is likely.
	ByPath bool
}

// Of is Sealant.Of of any one-part silicone.
func Of(s Shape, u Use, a Air) (Clock, error) { return Sealant{}.Of(s, u, a) }

// Of returns the clock of a joint. What practice lets it stand holds however fast a
// sealant cures. Errors are those of Path and Through.
func (k Sealant) Of(s Shape, u Use, a Air) (Clock, error) {
	way, err := Path(s)
	if err != nil {
		return Clock{}, err
	}
	full, err := k.Through(way, a)
	if err != nil {
		return Clock{}, err
	}
	stand := Slowed(Standing(u), a)
	return Clock{
		Way: way, Full: full,
		Off:    longer(Time{Low: day, Likely: day, High: day}, full.Scale(0.25)), // depth goes with the root of time
		Water:  longer(stand, full),
		ByPath: full.Likely > stand.Likely,
	}, nil
}

func longer(a, b Time) Time {
	return Time{Low: max(a.Low, b.Low), Likely: max(a.Likely, b.Likely), High: max(a.High, b.High)}
}

// Slowest returns the number of the clock that lets water in last, as is likely;
// of equal ones the first; -1 of none.
func Slowest(clocks []Clock) int {
	at := -1
	for i, c := range clocks {
		if at < 0 || c.Water.Likely > clocks[at].Water.Likely {
			at = i
		}
	}
	return at
}
