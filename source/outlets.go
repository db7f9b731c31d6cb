package source

// outlets are the works on drip holes, drops, jets and water films.
func outlets() []Source {
	return []Source{
		{
			Key: "wu-2002", Title: "discharge coefficient of a thin sharp hole at all Reynolds numbers", Who: "Wu, Burton & Schoenau", Year: 2002,
			Where: "Int. J. Fluid Power 3(3)", Mark: FromMemory, Note: "the speed its Reynolds number is based on was not looked up again",
		},
		{
			Key: "britannica-1911", Title: "Hydraulics", Who: "Encyclopaedia Britannica", Year: 1911,
			Where: "11th ed.", Mark: Published, Note: "measured 0.603 to 0.620 for a 1/2 in hole under 1 to 20 ft of water",
		},
		{
			Key: "lichtarowicz-1965", Title: "discharge coefficient of a long hole, 2 to 10 bores", Who: "Lichtarowicz, Duggins & Markland", Year: 1965,
			Mark: FromMemory,
		},
		{
			Key: "laplace-capillary", Title: "head that a hole needs before it runs, 4 sigma/(rho g d)", Who: "Laplace", Mark: Derived,
		},
		{
			Key: "extrand-2017", Title: "water held in tubes with open ends", Who: "Extrand", Year: 2017,
			Where: "Langmuir 33:12903", Mark: Published, Note: "abstract read",
		},
		{
			Key: "harkins-brown-1919", Title: "volume of falling drops", Who: "Harkins & Brown", Year: 1919,
			Mark: FromMemory, Note: "two values of its table remembered",
		},
		{
			Key: "lee-2008", Title: "a fit to the drop volumes of Harkins and Brown", Who: "Lee, Chan & Pogaku", Year: 2008,
			Mark: FromMemory, Note: "within 0.4 % of the two values remembered of harkins-brown-1919",
		},
		{
			Key: "clanet-lasheras-1999", Title: "from dripping to jetting", Who: "Clanet & Lasheras", Year: 1999,
			Where: "J. Fluid Mech. 383:307", Mark: FromMemory, Note: "definitions and constant read in the abstract, formula from memory; for tubes that point down",
		},
		{
			Key: "nusselt-1916", Title: "laminar film on an upright wall", Who: "Nusselt", Year: 1916,
			Mark: Derived, Note: "derived anew here",
		},
		{
			Key: "hartley-murgatroyd-1964", Title: "least flow that keeps a film closed, force criterion", Who: "Hartley & Murgatroyd", Year: 1964,
			Mark: Derived, Note: "derived anew here; for smooth bare walls, guidance only",
		},
	}
}

// evenness are the works on how evenly outlets give water.
func evenness() []Source {
	return []Source{
		{
			Key: "christiansen-1942", Title: "coefficient of uniformity", Who: "Christiansen", Year: 1942,
			Where: "Calif. Agric. Exp. Stn. Bull. 670", Mark: Published, Note: "the formula was read in a software manual, the bulletin was not",
		},
		{
			Key: "keller-karmeli-1974", Title: "design emission uniformity of drip outlets", Who: "Keller & Karmeli", Year: 1974,
			Mark: FromMemory,
		},
		{
			Key: "asabe-ep405", Title: "drip outlets: emission uniformity and classes of variation", Who: "ASABE",
			Where: "EP405", Mark: FromMemory,
		},
		{
			Key: "asabe-ep458", Title: "drip outlets: statistical uniformity", Who: "ASABE",
			Where: "EP458", Mark: FromMemory,
		},
		{
			Key: "bralts-1981", Title: "statistical uniformity of drip lines", Who: "Bralts", Year: 1981,
			Mark: FromMemory,
		},
	}
}
