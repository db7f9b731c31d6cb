package climate_test

import (
	"fmt"

	"rillwright/climate"
	"rillwright/climate/moistair"
)

// A cabinet of 0.6 m2 of dripping wall behind 2.2 m2 of glass, in a room of 21 C
// and 45 %, with two mesh vents of 40 cm2.
func Example() {
	b := climate.Box{
		Pressure: moistair.Standard, Lewis: 0.865,
		Wet:   []climate.WetFace{{Area: 0.6, Film: 3.5}},
		Panes: []climate.Pane{{Area: 2.2, In: 4, Out: 8, Resistance: 0.006}},
		Vents: climate.Vents{Low: 0.004, High: 0.004, Discharge: climate.MeshDischarge().Likely, Height: 0.7, Leak: 0.2 / 3600},
		Sump:  1.5, MakeUp: 20,
		Always: climate.Heat{Water: 18, Air: 14},
	}
	s, err := b.SteadyState(climate.Room{Celsius: 21, Humidity: 0.45})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("water %.1f C, air %.1f C and %.0f %%, glass %.1f C\n", s.Water, s.Air, 100*moistair.Relative(s.Air, s.Ratio, b.Pressure), s.Panes[0])
	fmt.Printf("%.2f L to be added a day, %.1f m3/h through the vents, fogs: %v\n", s.MakeUp*86400, s.Vent*3600, s.Settles[0] > 0)
	// Output:
	// water 23.5 C, air 23.3 C and 88 %, glass 21.8 C
	// 0.48 L to be added a day, 1.9 m3/h through the vents, fogs: false
}
