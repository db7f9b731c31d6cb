package hydraulics

import (
	"testing"
)

// An invented curve, flat at the top and with a step in slope, which makes a
// plain cubic overshoot.
func flatTop(t testing.TB) TableCurve {
	t.Helper()
	c, err := NewTableCurve([]float64{0, 1e-4, 2e-4, 2.5e-4, 4e-4}, []float64{2, 1.99, 1.2, 0.5, 0.1})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestTableCurveFalls(t *testing.T) {
	c := flatTop(t)
	last, _ := c.Head(-1e-4)
	for q := -0.99e-4; q < 6e-4; q += 1e-6 {
		h, s := c.Head(q)
		if h >= last || s > 0 {
			t.Fatalf("at %g: head %g after %g, slope %g", q, h, last, s)
		}
		last = h
	}
}

func TestTableCurveSlope(t *testing.T) {
	c := flatTop(t)
	for _, q := range []float64{0.3e-4, 0.9e-4, 1.5e-4, 2.2e-4, 3.9e-4, 5e-4} {
		checkSlope(t, "table", q, c.Head)
	}
	// Value and slope join at the points inside.
	for _, q := range []float64{1e-4, 2e-4, 2.5e-4} {
		h0, s0 := c.Head(q * (1 - 1e-12))
		h1, s1 := c.Head(q * (1 + 1e-12))
		if !within(h0, h1, 1e-10) || !within(s0, s1, 1e-8) {
			t.Errorf("at %g: %g, %g and %g, %g", q, h0, s0, h1, s1)
		}
	}
}

func TestTableCurveBeyondTheEnds(t *testing.T) {
	c := flatTop(t)
	if a, b := c.Range(); a != 0 || b != 4e-4 {
		t.Errorf("range %g to %g", a, b)
	}
	// The top is flat by the shape rule, so below it the first secant goes on.
	if _, s := c.Head(0); s != 0 {
		t.Errorf("slope at rest %g, want 0", s)
	}
	if h, s := c.Head(-1e-4); !within(h, 2.01, 1e-12) || !within(s, -100, 1e-12) {
		t.Errorf("before the first point: %g, slope %g", h, s)
	}
	// So is the end by the same rule.
	if h, s := c.Head(5e-4); !within(h, 0.1-0.4/1.5, 1e-12) || !within(s, -0.4/1.5e-4, 1e-12) {
		t.Errorf("after the last point: %g, slope %g", h, s)
	}
	if q := c.Flow(-0.1); !within(q, 4.75e-4, 1e-12) {
		t.Errorf("flow back %g", q)
	}
	if q := c.Flow(2); q != 0 {
		t.Errorf("flow %g at shut-off", q)
	}
}

// Where the end slope is not 0, it goes on.
func TestTableCurveEndSlope(t *testing.T) {
	c, err := NewTableCurve([]float64{0, 1, 2}, []float64{5, 4, 2})
	if err != nil {
		t.Fatal(err)
	}
	// Three-point slope: (3*2 - 1)/2 = 2.5 downwards at the end, (3*1 - 2)/2 =
	// 0.5 at the start.
	h, s := c.Head(3)
	if !within(h, -0.5, 1e-14) || !within(s, -2.5, 1e-14) {
		t.Errorf("after the last point: %g, slope %g", h, s)
	}
	h, s = c.Head(-1)
	if !within(h, 5.5, 1e-14) || !within(s, -0.5, 1e-14) {
		t.Errorf("before the first point: %g, slope %g", h, s)
	}
}

func TestTableOfTwoPointsIsStraight(t *testing.T) {
	c, err := NewTableCurve([]float64{1, 3}, []float64{5, 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []float64{0, 1, 1.7, 3, 4} {
		if h, s := c.Head(q); !within(h, 7-2*q, 1e-14) || s != -2 {
			t.Errorf("at %g: %g, slope %g", q, h, s)
		}
	}
}

func BenchmarkTableCurveHead(b *testing.B) {
	c := flatTop(b)
	b.ReportAllocs()
	for i := range b.N {
		h, s := c.Head(float64(i&63) * 6e-6)
		sink = h + s
	}
}
