package hydraulics

import "math"

// Coefficients and limits of vertical outlets (standpipe, bulkhead in a floor).
const (
	// CdRimWeir is the sharp-crest weir coefficient for the rim of a standpipe.
	// Source: textbook sharp weir (from memory).
	CdRimWeir = 0.62
	// CdOutlet is the discharge coefficient of a submerged drain opening, also
	// of a side outlet. Source: textbook sharp orifice, rounded down.
	CdOutlet = 0.60
	// SelfVentingFroude is V/sqrt(g D), V on the full bore, below which a drain
	// keeps an air core and runs quietly. Source: Hills 1983, "Designing piping
	// for gravity flow", Chem. Eng., limit read in secondary pages.
	SelfVentingFroude = 0.30
	// StackFill is the share of a vertical stack's section that may hold
	// water: 7/24. Source: Wyly & Eaton 1961, NBS Monograph 31 (from memory).
	StackFill = 7.0 / 24
)

// rimFactor returns RimWeirFlow / h^1.5 for bore d.
func rimFactor(d float64) float64 {
	return CdRimWeir * 2 / 3 * math.Sqrt(2*G) * math.Pi * d
}

// RimWeirFlow returns the flow (m3/s) over the rim of a vertical pipe of bore d
// under head h above the rim: Cw (2/3) sqrt(2g) pi D h^1.5, 0 for h <= 0. It
// governs up to about h = 0.36 D, where OrificeFlow becomes the smaller.
//
// Source: sharp-crest weir along the circumference.
func RimWeirFlow(d, h float64) float64 {
	if h <= 0 {
		return 0
	}
	return rimFactor(d) * h * math.Sqrt(h)
}

// RimWeirHead returns the head (m) over the rim for flow q: the inverse of
// RimWeirFlow, 0 for q <= 0.
func RimWeirHead(d, q float64) float64 {
	if q <= 0 {
		return 0
	}
	c := math.Cbrt(q / rimFactor(d))
	return c * c
}

// SelfVentingFlow returns the largest flow (m3/s) at which a drain of bore d
// runs quietly with an air core: V/sqrt(g D) = SelfVentingFroude. For level
// pipes critical flow at half depth gives nearly the same, 0.3133.
func SelfVentingFlow(d float64) float64 {
	return SelfVentingFroude * math.Sqrt(G*d) * CircleArea(d)
}

// StackFlow returns the capacity (m3/s) of a vented vertical stack of bore d:
// 27.8 r^(5/3) D^(8/3) US gallons a minute, D in inches, r = StackFill. It is
// about three times SelfVentingFlow: an upper bound, not a quiet flow.
//
// Source: Wyly & Eaton 1961, NBS Monograph 31 (from memory).
func StackFlow(d float64) float64 {
	const gallonPerMinute = 3.785411784e-3 / 60
	return 27.8 * math.Pow(StackFill, 5.0/3) * math.Pow(d/inch, 8.0/3) * gallonPerMinute
}

// OutletRegime names what limits a vertical outlet.
type OutletRegime int

// The regimes of a vertical outlet, in the order they appear as the level rises.
const (
	RegimeDry      OutletRegime = iota // level at or below the rim
	RegimeRimWeir                      // weir along the rim
	RegimeOrifice                      // submerged opening
	RegimeFullPipe                     // the pipe runs full: a siphon
)

// String returns the regime in words.
func (r OutletRegime) String() string {
	switch r {
	case RegimeDry:
		return "dry"
	case RegimeRimWeir:
		return "rim weir"
	case RegimeOrifice:
		return "submerged orifice"
	case RegimeFullPipe:
		return "full pipe"
	}
	return "unknown regime"
}

// VerticalOutletFlow returns the flow (m3/s) into a vertical pipe of bore d that
// breathes air, under head h over the rim: the smaller of rim weir and submerged
// orifice, and which it is. It never counts on the pipe running full, so it
// is the figure for safety verdicts.
func VerticalOutletFlow(d, h float64) (q float64, regime OutletRegime) {
	if h <= 0 {
		return 0, RegimeDry
	}
	weir := RimWeirFlow(d, h)
	orifice := OrificeFlow(CdOutlet, CircleArea(d), h)
	if weir <= orifice {
		return weir, RegimeRimWeir
	}
	return orifice, RegimeOrifice
}
