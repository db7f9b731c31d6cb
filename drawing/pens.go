package drawing

// Ink is a colour, each part from 0 to 255.
type Ink struct{ R, G, B uint8 }

// Stroke says how a pen draws.
type Stroke struct {
	Name  string // also the layer in formats that have layers
	Width float64
	Dash  []float64 // lengths of dashes and gaps in turn, mm; nil for a full line
	Ink   Ink
}

// Pen is one of the pens that every drawing is made with. Widths follow the
// steps of ISO 128-2 (0.18, 0.25, 0.35, 0.5, 0.7 mm; from memory). No two pens
// that must be told apart differ in colour alone.
type Pen uint8

// The pens.
const (
	NoPen  Pen = iota
	Fine       // grids, hatches
	Thin       // axes, leaders, dimensions
	Medium     // frames, bars
	Thick      // outlines
	Dashed     // limits and wishes
	Fade       // lines behind others, grey
	// CurveA is a full line, CurveB one of long dashes.
	CurveA
	CurveB
	// LongDashes, DashDots and Dots are black curves beside a Thick one, Heavy
	// the one that matters most.
	LongDashes
	DashDots
	Dots
	Heavy
	penCount
)

// The colours are those of Okabe & Ito, which people of all common kinds of
// colour vision tell apart (Color Universal Design, 2008; values from memory).
// As lines on white, only these of them have a contrast of 3 to 1 or more.
func black() Ink      { return Ink{0, 0, 0} }
func grey() Ink       { return Ink{140, 140, 140} }
func blue() Ink       { return Ink{0, 114, 178} }
func vermilion() Ink  { return Ink{213, 94, 0} }
func paleBlue() Ink   { return Ink{214, 231, 242} }
func paleGrey() Ink   { return Ink{226, 226, 226} }
func middleGrey() Ink { return Ink{168, 168, 168} }

// Stroke returns how the pen draws; NoPen has no width.
func (p Pen) Stroke() Stroke {
	switch p {
	case Fine:
		return Stroke{"fine", 0.18, nil, black()}
	case Thin:
		return Stroke{"thin", 0.25, nil, black()}
	case Medium:
		return Stroke{"medium", 0.35, nil, black()}
	case Thick:
		return Stroke{"thick", 0.5, nil, black()}
	case Dashed:
		return Stroke{"dashed", 0.35, []float64{1.5, 1.2}, black()}
	case Fade:
		return Stroke{"fade", 0.18, nil, grey()}
	case CurveA:
		return Stroke{"curve a", 0.7, nil, blue()}
	case CurveB:
		return Stroke{"curve b", 0.7, []float64{5, 1.6}, vermilion()}
	case LongDashes:
		return Stroke{"long dashes", 0.5, []float64{4, 1.5}, black()}
	case DashDots:
		return Stroke{"dash-dots", 0.5, []float64{4, 1.1, 0.7, 1.1}, black()}
	case Dots:
		return Stroke{"dots", 0.5, []float64{0.7, 1}, black()}
	case Heavy:
		return Stroke{"heavy", 1, nil, black()}
	}
	return Stroke{}
}

// Fill is one of the ways to fill an area. Hatches are lines: see Hatch.
type Fill uint8

// The fills.
const (
	NoFill Fill = iota
	Paper       // white, to keep words clear of what lies below
	Solid       // black
	Pale        // pale grey
	Mid         // middle grey
	BandA       // pale, for the band about a line of CurveA
	fillCount
)

// Ink returns the colour of a fill; ok is false for NoFill.
func (f Fill) Ink() (ink Ink, ok bool) {
	switch f {
	case Paper:
		return Ink{255, 255, 255}, true
	case Solid:
		return black(), true
	case Pale:
		return paleGrey(), true
	case Mid:
		return middleGrey(), true
	case BandA:
		return paleBlue(), true
	}
	return Ink{}, false
}

// Pens returns every pen that draws.
func Pens() []Pen {
	var out []Pen
	for p := NoPen + 1; p < penCount; p++ {
		out = append(out, p)
	}
	return out
}
