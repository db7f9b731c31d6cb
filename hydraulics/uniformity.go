package hydraulics

import (
	"math"
	"slices"
)

// The functions of this file describe how even a set of outlet flows is. They
// take flows in any one unit and return fractions, 1 for perfectly even. For an
// empty set, or one whose mean is not positive, they return NaN.

// ChristiansenUniformity returns CU = 1 - sum |q - mean|/(n mean).
//
// Source: Christiansen 1942, Calif. Agric. Exp. Stn. Bull. 670.
func ChristiansenUniformity(q []float64) float64 {
	m := mean(q)
	if !(m > 0) {
		return math.NaN()
	}
	sum := 0.0
	for _, v := range q {
		sum += math.Abs(v - m)
	}
	return 1 - sum/(float64(len(q))*m)
}

// DistributionUniformity returns DU_lq: the mean of the lowest quarter over the
// mean of all. When n is not a multiple of 4 the last reading of the quarter
// counts by its fraction (for 15 readings, 3.75 of them); some published
// software rounds n/4 to a whole number instead, which can differ by points.
//
// scratch is overwritten with the sorted readings if it is long enough, so that
// nothing is allocated; nil will do.
//
// Source: common practice in irrigation audits.
func DistributionUniformity(q, scratch []float64) float64 {
	m := mean(q)
	if !(m > 0) {
		return math.NaN()
	}
	s := append(scratch[:0], q...)
	slices.Sort(s)
	quarter := float64(len(s)) / 4
	whole := int(quarter)
	sum := 0.0
	for _, v := range s[:whole] {
		sum += v
	}
	sum += (quarter - float64(whole)) * s[whole]
	return sum / quarter / m
}

// EmissionUniformity returns the design EU = (1 - 1.27 cv/sqrt(perPlant)) qmin/mean,
// cv the maker's coefficient of variation and perPlant the outlets per plant.
//
// Source: Keller & Karmeli 1974, Trans. ASAE 17:678; ASABE EP405 (from memory).
func EmissionUniformity(q []float64, cv, perPlant float64) float64 {
	m := mean(q)
	if !(m > 0) {
		return math.NaN()
	}
	return (1 - 1.27*cv/math.Sqrt(perPlant)) * slices.Min(q) / m
}

// StatisticalUniformity returns U_s = 1 - s/mean, s the standard deviation with
// n - 1. It is NaN for fewer than two readings.
//
// Source: Wilcox & Swailes; Bralts 1981; ASABE EP458 (from memory).
func StatisticalUniformity(q []float64) float64 {
	m := mean(q)
	if !(m > 0) || len(q) < 2 {
		return math.NaN()
	}
	sum := 0.0
	for _, v := range q {
		sum += (v - m) * (v - m)
	}
	return 1 - math.Sqrt(sum/float64(len(q)-1))/m
}

func mean(q []float64) float64 {
	sum := 0.0
	for _, v := range q {
		sum += v
	}
	return sum / float64(len(q))
}
