package plate

import "math"

// Point is the state of a pane at one place.
type Point struct {
	Deflection float64 // m
	// Bending and twisting moments, N m on each metre; positive ones pull at the
	// outer face.
	Mx, My, Mxy float64
	// Membrane forces, N on each metre; 0 with bending alone.
	Nx, Ny, Nxy float64
	// Outer and Inner are the largest principal stresses at the two faces, Pa.
	// Tension is positive; the value is below 0 where a face is pressed all round.
	Outer, Inner float64
}

// At returns the state at a place of the pane, x and y in m from its lower left
// corner. Places outside count as the nearest inside. Moments are
//
//	M_x = -D (w_xx + nu w_yy), M_y alike, M_xy = -D (1 - nu) w_xy
//
// and stresses N/t +- 6 M/t^2 (Timoshenko & Woinowsky-Krieger 1959, from
// memory).
func (r *Result) At(x, y float64) Point {
	m := r.m
	x, y = min(max(x, 0), m.pane.Width), min(max(y, 0), m.pane.Height)
	flip := 1.0
	if u := m.fold(x); u != x {
		x, flip = u, -1
	}
	u, v := m.x.place(x), m.y.place(y)
	return m.here(&u, &v, flip)
}

// here is the state where two places of the modelled part meet; flip is -1 for its
// mirror image.
func (m *model) here(x, y *spot, flip float64) Point {
	f := m.sum(m.w, x, y)
	var n [kinds]float64
	if m.stress != nil {
		n = m.sum(m.stress, x, y)
	}
	f[dxy] *= flip
	n[dxy] *= flip
	return m.point(&f, &n)
}

// point turns derivatives of w and of Airy's function into forces and stresses.
func (m *model) point(f, n *[kinds]float64) Point {
	p := &m.pane
	d, nu := p.Rigidity(), p.Poisson
	q := Point{
		Deflection: f[value],
		Mx:         -d * (f[dxx] + nu*f[dyy]), My: -d * (f[dyy] + nu*f[dxx]), Mxy: -d * (1 - nu) * f[dxy],
		Nx: n[dyy], Ny: n[dxx], Nxy: -n[dxy],
	}
	b, t := 6/(p.Thickness*p.Thickness), 1/p.Thickness
	q.Outer = principal(t*q.Nx+b*q.Mx, t*q.Ny+b*q.My, t*q.Nxy+b*q.Mxy)
	q.Inner = principal(t*q.Nx-b*q.Mx, t*q.Ny-b*q.My, t*q.Nxy-b*q.Mxy)
	return q
}

// principal returns the larger principal value of a plane stress.
func principal(x, y, xy float64) float64 {
	return (x+y)/2 + math.Hypot((x-y)/2, xy)
}

// peaks looks for the largest bow and stress: at a grid of places, then in
// ever smaller steps from the best.
func (r *Result) peaks(xs, ys *samples) {
	m := r.m
	count := len(xs.at) * len(ys.at)
	var w, n [kinds][]float64
	buffer := make([]float64, 2*int(kinds)*count)
	cut := func() (out []float64) {
		out, buffer = buffer[:count], buffer[count:]
		return out
	}
	for k := range w {
		w[k] = cut()
	}
	m.evaluate(m.w, xs, ys, &w)
	if m.stress != nil {
		for k := range n {
			n[k] = cut()
		}
		m.evaluate(m.stress, xs, ys, &n)
	}
	bow, stress := -1.0, math.Inf(-1)
	var bowAt, stressAt int
	for i := range count {
		var f, g [kinds]float64
		for k := range f {
			f[k] = w[k][i]
			if m.stress != nil {
				g[k] = n[k][i]
			}
		}
		p := m.point(&f, &g)
		if v := math.Abs(p.Deflection); v > bow {
			bow, bowAt = v, i
		}
		if v := max(p.Outer, p.Inner); v > stress {
			stress, stressAt = v, i
		}
	}
	step := func(s *samples, i int) float64 {
		return max(s.at[min(i+1, len(s.at)-1)]-s.at[i], s.at[i]-s.at[max(i-1, 0)])
	}
	climb := func(i int, height func(Point) float64) Peak {
		ix, iy := i/len(ys.at), i%len(ys.at)
		return r.climb(xs.at[ix], ys.at[iy], step(xs, ix)/2, step(ys, iy)/2, height)
	}
	r.Bow = climb(bowAt, func(p Point) float64 { return math.Abs(p.Deflection) })
	r.Bow.Value = r.At(r.Bow.X, r.Bow.Y).Deflection
	r.Stress = climb(stressAt, func(p Point) float64 { return max(p.Outer, p.Inner) })
	p := r.At(r.Stress.X, r.Stress.Y)
	r.Inner = p.Inner > p.Outer
}

// climb walks to a place from which no step leads higher, halving the steps.
func (r *Result) climb(x, y, dx, dy float64, height func(Point) float64) Peak {
	m := r.m
	px, py := m.x.place(x), m.y.place(y)
	best := height(m.here(&px, &py, 1))
	// Rounding must not draw the walk away from where it stands.
	better := func(h float64) bool { return h > best+1e-12*math.Abs(best) }
	for range 12 {
		moved := false
		for _, d := range [4][2]float64{{dx, 0}, {-dx, 0}, {0, dy}, {0, -dy}} {
			if d[0] != 0 {
				p := m.x.place(min(max(px.at+d[0], 0), m.x.length()))
				if h := height(m.here(&p, &py, 1)); better(h) {
					best, px, moved = h, p, true
				}
				continue
			}
			p := m.y.place(min(max(py.at+d[1], 0), m.pane.Height))
			if h := height(m.here(&px, &p, 1)); better(h) {
				best, py, moved = h, p, true
			}
		}
		if !moved {
			dx, dy = dx/2, dy/2
		}
	}
	return Peak{best, px.at, py.at}
}
