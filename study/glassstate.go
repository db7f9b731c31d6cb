package study

import (
	"math"
	"sync"

	"rillwright/structure"
	"rillwright/structure/plate"
)

// Ask says in which state a pane is wanted. The zero Ask is the likely one with the
// pool full.
type Ask struct {
	// Side is the end of what is known roughly: thickness, strips, plastics; -1 thin
	// and soft, 1 thick and stiff.
	Side int
	// Thickness, if over 0, is that of solid glass, as it measures, in place of the
	// pane's own.
	Thickness float64
	// Modulus and Strip are further ends of plastics and of strips alone.
	Modulus, Strip int
	Running        bool
	// Unheld leaves out every strip and takes rimmed edges as free, Firm takes them as
	// bonded.
	Unheld, Firm bool
	// Knocked adds what somebody does who pushes, for some seconds: at an edge that is
	// not bonded, the first of them or the one Push further on, else at the middle.
	Knocked bool
	Push    int
	// Drained leaves only the water on the pane's other side.
	Drained bool
	// Coarse asks for an estimate on the coarse mesh, whatever that costs.
	Coarse bool
}

// A knock is 250 N on a square of 100 mm, at the middle of a free edge or of the
// pane, for 3 s: somebody who leans on it or slips. Assumed, no source.
const (
	KnockForce   = 250.0 // N
	KnockSize    = 0.1   // m
	KnockSeconds = 3.0
)

// What the coarse mesh may cost of bow and stress, and of the largest line load, as
// shares. All of a pane's states are solved on one mesh, so that they differ by what
// they are alone.
const (
	meshError = 0.003
	lineError = 0.02
)

// states solves a pane in the states that are always shown: on the coarse mesh if
// bending alone on a mesh of twice as many parts shows that to be good enough.
func (p *GlassPane) states(weight float64) error {
	if p.Lacks != "" || p.Flat {
		return nil
	}
	p.weight, p.refine = weight, 2
	pane, load := p.pose(Ask{Side: -1})
	check, err := plate.Solve(&pane, load, plate.Settings{Linear: true})
	if err != nil {
		return err
	}
	if max(check.BowError, check.StressError) < meshError && check.ReactionError < lineError {
		p.refine = 1
	}
	for _, j := range []struct {
		to  *PaneState
		ask Ask
	}{
		{&p.Brim[0], Ask{Side: -1}},
		{&p.Brim[1], Ask{}},
		{&p.Brim[2], Ask{Side: 1}},
		{&p.Running, Ask{Running: true}},
		{&p.Knock, Ask{Side: -1, Knocked: true}},
		{&p.Drained, Ask{Side: -1, Drained: true}},
	} {
		if j.ask.Drained && p.Outer == 0 {
			continue
		}
		if *j.to, err = p.State(j.ask); err != nil {
			return err
		}
		j.to.Error = check.StressError
	}
	for k := 1; k < len(p.freeEdges()); k++ {
		st, err := p.State(Ask{Side: -1, Knocked: true, Push: k})
		if err != nil {
			return err
		}
		if st.Error = check.StressError; max(st.Stress, st.EdgeStress) > max(p.Knock.Stress, p.Knock.EdgeStress) {
			p.Knock = st
		}
	}
	return nil
}

// State solves a pane in a state. The pane must come from Glass.
func (p *GlassPane) State(a Ask) (PaneState, error) {
	r, err := p.solve(a)
	if err != nil {
		return PaneState{}, err
	}
	return p.read(r, a), nil
}

// HeldTop returns the brim-full state of a pane if its top edge were held, which
// is what tables of tank sides tell; weight is that of the water, N/m3.
func (p *GlassPane) HeldTop(weight float64) (PaneState, error) {
	q := *p
	q.Holds[plate.Top], q.weight = Bonded, weight
	q.Strips = nil
	return q.State(Ask{Coarse: true})
}

// OfThickness returns the brim-full state of a pane of solid glass of another
// thickness, strips as soft as they may be.
func (p *GlassPane) OfThickness(t, weight float64) (PaneState, error) {
	q := *p
	q.weight, q.refine = weight, 2
	return q.State(Ask{Thickness: t, Side: -1})
}

// solid is the thickness of solid glass that bows as the pane does, and what its
// stress is to be multiplied by.
func (p *GlassPane) solid(a Ask) (t, times float64) {
	switch {
	case a.Thickness > 0:
		return a.Thickness, 1
	case p.Plies == 0:
		return p.Thickness.At(a.Side), 1
	}
	plies := make([]float64, p.Plies)
	for i := range plies {
		plies[i] = p.Ply.At(a.Side)
	}
	bow, stress := structure.LayeredThickness(0, plies...)
	return bow, bow * bow / (stress * stress)
}

