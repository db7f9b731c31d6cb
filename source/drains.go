package source

// drains are the works on weirs, drains, stacks, air gaps and inlets.
func drains() []Source {
	return []Source{
		{
			Key: "hills-1983", Title: "Designing piping for gravity flow", Who: "Hills", Year: 1983,
			Where: "Chem. Eng.", Mark: Published, Note: "the limit was read in two secondary pages, the article was not",
		},
		{
			Key: "wyly-eaton-1961", Title: "capacity of vented stacks", Who: "Wyly & Eaton", Year: 1961,
			Where: "NBS Monograph 31", Mark: FromMemory, Note: "7/24 full; about three times what hills-1983 allows",
		},
		{
			Key: "usbr-small-dams", Title: "Design of Small Dams", Who: "US Bureau of Reclamation",
			Mark: FromMemory, Note: "shaft inlets: crest control below H/R of 0.45, drowned above 1.0",
		},
		{
			Key: "usbr-water-measurement", Title: "Water Measurement Manual", Who: "US Bureau of Reclamation",
			Where: "ch. 7", Mark: Published, Note: "form of the weir equation and its head correction, 0.003 ft",
		},
		{
			Key: "kindsvater-carter-1959", Title: "rectangular sharp weirs", Who: "Kindsvater & Carter", Year: 1959,
			Mark: Published, Note: "form read in usbr-water-measurement, coefficients from memory as bos-1989; not for notches under 0.15 m",
		},
		{
			Key: "bos-1989", Title: "coefficients of rectangular sharp weirs", Who: "Bos", Year: 1989,
			Mark: FromMemory,
		},
		{
			Key: "iso-1438", Title: "thin-plate weirs", Who: "ISO",
			Where: "ISO 1438", Mark: FromMemory,
		},
		{
			Key: "francis-1883", Title: "rectangular weir with end contractions", Who: "Francis", Year: 1883,
			Mark: FromMemory, Note: "wants a crest over three times the head; fails on narrow slots",
		},
		{
			Key: "manning", Title: "flow in a sloping pipe that is not full", Who: "Manning",
			Mark: FromMemory, Note: "n of 0.009 to 0.011 for smooth plastic; doubtful in bores under 40 mm",
		},
		{
			Key: "torricelli", Title: "emptying through a hole", Who: "Torricelli", Mark: Derived,
		},
		{
			Key: "ansi-hi-9-8", Title: "depth of water over a pump inlet", Who: "ANSI and HI",
			Where: "ANSI/HI 9.8", Mark: FromMemory, Note: "made for large inlets",
		},
		{
			Key: "asme-a112-1-2", Title: "air gaps", Who: "ASME",
			Where: "A112.1.2", Mark: FromMemory, Note: "twice the bore, three times near a wall, at least 25.4 mm; check the local code",
		},
		{
			Key: "en-1717", Title: "protecting drinking water from backflow", Who: "CEN",
			Where: "EN 1717", Mark: FromMemory, Note: "twice the bore, at least 20 mm; check the local code",
		},
		{
			Key: "en-13076", Title: "unrestricted air gap, type AA", Who: "CEN",
			Where: "EN 13076", Mark: FromMemory, Note: "as en-1717",
		},
	}
}

// pumps are the works on pumps and their curves.
func pumps() []Source {
	return []Source{
		{
			Key: "iso-9906", Title: "pump tests; flow, head and power against speed", Who: "ISO",
			Where: "ISO 9906", Mark: Derived, Note: "the laws follow from similarity",
		},
		{
			Key: "fritsch-carlson-1980", Title: "monotone piecewise cubic interpolation", Who: "Fritsch & Carlson", Year: 1980,
			Where: "SIAM J. Numer. Anal. 17:238", Mark: FromMemory, Note: "checked against a general-purpose library",
		},
		{
			Key: "fritsch-butland-1984", Title: "slopes for monotone cubic interpolation", Who: "Fritsch & Butland", Year: 1984,
			Mark: FromMemory, Note: "checked against a general-purpose library",
		},
	}
}

// solvers are the works on solving pipe circuits.
func solvers() []Source {
	return []Source{
		{
			Key: "todini-pilati-1987", Title: "A gradient method for the analysis of pipe networks", Who: "Todini & Pilati", Year: 1987,
			Mark: FromMemory, Note: "the equations were derived anew and checked with two general solvers",
		},
		{
			Key: "three-reservoirs", Title: "three reservoirs joined at one junction, a textbook exercise", Mark: Published,
			Note: "only the question was read; the answer is computed",
		},
	}
}
