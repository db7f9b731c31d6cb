package network

import (
	"fmt"
	"math"
	"testing"

	"rillwright/fluid"
	"rillwright/hydraulics"
)

// Pumps side by side, each behind its own check valve, and one after another,
// as circuits. The duty points (L/h and m) are those of a pump of
// 2.0 - 2.0 (Q/800)^1.8 m, Q in L/h, at a speed ratio, against static head,
// friction (1.5 um, 25 C) and K: scipy 1.10 brentq with "fluids" 1.0.22, printed
// to ten digits, hence 1e-9.
func TestPumpsSideBySideAndInSeries(t *testing.T) {
	const litrePerHour = 1e-3 / 3600
	w, ok := fluid.AtCelsius(25)
	if !ok {
		t.Fatal("no water at 25 C")
	}
	one := hydraulics.PowerCurve{H0: 2, A: 2 / math.Pow(800*litrePerHour, 1.8), C: 1.8}
	for _, c := range []struct {
		static, bore, length, k, speed float64
		parallel, series               int
		flow, head                     float64
	}{
		{0.5, 0.0127, 2, 4, 1, 1, 1, 525.1522281, 1.062478143},
		{1, 0.0127, 2, 4, 1, 1, 1, 420.580814, 1.371367193},
		{1, 0.0095, 2, 6, 1, 1, 1, 271.7109343, 1.713673973},
		{1, 0.0127, 2, 4, 0.85, 1, 1, 272.7069223, 1.165999555},
		{0.8, 0.0158, 3, 5, 1, 2, 1, 790.7310324, 1.437573421},
		{2.5, 0.0127, 2.5, 5, 1, 1, 2, 389.8887571, 2.903038725},
		{1.95, 0.0127, 2, 4, 1, 1, 1, 84.37934859, 1.96511063},
	} {
		t.Run(fmt.Sprintf("%g m %d by %d", c.static, c.parallel, c.series), func(t *testing.T) {
			p := &Problem{Nodes: []Node{{ID: "sump", Fixed: true}, {ID: "outflow", Fixed: true, Head: c.static}, {ID: "delivery"}}}
			for i := range c.parallel {
				from := 0
				for j := range c.series {
					to := 2
					if j+1 < c.series {
						to = len(p.Nodes)
						p.Nodes = append(p.Nodes, Node{ID: fmt.Sprint("between ", i, j)})
					}
					p.Links = append(p.Links, Link{ID: fmt.Sprint("pump ", i, j), From: from, To: to, OneWay: true, Law: pumpLaw{one.AtSpeed(c.speed)}})
					from = to
				}
			}
			pipe := NewConduit(w.Kinematic)
			pipe.AddPipe(c.bore, c.length, 1.5e-6, 1)
			pipe.AddFitting(hydraulics.ConstantK(c.k), c.bore)
			p.Links = append(p.Links, Link{ID: "riser", From: 2, To: 1, Law: pipe})
			res := solveNew(t, p)
			riser := len(p.Links) - 1
			if q := res.Flow[riser] / litrePerHour; math.Abs(q-c.flow) > 1e-9*c.flow {
				t.Errorf("%.10g L/h, want %.10g", q, c.flow)
			}
			if h := res.Head[2]; math.Abs(h-c.head) > 1e-9*c.head {
				t.Errorf("%.10g m, want %.10g", h, c.head)
			}
			for k := range riser {
				if q := res.Flow[k] * float64(c.parallel) / litrePerHour; math.Abs(q-c.flow) > 1e-9*c.flow {
					t.Errorf("%s carries %g L/h of %g", p.Links[k].ID, res.Flow[k]/litrePerHour, c.flow)
				}
			}
		})
	}
}
