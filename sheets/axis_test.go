package sheets

import (
	"math"
	"strconv"
	"testing"

	"rillwright/drawing"
	"rillwright/quantity"
)

// Over ten powers of ten: ticks are 1, 2 or 5 times a power of ten apart, no
// more than asked for, one at 0, and no two of them read alike.
func TestTicksAreNice(t *testing.T) {
	for i := range 400 {
		most := 1e-5 * math.Pow(10, float64(i)/40)
		for _, whole := range []bool{false, true} {
			a := newAxis(0, most, 8, whole)
			m := a.step / math.Pow(10, math.Floor(math.Log10(a.step*(1+1e-9))))
			if d := math.Min(math.Abs(m-1), math.Min(math.Abs(m-2), math.Abs(m-5))); d > 1e-6 {
				t.Errorf("to %g: a step of %g", most, a.step)
			}
			ticks := a.ticks()
			if len(ticks) < 3 || len(ticks) > 9 || ticks[0] != 0 {
				t.Errorf("to %g: %d ticks from %g", most, len(ticks), ticks[0])
			}
			if last := ticks[len(ticks)-1]; whole && (math.Abs(last-a.max) > 1e-9*a.max || a.max < most*(1-1e-9) || a.max >= most+a.step*(1+1e-9)) {
				t.Errorf("to %g: the axis ends at %g, its last tick is %g", most, a.max, last)
			}
			for k, v := range ticks {
				read, err := strconv.ParseFloat(a.label(v), 64)
				if err != nil || math.Abs(read-v) > 1e-6*a.step {
					t.Errorf("to %g: tick %d at %g reads %s", most, k, v, a.label(v))
				}
			}
		}
	}
	if a := newAxis(0, 0, 6, true); a.max != 1 {
		t.Errorf("an axis for nothing ends at %g", a.max)
	}
	if a := newAxis(-0.3, 2, 10, false); a.min != -0.3 || a.ticks()[0] != 0 {
		t.Errorf("from %g, first tick %g", a.min, a.ticks()[0])
	}
}

// Definitions: 1 ft = 0.3048 m; 1 US gal = 231 cubic inches (NIST SP 811).
func TestUnits(t *testing.T) {
	if u := headUnit(quantity.US); u.name != "ft" || math.Abs(u.of(0.3048)-1) > 1e-12 {
		t.Errorf("%+v", u)
	}
	if u := headUnit(quantity.Metric); u.name != "m" || u.of(2) != 2 {
		t.Errorf("%+v", u)
	}
	if u := flowUnit(quantity.US); u.name != "US gal/h" || math.Abs(u.of(231*0.0254*0.0254*0.0254/3600)-1) > 1e-12 {
		t.Errorf("%+v", u)
	}
	if u := flowUnit(quantity.Metric); u.name != "L/h" || math.Abs(u.of(1/3.6e6)-1) > 1e-12 {
		t.Errorf("%+v", u)
	}
	if got := headText(2.1336, quantity.US); got != "7.0 ft" {
		t.Errorf("7 ft reads %s", got)
	}
}

func TestClip(t *testing.T) {
	box := drawing.Box{Left: 0, Top: 0, Right: 10, Bottom: 10}
	// In, out over the top, in again: two parts, cut where they cross the edge.
	line := []drawing.Point{{X: 1, Y: 5}, {X: 3, Y: 1}, {X: 4, Y: -1}, {X: 6, Y: -1}, {X: 7, Y: 1}, {X: 9, Y: 5}}
	parts := drawing.ClipLine(line, box)
	if len(parts) != 2 || len(parts[0]) != 3 || parts[0][2] != (drawing.Point{X: 3.5, Y: 0}) || parts[1][0] != (drawing.Point{X: 6.5, Y: 0}) {
		t.Errorf("parts %v", parts)
	}
	for _, p := range [][]drawing.Point{{{X: -5, Y: 5}, {X: -1, Y: 9}}, {{X: -3, Y: 5}, {X: 5, Y: 20}}, {{X: 3, Y: 11}, {X: 9, Y: 11}}, nil} {
		if got := drawing.ClipLine(p, box); len(got) != 0 {
			t.Errorf("%v clipped to %v", p, got)
		}
	}
	// The triangle of legs 20 and the square on its corner just hold the box.
	area := func(p []drawing.Point) (sum float64) {
		for i, a := range p {
			b := p[(i+1)%len(p)]
			sum += (a.X*b.Y - b.X*a.Y) / 2
		}
		return math.Abs(sum)
	}
	for _, c := range []struct {
		polygon []drawing.Point
		area    float64
	}{
		{[]drawing.Point{{X: 0, Y: 0}, {X: 20, Y: 0}, {X: 0, Y: 20}}, 100},
		{[]drawing.Point{{X: 5, Y: -5}, {X: 15, Y: 5}, {X: 5, Y: 15}, {X: -5, Y: 5}}, 100},
		{[]drawing.Point{{X: 5, Y: 5}, {X: 15, Y: 5}, {X: 15, Y: 15}, {X: 5, Y: 15}}, 25},
		{[]drawing.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 0, Y: 10}}, 50},
		{[]drawing.Point{{X: 20, Y: 20}, {X: 30, Y: 20}, {X: 20, Y: 30}}, 0},
	} {
		if got := area(drawing.ClipArea(c.polygon, box)); math.Abs(got-c.area) > 1e-9 {
			t.Errorf("%v clipped to %g mm2, want %g", c.polygon, got, c.area)
		}
	}
}

func TestPlace(t *testing.T) {
	p := placer{room: drawing.Box{Right: 100, Bottom: 60}}
	at := []drawing.Point{{X: 50, Y: 30}}
	var placed []*drawing.Text
	for range 12 {
		for _, i := range p.place("a label", 2.5, true, at) {
			if x, ok := i.(*drawing.Text); ok {
				placed = append(placed, x)
			}
		}
	}
	for i, x := range placed {
		if !x.Bounds().Within(p.room) {
			t.Errorf("outside: %+v", x.Bounds())
		}
		for _, y := range placed[:i] {
			if x.Bounds().Overlaps(y.Bounds()) {
				t.Errorf("labels overlap: %+v, %+v", x.Bounds(), y.Bounds())
			}
		}
	}
	if len(placed) < 6 {
		t.Errorf("only %d labels found room", len(placed))
	}
	tight := placer{room: drawing.Box{Right: 8, Bottom: 8}}
	if got := tight.place("much too long for this", 2.5, true, []drawing.Point{{X: 4, Y: 4}}); got != nil {
		t.Errorf("placed where there is no room: %v", got)
	}
	// A label keeps off hatching when there is room beside it.
	half := []drawing.Point{{X: 50, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 60}, {X: 50, Y: 60}}
	hatched := placer{room: drawing.Box{Right: 100, Bottom: 60}, areas: []area{{half, coverHatch}}}
	items := hatched.place("a label", 2.5, true, []drawing.Point{{X: 55, Y: 30}})
	if b := items[len(items)-1].Bounds(); b.Right > 50 {
		t.Errorf("lies on the hatching: %+v", b)
	}
}
