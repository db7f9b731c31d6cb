package hydraulics_test

import (
	"fmt"

	"rillwright/fluid"
	"rillwright/hydraulics"
)

// How much water does two metres of half-inch hose carry under half a metre of
// head, with a sharp entrance, two elbows and a free end?
func Example() {
	water, ok := fluid.AtCelsius(24)
	if !ok {
		fmt.Println("temperature out of range")
		return
	}
	fittings := hydraulics.ConstantK(hydraulics.EntranceSharp + hydraulics.ExitTurbulent).
		Plus(hydraulics.Hooper2K(800, 0.4, 0.5).Times(2))
	hose, err := hydraulics.NewPipe(2, 0.0127, hydraulics.RoughnessVinylHose, water.Kinematic, fittings)
	if err != nil {
		fmt.Println(err)
		return
	}
	q := hose.Flow(0.5)
	fmt.Printf("%.0f L/h, Re %.0f\n", q*3.6e6, hose.Reynolds(q))
	// Output: 490 L/h, Re 14934
}
