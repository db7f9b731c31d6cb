package hydraulics

import (
	"math"
	"strings"
	"testing"
)

// bisect returns where f, which falls from positive at lo to negative at hi, is
// zero.
func bisect(lo, hi float64, f func(float64) float64) float64 {
	for range 200 {
		mid := (lo + hi) / 2
		if f(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

func TestPumpCurveTable(t *testing.T) {
	for _, r := range rows(t, "pumpcurve") {
		q1, q2, qt := r.num("Q1")*litrePerHour, r.num("Q2")*litrePerHour, r.num("Q_test")*litrePerHour
		p, err := FitPowerCurve(r.num("H0"), q1, r.num("H1"), q2, r.num("H2"))
		if err != nil {
			t.Fatal(err)
		}
		r.want("c", p.C)
		r.want("a", p.A*math.Pow(litrePerHour, p.C)) // the file's a is per (L/h)^c
		h, _ := p.Head(qt)
		r.want("H_power", h)
		r.want("Q_zero_head_power", p.ZeroHeadFlow()/litrePerHour)
		if back := p.Flow(h); !within(back, qt, 1e-13) {
			t.Errorf("row %d: flow %g comes back as %g", r.line, qt, back)
		}
		table, err := NewTableCurve([]float64{0, q1, q2}, []float64{r.num("H0"), r.num("H1"), r.num("H2")})
		if err != nil {
			t.Fatal(err)
		}
		h, _ = table.Head(qt)
		r.want("H_pchip", h)
		if back := table.Flow(h); !within(back, qt, 1e-12) {
			t.Errorf("row %d: table flow %g comes back as %g", r.line, qt, back)
		}
		// For a well-behaved curve the two differ by a few per cent of H0, and
		// both keep to the points.
		for i, q := range []float64{0, q1, q2} {
			want := []float64{r.num("H0"), r.num("H1"), r.num("H2")}[i]
			a, _ := p.Head(q)
			b, _ := table.Head(q)
			if !within(a, want, 1e-13) || !within(b, want, 1e-15) {
				t.Errorf("row %d: at point %d heads %g and %g, want %g", r.line, i, a, b, want)
			}
		}
	}
}

func TestDutyPointTable(t *testing.T) {
	w := water(t, 25)
	one := PowerCurve{H0: 2, A: 2 / math.Pow(800*litrePerHour, 1.8), C: 1.8}
	for _, r := range rows(t, "duty") {
		p := pipe(t, r.num("L_m"), r.num("D_m"), 25, r.num("K"))
		set := PumpSet{Pump: one, Speed: r.num("speed_ratio"), Parallel: int(r.num("n_par")), Series: int(r.num("n_ser"))}
		excess := func(q float64) float64 {
			h, _ := set.Head(q)
			loss, _ := p.HeadLoss(q)
			return h - loss - r.num("H_static_m")
		}
		q := bisect(0, 5000*litrePerHour, excess)
		h, _ := set.Head(q)
		// brentq stopped at 2e-12 absolute in L/h or 9e-16 relative, far below
		// the printed digits.
		r.want("Q_Lh", q/litrePerHour)
		r.want("H_m", h)
		r.want("hydraulic_power_W", HydraulicPower(w.Density, q, h))
		if q > 0 {
			checkSlope(t, "pump set", q, set.Head)
		}
	}
}

func TestPumpSets(t *testing.T) {
	p := PowerCurve{H0: 2.4, A: 3e6, C: 1.7}
	const q = 1.3e-4
	// At speed: two ways of saying the same.
	a, _ := p.AtSpeed(0.8).Head(q)
	b, _ := (PumpSet{p, 0.8, 1, 1}).Head(q)
	if !within(a, b, 1e-13) {
		t.Errorf("at speed 0.8: %g and %g", a, b)
	}
	// Like pumps side by side, by adding flows at equal head.
	h, _ := (PumpSet{p, 1, 2, 1}).Head(q)
	if sum := p.Flow(h) + p.Flow(h); !within(sum, q, 1e-12) {
		t.Errorf("two pumps give %g at %g m, want %g", sum, h, q)
	}
	// One behind the other, by adding heads at equal flow.
	h1, s1 := p.Head(q)
	h2, s2 := 2*h1, 2*s1
	h3, s3 := (PumpSet{p, 1, 1, 2}).Head(q)
	if !within(h2, h3, 1e-14) || !within(s2, s3, 1e-14) {
		t.Errorf("in series %g, %g and %g, %g", h2, s2, h3, s3)
	}
}

func TestPowerCurveSlope(t *testing.T) {
	for _, c := range []float64{0.8, 1, 1.6, 2.3} {
		p := PowerCurve{H0: 3, A: 2e5, C: c}
		checkSlope(t, "power curve", 1e-4, p.Head)
		// Backwards it is the mirror image about (0, H0).
		h1, s1 := p.Head(1e-4)
		h2, s2 := p.Head(-1e-4)
		if !within(h1-3, 3-h2, 1e-12) || s1 != s2 {
			t.Errorf("c %g: %g, %g forwards, %g, %g backwards", c, h1, s1, h2, s2)
		}
	}
	if _, s := (PowerCurve{2, 5, 1}).Head(0); s != -5 {
		t.Errorf("straight curve at rest: slope %g", s)
	}
	if _, s := (PowerCurve{2, 5, 2}).Head(0); s != 0 {
		t.Errorf("parabola at rest: slope %g", s)
	}
	if _, s := (PowerCurve{2, 5, 0.5}).Head(0); !math.IsInf(s, -1) {
		t.Errorf("root at rest: slope %g", s)
	}
	if q := (PowerCurve{2, 5, 2}).Flow(2.5); q != 0 {
		t.Errorf("flow %g above shut-off", q)
	}
}

func TestLabelCurve(t *testing.T) {
	p, err := LabelCurve(1.8, 2e-4, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	h, _ := p.Head(2e-4)
	if p.H0 != 1.8 || math.Abs(h) > 1e-15 {
		t.Errorf("ends at %g m and %g m", p.H0, h)
	}
}

// The band between a straight line and a parabola holds what makers print for small
// pumps, each flow read to 10 US gal/h (so 5 to either side). Sources, undated pages of
// the trade named by what they are: an article "how to understand fountain and pond
// pumps" (a table of one pump of 310 US gal/h and 98 in), a question page "what size pump
// for my water feature" (one of 780 US gal/h and 140 in, two points of its table).
func TestLabelBandHoldsPrintedTables(t *testing.T) {
	const inch, gph, read = 0.0254, 0.003785411784 / 3600, 5.0
	for _, pump := range []struct {
		head, flow float64
		points     [][2]float64
	}{
		{98, 310, [][2]float64{{12, 270}, {24, 250}, {36, 220}, {48, 200}, {60, 150}, {72, 120}, {84, 75}, {96, 5}}},
		{140, 780, [][2]float64{{20, 680}, {60, 580}}},
	} {
		for _, p := range pump.points {
			var flow [2]float64
			for i, shape := range []float64{1, 2} {
				c, err := LabelCurve(pump.head*inch, pump.flow*gph, shape)
				if err != nil {
					t.Fatal(err)
				}
				flow[i] = c.Flow(p[0]*inch) / gph
			}
			if p[1]+read < flow[0] || p[1]-read > flow[1] {
				t.Errorf("%g US gal/h, %g in: %g US gal/h at %g in, the band is %.1f to %.1f", pump.flow, pump.head, p[1], p[0], flow[0], flow[1])
			}
		}
	}
}

// A pond shop's flow graph, from an irrigation course page (largest head 4 ft; 96, 76
// and 48 US gal/h at 1, 2 and 3 ft), does not tell the flow at no lift; the exponent of
// a curve through its points is between that of a straight line and of a parabola.
func TestPrintedGraphsExponent(t *testing.T) {
	const h0, h1, q1 = 4.0, 1.0, 96.0
	for _, p := range [][2]float64{{2, 76}, {3, 48}} {
		c := math.Log((h0-h1)/(h0-p[0])) / math.Log(q1/p[1])
		if c < 1 || c > 2 {
			t.Errorf("exponent %.2f through %g US gal/h at %g ft", c, p[1], p[0])
		}
	}
}

func TestPumpCurvesRefuse(t *testing.T) {
	nan := math.NaN()
	for _, c := range [][5]float64{{2, 1, 2, 2, 1}, {2, 1, 1, 1, 0.5}, {2, 0, 1, 2, 0.5}, {2, 2, 1, 1, 0.5}, {2, 1, 0.5, 2, 1}, {nan, 1, 1, 2, 0.5}, {2, 1, 1, math.Inf(1), 0.5}} {
		if p, err := FitPowerCurve(c[0], c[1], c[2], c[3], c[4]); err == nil {
			t.Errorf("fitted %v to %v", p, c)
		}
	}
	for _, c := range [][3]float64{{0, 1, 1}, {1, -1, 1}, {1, 1, 0}, {nan, 1, 1}, {1, math.Inf(1), 1}} {
		if p, err := LabelCurve(c[0], c[1], c[2]); err == nil {
			t.Errorf("made %v of %v", p, c)
		}
	}
	tables := []struct {
		q, h []float64
		says string
	}{
		{[]float64{0, 1}, []float64{1}, "2 flows but 1 heads"},
		{[]float64{0}, []float64{1}, "need two or more"},
		{nil, nil, "need two or more"},
		{[]float64{0, 1, 1}, []float64{3, 2, 1}, "point 3: flow"},
		{[]float64{0, 1, 2}, []float64{3, 3, 1}, "point 2: head"},
		{[]float64{0, 1, 2}, []float64{3, nan, 1}, "point 2: NaN"},
		{[]float64{0, math.Inf(1)}, []float64{3, 1}, "point 2: +Inf"},
		{[]float64{-1, 1}, []float64{3, 1}, "point 1: flow -1 m3/s is negative"},
	}
	for _, c := range tables {
		_, err := NewTableCurve(c.q, c.h)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, %v: error %v, want it to say %q", c.q, c.h, err, c.says)
		}
	}
}
