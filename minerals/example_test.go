package minerals_test

import (
	"fmt"

	"rillwright/minerals"
)

// 60 L that lose 0.8 L a day to the air, topped up with water of 300 mg/L, a quarter
// changed every two weeks.
func ExampleRegime() {
	const day = 86400
	r := minerals.Regime{Volume: 0.06, Evaporation: 0.8e-3 / day, TopUp: 0.3, ChangeWater: 0.3, Share: 0.25, Every: 14 * day}
	before, after := r.Limit()
	fmt.Printf("in the long run %.0f to %.0f mg/L\n", after*1000, before*1000)
	fmt.Printf("every %.1f days for 450 mg/L\n", r.EveryFor(0.45)/day)
	// Output:
	// in the long run 468 to 524 mg/L
	// every 9.4 days for 450 mg/L
}
