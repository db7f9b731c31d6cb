package network

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"rillwright/hydraulics"
)

func solveNew(t testing.TB, p *Problem) Result {
	t.Helper()
	s, err := NewSolver(p, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	res, err := s.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if res.Status != Converged {
		t.Fatalf("%v, residual %g", res.Status, res.Residual)
	}
	return res
}

// Numbering the nodes and links otherwise, or turning plain links round, must
// change nothing but the order of the answer.
func TestNumberingChangesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 19))
	for trial := range 300 {
		p := randomCircuit(r)
		p.Couplings = nil
		a := solveNew(t, p)
		nodes, links := r.Perm(len(p.Nodes)), r.Perm(len(p.Links))
		m := &Problem{Nodes: make([]Node, len(p.Nodes)), Links: make([]Link, len(p.Links))}
		for i, n := range p.Nodes {
			m.Nodes[nodes[i]] = n
		}
		turned := make([]float64, len(p.Links))
		for k, l := range p.Links {
			turned[k] = 1
			l.From, l.To = nodes[l.From], nodes[l.To]
			if !l.OneWay && r.IntN(2) == 0 {
				l.From, l.To = l.To, l.From
				turned[k] = -1
			}
			m.Links[links[k]] = l
		}
		b := solveNew(t, m)
		scale := 0.0
		for _, q := range a.Flow {
			scale = max(scale, math.Abs(q))
		}
		for k := range p.Links {
			// Both are within the solver's tolerance of the one solution;
			// a residual of 1e-11 of the heads moves flows by no more than
			// about its root where a law is flat at rest.
			if d := math.Abs(a.Flow[k] - turned[k]*b.Flow[links[k]]); d > 1e-6*scale+1e-12 {
				t.Errorf("trial %d: link %s carries %g or %g", trial, p.Links[k].ID, a.Flow[k], turned[k]*b.Flow[links[k]])
			}
		}
	}
}

// Raising a water surface never lessens what flows out of it: the content is
// convex in the given heads.
func TestMoreHeadNeverGivesLess(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 29))
	for trial := range 500 {
		p := randomCircuit(r)
		p.Couplings = nil
		s, err := NewSolver(p, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		from := slices.IndexFunc(p.Nodes, func(n Node) bool { return n.Fixed })
		last, scale := math.Inf(-1), 0.0
		for range 4 {
			res, err := s.Solve()
			if err != nil || res.Status != Converged {
				t.Fatalf("trial %d: %v %v", trial, err, res.Status)
			}
			out := 0.0
			for k, l := range p.Links {
				scale = max(scale, math.Abs(res.Flow[k]))
				if l.From == from {
					out += res.Flow[k]
				}
				if l.To == from {
					out -= res.Flow[k]
				}
			}
			if out < last-1e-7*scale-1e-15 {
				t.Errorf("trial %d: %g m3/s after %g with more head", trial, out, last)
			}
			last = out
			p.Nodes[from].Head += r.Float64()
		}
	}
}

// From wherever it starts, the solver comes to the same state.
func TestStartChangesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 37))
	for trial := range 300 {
		p := randomCircuit(r)
		p.Couplings = nil
		want := slices.Clone(solveNew(t, p).Head)
		for k := range p.Links {
			p.Links[k].Guess = math.Exp(-25*r.Float64()) * (r.Float64() - 0.3)
		}
		got := solveNew(t, p)
		for i := range want {
			if got.Isolated[i] || math.Abs(got.Head[i]-want[i]) <= 1e-6 {
				continue
			}
			// A node shut off by one-way links alone may stand at any head
			// that keeps them shut.
			if !shutOff(p, got.Flow, i) {
				t.Errorf("trial %d: node %s at %g or %g m", trial, p.Nodes[i].ID, want[i], got.Head[i])
			}
		}
	}
}

func shutOff(p *Problem, flow []float64, node int) bool {
	for k, l := range p.Links {
		if (l.From == node || l.To == node) && math.Abs(flow[k]) > 1e-10 {
			return false
		}
	}
	return true
}

func TestInvalidCircuits(t *testing.T) {
	pipe := NewConduit(1e-6)
	pipe.AddPipe(0.01, 1, 0, 1)
	surface := Node{ID: "sump", Fixed: true, Head: 1}
	for _, c := range []struct {
		name, want string
		p          Problem
	}{
		{"empty", "no nodes", Problem{}},
		{"head", "sump: its given head NaN is not a number", Problem{Nodes: []Node{{ID: "sump", Fixed: true, Head: math.NaN()}}}},
		{"demand", "tap: its demand +Inf is not a number", Problem{Nodes: []Node{surface, {ID: "tap", Demand: math.Inf(1)}}}},
		{"end", "hose: it ends at a node that does not exist", Problem{Nodes: []Node{surface}, Links: []Link{{ID: "hose", To: 1, Law: pipe}}}},
		{"loop", "hose: both its ends are at the same node", Problem{Nodes: []Node{surface}, Links: []Link{{ID: "hose", Law: pipe}}}},
		{"law", "hose: it has no law", Problem{Nodes: []Node{surface, {ID: "bar"}}, Links: []Link{{ID: "hose", To: 1}}}},
		{"cut off", "bar: nothing open leads to it", Problem{
			Nodes: []Node{surface, {ID: "bar", Demand: 1e-4}},
			Links: []Link{{ID: "hose", To: 1, Law: pipe, Closed: true}},
		}},
		{"against a check valve", "bar: the flow it asks for can only come through a one-way link", Problem{
			Nodes: []Node{surface, {ID: "bar", Demand: 1e-4}},
			Links: []Link{{ID: "hose", From: 1, To: 0, Law: pipe, OneWay: true}},
		}},
		{"not a number", "hose: a law gave a head that is not a number", Problem{
			Nodes: []Node{surface, {ID: "bar", Demand: 1e-4}},
			Links: []Link{{ID: "hose", To: 1, Law: Power{R: math.NaN(), N: 2}}},
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := NewSolver(&c.p, Settings{})
			if err == nil {
				_, err = s.Solve()
			}
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
			var invalid *InvalidError
			if c.name != "not a number" && !errors.As(err, &invalid) {
				t.Errorf("%T is not an InvalidError", err)
			}
		})
	}
}

