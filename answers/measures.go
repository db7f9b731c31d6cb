package answers

import (
	"math"
	"slices"

	"rillwright/hydraulics"
	"rillwright/study"
)

// The measures that answers are made of.

func flowMeasure() Measure {
	return Measure{ID: "flow", Of: func(st *study.State) float64 { return st.Outlets }}
}

func openFlowMeasure() Measure {
	return Measure{ID: "open flow", Open: true, Of: func(st *study.State) float64 { return st.Inflow }}
}

// drainRatioMeasure is the drains' capacity at the top of the dam over the
// inflow with every valve open.
func drainRatioMeasure() Measure {
	return Measure{ID: "drain ratio", Open: true, Of: func(st *study.State) float64 {
		return capacity(st) / math.Max(st.Inflow, 1e-9)
	}}
}

func capacityMeasure() Measure {
	return Measure{ID: "capacity", Open: true, Of: capacity}
}

func capacity(st *study.State) float64 {
	sum := 0.0
	for i := range st.Drains {
		sum += st.Drains[i].Capacity
	}
	return sum
}

func riseMeasure() Measure {
	return Measure{ID: "rise", Of: func(st *study.State) float64 { return st.PoolLevel - st.RestLevel }}
}

func openRiseMeasure() Measure {
	return Measure{ID: "open rise", Open: true, Of: func(st *study.State) float64 { return st.PoolLevel - st.RestLevel }}
}

func poolMeasure() Measure {
	return Measure{ID: "pool", Of: poolLevel}
}

func openPoolMeasure() Measure {
	return Measure{ID: "open pool", Open: true, Of: poolLevel}
}

// poolLevel goes on rising with the spill once the pool stands at the dam's top,
// a metre for a cubic metre a second, so that what makes a spill worse shows.
func poolLevel(st *study.State) float64 { return st.PoolLevel + st.Spill }

// stopMeasure is the level in the sump after the pump has stopped.
func stopMeasure() Measure {
	return Measure{ID: "stop", Open: true, Of: func(st *study.State) float64 { return st.StopLevel }}
}

// chamberMeasure is the highest level of any sump chamber.
func chamberMeasure() Measure {
	return Measure{ID: "chambers", Open: true, Of: func(st *study.State) float64 { return slices.Max(st.Chambers) }}
}

func sumpMeasure() Measure {
	return Measure{ID: "sump", Of: func(st *study.State) float64 { return st.SumpLevel }}
}

func heldMeasure() Measure {
	return Measure{ID: "held", Of: func(st *study.State) float64 { return st.Held }}
}

// quietMeasure is the largest share that any drain carries of what it can carry
// quietly.
func quietMeasure() Measure {
	return Measure{ID: "quiet", Of: func(st *study.State) float64 {
		most := 0.0
		for i := range st.Drains {
			most = math.Max(most, st.Drains[i].Flow/st.Drains[i].Quiet)
		}
		for i := range st.Joined {
			most = math.Max(most, st.Joined[i].Flow/st.Joined[i].Quiet)
		}
		return most
	}}
}

// lowQuarterMeasure is the low-quarter uniformity of one manifold by the heads
// at its outlets.
func lowQuarterMeasure(i int) Measure {
	return Measure{ID: "low quarter " + string(rune('a'+i)), Of: func(st *study.State) float64 {
		return LowQuarter(st.Manifolds[i].Flow)
	}}
}

// LowQuarter is the mean of the lowest quarter of flows over the mean of all, 0
// if nothing flows.
func LowQuarter(flow []float64) float64 {
	if len(flow) == 0 || slices.Max(flow) <= 0 {
		return 0
	}
	return hydraulics.DistributionUniformity(flow, make([]float64, len(flow)))
}

func driestMeasure(i int) Measure {
	return Measure{ID: "driest " + string(rune('a'+i)), Of: func(st *study.State) float64 {
		f := st.Manifolds[i].Flow
		if st.Manifolds[i].Total <= 0 {
			return 0
		}
		return slices.Min(f) * float64(len(f)) / st.Manifolds[i].Total
	}}
}

func headMeasure(i int) Measure {
	return Measure{ID: "outlet head " + string(rune('a'+i)), Of: func(st *study.State) float64 {
		return math.Max(st.Manifolds[i].HeadMin, 0)
	}}
}

func pumpHeadMeasure(i int) Measure {
	return Measure{ID: "pump head " + string(rune('a'+i)), Of: func(st *study.State) float64 { return st.Pumps[i].Head }}
}

// measures lists every measure that the answers read.
func (s *Survey) measures() []Measure {
	out := []Measure{
		flowMeasure(), openFlowMeasure(), drainRatioMeasure(), capacityMeasure(), riseMeasure(), openRiseMeasure(),
		poolMeasure(), openPoolMeasure(), sumpMeasure(), heldMeasure(), quietMeasure(), stopMeasure(), chamberMeasure(),
	}
	for i := range s.E.Manifolds {
		out = append(out, lowQuarterMeasure(i), driestMeasure(i), headMeasure(i))
	}
	for i := range s.E.Pumps {
		out = append(out, pumpHeadMeasure(i))
	}
	return out
}
