package structure

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// bundle is the least round opening that takes things, by halving.
func bundle(d ...float64) float64 {
	low, high := 0.0, 0.0
	for _, x := range d {
		high += x
	}
	for range 60 {
		mid := (low + high) / 2
		if ok, _ := RoundHole(mid).Takes(d...); ok {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// Equal circles in the least circle: 1 + 1/sin(pi/n) up to five, 3 for six and
// seven (Graham 1968, from memory; up to four by hand).
func TestEqualCirclesInACircle(t *testing.T) {
	for n, want := range map[int]float64{
		1: 1, 2: 2, 3: 1 + 2/math.Sqrt(3), 4: 1 + math.Sqrt2, 5: 1 + 1/math.Sin(math.Pi/5), 6: 3, 7: 3,
	} {
		d := make([]float64, n)
		for i := range d {
			d[i] = 1
		}
		if got := bundle(d...); !within(got, want, 1e-6) {
			t.Errorf("%d circles want %g, not %g", n, want, got)
		}
	}
}

// Three unlike circles that touch each other lie in Soddy's outer circle, unless
// the least fits beside the other two: then two in line decide (Descartes' theorem).
func TestThreeCirclesBySoddy(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		a, b, c := 0.2+r.Float64(), 0.2+r.Float64(), 0.2+r.Float64()
		k := []float64{2 / a, 2 / b, 2 / c}
		outer := k[0] + k[1] + k[2] - 2*math.Sqrt(k[0]*k[1]+k[1]*k[2]+k[2]*k[0])
		want := max(a+b, b+c, a+c)
		// The gap beside the two widest in line: curvature k1 + k2 + k0.
		least := min(a, b, c)
		if gap := k[0] + k[1] + k[2] - 2/least - 2/want; least > 2/gap {
			want = 2 / math.Abs(outer)
		}
		if got := bundle(a, b, c); !within(got, want, 1e-6) {
			t.Fatalf("%g, %g and %g want %g, not %g", a, b, c, want, got)
		}
	}
}

// Equal circles in a square of side 1: 1/2 for four, 0.292893 for five (the middle
// of four corners), by hand; and side by side in a slot.
func TestCirclesInASquare(t *testing.T) {
	for _, c := range []struct {
		o    Opening
		d    []float64
		fits bool
	}{
		{Opening{1, 1, 0}, []float64{0.5, 0.5, 0.5, 0.5}, true},
		{Opening{1, 1, 0}, []float64{0.501, 0.5, 0.5, 0.501}, false},
		{Opening{1, 1, 0}, []float64{0.4142, 0.4142, 0.4142, 0.4142, 0.4142}, true},
		{Opening{1, 1, 0}, []float64{0.4144, 0.4144, 0.4144, 0.4144, 0.4144}, false},
		{Opening{3, 1, 0}, []float64{1, 1, 1}, true},
		{Opening{3, 1, 0.5}, []float64{1, 1, 1}, true},
		{Opening{2.999, 1, 0}, []float64{1, 1, 1}, false},
		{Opening{1, 1, 0.3}, []float64{0.1, 1}, false},
		{Opening{1, 1, 0}, []float64{0.1, 1}, true}, // in a corner: up to (sqrt 2 - 1)/(sqrt 2 + 1)
		{Opening{1, 1, 0}, []float64{0.18, 1}, false},
		{Opening{1, 1, 0}, nil, true},
		{Opening{1, 1, 0}, []float64{1.01}, false},
	} {
		if got, _ := c.o.Takes(c.d...); got != c.fits {
			t.Errorf("%v in %v: %v", c.d, c.o, got)
		}
	}
}

// What is surely impossible is never found; a wider opening takes whatever a
// narrower one takes; the largest gap falls as more stays.
func TestTakesProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		o := RoundHole(1)
		if r.IntN(2) == 0 {
			o = Opening{1, 0.5 + r.Float64(), 0.2 * r.Float64()}
		}
		d := make([]float64, 1+r.IntN(4))
		for i := range d {
			d[i] = 0.1 + 0.6*r.Float64()
		}
		slices.Sort(d)
		slices.Reverse(d)
		fits, sure := o.Takes(d...)
		wide := Opening{1.1 * o.Width, 1.1 * o.Height, 1.1 * o.Corner}
		if more, _ := wide.Takes(d...); fits && (!more || !sure) {
			t.Fatalf("%v fit %v, not a wider one", d, o)
		}
		if len(d) > 1 && fits && o.cannot(d) {
			t.Fatalf("%v fit %v and cannot", d, o)
		}
		if g := o.LargestGap(d...); g > o.LargestGap(d[1:]...)+1e-6 && len(d) == 2 {
			t.Fatalf("%v leave %g in %v", d, g, o)
		}
	}
	if g := RoundHole(0.026).LargestGap(0.021); !within(g, 0.005, 1e-6) {
		t.Errorf("beside a hose of 21 mm in 26 mm: %g", g)
	}
	if g := RoundHole(1).LargestGap(0.6, 0.6); g != 0 {
		t.Errorf("beside what does not go in: %g", g)
	}
}

