package study

import (
	"errors"
	"fmt"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// SystemHead returns the head, m, that the first pump must give to drive flow q,
// m3/s, through the circuit: lift and all losses, those of its strainer with
// them. It holds for circuits with one pump.
func SystemHead(e *enclosure.Enclosure, c enclosure.Case, s Setting, q float64) (float64, error) {
	if len(e.Pumps) != 1 {
		return 0, errors.New("a system curve is for one pump")
	}
	b, err := buildSupply(e, c, s, e.Sump.Level, restLevel(e))
	if err != nil {
		return 0, err
	}
	// In place of the pump, the flow is put in where the pump's outlet was.
	p := &b.p
	p.Links = p.Links[:b.pumpLink[0]]
	p.Nodes[b.pumpOut[0]].Demand = -q
	solver, err := network.NewSolver(p, network.Settings{})
	if err != nil {
		return 0, err
	}
	res, err := solver.Solve()
	if err != nil {
		return 0, err
	}
	if res.Status != network.Converged {
		return 0, fmt.Errorf("the circuit did not settle at %g m3/s", q)
	}
	return res.Head[b.pumpOut[0]] - p.Nodes[b.pumpIn[0]].Head + b.strainer(&e.Pumps[0], 0)*q*q, nil
}

// CurveHead returns the head of a pump given by points at a flow, at full
// speed.
func CurveHead(c *enclosure.Curve, q float64) float64 {
	h, _ := caseCurve(c, nil).curve.Head(q)
	return h
}
