package hydraulics

// TeeLeg is one way through a 90 degree tee of equal bores.
type TeeLeg int

// The ways through a tee. In a dividing tee the flow splits into branch and run;
// in a combining tee branch and run join.
const (
	DividingBranch TeeLeg = iota
	DividingRun
	CombiningBranch
	CombiningRun
)

// String returns the leg in words.
func (l TeeLeg) String() string {
	switch l {
	case DividingBranch:
		return "dividing, branch"
	case DividingRun:
		return "dividing, run"
	case CombiningBranch:
		return "combining, branch"
	case CombiningRun:
		return "combining, run"
	}
	return "unknown leg"
}

// GardelTee returns K of one leg of a sharp-edged 90 degree tee of equal bores,
// on the velocity of the combined flow, and dK/dq. q is branch flow over
// combined flow, 0 to 1; outside that the polynomials simply go on, which keeps
// a solver's iterates smooth. K below 0 is real: the leg gains energy from the
// other stream. An unknown leg gives 0.
//
// Source: Gardel 1957, Bull. Tech. Suisse Romande 83 (from memory).
func GardelTee(leg TeeLeg, q float64) (k, dkdq float64) {
	// Each is c0 (1-q)^2 + c1 q^2 + c2 q (1-q).
	var c0, c1, c2 float64
	switch leg {
	case DividingBranch:
		c0, c1, c2 = 0.95, 1.3, 0.8
	case DividingRun:
		c0, c1, c2 = 0.03, 0.35, -0.2
	case CombiningBranch:
		c0, c1, c2 = -0.92, 1.2, 1
	case CombiningRun:
		c0, c1, c2 = 0.03, 0.62, 1
	}
	p := 1 - q
	return c0*p*p + c1*q*q + c2*q*p, -2*c0*p + 2*c1*q + c2*(p-q)
}

// IdelchikTee returns K of one leg and dK/dq, with the meaning and range of
// GardelTee, from the other family:
//
//	dividing branch   1 + 0.3 q^2
//	dividing run      M q^2, M = 2(2q-1) for q <= 0.5, else 0.3(2q-1)
//	combining branch  C [1 + q^2 - 2(1-q)^2], C = 0.9(1-q) for q <= 0.4, else 0.55
//	combining run     1.55 q - q^2
//
// The combining branch jumps from 0.2376 to 0.242 at q = 0.4, where C goes from
// 0.54 to 0.55, and its slope jumps too: for Newton's method use GardelTee.
// The dividing run is continuous with a corner at q = 0.5.
//
// Source: Crane TP-410 (2009), after Idelchik; the dividing branch Idelchik,
// Handbook of Hydraulic Resistance (from memory).
func IdelchikTee(leg TeeLeg, q float64) (k, dkdq float64) {
	switch leg {
	case DividingBranch:
		return 1 + 0.3*q*q, 0.6 * q
	case DividingRun:
		m := 0.3
		if q <= 0.5 {
			m = 2
		}
		return m * (2*q - 1) * q * q, m * (6*q - 2) * q
	case CombiningBranch:
		if q <= 0.4 {
			return idelchikCombining(q, 0.9*(1-q), -0.9)
		}
		return idelchikCombining(q, 0.55, 0)
	case CombiningRun:
		return (1.55 - q) * q, 1.55 - 2*q
	}
	return 0, 0
}

func idelchikCombining(q, c, dcdq float64) (k, dkdq float64) {
	p := 1 - q
	g, dg := 1+q*q-2*p*p, 2*q+4*p
	return c * g, dcdq*g + c*dg
}
