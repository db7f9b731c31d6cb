// Package moistair gives the properties of air with water vapour in it, by
// temperature, vapour and pressure. It is pure: figures in, figures out.
//
// Temperatures are in degrees Celsius unless a name says kelvin, everything else
// is SI: Pa, kg of vapour per kg of dry air, J per kg of dry air, m3 per kg of dry
// air. The forms and constants are those of ASHRAE Handbook Fundamentals 2017,
// chapter 1 (ashrae-fundamentals), as a general-purpose library codes them: they
// are checked against that library's rows. Outside the range of a formula the
// result is NaN, never a guess.
package moistair

// The range of temperature (C) in which the saturation pressure holds.
const (
	MinCelsius = -100.0
	MaxCelsius = 200.0
)

// Standard is the pressure of the standard atmosphere at sea level, Pa.
const Standard = 101325.0

// Figures of dry air and of vapour (ashrae-fundamentals; RVapour is rounded as
// evaporation formulas use it).
const (
	RDry       = 287.042  // gas constant of dry air, J/(kg K)
	RVapour    = 461.5    // gas constant of water vapour, J/(kg K)
	CpDry      = 1006.0   // heat capacity of dry air, J/(kg K)
	CpVapour   = 1860.0   // heat capacity of vapour, J/(kg K)
	LatentZero = 2.501e6  // heat of evaporation at 0 C, J/kg
	MassRatio  = 0.621945 // molar mass of water over that of dry air
)

const (
	zeroCelsius = 273.15 // K
	triple      = 0.01   // C: below it the saturation is that over ice
)
