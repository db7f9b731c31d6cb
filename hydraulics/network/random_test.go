package network

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rillwright/fluid"
	"rillwright/hydraulics"
)

// randomCircuit invents a valid circuit of the kind this program meets, and
// many it never will: a spanning tree with extra loops, one to three water
// surfaces, pipes from 2 mm to 60 mm bore, fittings, one-way links, closed
// valves, pumps (some below their shut-off head, some dead-headed), outlets
// above and below the water, tees, and demands from nothing to a flood.
func randomCircuit(r *rand.Rand) *Problem {
	p := &Problem{}
	w, ok := fluid.AtCelsius(5 + 30*r.Float64())
	if !ok {
		panic("water of 5 to 35 C is out of range")
	}
	nu := w.Kinematic
	n := 2 + r.IntN(14)
	for i := range n {
		p.Nodes = append(p.Nodes, Node{ID: fmt.Sprintf("n%d", i)})
	}
	surfaces := 1 + r.IntN(3)
	for i := range min(surfaces, n-1) {
		p.Nodes[i].Fixed = true
		p.Nodes[i].Head = 3 * r.Float64()
	}
	pipe := func() Law {
		c := NewConduit(nu)
		bore := 0.002 * math.Exp(r.Float64()*math.Log(30))
		c.AddPipe(bore, math.Exp(math.Log(0.005)+r.Float64()*math.Log(2000)), []float64{0, 1.5e-6, 1e-4}[r.IntN(3)], 1)
		if r.IntN(2) == 0 {
			c.AddFitting(hydraulics.KModel{K1: 1500 * r.Float64(), KInf: 20 * r.Float64()}, bore)
		}
		return c
	}
	link := func(i, j int, law Law) *Link {
		p.Links = append(p.Links, Link{ID: fmt.Sprintf("l%d", len(p.Links)), From: i, To: j, Law: law})
		return &p.Links[len(p.Links)-1]
	}
	connect := func(i, j int) {
		switch r.IntN(10) {
		case 0: // a pump with its check valve
			h0 := 4 * r.Float64()
			curve := hydraulics.PowerCurve{H0: h0, C: 1 + r.Float64()}
			curve.A = h0 / math.Pow(math.Exp(math.Log(1e-5)+r.Float64()*math.Log(100)), curve.C)
			link(i, j, pumpLaw{curve}).OneWay = true
		case 1:
			link(i, j, Power{R: math.Exp(r.Float64() * 25), N: 2})
		case 2:
			link(i, j, pipe()).OneWay = true
		case 3:
			l := link(i, j, pipe())
			l.Closed = true
			link(i, j, pipe())
		default:
			link(i, j, pipe())
		}
	}
	for i := 1; i < n; i++ {
		connect(r.IntN(i), i)
	}
	for range r.IntN(n + 1) {
		if i, j := r.IntN(n), r.IntN(n); i != j {
			connect(i, j)
		}
	}
	for i := range n {
		if p.Nodes[i].Fixed || r.IntN(2) == 0 {
			continue
		}
		p.Nodes = append(p.Nodes, Node{ID: fmt.Sprintf("air%d", i), Fixed: true, Head: 3 * r.Float64()})
		k := math.Exp(math.Log(1e-8) + r.Float64()*math.Log(1e5))
		link(i, len(p.Nodes)-1, Emitter{k, []float64{0.3, 0.5, 0.5, 1}[r.IntN(4)]}).OneWay = true
	}
	// Demands only where nothing stands in their way.
	if r.IntN(3) == 0 {
		plain := true
		for _, l := range p.Links {
			plain = plain && !l.OneWay
		}
		for i := range n {
			if plain && !p.Nodes[i].Fixed {
				p.Nodes[i].Demand = math.Exp(-6-20*r.Float64()) * (r.Float64() - 0.3)
			}
		}
	}
	addTees(r, p, n)
	return p
}

// addTees makes a tee of about half of the nodes that have three plain legs.
func addTees(r *rand.Rand, p *Problem, n int) {
	for i := range n {
		if p.Nodes[i].Fixed || p.Nodes[i].Demand != 0 || r.IntN(2) == 0 {
			continue
		}
		var legs []TeeLeg
		for k, l := range p.Links {
			switch {
			case l.Closed:
			case l.From == i:
				legs = append(legs, TeeLeg{k, -1})
			case l.To == i:
				legs = append(legs, TeeLeg{k, 1})
			}
		}
		if len(legs) != 3 {
			continue
		}
		r.Shuffle(3, func(a, b int) { legs[a], legs[b] = legs[b], legs[a] })
		p.Couplings = append(p.Couplings, Tee{Runs: [2]TeeLeg{legs[0], legs[1]}, Branch: legs[2], Bore: 0.008 + 0.03*r.Float64(), Factor: 1})
	}
}

// A mass balance is an identity: what a node takes in it gives out.
func TestRandomCircuits(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	count := 10_000
	if testing.Short() {
		count = 1_500
	}
	iterations, most := 0, 0
	for trial := range count {
		p := randomCircuit(r)
		s, err := NewSolver(p, Settings{})
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		res, err := s.Solve()
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		if res.Status != Converged {
			t.Errorf("trial %d: %v, residual %g m, %d tees, %d links", trial, res.Status, res.Residual, len(p.Couplings), len(p.Links))
			continue
		}
		iterations += res.Iterations
		most = max(most, res.Iterations)
		checkState(t, trial, p, res)
	}
	t.Logf("%.1f steps on average, %d at most", float64(iterations)/float64(count), most)
}

// checkState verifies a solution without the solver's own bookkeeping: flows
// balance at every node to 1e-9 of the flow through the circuit, the losses of
// all open links match the heads, and one-way links hold.
func checkState(t *testing.T, trial int, p *Problem, res Result) {
	t.Helper()
	sum := make([]float64, len(p.Nodes))
	total := 0.0
	for i := range p.Nodes {
		sum[i] = -p.Nodes[i].Demand
		total = max(total, math.Abs(p.Nodes[i].Demand))
	}
	extra := make([]float64, len(p.Links))
	for _, c := range p.Couplings {
		c.Add(res.Flow, extra, make([]float64, len(p.Links)))
	}
	for k := range p.Links {
		l, q := &p.Links[k], res.Flow[k]
		total = max(total, math.Abs(q))
		sum[l.From] -= q
		sum[l.To] += q
		if l.Closed || res.Isolated[l.From] {
			if q != 0 {
				t.Errorf("trial %d: closed link %s carries %g", trial, l.ID, q)
			}
			continue
		}
		drop := res.Head[l.From] - res.Head[l.To]
		if l.OneWay && q < 0 {
			h0, _ := l.Law.Loss(0)
			if q < -1e-12 || drop > h0+extra[k]+1e-8 {
				t.Errorf("trial %d: one-way link %s carries %g with drop %g", trial, l.ID, q, drop)
			}
			continue
		}
		h, _ := l.Law.Loss(q)
		if math.Abs(drop-h-extra[k]) > 1e-9*max(1, math.Abs(drop)) {
			t.Errorf("trial %d: link %s loses %g, its ends differ by %g", trial, l.ID, h+extra[k], drop)
		}
	}
	for i := range p.Nodes {
		if p.Nodes[i].Fixed {
			continue
		}
		if math.Abs(sum[i]) > 1e-9*max(total, 1e-12) {
			t.Errorf("trial %d: node %s is out of balance by %g of %g m3/s", trial, p.Nodes[i].ID, sum[i], total)
		}
	}
}
