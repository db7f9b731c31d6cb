package plate_test

import (
	"fmt"

	"rillwright/structure/plate"
)

func ExampleSolve() {
	// A dam 600 mm wide and 350 mm high of 8 mm glass, bonded at the bottom and both
	// sides, with 300 mm of water behind it.
	dam := &plate.Pane{Width: 0.6, Height: 0.35, Thickness: 0.008, Young: 70e9, Poisson: 0.23}
	dam.Edges = [4]plate.Support{plate.Bottom: plate.Held, plate.Left: plate.Held, plate.Right: plate.Held}
	r, err := plate.Solve(dam, plate.Load{Inner: 0.3, Weight: 9806.65}, plate.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N; bow %.2f mm, %.1f MPa; the bottom bears up to %.0f N/m\n", r.Load, 1e3*r.Bow.Value, 1e-6*r.Stress.Value, r.Edges[plate.Bottom].Peak)
	// Output: 265 N; bow 0.22 mm, 1.7 MPa; the bottom bears up to 376 N/m
}
