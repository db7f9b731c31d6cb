package source

// air are the works on moist air, evaporation and what moves air.
func air() []Source {
	return []Source{
		{
			Key: "ashrae-fundamentals", Title: "Handbook: Fundamentals, psychrometrics", Who: "ASHRAE", Year: 2017,
			Where: "ch. 1", Mark: Published, Note: "as coded in a general-purpose library, whose rows are the check; the handbook itself was not read",
		},
		{
			Key: "churchill-chu-1975", Title: "free convection from an upright plate", Who: "Churchill & Chu", Year: 1975,
			Where: "Int. J. Heat Mass Transfer 18:1323", Mark: FromMemory, Note: "its laminar form was read in lecture notes",
		},
		{
			Key: "level-plates", Title: "free convection from level plates", Who: "McAdams; Lloyd & Moran", Year: 1974,
			Mark: Published, Note: "read in lecture notes, not in the articles",
		},
		{
			Key: "incropera", Title: "Fundamentals of Heat and Mass Transfer", Who: "Incropera et al.",
			Mark: FromMemory, Note: "the laminar plate was read in lecture notes, the turbulent one is from memory",
		},
		{
			Key: "lewis-analogy", Title: "vapour is carried off a wet face as heat is", Who: "Lewis; Chilton & Colburn", Mark: FromMemory,
		},
		{
			Key: "carrier-pool", Title: "evaporation from pools", Who: "Carrier", Where: "ASHRAE Handbook: HVAC Applications", Mark: FromMemory,
			Note: "read in inch units in an abstract of ASHRAE Transactions 104(1A), 1998, with 74 % of it measured over still pools and 40 to 70 % more over disturbed ones",
		},
		{
			Key: "stack-flow", Title: "air driven through two openings by what it weighs", Who: "ASHRAE; CIBSE",
			Where: "Fundamentals, ventilation; AM10", Mark: FromMemory, Note: "discharge coefficients too",
		},
	}
}

// lighting are the works on light on faces.
func lighting() []Source {
	return []Source{
		{
			Key: "view-factors", Title: "a catalogue of radiation view factors", Who: "Howell",
			Where: "C-11, C-13, C-14, C-16", Mark: FromMemory, Note: "also Incropera ch. 13; numbers of the entries from memory, each form checked by integration",
		},
		{
			Key: "fresnel", Title: "reflection at the faces of a clear sheet", Who: "Fresnel", Mark: Derived,
		},
		{
			Key: "photons-per-lux", Title: "converting PPFD to lux", Who: "quantum-sensor maker's page", Mark: Published,
			Note: "sunlight, fluorescent, metal halide and sodium read there; undated",
		},
	}
}
