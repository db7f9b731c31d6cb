package layout

// Taken are sizes that things are drawn with where neither the design file nor the
// catalogue tells. Lengths in m. All are assumed, no source.
type Taken struct {
	FlangeThick   float64 // a bulkhead's flange with its gasket
	FlangeShare   float64 // a flange's diameter over its hole's
	NutThick      float64 // a bulkhead's nut
	Turn          float64 // from glass to a standpipe's middle line, over its outside
	StrainerMore  float64 // by which a strainer is wider all round than its pipe
	StrainerReach float64 // by which it stands above a lip or before a mouth
}

// Usual returns the sizes that Of takes.
func Usual() Taken {
	return Taken{FlangeThick: 0.010, FlangeShare: 1.6, NutThick: 0.015, Turn: 1.5, StrainerMore: 0.005, StrainerReach: 0.050}
}

// Ends returns the least and the greatest that each size may well be.
func Ends() (least, most Taken) {
	return Taken{FlangeThick: 0.005, FlangeShare: 1.4, NutThick: 0.008, Turn: 1.0, StrainerMore: 0.002, StrainerReach: 0.020},
		Taken{FlangeThick: 0.015, FlangeShare: 1.9, NutThick: 0.025, Turn: 2.5, StrainerMore: 0.015, StrainerReach: 0.100}
}
