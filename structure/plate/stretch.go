package plate

import "math"

// stretch computes how the middle plane of a bowed pane carries load. With F
// Airy's function of the membrane forces, N_x = F_yy, N_y = F_xx, N_xy = -F_xy
// (N/m), and edges free to slide, so that F and its slope are 0 along them, von
// Karman's equations are those of least energy of
//
//	bending(w) + 1/(2 E t) integral (lap F)^2 - load(w),
//	lap lap F = E t (w_xy^2 - w_xx w_yy)
//
// Source: Timoshenko & Woinowsky-Krieger 1959 (from memory). The same splines
// serve for both; the energy never grows from step to step.
type stretch struct {
	m      *model
	free   numbering
	matrix *band // of lap lap / (E t)

	xs, ys *samples
	u, v   [kinds][]float64 // derivatives of two fields at the Gauss points
	f, f1  []float64        // Airy's function there, and its change
	part   [kinds][]float64

	unknowns []float64
}

func newStretch(m *model) *stretch {
	s := &stretch{m: m, xs: m.x.gaussPoints(), ys: m.y.gaussPoints()}
	s.free = number(m.x, m.y, [4]Support{Clamped, Clamped, Clamped, Clamped})
	s.matrix = m.assemble(&s.free, 1/(m.pane.Young*m.pane.Thickness), 0, nil)
	if s.matrix == nil {
		return nil
	}
	n := len(s.xs.at) * len(s.ys.at)
	for k := dxx; k < kinds; k++ {
		s.u[k], s.v[k], s.part[k] = make([]float64, n), make([]float64, n), make([]float64, n)
	}
	s.part[value] = make([]float64, n)
	s.f, s.f1 = make([]float64, n), make([]float64, n)
	s.unknowns = make([]float64, s.free.n)
	return s
}

// airy computes the function F of rhs(G) = -f * integral G [u, v] with
// [u, v] = u_xx v_yy + u_yy v_xx - 2 u_xy v_xy, from derivatives at the Gauss
// points. Both F and the right side are fields.
func (s *stretch) airy(f float64, u, v *[kinds][]float64, rhs, out []float64) {
	in := s.part[value]
	for i, wx := range s.xs.weight {
		at := i * len(s.ys.at)
		for j, wy := range s.ys.weight {
			k := at + j
			in[k] = -f * wx * wy * (u[dxx][k]*v[dyy][k] + u[dyy][k]*v[dxx][k] - 2*u[dxy][k]*v[dxy][k])
		}
	}
	s.m.testValues(in, s.xs, s.ys, rhs)
	s.free.gather(rhs, s.unknowns)
	s.matrix.solve(s.unknowns)
	s.free.scatter(s.unknowns, out)
}

// push sets out to -integral F [u, test function], the force of the membrane on
// each function, for derivatives of u at the Gauss points.
func (s *stretch) push(airy []float64, u *[kinds][]float64, out []float64) {
	s.m.values(airy, s.xs, s.ys, s.f)
	in := [kinds][]float64{dxx: s.part[dxx], dyy: s.part[dyy], dxy: s.part[dxy]}
	for i, wx := range s.xs.weight {
		at := i * len(s.ys.at)
		for j, wy := range s.ys.weight {
			k := at + j
			f := -wx * wy * s.f[k]
			in[dxx][k], in[dyy][k], in[dxy][k] = f*u[dyy][k], f*u[dxx][k], -2*f*u[dxy][k]
		}
	}
	s.m.test(&in, s.xs, s.ys, out)
}

// pushBoth sets out to the sum of what push gives for f with the derivatives v,
// and for the function airy with u; f is left as push left it.
func (s *stretch) pushBoth(airy, out []float64) {
	s.m.values(airy, s.xs, s.ys, s.f1)
	in := [kinds][]float64{dxx: s.part[dxx], dyy: s.part[dyy], dxy: s.part[dxy]}
	u, v := &s.u, &s.v
	for i, wx := range s.xs.weight {
		at := i * len(s.ys.at)
		for j, wy := range s.ys.weight {
			k := at + j
			f0, f1 := -wx*wy*s.f[k], -wx*wy*s.f1[k]
			in[dxx][k], in[dyy][k], in[dxy][k] = f0*v[dyy][k]+f1*u[dyy][k], f0*v[dxx][k]+f1*u[dxx][k], -2*(f0*v[dxy][k]+f1*u[dxy][k])
		}
	}
	s.m.test(&in, s.xs, s.ys, out)
}

// outcome is how the equations with stretching were solved.
type outcome struct {
	ok         bool
	iterations int
	residual   float64
}

