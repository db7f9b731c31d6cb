package source

// glass are the works on glass, plastics and holes in panes.
func glass() []Source {
	return []Source{
		{
			Key: "en-572-1", Title: "basic soda-lime silicate glass: properties", Who: "CEN",
			Where: "EN 572-1", Mark: FromMemory, Note: "E 70 GPa, density 2500 kg/m3, 45 MPa; Poisson's ratio is 0.2 there, 0.23 elsewhere",
		},
		{
			Key: "en-572-2", Title: "thickness of float glass", Who: "CEN",
			Where: "EN 572-2", Mark: Published, Note: "limits read in the column for float of a processor's page on toughened glass; 2 and 25 mm are not in it",
		},
		{
			Key: "astm-c1036", Title: "flat glass: thickness by designation", Who: "ASTM",
			Where: "C1036", Mark: FromMemory,
		},
		{
			Key: "en-16612", Title: "lateral load resistance of glass panes by calculation", Who: "CEN", Year: 2019,
			Where: "EN 16612", Mark: FromMemory, Note: "scope read: infill panes under wind, snow and their own weight, so a yardstick for tanks; all numbers from memory",
		},
		{
			Key: "astm-e1300", Title: "load resistance of glass in buildings", Who: "ASTM",
			Where: "E1300", Mark: FromMemory, Note: "3 s stresses at a breakage of 8 in 1000, and their fall with time",
		},
		{
			Key: "tank-glass-2001", Title: "calculating glass thickness for aquariums", Who: "club magazine", Year: 2001,
			Mark: Published, Note: "19.2 MPa over a factor of 3.8; bond lines of 0.5 to 1 mm at least; tables for panes with a held top edge",
		},
		{
			Key: "en-12150-1", Title: "toughened glass: holes", Who: "CEN",
			Where: "EN 12150-1", Mark: Published, Note: "read as glass processors quote it; written for glass drilled before it is toughened",
		},
		{
			Key: "hole-fabricators", Title: "hole guidelines", Who: "glass and railing fabricators", Mark: Published,
			Note: "rim to edge the greater of 1/4 in and 2 t; rim to rim the greater of 3/8 in and 2 t; corner 6.5 t; at most a third of the narrow side; undated",
		},
		{
			Key: "notch-fabricators", Title: "notches and cut-outs", Who: "glass and railing fabricators", Mark: Published,
			Note: "corners rounded by at least the thickness (four pages; two want 1/2 in besides), at most a third of the narrow side (four), a leg of 3 in (one), half its size and 75 or 100 mm to an edge (one); of panes that are toughened afterwards, and one takes no annealed glass; undated",
		},
		{
			Key: "reef-drilling", Title: "drilling holes", Who: "reef hobby page", Mark: Published,
			Note: "one diameter from the edge, two from centre to centre; undated",
		},
		{
			Key: "goodier-1936", Title: "hole in a thin plate under bending", Who: "Goodier", Year: 1936,
			Mark: FromMemory, Note: "checked by a Fourier solution of the plate equation",
		},
		{
			Key: "kirsch-1898", Title: "hole in a sheet under tension", Who: "Kirsch", Year: 1898, Mark: FromMemory,
		},
		{
			Key: "roark-hole", Title: "Formulas for Stress and Strain: hole in a plate under bending", Who: "Young & Budynas", Year: 2002,
			Where: "stress concentration table", Mark: FromMemory, Note: "only the step between narrow and wide holes is taken from it; both ends are known",
		},
		{
			Key: "heywood-1952", Title: "Designing by Photoelasticity: hole in a strip", Who: "Heywood", Year: 1952,
			Mark: FromMemory, Note: "here a bound for one edge, checked against a solution by complex potentials",
		},
		{
			Key: "acrylic-design-stress", Title: "design stress of acrylic sheet", Who: "plastics distributor's page", Mark: Published,
			Note: "under steady load 5.2 MPa extruded to 10.3 MPa cell cast, or it crazes; E 2.86 GPa; undated",
		},
		{
			Key: "iso-7823", Title: "acrylic sheet: thickness", Who: "ISO",
			Where: "ISO 7823-1, -2", Mark: FromMemory,
		},
		{
			Key: "team-lifting", Title: "handling by two or more people", Who: "Health and Safety Executive",
			Where: "guidance to the Manual Handling Operations Regulations 1992", Mark: Published,
			Note: "read as quoted on a forum: two people two thirds of the sum, three half; a consultant's page works out 33 kg for two men and 21 kg for two women, hence 25 and 16 kg alone",
		},
		{
			Key: "linear-waves", Title: "first standing wave in a box", Mark: Derived, Note: "linear wave theory, f^2 = (g k tanh kh)/(2 pi)^2",
		},
	}
}

// sealants are the works on silicone joints.
func sealants() []Source {
	return []Source{
		{
			Key: "astm-c1401", Title: "structural sealant glazing", Who: "ASTM",
			Where: "C1401", Mark: FromMemory, Note: "20 psi for short loads, 1 psi for loads that stay",
		},
		{
			Key: "etag-002", Title: "structural sealant glazing kits", Who: "EOTA",
			Where: "ETAG 002-1, annex 2", Mark: FromMemory, Note: "annex seen in a poor scan: form only; typical 0.14 MPa, and 0.007 to 0.014 MPa for loads that stay",
		},
		{
			Key: "waterproofing-handbook", Title: "Construction Waterproofing Handbook: bite of a structural joint",
			Where: "p. 5.51", Mark: Published, Note: "worked example with 20 lb/in2",
		},
		{
			Key: "astm-c794", Title: "adhesion in peel of sealants", Who: "ASTM",
			Where: "C794 and C920", Mark: FromMemory, Note: "22 N on a strip 25 mm wide passes",
		},
		{
			Key: "rtv-notes", Title: "one-part RTV silicone: processing notes", Who: "silicone processing guide", Mark: Published,
			Note: "about 2 mm in 24 h at 25 C and 50 %, some 3 mm; sections to 6 mm; undated",
		},
		{
			Key: "sealant-cost-guides", Title: "how far a cartridge goes", Who: "sealant cost guides", Mark: Published,
			Note: "area in mm2 is mL per metre; 10 to 20 % waste; undated",
		},
	}
}