// Rectangles in rectangles, against turning by small steps.
func TestRectangleFits(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 2000 {
		a, b, p, q := 0.5+r.Float64(), 0.1+r.Float64(), 0.5+r.Float64(), 0.02+0.5*r.Float64()
		turned := false
		for i := range 2000 {
			s, c := math.Sincos(math.Pi / 2 * float64(i) / 2000)
			turned = turned || p*c+q*s <= a && p*s+q*c <= b || p*c+q*s <= b && p*s+q*c <= a
		}
		got := RectangleFits(p, q, a, b)
		if turned && !got {
			t.Fatalf("%g by %g lies in %g by %g", p, q, a, b)
		}
		if got && !turned && RectangleFits(p*1.002, q*1.002, a, b) {
			t.Fatalf("%g by %g does not lie in %g by %g", p, q, a, b)
		}
	}
	if RectangleFits(1, 0.1, 1, 0) {
		t.Error("a slot of no height")
	}
}

func TestSpare(t *testing.T) {
	for _, c := range []struct {
		o          Opening
		w, h, want float64
	}{
		{RoundHole(0.026), 0.021, 0, 0.005},
		{RoundHole(0.050), 0.030, 0.040, 0}, // 3-4-5
		{RoundHole(0.050), 0.050, 0, 0},
		{Opening{0.06, 0.03, 0}, 0.025, 0, 0.005},
		{Opening{0.06, 0.03, 0}, 0.025, 0.05, 0.005},
		{Opening{0.06, 0.03, 0.005}, 0.025, 0, 0.005},
		{Opening{0.06, 0.03, 0}, 0.035, 0.07, -0.01},
		// Corners of 10 mm: a box of 30 mm in 40 mm touches the arc where
		// 10 - s/2 = 10/sqrt 2.
		{Opening{0.04, 0.04, 0.01}, 0.03, 0.03, 0.04 - 0.02*(1-math.Sqrt2/2) - 0.03},
	} {
		if got := c.o.Spare(c.w, c.h); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g by %g in %v: %g, want %g", c.w, c.h, c.o, got, c.want)
		}
	}
	if a := (Opening{0.06, 0.03, 0.01}).Area(); !within(a, 0.06*0.03-4*0.0001+math.Pi*0.0001, 1e-12) {
		t.Errorf("area %g", a)
	}
	if a := RoundHole(0.02).Area(); !within(a, math.Pi*0.0001, 1e-12) {
		t.Errorf("area %g", a)
	}
}

// By hand: 6 mm glass, a slot of 60 by 30 mm with corners of 6 mm, 100 mm from the
// left and 50 mm up, and the same as a notch at the bottom edge.
func TestCheckNotch(t *testing.T) {
	s := Sheet{0.9, 0.3, 0.006}
	find := func(list []NotchClearance, rule, what string) (NotchClearance, bool) {
		for _, c := range list {
			if c.Rule == rule && c.What == what {
				return c, true
			}
		}
		return NotchClearance{}, false
	}
	for _, c := range []struct {
		y          float64
		rule, what string
		have, need float64
		kept, none bool
	}{
		{0.05, "glazing", "radius of its corners", 0.006, 0.006, true, false},
		{0.05, "glazing", "largest size", 0.06, 0.1, true, false},
		{0.05, "glazing", "rim to edge", 0.035, 0.012, true, false},
		{0.05, "stricter glaziers'", "radius of its corners", 0.006, 0.0127, false, false},
		{0.05, "stricter glaziers'", "rim to edge", 0.035, 0.075, false, false},
		{0.05, "stricter glaziers'", "notch to corner", 0, 0, false, true},
		{0.015, "glazing", "rim to edge", 0.07, 0.012, true, false},
		{0.015, "stricter glaziers'", "rim to edge", 0, 0, false, true},
		{0.015, "stricter glaziers'", "notch to corner", 0.07, 0.0762, false, false},
	} {
		list, err := CheckNotch(s, NotchRules(), Notch{X: 0.1, Y: c.y, Width: 0.06, Height: 0.03, Corner: 0.006})
		if err != nil {
			t.Fatal(err)
		}
		got, ok := find(list, c.rule, c.what)
		if ok == c.none {
			t.Errorf("%s, %s at %g: there %v", c.rule, c.what, c.y, ok)
			continue
		}
		if ok && (!within(got.Have, c.have, 1e-9) || !within(got.Need, c.need, 1e-9) || got.Kept() != c.kept) {
			t.Errorf("%+v, want %+v", got, c)
		}
	}
	for _, n := range []Notch{{X: 0.02, Y: 0.1, Width: 0.06, Height: 0.03}, {X: 0.1, Y: 0.1, Width: 0, Height: 0.03}, {X: 0.1, Y: 0.1, Width: 0.1, Height: 0.03, Corner: -1}, {X: math.NaN(), Y: 0.1, Width: 0.1, Height: 0.03}} {
		if _, err := CheckNotch(s, NotchRules(), n); err == nil {
			t.Errorf("%+v: no error", n)
		}
	}
}

// A hole made for a thread takes that thread.
func TestThreadForHole(t *testing.T) {
	for _, thread := range []float64{0.03, 0.0366, 0.05} {
		d, ok := HoleForThread(thread, 0.1, 0.005)
		if !ok {
			t.Fatal("no hole")
		}
		for side := -1; side <= 1; side++ {
			back := ThreadForHole(d.At(side))
			if !within(back.At(-side), thread, 1e-9) {
				t.Errorf("thread %g, hole %g: %v", thread, d.At(side), back)
			}
		}
	}
}
