package fit

import "gonum.org/v1/gonum/mathext"

// Beyond returns how often chance alone gives a sum of n squares of normal residuals,
// each over its doubt, of square or more: the upper tail of the chi-squared law. It
// is 1 where square is not above 0 or n not above 0.
func Beyond(square float64, n int) float64 {
	if square <= 0 || n <= 0 {
		return 1
	}
	return mathext.GammaIncRegComp(float64(n)/2, square/2)
}
