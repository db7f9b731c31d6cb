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

// A return hose ends 150 mm under the surface of the upper water, with a hole
// 10 mm under it. How far does the water siphon back, and how fast at first?
func ExampleSiphon() {
	hose, err := hydraulics.NewPipe(1.8, 0.0127, hydraulics.RoughnessVinylHose, 1e-6, hydraulics.ConstantK(2.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	s := hydraulics.Siphon{Pipe: hose, Crest: 0.05, Intake: -0.15, Outlet: -0.7, Break: -0.01}
	if err := s.Check(); err != nil {
		fmt.Println(err)
		return
	}
	const sump = -0.6
	fmt.Printf("%.0f L/h, stops %.0f mm down\n", s.Flow(0, sump)*3.6e6, -s.Stop(sump)*1e3)
	// Output: 617 L/h, stops 23 mm down
}

// Moss 100 mm by 20 mm creeps over a rim 40 mm above the water and hangs 150 mm
// down the outside. What may it drip on the floor in a day?
func ExampleWick() {
	for _, m := range hydraulics.WickMaterials() {
		if m.Name != "moss, loose like bog moss" {
			continue
		}
		for side := -1; side <= 1; side++ {
			k := hydraulics.Wick{
				Conductivity: m.Conductivity.At(side), Capillary: m.Capillary.At(side),
				Area: 0.1 * 0.02, Length: 0.23, Crest: 0.04, Foot: -0.05, End: -0.15,
			}
			fmt.Printf("%.3g L a day, down to %.0f mm\n", k.Flow(0, -1)*86400e3, k.Stop(-1)*1e3)
		}
	}
	// Output:
	// 0.744 L a day, down to -50 mm
	// 21.8 L a day, down to -50 mm
	// 183 L a day, down to -50 mm
}
