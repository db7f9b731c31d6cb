package minerals

// Units of hardness and alkalinity, as calcium carbonate.
const (
	// GermanDegree is one degree dGH, kg/m3.
	GermanDegree = 17.848e-3
	// Equivalent is one mol/m3 of charge (meq/L), kg/m3.
	Equivalent = 50.04e-3
	// CalciteDensity is that of scale, kg/m3 (from memory); crust with pores is
	// lighter and so thicker.
	CalciteDensity = 2710.0
)

// ScaleRate returns the most scale (kg/s) that evaporation (m3/s) may leave behind of
// water with a hardness and an alkalinity (kg/m3 as calcium carbonate): all of the
// smaller of both. A bound: part stays dissolved, and what falls out gathers where
// outlets and glass dry, not evenly.
//
// Derived.
func ScaleRate(evaporation, hardness, alkalinity float64) float64 {
	return evaporation * min(hardness, alkalinity)
}

// Thickness returns how thick (m) a mass (kg) of scale lies on an area (m2).
func Thickness(mass, area float64) float64 { return mass / (CalciteDensity * area) }

// NarrowsIn returns the time (s) until scale that gathers at a rate (kg/s) on an
// area about an outlet (m2) has narrowed its hole from a bore to another (m), from
// its rim inwards.
//
// Derived; that it grows evenly is assumed.
func NarrowsIn(rate, area, bore, to float64) float64 {
	return last((bore-to)/2*area*CalciteDensity, rate)
}
