package study

import (
	"math"
	"math/rand/v2"
	"testing"

	"rillwright/examples"
	"rillwright/structure"
)

// All that touches the floor lies within the line round it, whose corners are
// among it; a square's is its corners.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		points := make([]structure.Point, 3+r.IntN(20))
		for i := range points {
			points[i] = structure.Point{X: r.Float64(), Y: r.Float64()}
		}
		list := append([]structure.Point(nil), points...)
		f := Footing{Outline: hull(points)}
		for _, l := range f.TipLines() {
			if !near(math.Hypot(l.OutX, l.OutY), 1, 1e-12) {
				t.Fatalf("%+v is not a unit vector", l)
			}
			for _, p := range list {
				if d := l.Beyond(p); d > 1e-12 {
					t.Fatalf("%v lies %g m outside", p, d)
				}
			}
		}
	}
	f := Footing{Outline: hull([]structure.Point{{X: 1, Y: 1}, {}, {X: 1}, {Y: 1}, {X: 0.5}, {X: 0.5, Y: 0.5}, {}})}
	seen := map[string]float64{}
	for _, l := range f.TipLines() {
		seen[l.Side] = -l.Beyond(structure.Point{X: 0.2, Y: 0.7})
	}
	for side, want := range map[string]float64{"left": 0.2, "right": 0.8, "back": 0.7, "front": 0.3} {
		if got, ok := seen[side]; !ok || !near(got, want, 1e-12) || len(f.Outline) != 4 {
			t.Errorf("%s: %g m inside, want %g; %v", side, got, want, f.Outline)
		}
	}
}

// Towards each side by hand: the empty enclosure tips at atan(reach/height) of its
// centre, by a push of weight times reach over height; feet set in reach less.
func TestTipByHand(t *testing.T) {
	for name, pairs := range map[string][]string{"at the edges": nil, "set in": {"inset: 0 mm", "inset: 40 mm"}, "no feet": {"feet: 4, foot: 50 mm, inset: 0 mm, ", ""}} {
		w := weighed(t, examples.CorridorCabinet, pairs...)
		loads := w.At(Bare, nil)
		all := whole(t, loads)
		// The stand lies in the middle under an outside of 900 by 450 mm.
		e := changed(t, examples.CorridorCabinet)
		front := 0.438 + 0.006 // the outside, 6 mm behind the inside's back, is 450 mm deep
		inset := 0.0
		if name == "set in" {
			inset = 0.040
		}
		lines := w.Footing.TipLines()
		if len(lines) != 4 {
			t.Fatalf("%s: %d sides", name, len(lines))
		}
		high := all.Centre.Z + float64(e.Design.Enclosure.Bottom.Value)
		for _, l := range lines {
			reach := map[string]float64{
				"front": front - all.Centre.Y, "back": all.Centre.Y - (front - 0.450),
				"left": all.Centre.X + 0.006, "right": 0.894 - all.Centre.X,
			}[l.Side] - inset
			s, err := l.Standing(loads, false)
			if err != nil || s.Check() != nil {
				t.Fatal(err, s.Check())
			}
			if !near(s.TiltAngle(), math.Atan(reach/high), 1e-9) || !near(s.TipPush(1.8), 9.80665*all.Mass*reach/1.8, 1e-6) {
				t.Errorf("%s, %s: %g rad, %g N; by hand %g, %g", name, l.Side, s.TiltAngle(), s.TipPush(1.8), math.Atan(reach/high), 9.80665*all.Mass*reach/1.8)
			}
		}
	}
}

// Three feet stand on a triangle: it tips sooner than on four, about a line that
// runs aslant.
func TestThreeFeet(t *testing.T) {
	least := func(feet string) float64 {
		w := weighed(t, examples.CorridorCabinet, "feet: 4", feet)
		m := math.Inf(1)
		for _, l := range w.Footing.TipLines() {
			s, err := l.Standing(w.At(Running, nil), false)
			if err != nil || s.Check() != nil {
				t.Fatal(err, s.Check())
			}
			m = math.Min(m, s.TiltAngle())
		}
		return m
	}
	if three, four, six := least("feet: 3"), least("feet: 4"), least("feet: 6"); !(three < four) || !near(four, six, 1e-12) {
		t.Errorf("three %g, four %g, six %g rad", three, four, six)
	}
}

// A hinged door opened wide moves its weight half its width to the front and to
// its hinge, one hinged above half its height to the front and up; what slides
// moves nothing.
func TestDoorsOpen(t *testing.T) {
	for opens, want := range map[string]structure.Point{
		"slides": {}, "lifts out": {},
		"hinged left": {X: -0.225, Y: 0.225}, "hinged right": {X: 0.225, Y: 0.225},
		"hinged top": {Y: 0.41, Z: 0.41}, "hinged bottom": {Y: 0.41, Z: -0.41},
	} {
		w := weighed(t, examples.CorridorCabinet, "opens: slides", "opens: "+opens)
		loads := w.At(Bare, nil)
		all := whole(t, loads)
		doors := 2 * 0.45 * 0.82 * 0.004 * 2500
		for _, l := range w.Footing.TipLines() {
			shut, err := l.Standing(loads, false)
			if err != nil {
				t.Fatal(err)
			}
			open, err := l.Standing(loads, true)
			if err != nil {
				t.Fatal(err)
			}
			share := doors / all.Mass
			if d := shut.Reach - open.Reach; !near(d, share*(want.X*l.OutX+want.Y*l.OutY), 1e-12) {
				t.Errorf("%s, %s: its weight moves out by %g m", opens, l.Side, d)
			}
			if d := open.Height - shut.Height; !near(d, share*want.Z, 1e-12) {
				t.Errorf("%s: its weight rises by %g m", opens, d)
			}
		}
	}
}
