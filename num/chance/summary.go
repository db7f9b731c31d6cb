package chance

import (
	"math"
	"slices"
)

// Share is how often something came true in n draws, between 0 and 1, and its
// standard error. The error is that of independent draws after Agresti & Coull 1998
// (two of either kind added, from memory): it is not zero where all draws agree, and
// too large rather than too small for a quasi-random sequence.
type Share struct {
	P     float64 `json:"share"`
	Error float64 `json:"error"`
}

// ShareOf returns the share of hits in n draws; n must be above 0.
func ShareOf(hits, n int) Share {
	p := float64(hits+2) / float64(n+4)
	return Share{P: float64(hits) / float64(n), Error: math.Sqrt(p * (1 - p) / float64(n+4))}
}

// Summary tells how figures are spread, in their unit; Variance in its square.
type Summary struct {
	Mean, Variance float64
	sorted         []float64
}

// Sum sums figures up; there must be one at least. Order counts for nothing but
// rounding, and x is left as it is.
func Sum(x []float64) Summary {
	s := Summary{sorted: slices.Sorted(slices.Values(x))}
	n := float64(len(x))
	for _, v := range s.sorted {
		s.Mean += v / n
	}
	for _, v := range s.sorted {
		s.Variance += (v - s.Mean) * (v - s.Mean) / max(1, n-1)
	}
	return s
}

// Quantile returns the figure below which a share u of them lies, 0 <= u <= 1, with
// straight lines between those that were drawn.
func (s Summary) Quantile(u float64) float64 {
	at := u * float64(len(s.sorted)-1)
	i := min(int(at), len(s.sorted)-1)
	j := min(i+1, len(s.sorted)-1)
	return s.sorted[i] + (at-float64(i))*(s.sorted[j]-s.sorted[i])
}
