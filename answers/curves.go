package answers

import (
	"errors"
	"math"

	"rillwright/enclosure"
	"rillwright/hydraulics"
	"rillwright/quantity"
	"rillwright/study"
)

// flowEnd returns the case at one end of the flow out of the outlets, and the
// running state there: every doubt where it lowers the flow (side -1), likely
// (0), or where it raises it (1).
func (s *Survey) flowEnd(side int) (enclosure.Case, *study.State) {
	c := s.E.Likely()
	if side == 0 {
		return c, s.Likely
	}
	for i, sign := range s.curveSenses() {
		switch int(sign) * side {
		case 1:
			c[i] = s.E.Doubts[i].High
		case -1:
			c[i] = s.E.Doubts[i].Low
		}
	}
	return c, s.End(flowMeasure(), side)
}

// curveSenses returns for each doubt which end raises the flow. Where nothing
// flows no doubt moves the flow; then it is which end raises the pump's head or
// lowers what the circuit asks for, at the flow that is wanted.
func (s *Survey) curveSenses() []int8 {
	if s.Likely.Outlets > 0 || len(s.E.Pumps) != 1 {
		return s.senses(flowMeasure())
	}
	const id = "head without flow"
	if signs, ok := s.signs[id]; ok {
		return signs
	}
	signs := make([]int8, len(s.E.Doubts))
	InParallel(len(signs), func(i int) {
		c := s.E.Likely()
		c[i] = s.E.Doubts[i].Low
		low, errLow := study.SystemHead(s.E, c, study.Setting{}, s.Target())
		c[i] = s.E.Doubts[i].High
		high, errHigh := study.SystemHead(s.E, c, study.Setting{}, s.Target())
		switch d := high - low; {
		case errLow != nil || errHigh != nil:
		case d > 1e-9:
			signs[i] = -1
		case d < -1e-9:
			signs[i] = 1
		}
	})
	// A higher exponent is a fuller curve.
	if i, ok := s.E.Pumps[0].Curve.Shape.Doubt(); ok {
		signs[i] = 1
	}
	s.signs[id] = signs
	return signs
}

// PumpCurve returns the curve of the first pump at its speed, at an end of the
// flow (side -1, 0 or 1), and the flow up to which the curve is known, m3/s.
// The error is of a design without a pump.
func (s *Survey) PumpCurve(side int) (head func(q float64) float64, most float64, err error) {
	if len(s.E.Pumps) == 0 {
		return nil, 0, errors.New("the design has no pump")
	}
	c, _ := s.flowEnd(side)
	p := &s.E.Pumps[0]
	var curve hydraulics.Curve
	if p.Curve.Label {
		most = p.Curve.QMax
		curve, err = hydraulics.LabelCurve(p.Curve.HMax, p.Curve.QMax, c.Of(p.Curve.Shape))
	} else {
		if n := len(p.Curve.Flow); n > 0 {
			most = p.Curve.Flow[n-1]
		}
		curve, err = hydraulics.NewTableCurve(p.Curve.Flow, p.Curve.Head)
	}
	if err != nil {
		return nil, 0, err
	}
	set := hydraulics.PumpSet{Pump: curve, Speed: p.Speed, Parallel: 1, Series: 1}
	return func(q float64) float64 {
		h, _ := set.Head(q)
		return h
	}, most * p.Speed, nil
}

// SystemHead returns the head, m, that the one pump must give to drive flow q,
// m3/s, through the circuit, at an end of the flow (side -1 is the circuit that
// asks for most). The sump stands where it does in the running state at that
// end, so that pump curve and circuit meet there.
func (s *Survey) SystemHead(side int, q float64) (float64, error) {
	c, st := s.flowEnd(side)
	e := *s.E
	e.Sump.Level = st.SumpLevel
	return study.SystemHead(&e, c, study.Setting{}, q)
}

// PumpFlow returns the flow through the first pump at both ends of the flow out
// of the outlets, and likely.
func (s *Survey) PumpFlow() quantity.Band[quantity.Flow] {
	var q [3]float64
	for side := -1; side <= 1; side++ {
		if _, st := s.flowEnd(side); len(st.Pumps) > 0 {
			q[side+1] = st.Pumps[0].Flow
		}
	}
	return quantity.Band[quantity.Flow]{Low: quantity.Flow(min(q[0], q[1])), Likely: quantity.Flow(q[1]), High: quantity.Flow(max(q[1], q[2]))}
}

// Flow returns what comes out of all outlets, over the doubts.
func (s *Survey) Flow() quantity.Band[quantity.Flow] { return bandOf[quantity.Flow](s, flowMeasure()) }

// OutletRange returns the lowest and the highest flow, m3/s, that each outlet of
// a manifold has in any state that was computed: with each doubt alone at
// either end, and with all together at the ends of the flow and of the driest
// outlet's share.
func (s *Survey) OutletRange(manifold int) (low, high []float64) {
	states := []*study.State{s.Likely}
	for _, side := range s.ends[0] {
		states = append(states, side...)
	}
	for _, m := range []Measure{flowMeasure(), driestMeasure(manifold)} {
		states = append(states, s.End(m, -1), s.End(m, 1))
	}
	for k, st := range states {
		f := st.Manifolds[manifold].Flow
		if k == 0 {
			low, high = append(low, f...), append(high, f...)
			continue
		}
		for i, q := range f {
			low[i], high[i] = math.Min(low[i], q), math.Max(high[i], q)
		}
	}
	return low, high
}
