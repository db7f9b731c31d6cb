package network

import "math"

// krylov solves small dense-looking systems (I + M) y = b of which only the
// product M y is known: generalised minimal residuals (Saad & Schultz
// 1986, SIAM J. Sci. Stat. Comput. 7, 856; from memory).
type krylov struct {
	n, m  int
	basis [][]float64 // m+1 orthonormal vectors
	h     [][]float64 // Hessenberg matrix by columns
	cs    []float64
	sn    []float64
	g     []float64
}

const krylovMost = 24

func newKrylov(n int) *krylov {
	k := &krylov{n: n, m: min(n, krylovMost)}
	block := make([]float64, n+3*(k.m+1))
	take := func(n int) []float64 {
		part := block[:n:n]
		block = block[n:]
		return part
	}
	// Few of the vectors are ever needed: the others are made when they are.
	k.basis = append(make([][]float64, 0, k.m+1), take(n))
	k.h = make([][]float64, 0, k.m)
	k.cs, k.sn, k.g = take(k.m+1), take(k.m+1), take(k.m+1)
	return k
}

// solve improves y, zero at first, until the residual is tol of b's size or the
// basis is used up. times must set out to (I + M) in.
func (k *krylov) solve(b, y []float64, tol float64, times func(in, out []float64)) {
	clear(y)
	size := norm(b)
	if size == 0 {
		return
	}
	clear(k.g)
	k.g[0] = size
	for i, v := range b {
		k.basis[0][i] = v / size
	}
	used := 0
	for j := range k.m {
		if j+1 == len(k.basis) {
			k.basis = append(k.basis, make([]float64, k.n))
			k.h = append(k.h, make([]float64, j+2))
		}
		w := k.basis[j+1]
		times(k.basis[j], w)
		h := k.h[j]
		for i := range j + 1 {
			h[i] = dot(w, k.basis[i])
			axpy(-h[i], k.basis[i], w)
		}
		h[j+1] = norm(w)
		if h[j+1] > 0 {
			scale(1/h[j+1], w)
		}
		for i := range j {
			h[i], h[i+1] = k.cs[i]*h[i]+k.sn[i]*h[i+1], k.cs[i]*h[i+1]-k.sn[i]*h[i]
		}
		r := math.Hypot(h[j], h[j+1])
		if r == 0 {
			break
		}
		k.cs[j], k.sn[j] = h[j]/r, h[j+1]/r
		h[j] = r
		k.g[j], k.g[j+1] = k.cs[j]*k.g[j], -k.sn[j]*k.g[j]
		used = j + 1
		if math.Abs(k.g[j+1]) <= tol*size {
			break
		}
	}
	for i := used - 1; i >= 0; i-- {
		c := k.g[i]
		for j := i + 1; j < used; j++ {
			c -= k.h[j][i] * k.g[j]
		}
		k.g[i] = c / k.h[i][i]
	}
	for i := range used {
		axpy(k.g[i], k.basis[i], y)
	}
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

func axpy(c float64, x, y []float64) {
	for i, v := range x {
		y[i] += c * v
	}
}

func scale(c float64, x []float64) {
	for i := range x {
		x[i] *= c
	}
}
