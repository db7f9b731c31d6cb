package vessel

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func ExampleStack() {
	// A pool of 886 x 408 mm in which gravel takes half of the lowest 60 mm.
	box := 0.886 * 0.408
	pool, _ := Stack(Layer{From: 0, To: 0.06, Area: box / 2}, Layer{From: 0.06, To: 0.2, Area: box})
	fmt.Printf("%.1f L up to 150 mm; 20 L stand %.0f mm high", 1000*pool.Volume(0.15), 1000*pool.Level(0.020))
	// Output: 43.4 L up to 150 mm; 20 L stand 85 mm high
}

// Level and Volume undo each other, the volume grows with the level, and its
// slope is the area, for any stack of layers.
func TestInverse(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 7))
		layers := []Layer{{From: 0, To: 1, Area: 0.01 + r.Float64()}}
		for range r.IntN(12) {
			from := r.Float64()
			layers = append(layers, Layer{From: from, To: from + 0.01 + r.Float64(), Area: 1e-4 + r.Float64()})
		}
		c, err := Stack(layers...)
		if err != nil {
			t.Fatal(err)
		}
		last := 0.0
		for i := range 200 {
			z := c.Floor() + 1.3*(c.Top()-c.Floor())*float64(i)/200
			v := c.Volume(z)
			want := 0.0
			for _, l := range layers {
				want += l.Area * max(min(z, l.To)-l.From, 0)
			}
			if z <= c.Top() && math.Abs(v-want) > 1e-14 {
				t.Fatalf("seed %d: volume at %g is %.17g, want %.17g", seed, z, v, want)
			}
			if back := c.Level(v); math.Abs(back-z) > 1e-13 {
				t.Fatalf("seed %d: level of %g is %.17g, want %.17g", seed, v, back, z)
			}
			if v < last || c.Area(z) <= 0 {
				t.Fatalf("seed %d: volume falls at %g", seed, z)
			}
			last = v
		}
	}
}

func TestBelowTheFloor(t *testing.T) {
	c, err := Stack(Layer{From: 0.1, To: 0.3, Area: 0.5})
	if err != nil {
		t.Fatal(err)
	}
	if c.Volume(0) != 0 || c.Area(0) != 0 || c.Level(0) != 0.1 || math.Abs(c.Level(-0.05)-0) > 1e-15 {
		t.Errorf("volume %g, area %g, level of nothing %g, of less %g", c.Volume(0), c.Area(0), c.Level(0), c.Level(-0.05))
	}
}

func TestNothingToHold(t *testing.T) {
	for name, layers := range map[string][]Layer{
		"none":      nil,
		"flat":      {{From: 1, To: 1, Area: 1}},
		"no area":   {{From: 0, To: 1}},
		"a gap":     {{From: 0, To: 1, Area: 1}, {From: 2, To: 3, Area: 1}},
		"no number": {{From: 0, To: math.NaN(), Area: 1}},
	} {
		if _, err := Stack(layers...); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
