package structure_test

import (
	"fmt"
	"math"

	"rillwright/structure"
)

// A cabinet of 180 kg on a stand, 35 kg of it water in a pool 408 mm from front
// to back, with both glass doors (12 kg) swung open in front. What does it take
// to tip it?
func Example() {
	cabinet := structure.Part{Name: "cabinet", Mass: 168, Centre: structure.Point{Y: 0.21, Z: 1.05}}
	doors := structure.Part{Name: "doors", Mass: 12, Centre: structure.Point{Y: 0.70, Z: 1.3}}
	all, err := structure.Assemble("all", cabinet, doors)
	if err != nil {
		fmt.Println(err)
		return
	}
	const front = 0.45
	s := structure.Standing{
		Mass: all.Mass, Reach: front - all.Centre.Y, Height: all.Centre.Z,
		Water: []structure.FreeWater{{Length: 0.408, Depth: 0.15, Mass: 35}},
	}
	if err := s.Check(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tilt %.1f degrees, push at 1.8 m %.0f N\n", s.TiltAngle()*180/math.Pi, s.TipPush(1.8))
	// Output: tilt 10.8 degrees, push at 1.8 m 203 N
}

// A drain hole of 44 mm in a back pane 6 mm thick, 110 mm from the side and up.
func ExampleCheckHoles() {
	pane := structure.Sheet{Width: 0.9, Height: 1.04, Thickness: 0.006}
	list, err := structure.CheckHoles(pane, structure.HoleRules(), structure.Hole{X: 0.11, Y: 0.11, Diameter: 0.044})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range list {
		if c.What == structure.RimToEdge {
			fmt.Printf("%s: %.0f mm, at least %.0f mm\n", c.Rule, c.Have*1e3, c.Need*1e3)
		}
	}
	// Output:
	// glazing, European: 88 mm, at least 12 mm
	// glazing, North American: 88 mm, at least 12 mm
	// hobby: 88 mm, at least 44 mm
}
