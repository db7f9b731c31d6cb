package plate

import "slices"

// elastic fills in what braces and beds take, stiffness times deflection. As
// these forces are in the equations themselves, they add up with those of the
// edges.
func (m *model) elastic(r *Result) {
	p := &m.pane
	r.Braces, r.Beds = make([]Reaction, len(p.Braces)), make([]BedReaction, len(p.Beds))
	for i, b := range p.Braces {
		k := stiffness(p, b)
		vx, vy := make([]float64, m.x.n), make([]float64, m.y.n)
		switch b.Side {
		case Bottom, Top:
			m.stretchOfX(vx, b.From, b.To)
			vy[0] = 1
			if b.Side == Top {
				vy[0], vy[m.y.n-1] = 0, 1
			}
		default:
			m.y.addLoad(vy, b.From, b.To, 1, 0)
			if b.Side == Left || m.x.mirror {
				vx[0] = 1
			} else {
				vx[m.x.n-1] = 1
			}
		}
		q := &r.Braces[i]
		q.Total = k * m.weighted(vx, vy)
		q.Mean = q.Total / (b.To - b.From)
		const parts = 64
		for j := range parts + 1 {
			at := b.From + (b.To-b.From)*float64(j)/parts
			v := k * m.deflection(p.point(b.Side, at))
			if j == 0 || v > q.Peak {
				q.Peak, q.At = v, at
			}
			if j == 0 || v < q.Least {
				q.Least = v
			}
		}
	}
	for i, b := range p.Beds {
		vx, vy := make([]float64, m.x.n), make([]float64, m.y.n)
		m.stretchOfX(vx, b.X0, b.X1)
		m.y.addLoad(vy, b.Y0, b.Y1, 1, 0)
		q := &r.Beds[i]
		q.Total = b.Stiffness * m.weighted(vx, vy)
		const parts = 32
		v := make([]float64, (parts+1)*(parts+1))
		m.values(m.w, m.x.places(b.X0, b.X1, parts, m.fold), m.y.places(b.Y0, b.Y1, parts, nil), v)
		q.Peak, q.Least = b.Stiffness*slices.Max(v), b.Stiffness*slices.Min(v)
	}
}

// stretchOfX adds to out the integrals of the functions of x over a stretch of
// the whole pane.
func (m *model) stretchOfX(out []float64, from, to float64) {
	m.x.addLoad(out, from, to, 1, 0)
	if w := m.pane.Width; m.x.mirror {
		m.x.addLoad(out, w-to, w-from, 1, 0)
	}
}

// weighted returns the sum of the deflection's coefficients, each times the
// factors of its two functions.
func (m *model) weighted(vx, vy []float64) float64 {
	sum := 0.0
	for a, u := range vx {
		if u != 0 {
			sum += u * dot(vy, m.w[a*m.y.n:(a+1)*m.y.n])
		}
	}
	return sum
}

// deflection returns w at a place of the whole pane, m.
func (m *model) deflection(x, y float64) float64 {
	x = m.fold(x)
	return m.at(m.w, x, y)[value]
}

// fold returns where a place across the pane lies in its modelled part.
func (m *model) fold(x float64) float64 {
	if m.x.mirror && x > m.x.length() {
		x = m.pane.Width - x
	}
	return x
}
