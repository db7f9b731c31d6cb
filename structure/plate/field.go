package plate

// Kinds of derivative that a field is evaluated for.
const (
	value = iota
	dxx
	dyy
	dxy
	kinds
)

// evaluate computes a field and its second derivatives at all pairs of places;
// out[kind][i*len(ys.at)+j] is at xs.at[i], ys.at[j]. Kinds whose slice is nil
// are left out.
func (m *model) evaluate(field []float64, xs, ys *samples, out *[kinds][]float64) {
	ny := m.y.n
	if out[dxx] == nil && out[dyy] == nil && out[dxy] == nil {
		m.values(field, xs, ys, out[value])
		return
	}
	across := make([]float64, 3*ny) // the field along one line x, by derivative of x
	for i := range xs.at {
		clear(across)
		for r := range order {
			line := field[(xs.first[i]+r)*ny:][:ny]
			s := &xs.shape[i]
			b0, b1, b2 := s[0][r], s[1][r], s[2][r]
			for c, v := range line {
				across[c] += b0 * v
				across[ny+c] += b1 * v
				across[2*ny+c] += b2 * v
			}
		}
		at := i * len(ys.at)
		for j := range ys.at {
			f, s := ys.first[j], &ys.shape[j]
			u0, u1, u2 := (*[order]float64)(across[f:]), (*[order]float64)(across[ny+f:]), (*[order]float64)(across[2*ny+f:])
			var v, xx, yy, xy float64
			for r := range order {
				v += u0[r] * s[0][r]
				xx += u2[r] * s[0][r]
				yy += u0[r] * s[2][r]
				xy += u1[r] * s[1][r]
			}
			for k, d := range [kinds]float64{v, xx, yy, xy} {
				if out[k] != nil {
					out[k][at+j] = d
				}
			}
		}
	}
}

// values is evaluate for the field alone, a third of the work.
func (m *model) values(field []float64, xs, ys *samples, out []float64) {
	ny := m.y.n
	across := make([]float64, ny)
	for i := range xs.at {
		clear(across)
		for r := range order {
			b := xs.shape[i][0][r]
			for c, v := range field[(xs.first[i]+r)*ny:][:ny] {
				across[c] += b * v
			}
		}
		row := out[i*len(ys.at):][:len(ys.at)]
		for j := range row {
			u, s := (*[order]float64)(across[ys.first[j]:]), &ys.shape[j][0]
			row[j] = u[0]*s[0] + u[1]*s[1] + u[2]*s[2] + u[3]*s[3] + u[4]*s[4] + u[5]*s[5]
		}
	}
}

// testValues is test for the values alone.
func (m *model) testValues(in []float64, xs, ys *samples, out []float64) {
	ny := m.y.n
	clear(out)
	across := make([]float64, ny)
	for i := range xs.at {
		clear(across)
		for j, d := range in[i*len(ys.at):][:len(ys.at)] {
			u, s := (*[order]float64)(across[ys.first[j]:]), &ys.shape[j][0]
			for r := range u {
				u[r] += d * s[r]
			}
		}
		for r, b := range xs.shape[i][0] {
			line := out[(xs.first[i]+r)*ny:][:ny]
			for c, v := range across {
				line[c] += b * v
			}
		}
	}
}

// test is the transpose of evaluate for second derivatives: it sets out to the
// sums over all pairs of places of in[kind] times that derivative of each function.
func (m *model) test(in *[kinds][]float64, xs, ys *samples, out []float64) {
	ny := m.y.n
	clear(out)
	across := make([]float64, 3*ny)
	for i := range xs.at {
		clear(across)
		at := i * len(ys.at)
		xx, yy, xy := in[dxx][at:][:len(ys.at)], in[dyy][at:][:len(ys.at)], in[dxy][at:][:len(ys.at)]
		for j := range ys.at {
			f, s := ys.first[j], &ys.shape[j]
			dx, dy, dt := xx[j], yy[j], xy[j]
			u0, u1, u2 := (*[order]float64)(across[f:]), (*[order]float64)(across[ny+f:]), (*[order]float64)(across[2*ny+f:])
			for r := range order {
				u0[r] += dy * s[2][r]
				u1[r] += dt * s[1][r]
				u2[r] += dx * s[0][r]
			}
		}
		s := &xs.shape[i]
		for r := range order {
			line := out[(xs.first[i]+r)*ny:][:ny]
			b0, b1, b2 := s[0][r], s[1][r], s[2][r]
			for c := range line {
				line[c] += b0*across[c] + b1*across[ny+c] + b2*across[2*ny+c]
			}
		}
	}
}

// at computes a field and its second derivatives at one place of the modelled part.
func (m *model) at(field []float64, x, y float64) [kinds]float64 {
	u, v := m.x.place(x), m.y.place(y)
	return m.sum(field, &u, &v)
}

// spot is a place on an axis and the functions there.
type spot struct {
	at    float64
	first int
	shape shape
}

func (a *axis) place(x float64) (p spot) {
	s := a.span(x)
	p.at, p.first = x, a.first[s]
	a.shape(s, x, &p.shape)
	return p
}

// sum computes a field and its second derivatives where two places meet.
func (m *model) sum(field []float64, x, y *spot) (out [kinds]float64) {
	bx, by := &x.shape, &y.shape
	for r := range order {
		line := field[(x.first+r)*m.y.n+y.first:][:order]
		var u [3]float64
		for c, v := range line {
			u[0] += v * by[0][c]
			u[1] += v * by[1][c]
			u[2] += v * by[2][c]
		}
		out[value] += bx[0][r] * u[0]
		out[dxx] += bx[2][r] * u[0]
		out[dyy] += bx[0][r] * u[2]
		out[dxy] += bx[1][r] * u[1]
	}
	return out
}
