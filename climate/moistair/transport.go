package moistair

import "math"

// Transport holds what carries heat and vapour through still or moving air.
type Transport struct {
	Density      float64 // of dry air, kg/m3
	Viscosity    float64 // Pa s
	Kinematic    float64 // viscosity over density, m2/s
	Conductivity float64 // W/(m K)
	Thermal      float64 // diffusivity of heat, m2/s
	Diffusivity  float64 // of vapour, m2/s
	Prandtl      float64 // Kinematic/Thermal
	Lewis        float64 // Thermal/Diffusivity
}

// At returns what carries heat and vapour in air at t (C, -40 to 100; NaN
// outside) under a pressure (Pa). What vapour changes in them is left out: under
// 2 % in damp air at 30 C.
//
// Viscosity after Sutherland, conductivity after the US Standard Atmosphere 1976,
// diffusivity of vapour 2.26e-5 (T/273.15)^1.81 (101325/p); all from memory.
func At(t, pressure float64) Transport {
	if !(t >= -40 && t <= 100) {
		t = math.NaN()
	}
	k := t + zeroCelsius
	root := k * math.Sqrt(k)
	tr := Transport{
		Density:      pressure / (RDry * k),
		Viscosity:    1.458e-6 * root / (k + 110.4),
		Conductivity: 2.64638e-3 * root / (k + 245.4*math.Pow(10, -12/k)),
		Diffusivity:  2.26e-5 * math.Pow(k/zeroCelsius, 1.81) * (Standard / pressure),
	}
	tr.Kinematic = tr.Viscosity / tr.Density
	tr.Thermal = tr.Conductivity / (tr.Density * CpDry)
	tr.Prandtl = tr.Kinematic / tr.Thermal
	tr.Lewis = tr.Thermal / tr.Diffusivity
	return tr
}
