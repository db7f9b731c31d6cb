package plate

// model is a pane on one mesh. A field over it is a slice of coefficients, that
// of function a of x times function c of y at [a*ny + c].
type model struct {
	pane Pane
	load Load
	x, y *axis

	// Integrals of products of derivatives 0 0, 1 1, 2 2 and 0 2.
	xx, yy [4][]float64
	force  []float64 // of the load on each function
	total  float64   // N, of the modelled part of the pane

	springs []spring
	free    numbering
	matrix  *band // Cholesky factor for the functions that are free

	// The deflection w, and how it is made up: a plane has no bending, and on a
	// soft support it is so much larger that the bending would drown in its rounding.
	w     []float64
	bent  []float64
	whole plane

	stretch *stretch  // nil with bending alone
	stress  []float64 // coefficients of Airy's stress function, likewise nil

	scratch [2][]float64
}

// spring is an elastic support whose work is a product of two axes.
type spring struct {
	k    float64
	x, y []float64 // products on each axis
}

// newModel lays out a pane. The pane must be valid.
func newModel(p *Pane, l Load, refine int) *model {
	m := &model{pane: *p, load: l}
	m.x, m.y = axes(p, l, refine)
	m.xx, m.yy = m.x.allProducts(), m.y.allProducts()
	m.loads()
	for _, b := range p.Braces {
		m.springs = append(m.springs, m.brace(b))
	}
	for _, b := range p.Beds {
		m.springs = append(m.springs, spring{b.Stiffness, m.x.products(0, 0, b.X0, b.X1), m.y.products(0, 0, b.Y0, b.Y1)})
	}
	m.free = number(m.x, m.y, p.Edges)
	m.w, m.bent = make([]float64, m.x.n*m.y.n), make([]float64, m.x.n*m.y.n)
	for i := range m.scratch {
		m.scratch[i] = make([]float64, m.x.n*m.y.n)
	}
	return m
}

// loads integrates the load over each function.
func (m *model) loads() {
	l, height := m.load, m.pane.Height
	m.force = make([]float64, m.x.n*m.y.n)
	press := func(fx, fy []float64) {
		for a, u := range fx {
			for c, v := range fy {
				m.force[a*m.y.n+c] += u * v
				m.total += u * v
			}
		}
	}
	fx, fy := make([]float64, m.x.n), make([]float64, m.y.n)
	m.x.addLoad(fx, 0, m.x.length(), 1, 0)
	m.y.addLoad(fy, 0, height, l.Uniform, 0)
	m.y.addLoad(fy, 0, min(l.Inner, height), l.Weight*l.Inner, -l.Weight)
	m.y.addLoad(fy, 0, min(l.Outer, height), -l.Weight*l.Outer, l.Weight)
	press(fx, fy)
	for _, q := range l.Patches {
		clear(fx)
		clear(fy)
		m.x.addLoad(fx, q.X0, q.X1, 1, 0) // of a twin beyond the middle the twin's twin is here
		m.y.addLoad(fy, q.Y0, q.Y1, q.pressure(), 0)
		press(fx, fy)
	}
}

func (m *model) brace(b Brace) spring {
	s := spring{k: stiffness(&m.pane, b)}
	end := func(a *axis, last bool) []float64 {
		out := make([]float64, a.n*width)
		i := 0
		if last {
			i = a.n - 1
		}
		out[i*width+degree] = 1 // only the outermost function is not 0 at the end
		return out
	}
	switch b.Side {
	case Bottom, Top:
		s.x, s.y = m.x.products(0, 0, b.From, b.To), end(m.y, b.Side == Top)
	case Left:
		s.x, s.y = end(m.x, false), m.y.products(0, 0, b.From, b.To)
	case Right:
		if m.x.mirror { // its twin on the left stands for it
			s.x = make([]float64, m.x.n*width)
		} else {
			s.x = end(m.x, true)
		}
		s.y = m.y.products(0, 0, b.From, b.To)
	}
	return s
}

// entry returns what functions a, c and b, e (of x, of y) have of the matrix of
// bending, a sum of products of the two axes: the energy of a plate of rigidity d is
//
//	d/2 * integral of w_xx^2 + w_yy^2 + 2 nu w_xx w_yy + 2 (1-nu) w_xy^2
func (m *model) entry(d, nu float64, a, b, c, e int) float64 {
	ab, ce := a*width+b-a+degree, c*width+e-c+degree
	ba, ec := b*width+a-b+degree, e*width+c-e+degree
	x, y := &m.xx, &m.yy
	return d * (x[2][ab]*y[0][ce] + x[0][ab]*y[2][ce] +
		nu*(x[3][ab]*y[3][ec]+x[3][ba]*y[3][ce]) +
		2*(1-nu)*x[1][ab]*y[1][ce])
}

// assemble returns the factored matrix of a plate on the functions of f, with
// the springs if asked; nil if it is singular.
func (m *model) assemble(f *numbering, d, nu float64, springs []spring) *band {
	nx, ny := m.x.n, m.y.n
	k := newBand(f.n, f.reach)
	for a := range nx {
		for b := max(0, a-degree); b <= min(nx-1, a+degree); b++ {
			for c := range ny {
				i := f.of[a*ny+c]
				if i < 0 {
					continue
				}
				row := k.row(i)
				for e := max(0, c-degree); e <= min(ny-1, c+degree); e++ {
					j := f.of[b*ny+e]
					if j < 0 || j > i {
						continue
					}
					v := m.entry(d, nu, a, b, c, e)
					for s := range springs {
						v += springs[s].k * springs[s].x[a*width+b-a+degree] * springs[s].y[c*width+e-c+degree]
					}
					row[j-i+k.reach] += v
				}
			}
		}
	}
	if !k.factor() {
		return nil
	}
	return k
}