// material returns the figures of the pane, those of glass if nobody has looked:
// it bends like glass, whatever it bears.
func (p *GlassPane) material() structure.Material {
	m, ok := structure.MaterialOf(p.Kind)
	if !ok {
		m, _ = structure.MaterialOf(structure.Annealed)
	}
	return m
}

// young is the modulus for a state. Glass has one: the low end of its band, which
// is what its standard says.
func (p *GlassPane) young(a Ask) float64 {
	m := p.material()
	switch {
	case !p.IsPlastic():
		return m.Young.Likely
	case a.Knocked:
		return m.Young.At(min(a.Side+a.Modulus, 1))
	}
	return m.Creep.At(max(-1, min(a.Side+a.Modulus, 1)))
}

// pose makes a state into a pane and its load.
func (p *GlassPane) pose(a Ask) (plate.Pane, plate.Load) {
	t, _ := p.solid(a)
	m := p.material()
	pane := plate.Pane{Width: p.Width, Height: p.Height, Thickness: t, Young: p.young(a), Poisson: m.Poisson.Likely, Beds: p.Pads}
	for s, h := range p.Holds {
		if h == Bonded && len(p.Pads) == 0 || h == Rimmed && a.Firm {
			pane.Edges[s] = plate.Held
		}
	}
	if !a.Unheld {
		pane.Braces, _ = p.springs(&pane, a)
	}
	load := plate.Load{Inner: p.Depth[1], Outer: p.Outer, Weight: p.weight}
	switch {
	case a.Drained:
		load.Inner = 0
	case a.Running:
		load.Inner = p.Depth[0]
	}
	if p.Lying {
		load = plate.Load{Uniform: p.weight*load.Inner + p.Stands}
	}
	if a.Knocked {
		load.Patches = []plate.Patch{p.knock(a.Push)}
	}
	return pane, load
}

func (p *GlassPane) solve(a Ask) (*plate.Result, error) {
	pane, load := p.pose(a)
	// Plies that slide on their film stretch as they like: bending alone is cautious.
	s := plate.Settings{Refine: p.refine, Linear: p.Plies > 0 && a.Thickness == 0}
	if a.Coarse {
		s.Refine = 1
	}
	return plate.Solve(&pane, load, s)
}

// knock is where somebody pushes: at the middle of free edge number push, else of
// the pane.
func (p *GlassPane) knock(push int) plate.Patch {
	wide, high := min(KnockSize, p.Width), min(KnockSize, p.Height)
	x, y := (p.Width-wide)/2, (p.Height-high)/2
	if free := p.freeEdges(); push < len(free) {
		switch free[push] {
		case plate.Top:
			y = p.Height - high
		case plate.Bottom:
			y = 0
		case plate.Left:
			x = 0
		case plate.Right:
			x = p.Width - wide
		}
	}
	return plate.Patch{X0: x, X1: x + wide, Y0: y, Y1: min(y+high, p.Height), Force: KnockForce}
}

// read takes a state from a solution.
func (p *GlassPane) read(r *plate.Result, a Ask) PaneState {
	t, times := p.solid(a)
	st := PaneState{
		Stress: r.Stress.Value * times, X: r.Stress.X, Y: r.Stress.Y, Bow: math.Abs(r.Bow.Value),
		Side: r.Edges[plate.Left], Edges: r.Edges, Corners: r.Corners, Beds: r.Beds,
	}
	for s, h := range p.Holds {
		if h == Bonded || h == Rimmed && a.Firm {
			continue
		}
		const parts = 24
		for i := range parts + 1 {
			along := float64(i) / parts
			x, y := along*p.Width, along*p.Height
			switch plate.Side(s) {
			case plate.Bottom:
				y = 0
			case plate.Top:
				y = p.Height
			case plate.Left:
				x = 0
			case plate.Right:
				x = p.Width
			}
			q := r.At(x, y)
			st.EdgeBow = max(st.EdgeBow, math.Abs(q.Deflection))
			st.EdgeStress = max(st.EdgeStress, times*max(q.Outer, q.Inner))
		}
	}
	poisson := p.material().Poisson.Likely
	for i := range p.Openings {
		st.Openings = append(st.Openings, times*p.beside(r, i, t, poisson))
	}
	st.Braces = p.reactions(r, a)
	return st
}

// inParallel calls f(0) to f(n-1), some of them side by side. Results are stored by
// index, so that the order changes nothing.
func inParallel(n int, f func(i int)) {
	var wg sync.WaitGroup
	next := make(chan int, n)
	for i := range n {
		next <- i
	}
	close(next)
	const most = 8
	for range min(n, most) {
		wg.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	wg.Wait()
}
