package plate

// plane is a movement of the pane as a whole, w = at + x slope and y slope.
type plane struct{ at, across, up float64 }

// part returns the plane through three corners of a field.
func (m *model) part(w []float64) plane {
	ny := m.y.n
	last := (m.x.n - 1) * ny
	return plane{w[0], (w[last] - w[0]) / m.x.length(), (w[ny-1] - w[0]) / m.y.length()}
}

// addPlane adds f times a plane to a field.
func (m *model) addPlane(f float64, p plane, w []float64) {
	for a, x := range m.x.centre {
		for c, y := range m.y.centre {
			w[a*m.y.n+c] += f * (p.at + p.across*x + p.up*y)
		}
	}
}

// move adds f times a step to the deflection.
func (m *model) move(f float64, step []float64) {
	p := m.part(step)
	for i, v := range step {
		m.bent[i] += f * v
	}
	m.addPlane(-f, p, m.bent)
	m.whole.at += f * p.at
	m.whole.across += f * p.across
	m.whole.up += f * p.up
	copy(m.w, m.bent)
	m.addPlane(1, m.whole, m.w)
}

// forces adds to out what the deflection makes: matrix times w on all functions,
// those at supports included.
func (m *model) forces(out []float64) {
	m.bending(m.bent, out)
	m.yielding(m.w, out)
}

// apply adds to out the forces that any field makes.
func (m *model) apply(w, out []float64) {
	bent := m.scratch[1]
	copy(bent, w)
	m.addPlane(-1, m.part(w), bent)
	m.bending(bent, out)
	m.yielding(w, out)
}

func (m *model) bending(w, out []float64) {
	d, nu := m.pane.Rigidity(), m.pane.Poisson
	x, y := &m.xx, &m.yy
	tmp := m.scratch[0]
	m.product(d, x[2], false, y[0], false, w, tmp, out)
	m.product(d, x[0], false, y[2], false, w, tmp, out)
	if nu != 0 {
		m.product(d*nu, x[3], false, y[3], true, w, tmp, out)
		m.product(d*nu, x[3], true, y[3], false, w, tmp, out)
	}
	m.product(2*d*(1-nu), x[1], false, y[1], false, w, tmp, out)
}

func (m *model) yielding(w, out []float64) {
	for _, s := range m.springs {
		m.product(s.k, s.x, false, s.y, false, w, m.scratch[0], out)
	}
}

// product adds f times (matrix of x) w (matrix of y transposed) to out; either
// matrix may be asked for turned over.
func (m *model) product(f float64, x []float64, turnX bool, y []float64, turnY bool, w, tmp, out []float64) {
	nx, ny := m.x.n, m.y.n
	for c := range ny {
		first, last := max(0, c-degree), min(ny-1, c+degree)
		var row [width]float64 // of y, from its first column to its last
		line(y, turnY, c, first, last, &row)
		n := last - first + 1
		for a := range nx {
			sum := 0.0
			for k, v := range w[a*ny+first:][:n] {
				sum += row[k] * v
			}
			tmp[a*ny+c] = sum
		}
	}
	for a := range nx {
		first, last := max(0, a-degree), min(nx-1, a+degree)
		var row [width]float64
		line(x, turnX, a, first, last, &row)
		to := out[a*ny:][:ny]
		for b := first; b <= last; b++ {
			v := f * row[b-first]
			if v == 0 {
				continue
			}
			for c, u := range tmp[b*ny:][:ny] {
				to[c] += v * u
			}
		}
	}
}

// line copies row i of a matrix of one axis, from its first column to its last,
// or of the matrix turned over.
func line(t []float64, turn bool, i, first, last int, out *[width]float64) {
	if !turn {
		copy(out[:], t[i*width+first-i+degree:i*width+last-i+degree+1])
		return
	}
	for j := first; j <= last; j++ {
		out[j-first] = t[j*width+i-j+degree]
	}
}
