package chance

import "math"

// Index tells how much of an output's variance one input makes, as shares: First by
// itself, Total with all that it does together with others. Error is the standard
// error of Total. Either may come out a little outside 0 to 1.
type Index struct {
	First float64 `json:"first"`
	Total float64 `json:"total"`
	Error float64 `json:"error"`
}

// Indices returns one index for each input by the formulas of Jansen 1999 on the
// design of Saltelli et al. 2010 ("Variance based sensitivity analysis of model
// output", Comput. Phys. Commun. 181; from memory, checked in the tests): a and b
// are the outputs of two independent sets of draws, mixed[j] those of the first set
// with input j taken from the second. All are of one length. An output that does not
// vary gives zeros.
func Indices(a, b []float64, mixed [][]float64) []Index {
	out := make([]Index, len(mixed))
	n := float64(len(a))
	both := Sum(append(append(make([]float64, 0, len(a)+len(b)), a...), b...))
	// Below this a spread is rounding.
	if both.Variance <= 1e-24*both.Mean*both.Mean {
		return out
	}
	for j, ab := range mixed {
		var first, total, square float64
		for i := range a {
			x := (a[i] - ab[i]) * (a[i] - ab[i]) / 2
			total += x
			square += x * x
			first += (b[i] - ab[i]) * (b[i] - ab[i]) / 2
		}
		total, first, square = total/n, first/n, square/n
		out[j] = Index{
			First: 1 - first/both.Variance,
			Total: total / both.Variance,
			Error: math.Sqrt(max(0, square-total*total)/n) / both.Variance,
		}
	}
	return out
}

// Mix writes into x the inputs of draw i of the design that Indices is for: the first
// set for part -2, the second for -1, and the first with input part taken from the
// second for others. The net must have twice as many dimensions as x has inputs; x
// holds shares between 0 and 1, for At of a Spread. room is for twice as many.
func Mix(n *Net, i uint32, part int, x, room []float64) {
	n.At(i, room[:2*len(x)])
	if part == -1 {
		copy(x, room[len(x):])
		return
	}
	copy(x, room)
	if part >= 0 {
		x[part] = room[len(x)+part]
	}
}
