package hydraulics

import "math"

// Loss coefficients of a part-closed cock and gate in a round pipe, on the
// pipe's own velocity. Source: Weisbach's measurements of 1842-1843, as
// hydraulics handbooks table them (from memory).
//
//nolint:gochecknoglobals // constant tables
var (
	// cockAngles in degrees from open; a cock shuts at about 82.
	cockAngles = [...]float64{0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65}
	cockK      = [...]float64{0.04, 0.05, 0.29, 0.75, 1.56, 3.10, 5.47, 9.68, 17.3, 31.2, 52.6, 106, 206, 486}
	// gateClosed is the share of the bore that the gate has come down.
	gateClosed = [...]float64{0, 1.0 / 8, 2.0 / 8, 3.0 / 8, 4.0 / 8, 5.0 / 8, 6.0 / 8, 7.0 / 8}
	gateK      = [...]float64{0.05, 0.07, 0.26, 0.81, 2.06, 5.52, 17.0, 97.8}
)

const cockShut = 82.0 // degrees

// CockK returns the loss coefficient of a quarter-turn (ball or plug) valve at
// an opening between 0 (shut) and 1 (open), on the pipe's velocity; +Inf when
// shut. Between the tabled angles log K is taken as linear, and beyond the last
// one it goes on in the last slope.
func CockK(open float64) float64 {
	return throttleK((1-open)*90, cockShut, cockAngles[:], cockK[:])
}

// GateK returns the loss coefficient of a gate valve at an opening between 0
// (shut) and 1 (open), on the pipe's velocity; +Inf when shut. Interpolation as
// in CockK.
func GateK(open float64) float64 {
	return throttleK(1-open, 1, gateClosed[:], gateK[:])
}

func throttleK(x, shut float64, at, k []float64) float64 {
	switch {
	case x <= 0:
		return k[0]
	case x >= shut:
		return math.Inf(1)
	}
	i := len(at) - 2
	for i > 0 && x < at[i] {
		i--
	}
	t := (x - at[i]) / (at[i+1] - at[i])
	return k[i] * math.Pow(k[i+1]/k[i], t)
}
