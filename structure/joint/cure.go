package joint

import (
	"math"

	"rillwright/quantity"
)

// CureRate returns the depth over square root of time, k in depth = k sqrt(t), at
// which one-part silicone cures from a face open to air at 23 C and 50 %,
// m/s^0.5: 2 to 4 mm/sqrt(day), likely 3; plan with the low end.
func CureRate() Figure {
	const mmPerRootDay = 1e-3 / 293.9387691339814 // sqrt(86400)
	return Figure{
		Band:   quantity.Band[float64]{Low: 2 * mmPerRootDay, Likely: 3 * mmPerRootDay, High: 4 * mmPerRootDay},
		Source: "rtv-notes", Note: "2 and 3 mm in the first day; high from memory",
	}
}

// VapourPressure returns the pressure (Pa) of water vapour in air at a
// temperature (C, -40 to 60) and relative humidity (0 to 1), by the Magnus form
// 611.2 exp(17.62 T/(243.12 + T)), from memory.
func VapourPressure(celsius, humidity float64) float64 {
	return humidity * 611.2 * math.Exp(17.62*celsius/(243.12+celsius))
}

// CureFactor returns by what CureRate is to be multiplied in other air: the
// square root of its vapour pressure over that at 23 C and 50 %, since the water
// comes through the cured skin. Temperature also acts on that passage itself,
// which is left out: below 15 C add a margin (assumed). Derived; that warm and
// damp is faster is published by makers.
func CureFactor(celsius, humidity float64) float64 {
	return math.Sqrt(VapourPressure(celsius, humidity) / VapourPressure(23, 0.5))
}

// CureDepth returns the depth (m) cured after a time (s) at a rate (m/s^0.5):
// k sqrt(t). Derived.
func CureDepth(rate, seconds float64) float64 { return rate * math.Sqrt(seconds) }

// CureTime returns the time (s) until a path (m) has cured: (path/k)^2. The path
// of a bed between two faces that let no air through is half its bite if both
// edges are open, all of it if one is; of a fillet, its throat. Derived.
func CureTime(rate, path float64) float64 {
	x := path / rate
	return x * x
}
