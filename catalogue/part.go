// Package catalogue holds the parts a builder can buy: hose, pipe, fittings,
// valves, bulkheads, strainers, emitters and pumps, as generic classes with
// sizes from published standards or marked as practice, and reads the builder's
// own parts file beside them.
//
// A part's Mark says how far to trust its figures. Only Published figures come
// from a standard or a book; everything else is a starting value to overwrite
// with a measurement.
package catalogue

import "rillwright/quantity"

// Kind is what sort of part it is.
type Kind string

// The kinds of part, in the order that lists show them.
const (
	KindPipe       Kind = "pipe"
	KindHose       Kind = "hose"
	KindTube       Kind = "tube"
	KindElbow      Kind = "elbow"
	KindCoupling   Kind = "coupling"
	KindReducer    Kind = "reducer"
	KindAdapter    Kind = "adapter"
	KindTee        Kind = "tee"
	KindValve      Kind = "valve"
	KindCheckValve Kind = "check valve"
	KindUnion      Kind = "union"
	KindBulkhead   Kind = "bulkhead"
	KindStrainer   Kind = "strainer"
	KindEmitter    Kind = "emitter"
	KindPump       Kind = "pump"
)

// Kinds returns every kind in the order that lists show them.
func Kinds() []Kind {
	return []Kind{
		KindPipe, KindHose, KindTube, KindElbow, KindCoupling, KindReducer,
		KindAdapter, KindTee, KindValve, KindCheckValve, KindUnion,
		KindBulkhead, KindStrainer, KindEmitter, KindPump,
	}
}

// order returns the kind's place in Kinds.
func (k Kind) order() int {
	for i, x := range Kinds() {
		if x == k {
			return i
		}
	}
	return len(Kinds())
}

// HasLength reports whether the part is bought and used by length.
func (k Kind) HasLength() bool {
	return k == KindPipe || k == KindHose || k == KindTube
}

// Mark says where a figure comes from and so how far to trust it.
type Mark string

// The marks.
const (
	Published      Mark = "published"       // read in the source named
	CommonPractice Mark = "common practice" // the trade does so; no single source
	FromMemory     Mark = "from memory"     // of the source named, not read again
	Derived        Mark = "derived"         // computed from the source named
	Measured       Mark = "measured"        // by the builder
	Assumed        Mark = "assumed"         // no source; an engineering choice
)

// Marks returns every mark.
func Marks() []Mark {
	return []Mark{Published, CommonPractice, FromMemory, Derived, Measured, Assumed}
}

// Part is one thing that can be bought. A zero length, flow or band means that
// the figure is not known.
type Part struct {
	Name   string
	Also   []string // other names that Find knows it by
	Kind   Kind
	Family string // the name without its size; "" if it stands alone
	Size   Size   // nominal size

	Ends []End                          // nil if not known
	Bore quantity.Band[quantity.Length] // smallest inside; mean bore likely

	Outside   quantity.Length
	Wall      quantity.Length // mean wall
	Length    quantity.Length // way through a fitting
	Roughness quantity.Length // absolute, new

	// Loss is what the water loses in the fitting itself, on the velocity in
	// Bore. The change of bore at each end is not in it: whoever joins parts
	// adds that. For a tee it is the way through the side leg.
	Loss    Loss
	Through Loss // a tee's straight way

	MinBend  quantity.Length // least bend radius
	BendRule string          // how MinBend was found, or what to do in its place

	Hole   quantity.Band[quantity.Length] // hole a bulkhead needs
	Flange quantity.Length                // a bulkhead's flange diameter

	Strainer Strainer
	Emitter  Emitter

	Label     Label
	Curve     []Point // by rising flow
	CurveFile string  // a CSV file beside the parts file; see ReadCurve
	Power     quantity.Power

	Price Price
	Stock []quantity.Length // lengths it is sold in

	Note   string
	Source string // key for source.Lookup; a user's own words in a user's part
	Mark   Mark
}

// Method is how a loss coefficient is computed.
type Method string

// The loss methods. Re is the Reynolds number in the part's bore.
const (
	LossNone       Method = "none"        // nothing to count, or counted elsewhere
	LossBoreChange Method = "bore change" // only what its ends' change of bore costs
	LossThreeK     Method = "3-K"         // K = K1/Re + KInf (1 + Kd/NominalInches^0.3)
	LossTwoK       Method = "2-K"         // K = K1/Re + KInf (1 + 1/D), D the bore in inches
	LossConstant   Method = "K"           // K = KInf
	LossKv         Method = "Kv"          // from the flow at a loss of 1 bar
)

// Loss is how much head a fitting costs.
//
// Source of the forms: Darby 2001, Chemical Engineering Fluid Mechanics, ch. 7
// (3-K); Hooper 1981, Chem. Eng., 24 August (2-K). They differ by up to 40 %:
// that is the honest uncertainty at these bores.
type Loss struct {
	Method        Method
	K1, KInf, Kd  float64
	NominalInches float64       // 3-K only
	Kv            quantity.Flow // Kv only: flow at 1 bar
	Source        string
	Mark          Mark
}

// Strainer is how open a strainer is.
type Strainer struct {
	OpenArea quantity.Ratio // open area as a multiple of the pipe's
	Clogged  float64        // its loss times this when clogged
}

// Emitter is a drip emitter: q = Flow (h/AtHead)^Exponent.
type Emitter struct {
	Flow     quantity.Flow
	AtHead   quantity.Length
	Exponent float64         // 0.5 turbulent, 1 laminar, near 0 compensating
	Cv       float64         // maker's coefficient of variation
	MinHead  quantity.Length // below it the law does not hold
}

// Given reports whether the part is an emitter.
func (e Emitter) Given() bool { return e.Flow > 0 }

// Label is the two figures on a pump's box: the largest flow, at no lift, and
// the largest lift, at no flow. Neither is a working point.
type Label struct {
	Flow quantity.Flow
	Head quantity.Length
}

// Point is one point of a pump curve.
type Point struct {
	Flow quantity.Flow
	Head quantity.Length
}

// Price is what a part costs, for each Per ("piece", "ft", "m", "length").
// Currency is as typed; amounts in different currencies never mix.
type Price struct {
	Low, High float64
	Currency  string
	Per       string
	Mark      Mark
	// Generic says that it is that of a kind of part, from the band for metric or for
	// US sizes: both have the same figures, one in EUR, the other in USD.
	Generic bool
}

// Given reports whether a price is known.
func (p Price) Given() bool { return p.Currency != "" }
