package light_test

import (
	"fmt"

	"rillwright/geom"
	"rillwright/light"
)

// A bar of 40 umol/s half a metre over the floor, 15 cm before the wall: on the floor
// below, and on the wall at half height.
func ExampleLamp_On() {
	bar := light.Lamp{
		Kind: light.Strip, Flux: 40, Beam: 1, Length: 0.6,
		At: geom.Vec{Z: 0.5}, Aim: geom.Vec{Z: -1}, Along: geom.Vec{X: 1},
	}
	floor := bar.On(geom.Vec{}, geom.Vec{Z: 1})
	wall := bar.On(geom.Vec{Y: 0.15, Z: 0.25}, geom.Vec{Y: -1})
	fmt.Printf("floor %.0f, wall %.0f umol/(m2 s): %.1f and %.1f mol/m2 in 12 hours\n", floor, wall, light.DLI(floor, 12*3600), light.DLI(wall, 12*3600))
	// Output:
	// floor 42, wall 42 umol/(m2 s): 1.8 and 1.8 mol/m2 in 12 hours
}
