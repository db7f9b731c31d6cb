package network

import (
	"fmt"
	"testing"

	"rillwright/hydraulics"
)

// manifold is a pump, a riser and a bar of n drilled outlets fed at one end,
// its bore grown with n so that the far end still gets water.
func manifold(n int) *Problem {
	const nu = 0.9e-6
	bore := 0.012
	for i := 12; i < n; i *= 2 {
		bore *= 1.45
	}
	p := &Problem{
		Nodes: []Node{{ID: "sump", Fixed: true}, {ID: "pump"}, {ID: "air", Fixed: true, Head: 1}},
	}
	scale := float64(n) * 3e-6
	p.Links = append(p.Links, Link{ID: "pump", From: 0, To: 1, OneWay: true, Guess: scale, Law: pumpLaw{hydraulics.PowerCurve{H0: 2, A: 0.3 / (scale * scale), C: 2}}})
	last := 1
	taps := Taps{Bore: bore, Share: 1}
	for i := range n {
		p.Nodes = append(p.Nodes, Node{ID: fmt.Sprint(i)})
		c := NewConduit(nu)
		c.AddPipe(bore, 0.03, 1.5e-6, 1)
		taps.Left = append(taps.Left, len(p.Links))
		p.Links = append(p.Links, Link{ID: fmt.Sprint("pipe ", i), From: last, To: len(p.Nodes) - 1, Law: c, Guess: scale * float64(n-i) / float64(n)})
		last = len(p.Nodes) - 1
		taps.Outlet = append(taps.Outlet, len(p.Links))
		p.Links = append(p.Links, Link{ID: fmt.Sprint("outlet ", i), From: last, To: 2, OneWay: true, Guess: 3e-6, Law: NewHole(0.002, nu, 1)})
	}
	for i := range n {
		if i+1 < n {
			taps.Right = append(taps.Right, taps.Left[i+1])
		} else {
			taps.Right = append(taps.Right, -1)
		}
	}
	p.Couplings = []Coupling{taps}
	return p
}

// grid is a square mesh of pipes with an outlet at every crossing, fed at a
// corner.
func grid(side int) *Problem {
	const nu = 0.9e-6
	p := &Problem{Nodes: []Node{{ID: "tank", Fixed: true, Head: 2}, {ID: "air", Fixed: true, Head: 0}}}
	pipe := func(i, j int, q float64) {
		c := NewConduit(nu)
		c.AddPipe(0.05, 0.1, 1.5e-6, 1)
		p.Links = append(p.Links, Link{ID: fmt.Sprint(i, " to ", j), From: i, To: j, Law: c, Guess: q})
	}
	at := func(x, y int) int { return 2 + y*side + x }
	for y := range side {
		for x := range side {
			p.Nodes = append(p.Nodes, Node{ID: fmt.Sprint(x, ",", y)})
		}
	}
	pipe(0, at(0, 0), 0)
	for y := range side {
		for x := range side {
			if x+1 < side {
				pipe(at(x, y), at(x+1, y), 0)
			}
			if y+1 < side {
				pipe(at(x, y), at(x, y+1), 0)
			}
			p.Links = append(p.Links, Link{ID: fmt.Sprint("outlet ", x, ",", y), From: at(x, y), To: 1, OneWay: true, Law: NewHole(0.002, nu, 1)})
		}
	}
	return p
}

// benchCold prepares and solves a circuit from nothing.
func benchCold(b *testing.B, p *Problem) {
	b.ReportAllocs()
	steps := 0
	for b.Loop() {
		steps = solveNew(b, p).Iterations
	}
	b.ReportMetric(float64(steps), "steps")
}

func BenchmarkManifold(b *testing.B) {
	for _, n := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) { benchCold(b, manifold(n)) })
	}
}

func BenchmarkGrid(b *testing.B) {
	for _, side := range []int{10, 32, 100} {
		b.Run(fmt.Sprint(side*side), func(b *testing.B) { benchCold(b, grid(side)) })
	}
}

// BenchmarkWarm solves a bar of 27 outlets again after the sump has moved by a
// few millimetres, as a time simulation and a sweep do.
func BenchmarkWarm(b *testing.B) {
	p := manifold(27)
	s, err := NewSolver(p, Settings{})
	if err != nil {
		b.Fatal(err)
	}
	if _, err := s.Solve(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	i, steps := 0, 0
	for b.Loop() {
		i++
		p.Nodes[0].Head = 0.003 * float64(i%5)
		res, err := s.Solve()
		if err != nil || res.Status != Converged {
			b.Fatal(err, res.Status)
		}
		steps = res.Iterations
	}
	b.ReportMetric(float64(steps), "steps")
}

// A Newton step must not allocate.
func TestWarmSolveAllocatesNothing(t *testing.T) {
	p := manifold(27)
	s, err := NewSolver(p, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	i := 0
	solve := func() {
		i++
		p.Nodes[0].Head = 0.01 * float64(i%5)
		if res, err := s.Solve(); err != nil || res.Status != Converged {
			t.Fatal(err, res.Status)
		}
	}
	solve()
	if n := testing.AllocsPerRun(50, solve); n > 0 {
		t.Errorf("%g allocations", n)
	}
}
