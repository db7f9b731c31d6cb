package hydraulics

import (
	"rillwright/quantity"
	"rillwright/source"
)

// WickFigure is a figure of a porous material as a band, with where its likely
// value or, if that is assumed, its best end comes from.
type WickFigure struct {
	quantity.Band[float64]

	Source source.Key
	Note   string // what of the band is measured and what is not
}

// WickMaterial is a kind of porous thing that carries water over a rim.
type WickMaterial struct {
	Name         string     // in the trade's words
	Conductivity WickFigure // full of water, over the whole cross-section, m/s
	Capillary    WickFigure // height to which it lifts water, m
}

// WickMaterials returns the materials of which bands are known, roughly: two to
// four powers of ten in conductivity. Both high ends together overstate the flow:
// pores wide enough to carry much lift little. Measure the thing itself: hang it
// from a jar over a cup for a day.
func WickMaterials() []WickMaterial {
	return []WickMaterial{
		{
			Name: "cord, felt or cloth",
			Conductivity: WickFigure{
				Band: quantity.Band[float64]{Low: 2e-6, Likely: 5e-5, High: 1e-3}, Source: "rope-rise",
				Note: "a tight rope's rise gives 6e-6; felt strips that dripped a US gallon a day need some 4e-4; the ends lie beyond these, likely between: assumed",
			},
			Capillary: WickFigure{
				Band: quantity.Band[float64]{Low: 0.15, Likely: 0.35, High: 0.9}, Source: "gee-campbell-1990",
				Note: "high from rolled towelling that still drew; the rope of rope-rise tends to 0.62 m; low and likely assumed",
			},
		},
		{
			Name: "power cord or air line with a smooth sheath",
			Conductivity: WickFigure{
				Band: quantity.Band[float64]{Low: 0, Likely: 1e-6, High: 2e-5}, Source: "assumed",
				Note: "only a film or the meniscus in the corner between cord and glass, spread over the cord's section; high is a corner 0.5 mm wide",
			},
			Capillary: WickFigure{
				Band: quantity.Band[float64]{Low: 0, Likely: 0.005, High: 0.015}, Source: "assumed",
				Note: "high is sigma/(rho g r) for a corner of r = 0.5 mm; algae, lime and cord ties lift more",
			},
		},
		{
			Name: "moss, loose like bog moss",
			Conductivity: WickFigure{
				Band: quantity.Band[float64]{Low: 1.1e-5, Likely: 2.3e-4, High: 1.8e-3}, Source: "price-2008",
				Note: "measured: high the full top 5 cm, likely the full moss 25 cm down, low the latter under 25 cm of suction; the top fell to 3e-8 there",
			},
			Capillary: WickFigure{
				Band: quantity.Band[float64]{Low: 0.1, Likely: 0.25, High: 0.4}, Source: "price-2008",
				Note: "flow was measured under 0.25 m of suction, the apparatus went to 0.35 m; low and high assumed",
			},
		},
		{
			Name: "wood, along the grain",
			Conductivity: WickFigure{
				Band: quantity.Band[float64]{Low: 1e-8, Likely: 4e-6, High: 1e-4}, Source: "boutilier-2014",
				Note: "likely from fresh pine sapwood; low for dry or heart wood and high for wood with wide vessels from memory",
			},
			Capillary: WickFigure{
				Band: quantity.Band[float64]{Low: 0.1, Likely: 0.5, High: 1}, Source: "laplace-capillary",
				Note: "pores of 0.3, 0.06 and 0.03 mm; the sizes from memory",
			},
		},
		{
			Name: "plastic or glass-fibre mesh, foam edge",
			Conductivity: WickFigure{
				Band: quantity.Band[float64]{Low: 1e-4, Likely: 1e-3, High: 1e-2}, Source: "memory",
				Note: "full of water; gaps of a millimetre carry much but lift little",
			},
			Capillary: WickFigure{
				Band: quantity.Band[float64]{Low: 0.001, Likely: 0.03, High: 0.12}, Source: "open-weave-rise",
				Note: "low measured on an open weave; likely and high are 4 sigma/(rho g d) for gaps of 1 and 0.25 mm, foam of 25 and 100 pores an inch (foam-pores)",
			},
		},
	}
}
