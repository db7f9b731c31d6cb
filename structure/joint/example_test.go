package joint_test

import (
	"fmt"

	"rillwright/structure/joint"
)

// A dam 600 mm wide holds 300 mm of water on a bite of 10 mm. Its plate solution
// gives a peak of 376 N/m. How much of the limits does the joint use?
func Example() {
	dam := joint.Dam{Width: 0.6, Depth: 0.3}
	const peak = 376.4
	stress := joint.Butt{Bite: 0.010, Thickness: 0.001}.Stress(peak)
	fmt.Printf("%.0f N, mean %.0f N/m\n", dam.Force(1000), dam.MeanLine(1000))
	fmt.Printf("%.1f kPa: %.2f of short-term, %.1f times permanent\n", stress/1e3,
		joint.Use(stress, joint.ShortTerm(), -1), joint.Use(stress, joint.Permanent(), -1))
	// Output:
	// 265 N, mean 221 N/m
	// 37.6 kPa: 0.27 of short-term, 5.5 times permanent
}

// A wet wall of 9 kg hangs 40 mm in front of the glass on six vertical lines of
// sealant, and a root of 4 kg stands out 150 mm near one side.
func ExampleBond() {
	var lines []joint.Patch
	for i := range 6 {
		lines = append(lines, joint.Patch{X: 0.15 * float64(i), Width: 0.008, Height: 0.8})
	}
	s, err := joint.Bond(0.5, lines,
		joint.Hang{Down: 9 * joint.G, X: 0.38, Y: 0.4, Z: 0.04},
		joint.Hang{Down: 4 * joint.G, X: 0.65, Y: 0.6, Z: 0.15})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("shear %.1f kPa, tension %.1f kPa\n", s.Shear/1e3, s.Tension/1e3)
	// Output: shear 8.6 kPa, tension 3.7 kPa
}
