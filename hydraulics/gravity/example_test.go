package gravity_test

import (
	"fmt"

	"rillwright/hydraulics/gravity"
)

// A pool stands behind a dam 200 mm high and leaves by a standpipe of 26.6 mm
// bore with its lip at 150 mm; a spare one of 20.9 mm stands 15 mm higher. Where
// does the water stand under 400 L/h, what do both take at most, and what if the
// first is blocked and 800 L/h come in?
func Example() {
	const litrePerHour = 1e-3 / 3600
	main := gravity.Drain{ID: "main", Mouth: gravity.Upright, Lip: 0.150, Bore: 0.0266, Intake: 0.60, Joins: -1}
	spare := gravity.Drain{ID: "spare", Mouth: gravity.Upright, Lip: 0.165, Bore: 0.0209, Intake: 0.60, Joins: -1}

	pool := gravity.Pool{Top: 0.200, Drains: []gravity.Drain{main, spare}}
	rest := pool.Settle(400 * litrePerHour)
	fmt.Printf("level %.1f mm, main %.0f L/h, spare %.0f L/h\n", rest.Level*1e3, rest.Flow[0]/litrePerHour, rest.Flow[1]/litrePerHour)
	fmt.Printf("at most %.0f L/h\n", pool.Capacity(pool.Top, nil)/litrePerHour)

	blocked := gravity.Pool{Top: 0.200, Drains: []gravity.Drain{spare}}
	rest = blocked.Settle(800 * litrePerHour)
	fmt.Printf("blocked: spills %v, %.0f L/h over the dam\n", rest.Spills, rest.Spill/litrePerHour)
	// Output:
	// level 158.1 mm, main 400 L/h, spare 0 L/h
	// at most 1803 L/h
	// blocked: spills true, 186 L/h over the dam
}
