package light

import (
	"fmt"
	"math"
)

// Radiosity returns what leaves each of n dull faces, per area, from what they send
// out of themselves, from their reflectances (0 to 1) and view factors f[i*n+j] from i
// to j: J = own + reflectance F J, all bounces. f must not have rows that sum to over
// 1 + 1e-6, and some face must swallow part of what falls on it.
//
// Solved by sweeps that shrink what is left over by the mean reflectance or better,
// to 1e-12 of the largest. Derived.
func Radiosity(f, own, reflectance []float64) ([]float64, error) {
	n := len(own)
	if len(reflectance) != n || len(f) != n*n {
		return nil, fmt.Errorf("light: %d view factors and %d reflectances of %d faces", len(f), len(reflectance), n)
	}
	swallow := false
	for i, r := range reflectance {
		sum := 0.0
		for _, v := range f[i*n : i*n+n] {
			sum += v
		}
		if !(r >= 0 && r <= 1) || !(own[i] >= 0) || !(sum <= 1+1e-6) {
			return nil, fmt.Errorf("light: face %d with reflectance %g, view factors that sum to %g and %g of its own: want 0 to 1, at most 1, not under 0", i+1, r, sum, own[i])
		}
		swallow = swallow || r*sum < 1-1e-9
	}
	if !swallow {
		return nil, fmt.Errorf("light: no face swallows light: it would grow without end")
	}
	j := append([]float64(nil), own...)
	for range 100_000 {
		change, most := 0.0, 0.0
		for i := range n {
			sum, row := 0.0, f[i*n:i*n+n]
			for k, v := range row {
				sum += v * j[k]
			}
			sum = own[i] + reflectance[i]*sum
			change, most = max(change, math.Abs(sum-j[i])), max(most, sum)
			j[i] = sum
		}
		if change <= 1e-13*most {
			return j, nil
		}
	}
	return nil, fmt.Errorf("light: faces so bright that bounces do not end: reflectance of at most 0.999 can be computed")
}

// Incident returns what falls on each face, per area, from what leaves all of them:
// F J.
func Incident(f, leaves []float64) []float64 {
	n := len(leaves)
	out := make([]float64, n)
	for i := range out {
		for k, v := range f[i*n : i*n+n] {
			out[i] += v * leaves[k]
		}
	}
	return out
}
