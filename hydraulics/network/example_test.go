package network_test

import (
	"fmt"

	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// A pump (2.4 m and 1,200 L/h on its label, read as a straight line) lifts water
// from a tub at 0.2 m through three metres of 16 mm hose to two 4 mm holes in
// the open, one at 1.5 m and one at 1.6 m. How much comes out of each?
func Example() {
	const litrePerHour, kinematic = 1e-3 / 3600, 1.0e-6
	pump, err := hydraulics.LabelCurve(2.4, 1200*litrePerHour, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	hose := network.NewConduit(kinematic)
	hose.AddPipe(0.016, 3, 5e-6, 1)
	hole := network.NewHole(0.004, kinematic, 1)

	solver, err := network.NewSolver(&network.Problem{
		Nodes: []network.Node{
			{ID: "tub", Fixed: true, Head: 0.2},
			{ID: "pump outlet"},
			{ID: "bar"},
			{ID: "low hole", Fixed: true, Head: 1.5},
			{ID: "high hole", Fixed: true, Head: 1.6},
		},
		Links: []network.Link{
			{ID: "pump", From: 0, To: 1, Law: lifting{pump}, OneWay: true},
			{ID: "hose", From: 1, To: 2, Law: hose},
			{ID: "low hole", From: 2, To: 3, Law: hole, OneWay: true},
			{ID: "high hole", From: 2, To: 4, Law: hole, OneWay: true},
		},
	}, network.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := solver.Solve()
	if err != nil || r.Status != network.Converged {
		fmt.Println(err, r.Status)
		return
	}
	for i, l := range []string{"pump", "hose", "low hole", "high hole"} {
		fmt.Printf("%-9s %3.0f L/h\n", l, r.Flow[i]/litrePerHour)
	}
	fmt.Printf("head at the holes %.2f m\n", r.Head[2])
	// Output:
	// pump      194 L/h
	// hose      194 L/h
	// low hole  101 L/h
	// high hole  93 L/h
	// head at the holes 2.18 m
}

// lifting makes a law of a pump's curve: the head it gives is a head not lost.
type lifting struct{ curve hydraulics.Curve }

// Loss implements network.Law.
func (l lifting) Loss(q float64) (h, slope float64) {
	h, slope = l.curve.Head(q)
	return -h, -slope
}
