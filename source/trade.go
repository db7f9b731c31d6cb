package source

// generic are the keys of figures that no work stands behind.
func generic() []Source {
	const (
		practice = "what the trade does, with no single source"
		memory   = "from memory, not checked against any work"
		assumed  = "a choice of this program, with no source"
		starting = "a starting value: put a measurement in its place as soon as there is one"
	)
	return []Source{
		{Key: "practice", Title: practice, Mark: CommonPractice, Note: starting},
		{Key: "common-practice", Title: practice, Mark: CommonPractice, Note: starting},
		{Key: "memory", Title: memory, Mark: FromMemory, Note: starting},
		{Key: "from-memory", Title: memory, Mark: FromMemory, Note: starting},
		{Key: "assumed", Title: assumed, Mark: Assumed, Note: starting},
		{Key: "assumption", Title: assumed, Mark: Assumed, Note: starting},
		{Key: "derived", Title: "derived from first principles in this program", Mark: Derived},
		{Key: "measured", Title: "measured by the builder", Mark: Measured},
		{
			Key: "label", Title: "what is printed on the part or its box", Mark: Published,
			Note: "the maker's word, not measured here; largest flow and largest lift of a pump are no working point",
		},
		{
			Key: "nominal-size", Title: "the size in the name taken for the inside", Mark: Assumed,
			Note: "vinyl hose is named by its inside; its tolerance is unknown: measure",
		},
	}
}

// trade are pages and handouts of the trade. They are named by what they are,
// not by who sells what.
func trade() []Source {
	return []Source{
		{
			Key: "pond-flow-graph", Title: "pump charts, with a pond shop's flow graph of one small pump", Who: "irrigation course page", Mark: Published,
			Note: "largest head 4 ft; 96, 76 and 48 US gal/h at 1, 2 and 3 ft; no flow is given at zero head; undated",
		},
		{
			Key: "reef-bulkhead-primer", Title: "bulkheads: sizes and holes", Who: "reef hobby primer", Mark: Published,
			Note: "a hobby page, undated; drill to the fitting in your hand",
		},
		{
			Key: "uniformity-practice", Title: "improving application uniformity", Who: "greenhouse trade magazine", Mark: Published,
			Note: "mean of the lowest quarter over the mean: above 90 % excellent, 80 to 90 good, 70 to 80 fair, less poor; undated",
		},
	}
}
