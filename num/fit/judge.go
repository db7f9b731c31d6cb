package fit

import (
	"math"
	"slices"
)

// Blend is a direction in which parameters can be moved together with hardly a
// change of what is read: the readings do not tell them apart.
type Blend struct {
	// Share is how far each parameter moves, in units of its scale, the squares
	// summing to 1.
	Share []float64
	// Told is how much the readings say along it, as a share of what they say
	// along the best direction, 0 to 1.
	Told float64
}

// Blends returns the directions of which the first readings residuals of a fit
// tell less than a share, worst first, with parameters in units of scale, such as
// what was thought of their doubt before.
func (r *Result) Blends(readings int, scale []float64, share float64) []Blend {
	n := len(r.P)
	if readings == 0 {
		return nil
	}
	j := make([][]float64, readings)
	for i := range j {
		j[i] = make([]float64, n)
		for k := range n {
			j[i][k] = r.J[i][k] * scale[k]
		}
	}
	values, v := plain(j, r.W[:readings])
	var out []Blend
	for k := n - 1; k >= 0; k-- {
		told := 0.0
		if values[0] > 0 {
			told = values[k] / values[0]
		}
		if told >= share {
			break
		}
		b := Blend{Share: make([]float64, n), Told: told}
		for i := range n {
			b.Share[i] = v.At(i, k)
		}
		out = append(out, b)
	}
	return out
}

// Outlier is a residual that does not go with the others.
type Outlier struct {
	Index int
	// T is the residual over the doubt of what the others foretell of it.
	T float64
}

// Outliers returns the first readings residuals that lie more than limit doubts
// from what all others foretell, worst first. The residuals must be in units of
// their doubt. To leave one out needs no new fit: the residual grows by
// 1/(1 - leverage), its variance is 1/(1 - leverage).
//
// Source: Belsley, Kuh & Welsch 1980, Regression Diagnostics, ch. 2 (from memory).
func (r *Result) Outliers(readings int, limit float64) []Outlier {
	var out []Outlier
	for i := range readings {
		h := r.W[i] * r.spread(i)
		if h > 0.999 { // nothing else tells of it
			continue
		}
		if t := r.R[i] / math.Sqrt(1-h); math.Abs(t) > limit {
			out = append(out, Outlier{i, t})
		}
	}
	slices.SortStableFunc(out, func(a, b Outlier) int {
		switch x, y := math.Abs(a.T), math.Abs(b.T); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	return out
}

// spread is the variance that the parameters' doubt gives a residual.
func (r *Result) spread(i int) float64 {
	s := 0.0
	for a, ja := range r.J[i] {
		for b, jb := range r.J[i] {
			if c := r.Cov[a][b]; ja != 0 && jb != 0 && !math.IsInf(c, 0) {
				s += ja * c * jb
			}
		}
	}
	return s
}