// solve moves the bending solution m.w to the one with stretching, and sets
// m.stress. Newton's method; each step by conjugate gradients with the matrix of
// bending as preconditioner, its length by the exact minimum of the energy, a
// polynomial of degree four along the step.
func (s *stretch) solve() outcome {
	m := s.m
	n, fields := m.free.n, len(m.w)
	vec := func(n int) []float64 { return make([]float64, n) }
	g, z, p, q, d, r := vec(n), vec(n), vec(n), vec(n), vec(n), vec(n)
	step, force, pushed := vec(fields), vec(fields), vec(fields)
	f0, f1, f2 := vec(fields), vec(fields), vec(fields)
	r0, r1, r2 := vec(fields), vec(fields), vec(fields)

	// hessian sets out to the second derivative of the energy times d, with f1
	// the change of F that goes with it; u holds the derivatives of w and s.f the
	// values of F.
	hessian := func(d, out []float64) {
		m.free.scatter(d, step)
		clear(force)
		m.apply(step, force)
		m.evaluate(step, s.xs, s.ys, &s.v)
		s.airy(1, &s.u, &s.v, r1, f1)
		s.pushBoth(f1, pushed)
		add(force, pushed)
		m.free.gather(force, out)
	}
	// Bending alone overshoots by far where stretching rules. Along it the best
	// length is known in closed form.
	m.evaluate(m.bent, s.xs, s.ys, &s.u)
	s.airy(0.5, &s.u, &s.u, r0, f0)
	work := dot(m.force, m.w)
	scale := quarticStep([5]float64{0, -work, work / 2, 0, dot(f0, r0) / 2})
	copy(step, m.w)
	m.move(scale-1, step)
	// Rounding may leave somewhat more than the tolerance; what no longer falls
	// and is below enough is as good.
	const tolerance, enough, most = 1e-10, 1e-8, 40
	out := outcome{residual: math.Inf(1)}
	for ; out.iterations < most; out.iterations++ {
		m.evaluate(m.bent, s.xs, s.ys, &s.u)
		s.airy(0.5, &s.u, &s.u, r0, f0)
		clear(force)
		m.forces(force)
		for i := range force {
			force[i] -= m.force[i]
		}
		bending := dot(force, m.w) + dot(m.force, m.w)
		s.push(f0, &s.u, pushed)
		add(force, pushed)
		m.free.gather(force, g)
		copy(z, g)
		m.matrix.solve(z)
		gz := dot(g, z)
		before := out.residual
		out.residual = math.Sqrt(max(gz, 0) / bending)
		if out.residual <= tolerance || out.residual <= enough && out.residual > before/2 {
			out.ok = true
			break
		}
		if math.IsNaN(out.residual) {
			break
		}
		// Conjugate gradients for H d = -g, only as well as the step deserves.
		forcing := math.Max(min(0.1, out.residual), 1e-7)
		clear(d)
		for i := range r {
			r[i] = -g[i]
			p[i] = -z[i]
		}
		rz := gz
		for range 60 {
			hessian(p, q)
			curve := dot(p, q)
			if !(curve > 0) { // the energy falls along p without end, as seen from here
				if dot(d, d) == 0 {
					copy(d, p)
				}
				break
			}
			alpha := rz / curve
			for i := range d {
				d[i] += alpha * p[i]
				r[i] -= alpha * q[i]
			}
			copy(z, r)
			m.matrix.solve(z)
			next := dot(r, z)
			if next <= forcing*forcing*gz {
				break
			}
			for i := range p {
				p[i] = z[i] + next/rz*p[i]
			}
			rz = next
		}
		// The energy along the step.
		m.free.scatter(d, step)
		clear(force)
		m.apply(step, force)
		m.evaluate(step, s.xs, s.ys, &s.v)
		s.airy(1, &s.u, &s.v, r1, f1)
		s.airy(0.5, &s.v, &s.v, r2, f2)
		length := quarticStep([5]float64{
			0, dot(g, d), (dot(force, step) + dot(f1, r1) + 2*dot(f2, r0)) / 2,
			dot(f1, r2), dot(f2, r2) / 2,
		})
		m.move(length, step)
	}
	m.stress = f0
	return out
}

// quarticStep returns the first x > 0 at which a polynomial of degree four, its
// coefficients from that of x^0 up, stops falling. Its slope at 0 must be below
// 0 and its last coefficient not; 1 otherwise.
func quarticStep(c [5]float64) float64 {
	slope := func(x float64) float64 { return c[1] + x*(2*c[2]+x*(3*c[3]+x*4*c[4])) }
	if !(c[1] < 0) {
		return 1
	}
	hi := 1.0
	for slope(hi) < 0 {
		if hi *= 2; hi > 1e6 {
			return 1
		}
	}
	lo := 0.0
	for range 100 {
		x := (lo + hi) / 2
		if x == lo || x == hi {
			break
		}
		if slope(x) < 0 {
			lo = x
		} else {
			hi = x
		}
	}
	return (lo + hi) / 2
}

func add(to, from []float64) {
	for i, v := range from {
		to[i] += v
	}
}
