package hydraulics

import (
	"math"

	"rillwright/fluid"
)

// StandardAtmosphere is the pressure of the standard atmosphere at sea level, Pa
// (ISO 2533).
const StandardAtmosphere = 101325.0

// VelocityHead returns v^2/(2g), m.
func VelocityHead(v float64) float64 { return v * v / (2 * G) }

// BarometricHead returns the water column (m) between the given absolute
// pressure (Pa) and the vapour pressure: the most that suction can lift.
func BarometricHead(pressure float64, w fluid.Water) float64 {
	return (pressure - w.VapourPressure) / (w.Density * G)
}

// SiphonCrestHead returns the gauge head (m, negative for suction) at the top of
// a siphon: -(z + v^2/2g + loss), z the crest's height over the upper water
// surface and loss the head lost up to the crest.
//
// Source: energy equation.
func SiphonCrestHead(z, v, loss float64) float64 { return -(z + VelocityHead(v) + loss) }

// SiphonMargin returns by how much (m) a crest head stays above boiling at the given
// absolute air pressure (Pa). Keep 1 m or more; dissolved air and leaks break
// weak siphons long before.
func SiphonMargin(crestHead, pressure float64, w fluid.Water) float64 {
	return crestHead + BarometricHead(pressure, w)
}

// NPSHAvailable returns the net positive suction head (m) at a pump's eye: z the
// height of the water surface above the eye (negative below), loss the head
// lost in the suction line. About 10 m for a submerged pump, where cavitation is
// not the limit but vortices and running dry are.
//
// Source: definition (ISO 9906).
func NPSHAvailable(pressure float64, w fluid.Water, z, loss float64) float64 {
	return BarometricHead(pressure, w) + z - loss
}

// InletFroude returns v/sqrt(g d) of an inlet of bore d.
func InletFroude(d, v float64) float64 { return v / math.Sqrt(G*d) }

// Submergence returns the water depth (m) over an inlet of bore d and velocity v
// that keeps vortices from drawing air: d (1 + 2.3 v/sqrt(g d)). Made for large
// intakes; take the larger of this and the pump maker's lowest level.
//
// Source: ANSI/HI 9.8 (from memory).
func Submergence(d, v float64) float64 { return d * (1 + 2.3*InletFroude(d, v)) }

// AirGapUS returns the smallest air gap (m) between a mains outlet of the given
// bore and the rim it could flood: 2 bores, 3 near a wall, at least 25.4 mm.
// Check the local code.
//
// Source: ASME A112.1.2 (from memory).
func AirGapUS(bore float64, nearWall bool) float64 {
	n := 2.0
	if nearWall {
		n = 3
	}
	return max(n*bore, inch)
}

// AirGapEN returns the smallest air gap (m) of type AA: 2 bores, at least 20 mm.
// Check the local code.
//
// Source: EN 1717, EN 13076 (from memory).
func AirGapEN(bore float64) float64 { return max(2*bore, 0.020) }
