package geom

import (
	"math"
	"testing"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*(1+math.Abs(a)+math.Abs(b)) }

// Gaps worked out by hand: right angles with sides 3 and 4, and 2, 3 and 6.
func TestGapByHand(t *testing.T) {
	unit := Box{Max: Vec{1, 1, 1}}
	for _, c := range []struct {
		what string
		a, b Solid
		want float64
	}{
		{"side by side", unit, unit.Moved(Vec{X: 3}), 2},
		{"touching", unit, unit.Moved(Vec{Y: 1}), 0},
		{"edge to edge", unit, unit.Moved(Vec{X: 4, Z: 5}), 5},
		{"corner to corner", unit, unit.Moved(Vec{3, 4, 7}), 7},
		{"overlapping by a quarter", unit, unit.Moved(Vec{X: 0.75, Y: 0.1}), -0.25},
		{"point in the box", unit, Vec{0.5, 0.5, 0.9}, -0.1},
		{"point beside it", unit, Vec{4, 5, 0.5}, 5},
		{"bar beside a box", unit, Rod(Vec{X: 2, Y: 0.5}, Z, -1, 2, 0.25), 0.75},
		{"bar over a box", unit, Rod(Vec{X: 0.5, Y: 0.5}, Z, 5, 2, 0.25), 1},
		{"bar off a corner", unit, Rod(Vec{X: 4, Y: 5}, Z, 0, 1, 2), 3},
		{"bar off a corner, above", unit, Rod(Vec{X: 4, Y: 5}, Z, 5, 9, 2), 5},
		{"bar into a side", unit, Rod(Vec{X: 1.5, Y: 0.5}, Z, 0, 1, 1), -0.5},
		{"bar through the middle", unit, Rod(Vec{X: 0.5, Y: 0.5}, Z, -9, 9, 0.25), -0.75},
		{"two bars", Rod(Vec{}, X, 0, 1, 1), Rod(Vec{Y: 3, Z: 4}, X, 0, 1, 1), 3},
		{"two bars end on", Rod(Vec{}, X, 0, 1, 1), Rod(Vec{Y: 0.5}, X, 3, 4, 1), 2},
		{"two bars, both", Rod(Vec{}, X, 0, 1, 1), Rod(Vec{Y: 6}, X, 4, 9, 1), 5},
		{"two bars in one", Rod(Vec{}, X, 0, 10, 1), Rod(Vec{Y: 0.5}, X, 0, 10, 1), -1.5},
		{"bars across each other", Rod(Vec{}, X, -5, 5, 1), Rod(Vec{Z: 4}, Y, -5, 5, 1), 2},
		{"bars across, end to side", Rod(Vec{}, X, -5, 5, 1), Rod(Vec{X: 7}, Z, -5, 5, 1), 1},
		{"hose over a box", Path{[]Vec{{-1, 0.5, 2}, {3, 0.5, 2}}, 0.25}, unit, 0.75},
		{"hose aslant over an edge", Path{[]Vec{{0, 0.5, 3}, {3, 0.5, 0}}, 0.25}, unit, math.Sqrt2/2 - 0.25},
		{"two hoses", Path{[]Vec{{}, {X: 1}}, 0.1}, Path{[]Vec{{Y: 1, Z: 1}, {X: 1, Y: 1, Z: 1}, {X: 1, Y: 3, Z: 1}}, 0.2}, math.Sqrt2 - 0.3},
		{"hose round a bar", Path{[]Vec{{X: 3, Y: -9}, {X: 3, Y: 9}}, 0.5}, Rod(Vec{}, Z, -9, 9, 1), 1.5},
	} {
		if got := Gap(c.a, c.b); !near(got, c.want) {
			t.Errorf("%s: %g, by hand %g", c.what, got, c.want)
		}
		if a, b := Gap(c.a, c.b), Gap(c.b, c.a); !near(a, b) {
			t.Errorf("%s: %g one way, %g the other", c.what, a, b)
		}
	}
}

func TestBox(t *testing.T) {
	b := BoxOf(Vec{3, 0, 5}, Vec{1, 2, 4})
	if b != (Box{Vec{1, 0, 4}, Vec{3, 2, 5}}) || b.Volume() != 4 || b.Centre() != (Vec{2, 1, 4.5}) {
		t.Errorf("%+v, %g m3 about %+v", b, b.Volume(), b.Centre())
	}
	m, ok := b.Meet(Box{Vec{2, 1, 0}, Vec{9, 9, 9}})
	if !ok || m != (Box{Vec{2, 1, 4}, Vec{3, 2, 5}}) {
		t.Errorf("meet in %+v, %v", m, ok)
	}
	if _, ok := b.Meet(b.Moved(Vec{X: 2.5})); ok {
		t.Error("meets a box beside it")
	}
	if !b.Holds(m) || m.Holds(b) || !b.Has(Vec{1, 0, 4}) || b.Has(Vec{0.9, 0, 4}) {
		t.Error("holds or has what it should not")
	}
	if u := b.Union(Vec{0, 1, 9}.Bounds()); u != (Box{Vec{0, 0, 4}, Vec{3, 2, 9}}) {
		t.Errorf("union %+v", u)
	}
	if g := b.Grown(-5); g.Min != g.Max || g.Min != b.Centre() {
		t.Errorf("shrunk to %+v", g)
	}
	if g := b.Grown(1); g != (Box{Vec{0, -1, 3}, Vec{4, 3, 6}}) {
		t.Errorf("grown to %+v", g)
	}
}

func TestCylinder(t *testing.T) {
	c := Rod(Vec{1, 2, 3}, Y, 7, 4, 0.5)
	if c.From != (Vec{1, 4, 3}) || c.To() != (Vec{1, 7, 3}) || c.Bounds() != (Box{Vec{0.5, 4, 2.5}, Vec{1.5, 7, 3.5}}) {
		t.Errorf("%+v in %+v", c, c.Bounds())
	}
	if !near(c.Volume(), math.Pi*0.25*3) || c.Centre() != (Vec{1, 5.5, 3}) {
		t.Errorf("%g m3 about %+v", c.Volume(), c.Centre())
	}
	if !c.Has(Vec{1.5, 7, 3}) || c.Has(Vec{1.5, 7.1, 3}) || c.Has(Vec{1.4, 5, 3.4}) {
		t.Error("has what it should not")
	}
}

func TestPath(t *testing.T) {
	p := Path{[]Vec{{}, {X: 3}, {X: 3, Z: 4}}, 0.5}
	if p.Length() != 7 || p.At(5) != (Vec{X: 3, Z: 2}) || p.At(-1) != (Vec{}) || p.At(99) != (Vec{X: 3, Z: 4}) {
		t.Errorf("%g m, %+v", p.Length(), p.At(5))
	}
	if p.Bounds() != (Box{Vec{-0.5, -0.5, -0.5}, Vec{3.5, 0.5, 4.5}}) {
		t.Errorf("%+v", p.Bounds())
	}
	if q := p.Moved(Vec{Y: 1}); q.Points[0] != (Vec{Y: 1}) || p.Points[0] != (Vec{}) {
		t.Error("moved the wrong path")
	}
}
