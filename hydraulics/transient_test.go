package hydraulics

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
)

func TestTransientTable(t *testing.T) {
	for _, r := range rows(t, "transient") {
		in := r.inputs()
		hole := CircleArea(in["d"])
		switch r.text("case") {
		case "torricelli":
			r.want("value", TorricelliTime(in["A"], in["Cd"], hole, in["h1"], in["h2"]))
		case "fill_to_overflow":
			r.want("value", FillTime(in["A"], in["Q_Lh"]*litrePerHour, in["h0"], in["h_of"]))
		case "inflow_plus_orifice":
			q := in["Q_Lh"] * litrePerHour
			got, ok := InflowOrificeTime(in["A"], q, in["Cd"], hole, in["h0"], in["h1"])
			if !ok {
				t.Errorf("row %d: said not to reach its level", r.line)
			}
			r.want("value", got)
			// The steady level stands among the inputs with nine figures.
			if h := InflowOrificeLevel(q, in["Cd"], hole); !within(h, in["h_steady"], 5e-9) {
				t.Errorf("row %d: steady level %.10g, want %.10g", r.line, h, in["h_steady"])
			}
		case "back_siphon":
			end := BackSiphon{
				TankArea: in["At"], SumpArea: in["As"], TankFloor: in["z_tank_floor"],
				TankLevel: in["ht"], SumpLevel: in["hs"], BreakLevel: in["lip"], PipeVolume: in["V_pipe"],
			}.End()
			r.want("value", end.Returned*1e3)
			r.want("extra", end.SumpLevel)
			if wantEqual := r.line == 24; end.Equal != wantEqual {
				t.Errorf("row %d: equal = %v", r.line, end.Equal)
			}
		case "coupled_linear":
			h := LinearOutletLevel(in["A1"], in["k"], in["Qp"], in["h1_0"], in["t"])
			r.want("value", h)
			r.want("extra", SumpLevel(in["h2_0"], in["A2"], in["A1"], in["h1_0"], h))
		case "pipe_drain_down_DW":
			p := pipe(t, in["L"], in["D"], in["t_C"], in["K"])
			r.want("value", DrainDownTime(p, in["A"], in["H1"], in["H2"]))
			r.want("extra", p.Flow(in["H1"])/litrePerHour)
		default:
			t.Fatalf("case %q", r.text("case"))
		}
	}
}

// The quadrature over the flow against the plain integral of A dh/Q(h), across
// all three friction regimes: 4 mm tube, Re 5000 down to 800. The plain one has
// a kink in its third derivative at each regime; 2000 Gauss points bring it to
// 1e-9 or so.
func TestDrainDownAcrossRegimes(t *testing.T) {
	p := pipe(t, 0.5, 0.004, 20, 2)
	const area, h1, h2 = 0.05, 0.9, 0.03
	if a, b := p.Reynolds(p.Flow(h1)), p.Reynolds(p.Flow(h2)); a < ReTurbulent || b > ReLaminar {
		t.Fatalf("Reynolds %g to %g does not cover the regimes", a, b)
	}
	want := quad.Fixed(func(h float64) float64 { return area / p.Flow(h) }, h2, h1, 2000, nil, 0)
	if got := DrainDownTime(p, area, h1, h2); !within(got, want, 1e-8) {
		t.Errorf("got %.12g s, quadrature %.12g s", got, want)
	}
	for _, c := range [][2]float64{{1, 0}, {1, 2}, {1, -1}, {math.NaN(), 1}} {
		if v := DrainDownTime(p, area, c[0], c[1]); !math.IsNaN(v) {
			t.Errorf("%v gives %g", c, v)
		}
	}
	if v := DrainDownTime(p, area, 0.5, 0.5); v != 0 {
		t.Errorf("no fall takes %g s", v)
	}
}

// With almost no friction the pipe is an orifice with Cd = 1/sqrt K: Torricelli.
func TestDrainDownOfAShortPipe(t *testing.T) {
	p := pipe(t, 0, 0.02, 20, 4)
	got := DrainDownTime(p, 0.1, 0.8, 0.1)
	want := TorricelliTime(0.1, 0.5, CircleArea(0.02), 0.8, 0.1)
	if !within(got, want, 1e-11) {
		t.Errorf("got %.12g, Torricelli %.12g", got, want)
	}
}

// A Runge-Kutta run of the differential equation against the closed form: fourth
// order with 2000 steps leaves about 1e-11.
func TestInflowOrificeByIntegration(t *testing.T) {
	const area, q, cd, h0, h1 = 0.12, 8e-5, 0.6, 0.02, 0.1
	hole := CircleArea(0.009)
	end, ok := InflowOrificeTime(area, q, cd, hole, h0, h1)
	if !ok {
		t.Fatal("not reached")
	}
	rate := func(h float64) float64 { return (q - OrificeFlow(cd, hole, h)) / area }
	h, dt := h0, end/2000
	for range 2000 {
		a := rate(h)
		b := rate(h + dt/2*a)
		c := rate(h + dt/2*b)
		d := rate(h + dt*c)
		h += dt / 6 * (a + 2*b + 2*c + d)
	}
	if !within(h, h1, 1e-9) {
		t.Errorf("integration ends at %.12g, want %g", h, h1)
	}
}

func TestInflowOrificeReach(t *testing.T) {
	const area, q, cd = 0.12, 8e-5, 0.6
	hole := CircleArea(0.009)
	steady := InflowOrificeLevel(q, cd, hole)
	cases := []struct {
		name   string
		h0, h1 float64
		ok     bool
	}{
		{"beyond the steady level", 0.1, 1.1 * steady, false},
		{"to the steady level itself", 0.1, steady, false},
		{"down while filling", 0.1, 0.05, false},
		{"up while emptying", 1.2 * steady, 1.3 * steady, false},
		{"down to above steady", 2 * steady, 1.5 * steady, true},
		{"stay", 0.1, 0.1, true},
	}
	for _, c := range cases {
		v, ok := InflowOrificeTime(area, q, cd, hole, c.h0, c.h1)
		if ok != c.ok || v < 0 || !ok && v != 0 {
			t.Errorf("%s: %g, %v", c.name, v, ok)
		}
	}
	// No inflow is Torricelli, all the way to empty.
	for _, h1 := range []float64{0.1, 0} {
		got, ok := InflowOrificeTime(area, 0, cd, hole, 0.3, h1)
		if want := TorricelliTime(area, cd, hole, 0.3, h1); !ok || !within(got, want, 1e-13) {
			t.Errorf("no inflow, to %g: %g, %v, want %g", h1, got, ok, want)
		}
	}
}

// Water is neither made nor lost, and the two surfaces are level when Equal.
func TestBackSiphonBalance(t *testing.T) {
	b := BackSiphon{TankArea: 0.3, SumpArea: 0.2, TankFloor: 0.1, TankLevel: 0.4, SumpLevel: 0.1, BreakLevel: 0.02, PipeVolume: 0.001}
	end := b.End()
	lost := b.TankArea*(b.TankLevel-end.TankLevel) + b.PipeVolume - b.SumpArea*(end.SumpLevel-b.SumpLevel)
	if math.Abs(lost) > 1e-15 || !end.Equal || !within(b.TankFloor+end.TankLevel, end.SumpLevel, 1e-14) {
		t.Errorf("end %+v, %g m3 lost", end, lost)
	}
	// Running below the hole already: only the pipe drains.
	b.BreakLevel = 0.45
	if end := b.End(); end.Returned != 0.001 || end.TankLevel != 0.4 || end.Equal {
		t.Errorf("end %+v", end)
	}
}
