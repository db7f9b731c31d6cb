package chance

// Known returns the share of y's variance that would be gone, as a mean, if one input
// were known exactly: its index of first order, from plain draws. u holds the share
// between 0 and 1 at which the input stood in each draw, y the output; both are of one
// length. Draws are sorted into bins of equal width by u, and the variance of the bins'
// means is compared with that of all: the correlation ratio of Pearson 1905, less what
// bins of so few draws show by chance (Kelley 1935; both from memory, checked in the
// tests). It lies between 0 and 1, and is 0 for a y that does not vary. There must be
// more draws than bins, and one bin at least.
func Known(u, y []float64, bins int) float64 {
	n := float64(len(y))
	mean := 0.0
	for _, v := range y {
		mean += v / n
	}
	sum, count := make([]float64, bins), make([]float64, bins)
	within, all := 0.0, 0.0
	for i, v := range y {
		b := min(int(u[i]*float64(bins)), bins-1)
		sum[b] += v
		count[b]++
		all += float64((v - mean) * (v - mean))
	}
	for i, v := range y {
		b := min(int(u[i]*float64(bins)), bins-1)
		d := v - sum[b]/count[b]
		within += float64(d * d)
	}
	if all <= 1e-24*n*mean*mean {
		return 0
	}
	used := 0.0
	for _, c := range count {
		if c > 0 {
			used++
		}
	}
	if n <= used {
		return 0
	}
	return min(1, max(0, 1-within/all*(n-1)/(n-used)))
}
