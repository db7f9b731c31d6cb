package climate

import "rillwright/climate/moistair"

// InnerGlass returns the temperature (C) of the inner face of a pane between air
// inside and a room (C), through films (W/(m2 K)) on both sides and the pane
// (thickness over conductivity, m2 K/W): three resistances in a row. Nothing
// settles on it, no lamp warms it.
func InnerGlass(air, room, in, out, pane float64) float64 {
	return air - (air-room)*(1/in)/(1/in+pane+1/out)
}

// FogLimit returns the relative humidity of air at a temperature (C) above which
// it fogs a face of another (C, not over it).
func FogLimit(air, face float64) float64 {
	return moistair.Saturation(face) / moistair.Saturation(air)
}
