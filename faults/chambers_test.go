package faults

import (
	"math"
	"testing"

	"rillwright/enclosure"
)

// Two chambers with a gap under the baffle between them are two tanks joined by an
// opening: water poured into one spreads as Torricelli has it, the difference of
// levels falling as a tank of area A1 A2/(A1 + A2) empties. Derived:
//
//	t = A/c (F(d0) - F(d1)), F(d) = 2 sqrt(d+s) + sqrt(s) ln((sqrt(d+s) - sqrt(s))/(sqrt(d+s) + sqrt(s)))
//
// with s the head within which an opening turns from the root to the head itself;
// without s it is the textbook's (A/c) 2 sqrt d.
func TestTwoChambers(t *testing.T) {
	// The valve is shut, or the hose in the pump's chamber would fill as well.
	e := metric(t, "{ part: ball valve 16 mm }", "{ part: ball valve 16 mm, open: 0 % }")
	r := rig(t, e)
	const poured = 60
	off := []enclosure.Step{{What: "power off", Index: -1}, {What: "drain blocks", Share: 1}}
	pour := enclosure.Step{At: poured, What: "water added", Place: enclosure.Place{Kind: enclosure.AtSump, Index: 0}, Volume: 0.010}
	a1, a2 := e.Sump.Chambers[0].Length*e.Sump.Depth, e.Sump.Chambers[1].Length*e.Sump.Depth
	d0, d1 := 0.010/a1, 0.020
	c := 0.6 * e.Sump.Chambers[0].Under * e.Sump.Depth * math.Sqrt(2*9.80665)
	form := func(d float64) float64 {
		q, s := math.Sqrt(d+still), math.Sqrt(still)
		return 2*q + s*math.Log((q-s)/(q+s))
	}
	want := a1 * a2 / (a1 + a2) / c * (form(d0) - form(d1))
	if textbook := a1 * a2 / (a1 + a2) / c * 2 * (math.Sqrt(d0) - math.Sqrt(d1)); math.Abs(want/textbook-1) > 1e-3 {
		t.Errorf("%g s, by the textbook %g", want, textbook)
	}
	res := course(t, r, fine, poured+want, append(off, pour)...)
	at := newSim(r, fine).at.chamber
	up, down := r.chambers[0].Level(res.End[at]), r.chambers[1].Level(res.End[at+1])
	if math.Abs(up-down-d1) > 1e-6*d0 {
		t.Errorf("%.9g m apart after %g s, want %g", up-down, want, d1)
	}
	if down < e.Sump.Bottom+e.Sump.Chambers[0].Under {
		t.Errorf("the gap is not all under water: %g m", down)
	}
}

// What rises in the pool is missing in the sump while nothing else holds water: at
// every step of a pump that starts and stops.
func TestSumpMirrorsPool(t *testing.T) {
	e := metric(t, "  chambers:\n    - { name: drain side, length: 220 mm, under: 40 mm }\n    - { name: pump side, length: 380 mm }\n", "", "in: pump side", "in: sump", "to: drain side", "to: sump").Clone()
	e.FilmHoldUp = enclosure.Known(0)
	r := rig(t, e)
	res := course(t, r, Options{Tended: true, Record: true}, 3600,
		enclosure.Step{At: 60, What: "drain blocks", Share: 0.9}, enclosure.Step{At: 400, What: "pump stops"}, enclosure.Step{At: 900, What: "pump starts"})
	s := newSim(r, Options{})
	area, box := r.pool.Area(e.Pool.DamTop), e.Sump.Width*e.Sump.Depth
	first := math.NaN()
	for k := range res.Track.Time {
		// The hose, the wall and the floor hold the rest.
		rest := res.Track.Volume[s.at.column][k] + res.Track.Volume[s.at.film][k] + res.Track.Volume[s.at.floor][k]
		mirror := res.Track.Level[1][k] + (area*res.Track.Level[0][k]+rest)/box
		if math.IsNaN(first) {
			first = mirror
		}
		if math.Abs(mirror-first) > 1e-12 {
			t.Fatalf("at %g s: sump and pool are out by %g m", res.Track.Time[k], mirror-first)
		}
	}
	if res.SumpMost-res.SumpLeast < 0.02 {
		t.Errorf("the sump only moved by %g m", res.SumpMost-res.SumpLeast)
	}
}
