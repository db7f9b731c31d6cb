package hydraulics

// FullPipeFlow returns the flow (m3/s) of a drain that runs full over a total
// drop (m) from the water surface to the outlet (its water surface if drowned),
// 0 for drop <= 0. The fittings of p must hold the exit loss. It is real only
// if the outlet end is drowned or the pipe seals itself; never count on it in a
// safety check unless the design makes it so.
func FullPipeFlow(p Pipe, drop float64) float64 {
	if drop <= 0 {
		return 0
	}
	return p.Flow(drop)
}

// StandpipeFlow returns the flow (m3/s) of a standpipe at head h over its rim,
// and what limits it: the smallest of rim weir, submerged orifice and full
// pipe. fall is the drop from the rim to the outlet. Between orifice and full
// pipe a real drain surges and gulps; this single value is the lower branch.
func StandpipeFlow(p Pipe, fall, h float64) (q float64, regime OutletRegime) {
	q, regime = VerticalOutletFlow(p.bore, h)
	if regime == RegimeDry {
		return q, regime
	}
	if full := FullPipeFlow(p, fall+h); full < q {
		return full, RegimeFullPipe
	}
	return q, regime
}
