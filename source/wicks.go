package source

// wicks are the works on what porous things carry over a rim.
func wicks() []Source {
	return []Source{
		{
			Key: "rope-rise", Title: "wick watering: water rising in a rope", Who: "garden magazine article", Mark: Published,
			Note: "a copy read; 7/16 in washed solid-braid nylon rope: 10 in in 100 minutes, 22 in in 20 hours; one test",
		},
		{
			Key: "felt-planter", Title: "hanging pots watered by felt strips out of a jar", Who: "hobby page", Year: 2008, Mark: Published,
			Note: "about a US gallon a day for one basket; the strip's section is not given",
		},
		{
			Key: "gee-campbell-1990", Title: "a wick tensiometer to measure low tensions in coarse soils", Who: "Gee & Campbell", Year: 1990,
			Where: "Soil Sci. Soc. Am. J. 54(5)", Mark: Published, Note: "abstract read: rolled absorbent towelling worked up to 90 cm of suction",
		},
		{
			Key: "price-2008", Title: "unsaturated hydraulic conductivity in living and undecomposed Sphagnum moss", Who: "Price et al.", Year: 2008,
			Where: "Soil Sci. Soc. Am. J. 72(2):487", Mark: Published,
			Note: "abstract read: 1800 and 230 um/s full, 0.03 and 11 um/s under 25 cm of suction, at the top and 25 cm down; author from memory",
		},
		{
			Key: "boutilier-2014", Title: "water filtration using plant xylem", Who: "Boutilier et al.", Year: 2014,
			Where: "PLoS ONE 9(2):e89934", Mark: Published,
			Note: "abstract read: 3 cm3 of pine sapwood pass several litres a day; a news summary gives 1 cm2, 5 psi and up to 4 litres; conductivity worked out from these",
		},
		{
			Key: "open-weave-rise", Title: "wetting of an open weave: capillary rise test", Who: "instrument maker's application note", Mark: Published,
			Note: "hydrophilic fibre, open weave: rise perhaps 1 mm; undated",
		},
		{
			Key: "foam-pores", Title: "pore sizes of reticulated foam", Who: "foam moulders' page", Year: 2016, Mark: Published,
			Note: "10 to 100 pores an inch are sold",
		},
	}
}
