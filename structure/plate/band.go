package plate

import "math"

// band is a symmetric matrix whose entries lie within reach of the diagonal,
// lower half by rows, and later its Cholesky factor.
type band struct {
	n, reach int
	a        []float64 // entry (i, j), i-reach <= j <= i, at [i*(reach+1) + j-i+reach]
}

func newBand(n, reach int) *band {
	return &band{n, reach, make([]float64, n*(reach+1))}
}

// row returns entries i-reach to i of a row.
func (m *band) row(i int) []float64 {
	w := m.reach + 1
	return m.a[i*w : (i+1)*w]
}

// factor replaces the matrix by its Cholesky factor L, A = L L'. It reports
// false if a pivot is not clearly positive: the matrix is then singular to the
// digits at hand.
func (m *band) factor() bool {
	for i := range m.n {
		ri := m.row(i)
		whole := ri[m.reach]
		for j := max(0, i-m.reach); j < i; j++ {
			rj := m.row(j)
			// Columns that both rows have begin at that of row i.
			from := max(0, i-m.reach)
			u := ri[from-i+m.reach : j-i+m.reach]
			v := rj[from-j+m.reach : m.reach]
			ri[j-i+m.reach] = (ri[j-i+m.reach] - dot(u, v)) / rj[m.reach]
		}
		u := ri[:m.reach]
		pivot := whole - dot(u, u)
		if !(pivot > 1e-13*whole) || math.IsInf(pivot, 0) {
			return false
		}
		ri[m.reach] = math.Sqrt(pivot)
	}
	return true
}

// solve replaces b by the solution of A x = b, once factored.
func (m *band) solve(b []float64) {
	for i := range m.n {
		r := m.row(i)
		from := max(0, i-m.reach)
		b[i] = (b[i] - dot(r[from-i+m.reach:m.reach], b[from:i])) / r[m.reach]
	}
	for i := m.n - 1; i >= 0; i-- {
		r := m.row(i)
		from := max(0, i-m.reach)
		b[i] /= r[m.reach]
		x := b[i]
		part := b[from:i]
		for k, l := range r[from-i+m.reach : m.reach] {
			part[k] -= l * x
		}
	}
}

// dot has four sums so that a product need not wait for the one before it.
func dot(u, v []float64) float64 {
	v = v[:len(u)]
	var s0, s1, s2, s3 float64
	i := 0
	for ; i+4 <= len(u); i += 4 {
		a, b := u[i:i+4:i+4], v[i:i+4:i+4]
		s0 += a[0] * b[0]
		s1 += a[1] * b[1]
		s2 += a[2] * b[2]
		s3 += a[3] * b[3]
	}
	for ; i < len(u); i++ {
		s0 += u[i] * v[i]
	}
	return (s0 + s1) + (s2 + s3)
}
