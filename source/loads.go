package source

// loads are the works on what floors bear and on furniture that tips over.
func loads() []Source {
	return []Source{
		{
			Key: "en-1991-1-1", Title: "actions on structures: imposed loads of buildings", Who: "CEN",
			Where: "EN 1991-1-1, category A", Mark: FromMemory, Note: "dwellings 1.5 to 2.0 kPa; countries choose their own",
		},
		{
			Key: "us-live-load", Title: "minimum design loads of buildings", Who: "ASCE",
			Where: "ASCE 7, dwellings", Mark: FromMemory, Note: "40 lb/ft2",
		},
		{
			Key: "astm-f2057", Title: "clothing storage units: stability", Who: "ASTM", Year: 2023,
			Where: "F2057", Mark: Published, Note: "test weight of 60 lb, read in news and comparison pages; made for clothing units, so only to compare",
		},
	}
}
