package study

import (
	"math"
	"testing"

	"rillwright/climate"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// The points of a day are those that its figures were taken from: least, most and
// mean, how long it fogs and from when; the room is coldest and warmest as given.
func TestPointsAreTheSeason(t *testing.T) {
	l := NewLiving(trial.Resolved(t, examples.CounterWall, enclosure.Resolve))
	in := l.Inputs(l.Likely())
	for _, warm := range []bool{false, true} {
		s, err := in.Follow(warm)
		if err != nil {
			t.Fatal(err)
		}
		all := in.Points(warm, s.Course, 1)
		if len(all) != climate.Minutes {
			t.Fatalf("%d points", len(all))
		}
		low, high, mean, dry, fogged, lit := math.Inf(1), math.Inf(-1), 0.0, math.Inf(1), 0.0, 0.0
		coldest, warmest := math.Inf(1), math.Inf(-1)
		for i := range all {
			p := &all[i]
			coldest, warmest = math.Min(coldest, p.Room), math.Max(warmest, p.Room)
			if i == len(all)-1 {
				continue // midnight is in it twice
			}
			low, high, dry = math.Min(low, p.Air), math.Max(high, p.Air), math.Min(dry, p.Clear)
			mean += p.Humidity / float64(len(all)-1)
			if p.Fogged {
				fogged += 60
			}
			if p.Lit {
				lit += 60
			}
		}
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 1e-9*(1+math.Abs(want)) {
				t.Errorf("%s is %g, not %g", what, got, want)
			}
		}
		near("the coldest air", low, s.AirLow)
		near("the warmest air", high, s.AirHigh)
		near("the mean humidity", mean, s.Humidity)
		near("how clear it stays", dry, s.Clear)
		near("the time it is fogged", fogged, s.Fogged)
		near("the time the lamp is on", lit, in.Lamps[0].Hours)
		if swing := warmest - coldest; swing < roomSwing {
			t.Errorf("the room swings by %g", swing)
		}
		if few := in.Points(warm, s.Course, 5); len(few) != 289 || few[288] != all[1440] {
			t.Errorf("%d points every five minutes", len(few))
		}
	}
}
