package structure

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/source"
)

// Nominal is a thickness by which panes are sold, with what they may measure.
type Nominal struct {
	Name   string  // as the shop writes it
	Named  float64 // the thickness the name says, m
	Actual Figure  // what a pane of that name measures, m
}

// MetricFloat returns the thicknesses of float glass by EN 572-2, thin to
// thick, likely as named.
func MetricFloat() []Nominal {
	var out []Nominal
	add := func(mm, off float64, key source.Key, note string) {
		t := mm / 1000
		out = append(out, Nominal{
			Name: fmt.Sprintf("%g mm", mm), Named: t,
			Actual: Figure{Band: quantity.Band[float64]{Low: t - off/1000, Likely: t, High: t + off/1000}, Source: key, Note: note},
		})
	}
	const read = "en-572-2"
	for _, mm := range [...]float64{3, 4, 5, 6} {
		add(mm, 0.2, read, "")
	}
	for _, mm := range [...]float64{8, 10, 12} {
		add(mm, 0.3, read, "")
	}
	add(15, 0.5, read, "")
	add(19, 1, read, "")
	return append(out, Nominal{
		Name: "25 mm", Named: 0.025,
		Actual: Figure{Band: quantity.Band[float64]{Low: 0.024, Likely: 0.025, High: 0.026}, Source: "memory", Note: "1 mm either way"},
	})
}

// USFloat returns the thicknesses of flat glass by ASTM C1036, from memory, thin
// to thick: nearly all lie below what the name in inches says. Likely is the
// middle of the range (assumed); measure the pane.
func USFloat() []Nominal {
	var out []Nominal
	for _, r := range [...]struct {
		name           string
		inch, low, top float64 // the latter in mm
	}{
		{"3/32 in", 3. / 32, 2.16, 2.57},
		{"1/8 in", 1. / 8, 2.92, 3.40},
		{"5/32 in", 5. / 32, 3.78, 4.19},
		{"3/16 in", 3. / 16, 4.57, 5.05},
		{"1/4 in", 1. / 4, 5.56, 6.20},
		{"5/16 in", 5. / 16, 7.42, 8.43},
		{"3/8 in", 3. / 8, 9.02, 10.31},
		{"1/2 in", 1. / 2, 11.91, 13.49},
		{"5/8 in", 5. / 8, 15.09, 16.66},
		{"3/4 in", 3. / 4, 18.26, 19.84},
		{"1 in", 1, 24.61, 26.19},
	} {
		out = append(out, Nominal{
			Name: r.name, Named: r.inch * 0.0254,
			Actual: Figure{
				Band:   quantity.Band[float64]{Low: r.low / 1000, Likely: (r.low + r.top) / 2000, High: r.top / 1000},
				Source: "astm-c1036", Note: "likely is the middle: assumed",
			},
		})
	}
	return out
}

// AcrylicThickness returns what acrylic sheet of a nominal thickness (m, over 0)
// may measure: cell cast 0.4 mm + 0.1 t either way, extruded 5 %, from memory;
// extruded sheet under 3 mm varies more.
func AcrylicThickness(nominal float64, cast bool) Figure {
	off := 0.05 * nominal
	if cast {
		off = 0.0004 + 0.1*nominal
	}
	return Figure{Band: quantity.Band[float64]{Low: max(nominal-off, 0), Likely: nominal, High: nominal + off}, Source: "iso-7823"}
}

// LayeredThickness returns the thicknesses (m) of solid glass that bow as much,
// and are stressed as much in their most stressed ply, as a laminate of plies
// (m, each over 0) under the same load; films are left out. Share says how far
// the film makes the plies work as one: 0 not at all, which is right and cautious
// for a load that stays (common practice, no source), 1 fully.
//
//	bow^3    = sum h^3 + 12 share sum h m^2
//	stress^2 = bow^3/(h + 2 share m), the least of all plies
//
// where m is from the ply's middle to that of all glass. Neither is over the sum
// of the plies, which the second would pass for unlike plies that share in part.
// The sums are derived, the share as factor is EN 16612 from memory. Both are 0
// with no plies, and NaN if an argument is out of range.
func LayeredThickness(share float64, plies ...float64) (bow, stress float64) {
	if !(share >= 0 && share <= 1) || len(plies) > 0 && !positive(plies...) {
		return math.NaN(), math.NaN()
	}
	total := 0.0
	for _, h := range plies {
		total += h
	}
	cube, at := 0.0, -total/2
	for _, h := range plies {
		m := at + h/2
		cube += h*h*h + 12*share*h*m*m
		at += h
	}
	at = -total / 2
	for i, h := range plies {
		m := math.Abs(at + h/2)
		if s := math.Sqrt(cube / (h + 2*share*m)); i == 0 || s < stress {
			stress = s
		}
		at += h
	}
	return math.Cbrt(cube), min(stress, total)
}
