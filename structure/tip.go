package structure

import (
	"fmt"
	"math"
)

// Standing is a thing on the floor that may tip over one edge.
type Standing struct {
	Mass   float64 // all of it, water included, kg
	Reach  float64 // centre of gravity from the line about which it tips, level, m
	Height float64 // centre of gravity over the floor, m
	Water  []FreeWater
}

// StandingOn returns how a part stands for tipping over the edge at x = face,
// with feet set back by an inset (m): from the side of larger x if the face lies
// over the part's centre, else from the other.
func StandingOn(p Part, face, inset float64, water ...FreeWater) Standing {
	return Standing{p.Mass, math.Abs(face-p.Centre.X) - inset, p.Centre.Z, water}
}

// Check returns what is wrong, nil if nothing: mass and height over 0, the centre
// within the feet, no more water than mass.
func (s Standing) Check() error {
	if !positive(s.Mass, s.Height) {
		return fmt.Errorf("standing: mass %g kg and height %g m of the centre must be over 0", s.Mass, s.Height)
	}
	if !positive(s.Reach) {
		return fmt.Errorf("standing: the centre of gravity lies %g m outside the feet: it falls over by itself", -s.Reach)
	}
	water := 0.0
	for _, w := range s.Water {
		if err := w.Check(); err != nil {
			return err
		}
		water += w.Mass
	}
	if water > s.Mass {
		return fmt.Errorf("standing: %g kg of free water in %g kg altogether; the mass must include the water", water, s.Mass)
	}
	return nil
}

// centre returns the centre of gravity at a tilt, in the frame of the thing:
// how far inside the line it tips about, and how far up.
func (s Standing) centre(angle float64) (reach, height float64) {
	reach, height = s.Reach, s.Height
	for _, w := range s.Water {
		t, share := w.Tilt(angle), w.Mass/s.Mass
		reach -= share * t.Shift
		height += share * t.Rise
	}
	return reach, height
}

// TiltAngle returns the tilt (radians) at which the thing goes on by itself:
// atan(reach/height) with no free water, less with it, whose centre moves over
// and up as the surface stays level. The thing is stiff and tilts slowly; a
// moving wave tips it sooner. Check must be nil.
//
// Derived.
func (s Standing) TiltAngle() float64 {
	lo, hi := 0.0, math.Atan2(s.Reach, s.Height)
	if len(s.Water) == 0 {
		return hi
	}
	for range 60 { // to the last digit
		mid := lo + (hi-lo)/2
		if x, z := s.centre(mid); x > z*math.Tan(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// TipPush returns the steady level force (N) at a height (m, over 0) that starts
// to tip the thing: m g reach/height. It must not slide first. Check must be nil.
//
// Derived.
func (s Standing) TipPush(height float64) float64 {
	return Weight(s.Mass) * s.Reach / height
}

// TipEnergy returns the work (J) that takes the thing from standing to the tilt
// at which it goes on by itself: m g (sqrt(reach^2 + height^2) - height) with no
// free water. Check must be nil.
//
// Derived.
func (s Standing) TipEnergy() float64 {
	a := s.TiltAngle()
	x, z := s.centre(a)
	return Weight(s.Mass) * (x*math.Sin(a) + z*math.Cos(a) - s.Height)
}
