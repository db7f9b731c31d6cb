package source

// pipes are the works on friction in pipes and on the bores of pipes.
func pipes() []Source {
	return []Source{
		{
			Key: "hagen-poiseuille", Title: "laminar flow in a round pipe, f = 64/Re", Mark: Derived,
		},
		{
			Key: "colebrook-1939", Title: "turbulent friction in smooth and rough pipes", Who: "Colebrook", Year: 1939,
			Mark: Published, Note: "the equation was read in clamond-2009, the article itself was not read",
		},
		{
			Key: "clamond-2009", Title: "solving the Colebrook equation", Who: "Clamond", Year: 2009,
			Where: "Ind. Eng. Chem. Res. 48:3665", Mark: Published,
		},
		{
			Key: "dunlop-1991", Title: "cubic friction curve between laminar and turbulent flow", Who: "Dunlop", Year: 1991,
			Mark: FromMemory, Note: "as described in simpson-elhay-2011",
		},
		{
			Key: "simpson-elhay-2011", Title: "friction in pipe-network equations, with a cubic across the transition", Who: "Simpson & Elhay", Year: 2011,
			Where: "J. Hydraul. Eng. 137:696", Mark: FromMemory,
		},
		{
			Key: "churchill-1977", Title: "one friction formula for all Reynolds numbers", Who: "Churchill", Year: 1977,
			Where: "Chem. Eng. 84(24):91", Mark: Published, Note: "as coded in a general-purpose library; not used here",
		},
		{
			Key: "smooth-pipe-data", Title: "measured friction of smooth pipe, Oregon facility", Mark: Published,
			Note: "as tabulated in a general-purpose library, which names no paper; its own scatter is some 15 %",
		},
		{
			Key: "moody-1944", Title: "roughness of smooth tubing", Who: "Moody", Year: 1944,
			Mark: FromMemory, Note: "0.0015 mm for new plastic and glass; a general-purpose library lists the same for glass",
		},
		{
			Key: "white-fluid-mechanics", Title: "Fluid Mechanics", Who: "White",
			Mark: FromMemory, Note: "loss while laminar flow develops (Hagenbach correction), 1.2 to 1.3 velocity heads",
		},
		{
			Key: "astm-d1785", Title: "PVC pipe, schedule 40: outside and wall", Who: "ASTM",
			Where: "D1785, tables 1 and 2", Mark: Published, Note: "outside and least wall as listed by a general-purpose library; wall tolerance read in a table of D1785-88",
		},
		{
			Key: "astm-f876", Title: "PEX tube in copper tube sizes: outside and wall", Who: "ASTM",
			Where: "F876", Mark: Published, Note: "outside and least wall read; wall tolerance from memory",
		},
		{
			Key: "iso-4065", Title: "plastic pipe: wall thickness by series", Who: "ISO",
			Where: "ISO 4065", Mark: FromMemory, Note: "every row used agrees with outside over SDR, rounded up, at least 1.5 mm",
		},
		{
			Key: "en-iso-1452-2", Title: "PVC-U pressure pipe in metric sizes", Who: "CEN and ISO",
			Where: "EN ISO 1452-2", Mark: FromMemory, Note: "as iso-4065",
		},
		{
			Key: "iso-11922-1", Title: "plastic pipe: wall tolerance", Who: "ISO",
			Where: "ISO 11922-1", Mark: FromMemory, Note: "a tenth of the wall and 0.2 mm",
		},
	}
}

// fittings are the works on losses in fittings, valves, tees and tank walls.
func fittings() []Source {
	return []Source{
		{
			Key: "weisbach-1843", Who: "Weisbach", Year: 1843, Title: "losses in part-closed cocks and gates",
			Where: "as hydraulics handbooks table them", Mark: FromMemory,
		},
		{
			Key: "hooper-1981", Title: "the 2-K method for fittings", Who: "Hooper", Year: 1981,
			Where: "Chem. Eng., 24 August", Mark: Published, Note: "coefficients as listed by a general-purpose library, whose mislabelled rows were relabelled from memory",
		},
		{
			Key: "darby-2001", Title: "Chemical Engineering Fluid Mechanics", Who: "Darby", Year: 2001,
			Where: "ch. 7, the 3-K method", Mark: Published, Note: "coefficients as listed by a general-purpose library; up to 40 % from hooper-1981",
		},
		{
			Key: "crane-tp-410", Title: "flow through valves, fittings and pipe", Who: "Crane", Year: 2009,
			Where: "TP-410", Mark: Published, Note: "tees as coded in a general-purpose library; entrances from memory",
		},
		{
			Key: "idelchik", Title: "hydraulic resistance of tees", Who: "Idelchik",
			Mark: FromMemory, Note: "the branch of a dividing tee, 1 + 0.3 q^2; the other legs as given in crane-tp-410",
		},
		{
			Key: "gardel-1957", Title: "pressure loss in tees", Who: "Gardel", Year: 1957,
			Mark: FromMemory, Note: "sharp edges, equal bores; 0.2 to 0.3 from crane-tp-410",
		},
		{
			Key: "water-2020-tees", Title: "measured losses of 13.2 mm welded tees", Year: 2020,
			Where: "Water 12(3):895", Mark: Published, Note: "abstract read: losses well above the nomograms",
		},
		{
			Key: "mcnown-1954", Title: "pressure recovery along manifolds", Who: "McNown", Year: 1954,
			Where: "Trans. ASCE 119:1103", Mark: FromMemory,
		},
		{
			Key: "rennels-hudson-2012", Title: "sudden contraction and entrances of pipes", Who: "Rennels & Hudson", Year: 2012,
			Mark: Published, Note: "contraction as coded in a general-purpose library; entrances from memory",
		},
		{
			Key: "borda-carnot", Title: "sudden expansion of a pipe", Mark: Derived,
		},
		{
			Key: "kv-definition", Title: "flow coefficient Kv of a valve, m3/h at 1 bar", Mark: Published,
			Note: "a definition, checked with a general-purpose library",
		},
	}
}
