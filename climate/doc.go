// Package climate balances heat and moisture of an enclosure with standing and
// dripping water, lamps, heater, panes and vents in a room: what state it comes
// to, and its course through a day.
//
// Figures are SI, temperatures in degrees Celsius, relative humidity 1 when
// saturated. The package is pure: no I/O, no clock, no state between calls. Film
// coefficients, the Lewis number and discharge coefficients are inputs of the
// balance, because they are what is known worst; Film and the other formulas here
// give them from correlations.
//
// One volume of well-mixed air, one body of well-mixed water, panes each of one
// temperature across. Real fronts differ by 1 to 2 K from foot to top (assumed);
// report temperatures to 0.5 K and humidity to 5 %.
package climate

import (
	"math"

	"rillwright/climate/moistair"
)

// G is the standard acceleration of gravity, m/s2 (ISO 80000-3; CGPM 1901).
const G = 9.80665

// CpWater is the heat capacity of liquid water, J/(kg K), taken as constant from
// 0 to 40 C (within 0.7 %; from memory).
const CpWater = 4186.0

const zeroCelsius = 273.15 // K

// Side is air, or the air that touches a surface.
type Side struct {
	Celsius float64
	Vapour  float64 // pressure of the vapour, Pa
}

// Wet returns the side of a wet surface at t (C): saturated.
func Wet(t float64) Side { return Side{t, moistair.Saturation(t)} }

// virtual returns the virtual temperature (K) under a pressure (Pa).
func (s Side) virtual(pressure float64) float64 {
	return moistair.VirtualTemperature(s.Celsius, s.Vapour, pressure)
}

// positive reports whether all are finite and over 0.
func positive(xs ...float64) bool {
	for _, x := range xs {
		if !(x > 0) || math.IsInf(x, 1) {
			return false
		}
	}
	return true
}

// amount reports whether all are finite and not under 0.
func amount(xs ...float64) bool {
	for _, x := range xs {
		if !(x >= 0) || math.IsInf(x, 1) {
			return false
		}
	}
	return true
}
