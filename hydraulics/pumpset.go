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
