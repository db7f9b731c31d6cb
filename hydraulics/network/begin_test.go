package network

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// A solver that takes a circuit of the same shape gives to the bit what a new
// one gives, whatever it solved before; it refuses one of another shape.
func TestTake(t *testing.T) {
	r := rand.New(rand.NewPCG(47, 53))
	for trial := range 200 {
		p := randomCircuit(r)
		s, err := NewSolver(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		q := &Problem{Nodes: slices.Clone(p.Nodes), Links: slices.Clone(p.Links), Couplings: p.Couplings}
		for i := range q.Nodes {
			q.Nodes[i].Head += 0.1 * r.Float64()
		}
		if !s.Take(q) {
			t.Fatalf("trial %d: refused its own shape", trial)
		}
		got, err := s.Solve()
		if err != nil {
			t.Fatal(err)
		}
		want := solveNew(t, q)
		for k := range want.Flow {
			if math.Float64bits(got.Flow[k]) != math.Float64bits(want.Flow[k]) {
				t.Fatalf("trial %d: link %d carries %g, from a new solver %g", trial, k, got.Flow[k], want.Flow[k])
			}
		}
		other := &Problem{Nodes: q.Nodes, Links: slices.Clone(q.Links), Couplings: q.Couplings}
		other.Links[0].Closed = !other.Links[0].Closed
		if s.Take(other) {
			t.Fatalf("trial %d: took a circuit with another link closed", trial)
		}
		q.Links[0].Closed = !q.Links[0].Closed
		if s.Take(q) {
			t.Fatalf("trial %d: took its own circuit after a link was closed in it", trial)
		}
	}
}

// Begin near the solution ends there, in fewer steps than from nothing.
func TestBegin(t *testing.T) {
	p := manifold(27)
	s, err := NewSolver(p, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	first, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	head, flow, steps := slices.Clone(first.Head), slices.Clone(first.Flow), first.Iterations
	s.Reset()
	if !s.Begin(head, flow) {
		t.Fatal("refused its own state")
	}
	again, err := s.Solve()
	if err != nil || again.Status != Converged {
		t.Fatal(err, again.Status)
	}
	if again.Iterations >= steps {
		t.Errorf("%d steps from the solution, %d from nothing", again.Iterations, steps)
	}
	for k := range flow {
		if math.Abs(again.Flow[k]-flow[k]) > 1e-9*math.Abs(flow[0]) {
			t.Errorf("link %d: %g, then %g", k, flow[k], again.Flow[k])
		}
	}
	if s.Begin(head[1:], flow) {
		t.Error("took heads of another circuit")
	}
}
