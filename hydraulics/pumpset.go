package hydraulics

// PumpSet is a number of like pumps at one speed, seen as a single Curve.
type PumpSet struct {
	Pump     Curve
	Speed    float64 // speed ratio; 1 for the speed of the curve
	Parallel int     // pumps side by side, each with a check valve; at least 1
	Series   int     // pumps one after another; at least 1
}

// Head returns the head and its slope at the set's total flow q. By the affinity
// laws (flow times s, head times s^2), equal flows add at equal head in parallel
// and heads add at equal flow in series.
//
// Source: ISO 9906 for the speed; any text for the rest.
func (p PumpSet) Head(q float64) (h, dhdq float64) {
	s, par, ser := p.Speed, float64(p.Parallel), float64(p.Series)
	h, dhdq = p.Pump.Head(q / (s * par))
	return ser * s * s * h, ser * s / par * dhdq
}

// FlowCurve is a pump curve that can be read backwards: the flow at a head, 0
// where the head is above shut-off.
type FlowCurve interface {
	Flow(h float64) float64
}

// ParallelFlow returns the total flow at head h of unlike pumps side by side,
// each with a check valve.
func ParallelFlow(h float64, pumps ...FlowCurve) float64 {
	sum := 0.0
	for _, p := range pumps {
		sum += p.Flow(h)
	}
	return sum
}

// SeriesHead returns the total head and slope at flow q of unlike pumps one
// after another.
func SeriesHead(q float64, pumps ...Curve) (h, dhdq float64) {
	for _, p := range pumps {
		a, b := p.Head(q)
		h += a
		dhdq += b
	}
	return h, dhdq
}

// AffinityPower returns the power at speed ratio s of a pump that takes the given
// power at speed ratio 1, at the like point of its curve: s^3.
func AffinityPower(power, s float64) float64 { return power * s * s * s }
