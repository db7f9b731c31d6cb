package network

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rillwright/hydraulics"
)

// nastyCircuit invents a circuit far outside what is built: heads of 1 cm to
// 100 m, bores of half a millimetre to half a metre, emitters that hardly answer
// to head, power laws of any exponent, jumps of head in one-way links, pairs of
// nodes joined many times over.
func nastyCircuit(r *rand.Rand) *Problem {
	p := &Problem{}
	between := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	n := 2 + r.IntN(12)
	given := 1 + r.IntN(2)
	for i := range n {
		p.Nodes = append(p.Nodes, Node{ID: fmt.Sprint(i), Fixed: i < given, Head: between(0.01, 100)})
	}
	law := func() (Law, bool) {
		c := NewConduit(1e-6)
		switch r.IntN(6) {
		case 0:
			bore := between(0.0005, 0.5)
			c.AddPipe(bore, between(0.001, 100), bore*between(1e-6, 1e-2), 1)
			return c, false
		case 1:
			c.AddFitting(hydraulics.KModel{K1: 800, KInf: 10 * r.Float64()}, between(0.001, 0.1))
			return c, false
		case 2:
			return NewHole(between(1e-4, 1e-2), 1e-6, 1), true
		case 3:
			return Emitter{K: between(1e-10, 1e-2), X: 0.05 + 0.95*r.Float64()}, true
		case 4:
			return Power{R: between(0.01, 1e14), N: 1 + r.Float64()}, false
		}
		return Series{Rise(-between(0.1, 100)), Power{R: between(1, 1e10), N: 2}}, true
	}
	for k := range n - 1 + r.IntN(2*n) {
		i, j := k+1, r.IntN(min(k+1, n))
		if k >= n-1 {
			i, j = r.IntN(n), r.IntN(n)
		}
		if i == j {
			continue
		}
		l, oneWay := law()
		p.Links = append(p.Links, Link{ID: fmt.Sprint("l", k), From: i, To: j, Law: l, OneWay: oneWay || r.IntN(6) == 0, Closed: r.IntN(12) == 0})
	}
	addTees(r, p, n)
	return p
}

// Whatever the circuit, a state is found in which flows balance and no link's
// loss misses the heads by more than 1e-7 of them.
func TestNastyCircuits(t *testing.T) {
	count := 8000
	if testing.Short() {
		count = 1000
	}
	for seed := range uint64(count) {
		p := nastyCircuit(rand.New(rand.NewPCG(seed, 59)))
		s, err := NewSolver(p, Settings{})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		res, err := s.Solve()
		if err != nil || res.Status != Converged {
			t.Errorf("seed %d: %v %v, residual %g m after %d steps", seed, err, res.Status, res.Residual, res.Iterations)
			continue
		}
		most, through := 0.0, 1e-9
		for k := range p.Links {
			through = max(through, math.Abs(res.Flow[k]))
		}
		for _, h := range res.Head {
			most = max(most, math.Abs(h))
		}
		if res.Residual > 1e-7*most || res.Imbalance > 1e-9*through {
			t.Errorf("seed %d: residual %g of %g m, imbalance %g of %g m3/s", seed, res.Residual, most, res.Imbalance, through)
		}
	}
}
