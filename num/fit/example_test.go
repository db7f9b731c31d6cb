package fit_test

import (
	"fmt"

	"rillwright/num/fit"
)

// Two bucket times at two heights give the two figures of a straight pump curve.
func ExampleSolve() {
	head, flow := []float64{0, 0.5, 1}, []float64{800, 620, 410} // m, L/h
	res, err := fit.Solve(fit.Problem{Parameters: 2, Residuals: 3, Of: func(p, r []float64) error {
		for i := range r {
			r[i] = (p[0]*(1-head[i]/p[1]) - flow[i]) / 10 // read to 10 L/h
		}
		return nil
	}}, []float64{1000, 2}, fit.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f L/h with no lift, %.2f m at most\n", res.P[0], res.P[1])
	// Output: 805 L/h with no lift, 2.06 m at most
}
