package minerals

import "math"

// Reserve is the water that may go before somebody must come.
type Reserve struct {
	Area      float64 // of the free surface of the sump, m2
	Drop      float64 // by which its level may fall while the pump stays covered, m
	Reservoir float64 // in a top-up reservoir, m3
}

// Buffer returns what the sump may lose, m3.
func (r Reserve) Buffer() float64 { return r.Area * r.Drop }

// ByHand returns the time (s) between top-ups by hand at an evaporation (m3/s), the
// reservoir apart; +Inf if nothing evaporates.
func (r Reserve) ByHand(evaporation float64) float64 { return last(r.Buffer(), evaporation) }

// Lasts returns the time (s) that sump and reservoir last at an evaporation (m3/s);
// +Inf if nothing evaporates.
func (r Reserve) Lasts(evaporation float64) float64 {
	return last(r.Buffer()+r.Reservoir, evaporation)
}

func last(volume, flow float64) float64 {
	if flow <= 0 {
		return math.Inf(1)
	}
	return volume / flow
}

// Thickens returns by what factor all that is dissolved grows while the sump of a
// volume of water (m3) falls to its lowest: V/(V - drop).
func (r Reserve) Thickens(volume float64) float64 { return volume / (volume - r.Buffer()) }
