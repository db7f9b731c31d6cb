package asbuilt

import "math"

// cholesky returns the lower triangle whose square is c. A pivot that rounding has
// brought to nothing is kept a little above.
func cholesky(c [][]float64) [][]float64 {
	l := make([][]float64, len(c))
	for i := range c {
		l[i] = make([]float64, i+1)
		for k := range i + 1 {
			s := c[i][k]
			for q := range k {
				s -= l[i][q] * l[k][q]
			}
			if k < i {
				l[i][k] = s / l[k][k]
				continue
			}
			l[i][i] = math.Sqrt(math.Max(s, 1e-12*c[i][i]+1e-300))
		}
	}
	return l
}

// forward solves l x = b.
func forward(l [][]float64, b []float64) []float64 {
	x := make([]float64, len(b))
	for i := range x {
		s := b[i]
		for k := range i {
			s -= l[i][k] * x[k]
		}
		x[i] = s / l[i][i]
	}
	return x
}

// decompose returns the logarithm of the determinant of c and miss' c^-1 miss.
func decompose(c [][]float64, miss []float64) (determinant, square float64) {
	l := cholesky(c)
	for i, x := range forward(l, miss) {
		determinant += 2 * math.Log(l[i][i])
		square += x * x
	}
	return determinant, square
}

// normal is the logarithm of the density of a normal law, without the part that all
// share.
func normal(c [][]float64, miss []float64) float64 {
	determinant, square := decompose(c, miss)
	return -(determinant + square) / 2
}
