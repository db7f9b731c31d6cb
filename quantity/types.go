// Package quantity holds the physical amounts a builder writes down and the
// program computes: typed numbers in SI units, the parsing of what a tape
// measure, a shop label or a plumbing aisle says, and the printing of results
// in the units the builder uses.
//
// Every type is a float64 in the SI unit its comment names, so that kernels
// can take plain numbers; Temperature alone is in degrees Celsius, the unit
// the fluid correlations are written in.
package quantity

// Length is a length in metres.
type Length float64

// Area is an area in square metres.
type Area float64

// Volume is a volume in cubic metres.
type Volume float64

// Flow is a volume flow in cubic metres a second.
type Flow float64

// FlowPerWidth is a flow spread along a lip or wall, in square metres a
// second (cubic metres a second for each metre of width).
type FlowPerWidth float64

// Speed is a speed in metres a second.
type Speed float64

// Duration is a time in seconds.
type Duration float64

// Temperature is a temperature in degrees Celsius.
type Temperature float64

// Mass is a mass in kilograms.
type Mass float64

// Power is a power in watts.
type Power float64

// Pressure is a pressure in pascals.
type Pressure float64

// Angle is an angle in radians.
type Angle float64

// Ratio is a pure number; 35 % is 0.35.
type Ratio float64

// Money is an amount of money. The currency is the ISO 4217 code as typed
// ("EUR", "USD"); amounts in different currencies never mix.
type Money struct {
	Amount   float64
	Currency string
}
