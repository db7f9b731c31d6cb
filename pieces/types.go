package pieces

import "rillwright/quantity"

// Piece is a rectangle with a finished size: a pane, the dam, a door, a strip.
type Piece struct {
	Name  string
	Kind  Kind
	At    string // where it stands, as layout has it; "" if that is not known
	Field string // enclosure.panes[back]
	Line  int    // 1-based
	Count int
	// Width and Height are as a pane's in the design file; of a strip its length
	// and its width.
	Width, Height Side
	Thickness     float64                      // as typed, m
	Material      string                       // the file's word: annealed, toughened, acrylic, ...
	Mass          quantity.Band[quantity.Mass] // of one, holes left out; zero if its material is not known
	Edges         [4]Edge                      // bottom, left, right, top
	Holes         []Hole
	// Had says that it is a pane of the shop tank: nothing is to be cut.
	Had bool
}

// Kind is what sort of piece it is.
type Kind string

// The kinds.
const (
	Pane  Kind = "pane"
	Dam   Kind = "dam"
	Door  Kind = "door"
	Strip Kind = "strip" // a brace
)

// Side is one size of a piece.
type Side struct {
	Field string  // of the design file: enclosure.panes[dam pane].width
	Line  int     // where it is typed; 0 if it is not
	Typed float64 // 0 if the file has none
	// Exact follows from the rule; the typed size if there is none. Low and High
	// are what the bond line leaves it.
	Exact, Low, High float64
	// Cut is what to ask the shop for: the typed size if that agrees, else Exact as
	// the shop cuts it.
	Cut   float64
	Rule  string // "inside width 888 mm less two gaps of 1 mm"
	Round string // which way it was rounded and why; "" if it was not
	Fit   Fit
	By    float64 // Typed less the nearer of Low and High: above 0 too long; 0 if it agrees
	// Captive says that it goes between two others; Gap is what the typed size then
	// leaves at each end, below 0 if it does not go in.
	Captive bool
	Gap     float64
}

// Fit tells how a typed size compares with its rule.
type Fit int

// The fits, worst last.
const (
	Agrees  Fit = iota
	AsTyped     // nothing in the file fixes it
	Proud       // too long, and an end is free: it stands out
	Short       // too short: a gap or a joint gets that much wider
	Thin        // it goes in, but leaves its bonds thinner than they are to be
	TooLong     // it does not go in
)

func (f Fit) String() string {
	return [...]string{"agrees", "as typed", "stands out", "too short", "leaves thin bonds", "does not go in"}[f]
}

// MarshalText implements encoding.TextMarshaler.
func (f Fit) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// Edge is one edge of a piece.
type Edge struct {
	Side   string // bottom, left, right or top, as seen from outside
	Held   string // bonded, rim or free
	Finish string // arrissed or polished: common practice, no source
}

// Hole is an opening in a piece.
type Hole struct {
	Name          string
	Round         bool
	Width, Height float64 // Width is the diameter of a round one
}

// Length is a length of pipe or hose to be cut.
type Length struct {
	Name  string // of the run, drain or manifold, and which of its pieces
	Of    string // the part's name
	Kind  string // pipe, hose or tube
	Field string
	Line  int
	Count int
	Cut   float64 // end to end, before it is joined
	Rule  string
	Trim  bool // cut long, then shortened when all is fitted dry
}

// Panel is a panel of lighting grid, or a part of one that no sheet holds whole.
type Panel struct {
	Name       string
	Grid       int // index in the design's list
	Line       int
	Cols, Rows int
	Pitch      float64
	// Part of Parts, 1-based, from FirstCol and FirstRow (0-based) of the panel.
	Part, Parts        int
	FirstCol, FirstRow int
	Notched            int // cells cut out of this part, slots of braces too
	Brace              *Brace
}

// Brace is what more there is to cut of a panel that is a brace: Cols cells long, Rows
// wide, sawn to length.
type Brace struct {
	Index  int     // in the layout's list
	Length float64 // from end to end along its longer side, m
	// Bevels are what its ends are sawn off square through its depth, rad: that in its
	// panel, and the other.
	Bevels [2]float64
	Slots  int // that it goes through
}

// Says is the fit as it follows the words "which" and before "by 3 mm".
func (f Fit) Says() string {
	return [...]string{"agrees", "stands as typed", "stands out", "is too short", "leaves its bonds thin, being too long", "does not go in, being too long"}[f]
}

// Finishes tells how the edges of a piece are finished, those alike together:
// "arrissed; top polished".
func Finishes(p *Piece) string {
	polished := ""
	n := 0
	for _, e := range p.Edges {
		if e.Finish == "polished" {
			if n++; n > 1 {
				polished += ", "
			}
			polished += e.Side
		}
	}
	switch n {
	case 0:
		return "arrissed"
	case len(p.Edges):
		return "polished all round"
	}
	return "arrissed; " + polished + " polished"
}
