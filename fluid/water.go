// Package fluid gives the properties of fresh water at atmospheric pressure
// against temperature. It is pure: figures in, figures out, SI units.
package fluid

import "math"

// The range of temperature, in degrees Celsius, in which every fit of this
// package holds. The density fit is the narrowest (0 to 40).
const (
	MinCelsius = 0.0
	MaxCelsius = 40.0
)

const zeroCelsius = 273.15 // K

// Water holds the properties of air-free fresh water at 0.1 MPa and one
// temperature.
type Water struct {
	Density        float64 // kg/m3
	Viscosity      float64 // dynamic viscosity, Pa s
	Kinematic      float64 // kinematic viscosity, m2/s
	VapourPressure float64 // saturation pressure over a flat surface, Pa absolute
	SurfaceTension float64 // against air, clean water, N/m
}

// AtCelsius returns the properties of water at t degrees Celsius.
//
// ok is false, and the Water is the zero value, when t is not a number or lies
// outside MinCelsius to MaxCelsius: no clamping, no extrapolation.
//
// Surfactants and plant leachate can halve the surface tension of real water;
// the figure here is for clean water. The other properties are hardly touched
// by what is dissolved in a freshwater enclosure.
//
// Sources: density Tanaka et al. 2001; viscosity IAPWS SR6-08(2011); vapour
// pressure IAPWS-IF97 region 4; surface tension IAPWS R1-76(2014).
func AtCelsius(t float64) (w Water, ok bool) {
	if !(t >= MinCelsius && t <= MaxCelsius) {
		return Water{}, false
	}
	rho, mu := density(t), viscosity(t)
	return Water{
		Density:        rho,
		Viscosity:      mu,
		Kinematic:      mu / rho,
		VapourPressure: vapourPressure(t),
		SurfaceTension: surfaceTension(t),
	}, true
}

// density returns the density in kg/m3 at t degrees Celsius, 0 to 40.
//
// Source: Tanaka et al. 2001, Metrologia 38:301 (the CIPM formula); the
// coefficients are from memory, checked against a handbook table in the tests.
func density(t float64) float64 {
	const (
		a1 = -3.983035
		a2 = 301.797
		a3 = 522528.9
		a4 = 69.34881
		a5 = 999.974950
	)
	return a5 * (1 - (t+a1)*(t+a1)*(t+a2)/(a3*(t+a4)))
}

// viscosity returns the dynamic viscosity in Pa s at t degrees Celsius and
// 0.1 MPa; the fit holds for 253 to 383 K.
//
// Source: IAPWS SR6-08(2011), supplementary release on properties of liquid
// water at 0.1 MPa; coefficients from memory, checked as density is.
func viscosity(t float64) float64 {
	th := (t + zeroCelsius) / 300
	return 1e-6 * (280.68*math.Pow(th, -1.9) + 511.45*math.Pow(th, -7.7) +
		61.131*math.Pow(th, -19.6) + 0.45903*math.Pow(th, -40))
}

// vapourPressure returns the saturation pressure in Pa at t degrees Celsius;
// the equation holds for 273.15 to 647.096 K.
//
// Source: IAPWS-IF97, region 4 (the saturation line), equation and ten
// coefficients; checked against the release's verification values.
func vapourPressure(t float64) float64 {
	const (
		n1  = 0.11670521452767e4
		n2  = -0.72421316703206e6
		n3  = -0.17073846940092e2
		n4  = 0.12020824702470e5
		n5  = -0.32325550322333e7
		n6  = 0.14915108613530e2
		n7  = -0.48232657361591e4
		n8  = 0.40511340542057e6
		n9  = -0.23855557567849
		n10 = 0.65017534844798e3
	)
	kelvin := t + zeroCelsius
	th := kelvin + n9/(kelvin-n10)
	a := th*th + n1*th + n2
	b := n3*th*th + n4*th + n5
	c := n6*th*th + n7*th + n8
	x := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	x *= x
	return 1e6 * x * x
}

// surfaceTension returns the surface tension in N/m at t degrees Celsius; the
// equation holds from the triple point to the critical point.
//
// Source: IAPWS R1-76(2014), surface tension of ordinary water substance.
func surfaceTension(t float64) float64 {
	tau := 1 - (t+zeroCelsius)/647.096
	return 0.2358 * math.Pow(tau, 1.256) * (1 - 0.625*tau)
}
