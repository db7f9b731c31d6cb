package joint

import (
	"math"

	"rillwright/quantity"
)

// What sealant is sold in, m3.
const (
	Cartridge   = 310e-6                  // the usual metric one; some hold 300 mL: read it
	CartridgeUS = 10.1 * 29.5735295625e-6 // 10.1 fl oz
	Tube        = 80e-6
)

// Area returns the section of a bed, bite by thickness, m2.
func (b Butt) Area() float64 { return b.Bite * b.Thickness }

// Area returns the section of a fillet with a flat face, A B/2, m2.
func (f Fillet) Area() float64 { return f.A * f.B / 2 }

// RoundBead returns the section of a bead of some diameter (m) before it is
// pressed, m2.
func RoundBead(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }

// Volume returns the sealant (m3) for some length (m) of a section (m2): 1 mm2 is
// 1 mL per metre. A coat is its area times its thickness.
func Volume(section, length float64) float64 { return section * length }

// Waste returns what is lost of all sealant, over what stays in the joint: in
// nozzles, under the spatula, hardened in an opened cartridge.
func Waste() Figure {
	return Figure{Band: quantity.Band[float64]{Low: 0.10, Likely: 0.15, High: 0.25}, Source: "sealant-cost-guides", Note: "10 to 20 % there; likely is the middle; high assumed"}
}

// Cartridges returns how many cartridges of some size (m3, over 0) a volume (m3,
// 0 or more) with waste (share) takes: the next whole number. A rounding error
// over a whole number does not buy one more.
func Cartridges(volume, waste, size float64) int {
	return int(math.Ceil(volume * (1 + waste) / size * (1 - 1e-12)))
}
