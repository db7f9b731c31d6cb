package climate

import (
	"math"

	"rillwright/climate/moistair"
)

// NusseltUpright returns the Nusselt number of still air along an upright plate
// from its Rayleigh number, on its height, and the Prandtl number: {0.825 + 0.387
// Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}^2, for any Ra up to 1e12. Within 10 to
// 20 % of measurements (from memory).
//
// Source: churchill-chu-1975.
func NusseltUpright(ra, pr float64) float64 {
	x := 0.825 + 0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.492/pr, 9.0/16), 8.0/27)
	return x * x
}

// NusseltLevel returns the Nusselt number of still air over a level surface from
// its Rayleigh number on the length area/perimeter: where the air at the surface is
// lighter than that over it 0.54 Ra^(1/4) up to Ra 1e7 and 0.15 Ra^(1/3) beyond, a
// step of 6 %; where it is heavier, and so lies still, 0.27 Ra^(1/4). ok is false
// outside Ra 1e4 to 1e11 (1e5 to 1e10 where it lies still), where the same forms
// go on.
//
// Source: level-plates.
func NusseltLevel(ra float64, lies bool) (nu float64, ok bool) {
	switch {
	case lies:
		return 0.27 * math.Pow(ra, 0.25), ra >= 1e5 && ra <= 1e10
	case ra <= 1e7:
		return 0.54 * math.Pow(ra, 0.25), ra >= 1e4
	}
	return 0.15 * math.Cbrt(ra), ra <= 1e11
}

// NusseltForced returns the mean Nusselt number of a draught along a plate from
// its Reynolds number, on the length along the draught, and the Prandtl number:
// 0.664 Re^0.5 Pr^(1/3) up to Re 5e5, (0.037 Re^0.8 - 871) Pr^(1/3) to 1e8.
//
// Source: incropera.
func NusseltForced(re, pr float64) float64 {
	if re <= 5e5 {
		return 0.664 * math.Sqrt(re) * math.Cbrt(pr)
	}
	return (0.037*math.Pow(re, 0.8) - 871) * math.Cbrt(pr)
}

// Face is a surface that gives heat and vapour to the air before it.
type Face struct {
	Upright bool    // a wall; otherwise level and facing up
	Length  float64 // height of a wall, area/perimeter of a level face, along the draught if there is one; m
	Speed   float64 // of a draught along it, m/s; 0 for none
}

// Coefficients are what a face passes on, with the figures they come from.
type Coefficients struct {
	Heat float64 // W/(m2 K)
	Mass float64 // of vapour, m/s
	// Rayleigh and Reynolds are 0 where not used: a draught counts alone.
	Rayleigh, Reynolds, Nusselt float64
	Prandtl, Lewis              float64
	Buoyancy                    float64 // virtual temperature of the surface over that of the air, K
	InRange                     bool    // of its correlation
}

// Film returns the coefficients between a surface and the air before it under a
// pressure (Pa), with the properties of air at their mean temperature (C, -40 to
// 100). Moist air is light, so buoyancy comes from virtual temperatures: a wall as
// cool as the air still drives it. A draught is taken alone where there is one:
// below about 0.1 m/s take the larger of both.
//
// Mass = Heat/(density c_p Le^(2/3)) (lewis-analogy).
func Film(f Face, surface, air Side, pressure float64) Coefficients {
	tr := moistair.At((surface.Celsius+air.Celsius)/2, pressure)
	vs, va := surface.virtual(pressure), air.virtual(pressure)
	c := Coefficients{Prandtl: tr.Prandtl, Lewis: tr.Lewis, Buoyancy: vs - va, InRange: true}
	if f.Speed > 0 {
		c.Reynolds = f.Speed * f.Length / tr.Kinematic
		c.Nusselt = NusseltForced(c.Reynolds, tr.Prandtl)
		c.InRange = c.Reynolds <= 1e8
	} else {
		c.Rayleigh = G * math.Abs(vs-va) / ((vs + va) / 2) * f.Length * f.Length * f.Length / (tr.Kinematic * tr.Thermal)
		if f.Upright {
			c.Nusselt = NusseltUpright(c.Rayleigh, tr.Prandtl)
			c.InRange = c.Rayleigh <= 1e12
		} else {
			c.Nusselt, c.InRange = NusseltLevel(c.Rayleigh, vs < va)
		}
	}
	c.Heat = c.Nusselt * tr.Conductivity / f.Length
	c.Mass = MassCoefficient(c.Heat, tr.Density, tr.Lewis)
	return c
}

// MassCoefficient returns the coefficient (m/s) with which a face passes on vapour
// from that of heat (W/(m2 K)), the density of the air (kg/m3) and the Lewis
// number, thermal over vapour diffusivity, 0.83 to 0.87 for air: h/(density c_p
// Le^(2/3)).
//
// Source: lewis-analogy.
func MassCoefficient(heat, density, lewis float64) float64 {
	return heat / (density * moistair.CpDry * math.Cbrt(lewis*lewis))
}

// Evaporation returns what a wet face gives to the air (kg/(m2 s)) from its
// coefficient (m/s): that times the difference of vapour densities. Negative where
// vapour settles on it.
//
// A dripping wall has broken films and splashes: take 1 to 2 times its plain area
// as wet (assumed).
func Evaporation(mass float64, surface, air Side) float64 {
	return mass * (moistair.VapourDensity(surface.Vapour, surface.Celsius) - moistair.VapourDensity(air.Vapour, air.Celsius))
}

// PoolEvaporation returns what an open pool gives to the air (kg/(m2 s)) by the
// formula of pool builders, with the speed of the air over it (m/s): (p_w -
// p_a)(0.089 + 0.0782 v)/Y, Y = 2501000 - 2380 t the heat of evaporation (J/kg, from
// memory: the slope of steam tables, 2442000 at 25 C) at the water's temperature.
// It is for used pools: over still ones 74 % of it was measured, and half of it is
// within 0.75 to 1.15 times what Film gives. Show the pair as a band.
//
// Source: carrier-pool.
func PoolEvaporation(speed float64, surface, air Side) float64 {
	latent := moistair.LatentZero - 2380*surface.Celsius
	return (surface.Vapour - air.Vapour) * (0.089 + 0.0782*speed) / latent
}
