package plate

import (
	"errors"
	"math"
)

// ErrSingular reports equations that cannot be solved to the digits at hand:
// supports that barely hold the pane.
var ErrSingular = errors.New("the supports barely hold the pane: its equations are singular")

// startStretch is the bow, in thicknesses, from which the stretching of the
// middle plane is counted. In a pane held all round its tension adds to that of
// bending before it takes load off: at a bow of 0.13 thicknesses bending alone
// is 1.7 % short in stress, in proportion to the bow. From here on it would be
// more than 0.3 %.
const startStretch = 0.02

// Solve computes a pane under a load. The error says what cannot be computed
// and why; the pane then has no result. On the usual mesh, bow and stress are
// within 0.5 % of thin plate theory for panes whose edges are free or held along
// their length; BowError and StressError judge the case at hand. Beside a
// clamped edge that meets a free one the theory has no finite stress, and
// StressError shows it.
func Solve(p *Pane, l Load, s Settings) (*Result, error) {
	if err := Validate(p, l); err != nil {
		return nil, err
	}
	refine := s.Refine
	if refine <= 0 {
		refine = 2
	}
	fine, err := solve(p, l, refine, s.Linear, false)
	if err != nil || refine == 1 {
		return fine, err
	}
	coarse, err := solve(p, l, refine/2, fine.Status == Linear, true)
	if err != nil {
		return nil, err
	}
	change := func(u, v float64) float64 {
		if u == v {
			return 0
		}
		return math.Abs(u-v) / math.Abs(u)
	}
	fine.BowError = change(fine.Bow.Value, coarse.Bow.Value)
	fine.StressError = change(fine.Stress.Value, coarse.Stress.Value)
	var largest, moved float64
	for i := range fine.Edges {
		largest = max(largest, fine.Edges[i].Peak, -fine.Edges[i].Least)
		moved = max(moved, math.Abs(fine.Edges[i].Peak-coarse.Edges[i].Peak), math.Abs(fine.Edges[i].Least-coarse.Edges[i].Least))
	}
	if largest > 0 {
		fine.ReactionError = moved / largest
	}
	return fine, nil
}

// solve computes a pane on one mesh; stretching is left out if linear, and
// counted however small the bow if large.
func solve(p *Pane, l Load, refine int, linear, large bool) (*Result, error) {
	m := newModel(p, l, refine)
	m.matrix = m.assemble(&m.free, p.Rigidity(), p.Poisson, m.springs)
	if m.matrix == nil {
		return nil, ErrSingular
	}
	m.bend()
	r := &Result{m: m, Load: m.total}
	if m.x.mirror {
		r.Load *= 2
	}
	even := m.x.evenPoints(4)
	up := m.y.evenPoints(4)
	r.peaks(even, up)
	r.BendingBow, r.BendingStress = r.Bow.Value, r.Stress.Value
	if !linear && (large || math.Abs(r.Bow.Value) > startStretch*p.Thickness) {
		alone, whole := append([]float64(nil), m.bent...), m.whole
		r.Status = Stalled
		if m.stretch = newStretch(m); m.stretch != nil {
			out := m.stretch.solve()
			r.Iterations, r.Residual = out.iterations, out.residual
			if out.ok {
				r.Status = Stretched
			}
		}
		if r.Status == Stalled {
			m.bent, m.whole, m.stress = alone, whole, nil
			m.move(0, alone)
		}
		r.peaks(even, up)
	}
	m.reactions(r)
	m.elastic(r)
	return r, nil
}

// bend solves for bending alone, and twice more for what rounding left over.
func (m *model) bend() {
	rest := append([]float64(nil), m.force...)
	b, step := make([]float64, m.free.n), make([]float64, len(m.force))
	for range 3 {
		m.free.gather(rest, b)
		m.matrix.solve(b)
		m.free.scatter(b, step)
		m.move(1, step)
		clear(rest)
		m.forces(rest)
		for i := range rest {
			rest[i] = m.force[i] - rest[i]
		}
	}
}
