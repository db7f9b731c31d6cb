package hydraulics

import "math"

// SmoothMinPower is the exponent p of the smooth minimum. No source: an
// engineering choice; with two equal flows the blend is 8.3 % low.
const SmoothMinPower = 8

// SmoothMin returns (sum q_i^-p)^(-1/p), p = SmoothMinPower: a smooth lower
// bound of the smallest of the flows. It is 0 if any flow is 0 or less, +Inf
// for no flows. For safety verdicts use the true minimum (slices.Min).
func SmoothMin(q []float64) float64 {
	least := math.Inf(1)
	for _, v := range q {
		least = min(least, v)
	}
	if least <= 0 {
		return 0
	}
	if math.IsInf(least, 1) {
		return least
	}
	// Scaled by the least, so no power can overflow.
	sum := 0.0
	for _, v := range q {
		sum += pow8(least / v)
	}
	return least / root8(sum)
}

// SmoothMin2 returns SmoothMin of a and b with its partial derivatives. All are
// 0 if a or b is 0 or less.
func SmoothMin2(a, b float64) (m, dmda, dmdb float64) {
	if !(a > 0 && b > 0) {
		return 0, 0, 0
	}
	least := min(a, b)
	m = least / root8(pow8(least/a)+pow8(least/b))
	// dm/da = (m/a)^(p+1)
	ra, rb := m/a, m/b
	return m, pow8(ra) * ra, pow8(rb) * rb
}

func pow8(x float64) float64 {
	x *= x
	x *= x
	return x * x
}

func root8(x float64) float64 { return math.Sqrt(math.Sqrt(math.Sqrt(x))) }
