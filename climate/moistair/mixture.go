package moistair

import "math"

// HumidityRatio returns kg of vapour per kg of dry air from the pressure of the
// vapour and of the whole (Pa; NaN unless 0 <= vapour < pressure): 0.621945
// p_v/(p - p_v) (ashrae-fundamentals).
func HumidityRatio(vapour, pressure float64) float64 {
	if !(vapour >= 0 && vapour < pressure) {
		return math.NaN()
	}
	return MassRatio * vapour / (pressure - vapour)
}

// VapourPressure returns the pressure (Pa) of the vapour from its ratio to dry
// air (kg/kg) and the pressure of the whole (Pa): the inverse of HumidityRatio.
func VapourPressure(ratio, pressure float64) float64 {
	return pressure * ratio / (MassRatio + ratio)
}

// Relative returns the relative humidity, 1 when saturated, of air at t (C) with
// a humidity ratio (kg/kg) under a pressure (Pa). NaN outside the range of
// Saturation.
func Relative(t, ratio, pressure float64) float64 {
	return VapourPressure(ratio, pressure) / Saturation(t)
}

// Enthalpy returns the heat content (J per kg of dry air) of air at t (C) with a
// humidity ratio (kg/kg), against dry air and liquid water at 0 C: 1006 t +
// w (2501000 + 1860 t) (ashrae-fundamentals).
func Enthalpy(t, ratio float64) float64 {
	return CpDry*t + ratio*VapourEnthalpy(t)
}

// VapourEnthalpy returns the heat content (J/kg) of vapour at t (C) against liquid
// water at 0 C: 2501000 + 1860 t (ashrae-fundamentals).
func VapourEnthalpy(t float64) float64 { return LatentZero + CpVapour*t }

// Temperature returns the temperature (C) of air with a heat content (J per kg of
// dry air) and a humidity ratio (kg/kg): the inverse of Enthalpy.
func Temperature(enthalpy, ratio float64) float64 {
	return (enthalpy - ratio*LatentZero) / (CpDry + ratio*CpVapour)
}

// Volume returns the m3 that hold 1 kg of dry air and its vapour at t (C, over
// absolute zero), with a humidity ratio (kg/kg), under a pressure (Pa): 287.042
// T (1 + 1.607858 w)/p (ashrae-fundamentals).
func Volume(t, ratio, pressure float64) float64 {
	return RDry * (t + zeroCelsius) * (1 + 1.607858*ratio) / pressure
}

// Density returns kg of moist air in a m3; arguments as for Volume.
func Density(t, ratio, pressure float64) float64 {
	return (1 + ratio) / Volume(t, ratio, pressure)
}

// VapourDensity returns kg of vapour in a m3 from its pressure (Pa) at t (C):
// p_v/(461.5 T), the law of ideal gases.
func VapourDensity(vapour, t float64) float64 { return vapour / (RVapour * (t + zeroCelsius)) }

// VirtualTemperature returns the temperature (K) at which dry air would be as
// light as air at t (C) with vapour of a pressure, under the pressure of the whole
// (Pa): T/(1 - 0.378 p_v/p). Derived from the ratio of molar masses, 0.622.
func VirtualTemperature(t, vapour, pressure float64) float64 {
	return (t + zeroCelsius) / (1 - 0.378*vapour/pressure)
}

// WetBulb returns the temperature (C) to which air at t (C) with a humidity ratio
// (kg/kg) under a pressure (Pa) cools a wet thing in a draught, over ice below 0 C.
// NaN if the air is more than saturated or t lies outside -100 to 60 C, where the
// forms are not meant to be used; what it solves is equation 33 or 35 of
// ashrae-fundamentals.
//
// A dripping wall that gets no heat but from the air stands near it.
func WetBulb(t, ratio, pressure float64) float64 {
	full := HumidityRatio(Saturation(t), pressure)
	if !(ratio >= 0 && ratio <= full*(1+1e-12)) || t > 60 {
		return math.NaN()
	}
	lo, hi := MinCelsius, t
	for range 60 { // to the last digit that matters, 1e-16 of the range
		mid := lo + (hi-lo)/2
		if wetBulbRatio(t, mid, pressure) > ratio {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo + (hi-lo)/2
}

// wetBulbRatio returns the humidity ratio of air at t (C) with a wet bulb (C).
func wetBulbRatio(t, wet, pressure float64) float64 {
	full := HumidityRatio(Saturation(wet), pressure)
	if wet >= 0 {
		return ((LatentZero-2326*wet)*full - CpDry*(t-wet)) / (LatentZero + CpVapour*t - 4186*wet)
	}
	return ((2.83e6-240*wet)*full - CpDry*(t-wet)) / (2.83e6 + CpVapour*t - 2100*wet)
}
