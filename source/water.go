package source

// water are the works on water and on units.
func water() []Source {
	return []Source{
		{
			Key: "tanaka-2001", Title: "density of water, 0 to 40 C (the CIPM formula)", Who: "Tanaka et al.", Year: 2001,
			Where: "Metrologia 38:301", Mark: FromMemory, Note: "agrees with perry-9 within 0.05 kg/m3",
		},
		{
			Key: "iapws-sr6-08", Title: "viscosity of liquid water at 0.1 MPa, 253 to 383 K", Who: "IAPWS", Year: 2011,
			Where: "SR6-08(2011)", Mark: FromMemory, Note: "range of validity read, coefficients from memory; agrees with perry-9 at 280, 290 and 300 K",
		},
		{
			Key: "kestin-1978", Title: "viscosity of water, a second fit", Who: "Kestin, Sokolov & Wakeham", Year: 1978,
			Where: "J. Phys. Chem. Ref. Data 7:941", Mark: FromMemory, Note: "within 0.1 % of iapws-sr6-08",
		},
		{
			Key: "iapws-if97", Title: "vapour pressure of water, region 4 equation", Who: "IAPWS",
			Where: "IF97", Mark: FromMemory, Note: "agrees with perry-9 at 280, 290 and 300 K",
		},
		{
			Key: "iapws-r1-76", Title: "surface tension of ordinary water", Who: "IAPWS", Year: 2014,
			Where: "R1-76(2014)", Mark: FromMemory,
		},
		{
			Key: "perry-9", Title: "Perry's Chemical Engineers' Handbook", Where: "9th ed., table 2-135, saturated water", Mark: Published,
			Note: "read at 280, 290 and 300 K",
		},
		{
			Key: "nist-sp-811", Title: "guide for the use of the SI, conversion factors", Who: "NIST",
			Where: "Special Publication 811", Mark: FromMemory, Note: "the factors used are exact by definition",
		},
	}
}
