package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// triangle turns rows into an upper triangle, one row at a time, by rotations: no
// product of slopes is formed, which would lose half the digits.
type triangle struct {
	n   int
	r   [][]float64 // n rows of n+1, the right-hand side last
	row []float64
	out []float64
}

func newTriangle(n int) *triangle {
	t := &triangle{n: n, r: make([][]float64, n), row: make([]float64, n+1), out: make([]float64, n)}
	for i := range t.r {
		t.r[i] = make([]float64, n+1)
	}
	return t
}

func (t *triangle) clear() {
	for i := range t.r {
		clear(t.r[i])
	}
}

// add rotates t.row into the triangle.
func (t *triangle) add() {
	for k := range t.n {
		if t.row[k] == 0 {
			continue
		}
		h := math.Hypot(t.r[k][k], t.row[k])
		c, s := t.r[k][k]/h, t.row[k]/h
		for i := k; i <= t.n; i++ {
			a, b := t.r[k][i], t.row[i]
			t.r[k][i], t.row[i] = c*a+s*b, c*b-s*a
		}
	}
}

// step returns the damped step: the least squares of J step = -r and of
// sqrt(mu) d step = 0. The slice is used again by the next call.
func (t *triangle) step(j [][]float64, r, w, d []float64, mu float64) []float64 {
	t.clear()
	for i := range j {
		q := math.Sqrt(w[i])
		for k := range t.n {
			t.row[k] = q * j[i][k]
		}
		t.row[t.n] = -q * r[i]
		t.add()
	}
	for k := range t.n {
		clear(t.row)
		t.row[k] = math.Sqrt(mu) * d[k]
		t.add()
	}
	return t.back()
}

func (t *triangle) back() []float64 {
	for k := t.n - 1; k >= 0; k-- {
		v := t.r[k][t.n]
		for i := k + 1; i < t.n; i++ {
			v -= t.r[k][i] * t.out[i]
		}
		if t.r[k][k] == 0 {
			t.out[k] = 0
			continue
		}
		t.out[k] = v / t.r[k][k]
	}
	return t.out
}

// scaled returns the singular values and right vectors of the slopes, each column
// by its length, and those lengths. A column of nothing has length 0.
func scaled(j [][]float64, w []float64) (values []float64, v *mat.Dense, length []float64) {
	m, n := len(j), len(j[0])
	a := mat.NewDense(max(m, n), n, nil)
	length = make([]float64, n)
	for k := range n {
		for i := range m {
			length[k] = math.Hypot(length[k], math.Sqrt(w[i])*j[i][k])
		}
		for i := range m {
			if length[k] > 0 {
				a.Set(i, k, math.Sqrt(w[i])*j[i][k]/length[k])
			}
		}
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return make([]float64, n), mat.NewDense(n, n, nil), length
	}
	v = &mat.Dense{}
	svd.VTo(v)
	return svd.Values(nil), v, length
}

// lost is the share of the greatest singular value below which a direction counts
// as not told of.
const lost = 1e-10

// covariance is the inverse of J'WJ by the singular values of the scaled slopes.
func covariance(j [][]float64, w []float64) (rank int, cov [][]float64) {
	values, v, length := scaled(j, w)
	n := len(values)
	for rank < n && values[rank] > lost*values[0] {
		rank++
	}
	cov = make([][]float64, n)
	for a := range cov {
		cov[a] = make([]float64, n)
		for b := range cov[a] {
			for k := range n {
				part := v.At(a, k) * v.At(b, k)
				switch {
				case k < rank:
					cov[a][b] += part / (values[k] * values[k]) / (length[a] * length[b])
				case a == b && math.Abs(v.At(a, k)) > 1e-6:
					cov[a][b] = math.Inf(1)
				}
			}
		}
	}
	return rank, cov
}

// plain returns the singular values and right vectors of the slopes as they are.
func plain(j [][]float64, w []float64) (values []float64, v *mat.Dense) {
	m, n := len(j), len(j[0])
	a := mat.NewDense(max(m, n), n, nil)
	for i := range j {
		for k := range n {
			a.Set(i, k, math.Sqrt(w[i])*j[i][k])
		}
	}
	v = &mat.Dense{}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return make([]float64, n), mat.NewDense(n, n, nil)
	}
	svd.VTo(v)
	return svd.Values(nil), v
}
