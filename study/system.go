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
	head, _, err := drive(e, c, s, q)
	return head, err
}

// PumpDuty returns the flow, m3/s, and the head, m, that the one pump must give
// so that the outlets together give a flow. Without a return to pool or sump
// that flow is the same.
func PumpDuty(e *enclosure.Enclosure, c enclosure.Case, s Setting, outlets float64) (q, head float64, err error) {
	head, got, err := drive(e, c, s, outlets)
	if err != nil || got >= outlets*(1-1e-9) {
		return outlets, head, err
	}
	// Returns take a part: more must be pumped. What the outlets get grows
	// with what is pumped.
	lo, hi := outlets, 2*outlets
	for range 12 {
		if head, got, err = drive(e, c, s, hi); err != nil || got >= outlets {
			break
		}
		lo, hi = hi, 2*hi
	}
	if err == nil && got < outlets {
		err = errors.New("the returns take all that is pumped")
	}
	for range 40 {
		if err != nil || hi-lo <= 1e-6*hi {
			break
		}
		q = (lo + hi) / 2
		if head, got, err = drive(e, c, s, q); got < outlets {
			lo = q
		} else {
			hi = q
		}
	}
	return hi, head, err
}

// drive puts flow q in at the pump's outlet in place of the pump, and returns
// the head that takes and what comes out of the outlets.
func drive(e *enclosure.Enclosure, c enclosure.Case, s Setting, q float64) (head, outlets float64, err error) {
	if len(e.Pumps) != 1 {
		return 0, 0, errors.New("a system curve is for one pump")
	}
	if s.Workspace == nil {
		s.Workspace = &Workspace{}
	}
	b, err := buildSupply(e, c, s, e.Sump.Level, restLevel(e))
	if err != nil {
		return 0, 0, err
	}
	p := &b.p
	p.Links = p.Links[:b.pumpLink[0]]
	p.Nodes[b.pumpOut[0]].Demand = -q
	solver, err := s.Workspace.solverFor(p)
	if err != nil {
		return 0, 0, err
	}
	res, err := solver.Solve()
	if err != nil {
		return 0, 0, err
	}
	if res.Status != network.Converged {
		return 0, 0, fmt.Errorf("the circuit did not settle at %g m3/s", q)
	}
	for i := range b.outletLink {
		for _, l := range b.outletLink[i] {
			outlets += clean(res.Flow[l])
		}
	}
	head = res.Head[b.pumpOut[0]] - p.Nodes[b.pumpIn[0]].Head + b.strainer(&e.Pumps[0], 0)*q*q
	return head, outlets, nil
}