// A dead leg behind a closed valve has no head of its own, and says so.
func TestClosedValveIsolates(t *testing.T) {
	pipe := NewConduit(1e-6)
	pipe.AddPipe(0.01, 1, 0, 1)
	p := &Problem{
		Nodes: []Node{{ID: "sump", Fixed: true, Head: 1}, {ID: "tee"}, {ID: "dead end"}, {ID: "air", Fixed: true}},
		Links: []Link{
			{ID: "hose", From: 0, To: 1, Law: pipe},
			{ID: "valve", From: 1, To: 2, Law: pipe, Closed: true},
			{ID: "outlet", From: 1, To: 3, Law: Emitter{1e-5, 0.5}, OneWay: true},
		},
	}
	res := solveNew(t, p)
	if res.Isolated[1] || !res.Isolated[2] || res.Flow[1] != 0 || res.Flow[0] <= 0 {
		t.Errorf("%+v", res)
	}
}

// A pump that cannot reach the outlets pushes nothing and stands at its
// shut-off head.
func TestPumpTooWeak(t *testing.T) {
	p := &Problem{
		Nodes: []Node{{ID: "sump", Fixed: true}, {ID: "bar"}, {ID: "air", Fixed: true, Head: 3}},
		Links: []Link{
			{ID: "pump", From: 0, To: 1, Law: pumpLaw{hydraulics.PowerCurve{H0: 2, A: 2e6, C: 2}}, OneWay: true},
			{ID: "outlet", From: 1, To: 2, Law: Emitter{1e-5, 0.5}, OneWay: true},
		},
	}
	res := solveNew(t, p)
	for k, q := range res.Flow {
		if math.Abs(q) > 1e-13 {
			t.Errorf("%s carries %g", p.Links[k].ID, q)
		}
	}
	if h := res.Head[1]; h < 2-1e-9 || h > 3+1e-9 {
		t.Errorf("the bar stands at %g m, want between shut-off 2 and the outlet 3", h)
	}
}

// Tees against the published rows: for each of Gardel's legs, a circuit whose
// flows are given must show K V^2/2g between the legs (values at q = 0.3, from
// the formulas of Gardel 1957, retyped as numbers).
func TestTeeLegs(t *testing.T) {
	const total, bore = 1e-4, 0.012
	v := Velocity(total, bore)
	head := v * v / (2 * hydraulics.G)
	for _, c := range []struct {
		name         string
		run, run2, b float64 // flows into the tee
		kRun2, kB    float64
	}{
		{"dividing", total, -0.7 * total, -0.3 * total, 0.0042, 0.7505},
		{"combining", 0.7 * total, -total, 0.3 * total, 0, 0.1328 * -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			tee := Tee{Runs: [2]TeeLeg{{0, 1}, {1, -1}}, Branch: TeeLeg{2, -1}, Bore: bore, Factor: 1}
			flow := []float64{c.run, -c.run2, -c.b}
			extra, stiff := make([]float64, 3), make([]float64, 3)
			tee.Add(flow, extra, stiff)
			want := []float64{0, c.kRun2 * head, c.kB * head}
			if c.name == "combining" {
				// The combined flow leaves by the second run; losses stand on
				// the first run (0.2805) and, flowing in against its link,
				// on the branch (-0.1328).
				want = []float64{0.2805 * head, 0, 0.1328 * head}
			}
			for k := range want {
				if math.Abs(extra[k]-want[k]) > 1e-9*head {
					t.Errorf("link %d: %g m, want %g", k, extra[k], want[k])
				}
			}
		})
	}
}

// Change is the derivative of Add: compared with central differences.
func TestCouplingChange(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 43))
	taps := Taps{Outlet: []int{3, 4}, Left: []int{-1, 0}, Right: []int{0, 1}, Bore: 0.012, Share: 1}
	for range 500 {
		tee := Tee{Runs: [2]TeeLeg{{0, 1}, {1, -1}}, Branch: TeeLeg{2, -1}, Bore: 0.01, Factor: 1.3}
		flow := make([]float64, 5)
		dir := make([]float64, 5)
		flow[0], flow[2] = r.NormFloat64()*1e-4, r.NormFloat64()*1e-4
		flow[1] = flow[0] - flow[2] // balanced, so that shares stay within 0 and 1
		dir[0], dir[2] = r.NormFloat64(), r.NormFloat64()
		dir[1] = dir[0] - dir[2]
		for _, c := range []Coupling{tee, taps} {
			const h = 1e-9
			at := func(s float64) []float64 {
				q := slices.Clone(flow)
				for k := range q {
					q[k] += s * dir[k]
				}
				e := make([]float64, 5)
				c.Add(q, e, make([]float64, 5))
				return e
			}
			up, down, got := at(h), at(-h), make([]float64, 5)
			c.Change(flow, dir, got)
			for k := range got {
				want := (up[k] - down[k]) / (2 * h)
				if math.Abs(got[k]-want) > 1e-4*max(1, math.Abs(want)) {
					t.Fatalf("%T link %d at %v: %g, difference quotient %g", c, k, flow, got[k], want)
				}
			}
		}
	}
}
