package study

import (
	"fmt"
	"math"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure/joint"
)

// What a planted panel is taken to be where the file does not say.
const (
	// wallLow to wallHigh are what a planted wall of foam, fibre and moss weighs
	// wet, kg/m2: assumed, no source; weigh a piece.
	wallLow, wallLikely, wallHigh = 10.0, 20.0, 35.0
	// sheetHeavy is what a bare grid sheet weighs at most, kg/m2: 1 to 2 kg for 0.6 by
	// 1.2 m, from memory of the trade.
	sheetHeavy = 2 / 0.72
	// foamLow to foamHigh are how thick foam and moss lie on the panel, m: assumed,
	// no source.
	foamLow, foamLikely, foamHigh = 0.020, 0.040, 0.080
	// outLow to outHigh are how far a piece's centre of weight stands out from its
	// panel, m: assumed, no source.
	outLow, outLikely, outHigh = 0.030, 0.080, 0.150
	// shareLow to shareHigh are what of a spot really meets both faces: assumed, no
	// source.
	shareLow, shareLikely, shareHigh = 0.5, 0.7, 0.9
	// sheetDepth is how deep a grid sheet is, m: from memory of the trade.
	sheetDepth = 0.012
)

// BondDoubt is one thing about a bonded panel that is known only as a band.
type BondDoubt struct {
	quantity.Band[float64]

	What, Settle, Why string
	Assumed           bool // the file does not say
	Key               string
	Kind              BondKind
	Line              int
}

// BondKind tells what a doubt of a bonded panel is of.
type BondKind uint8

// The kinds.
const (
	BondShare BondKind = iota // 0 to 1
	BondMass                  // kg
	BondDepth                 // m
	BondFilm                  // m
)

// Piece is a piece of wood or rock on a panel.
type Piece struct {
	Name string
	Mass float64 // kg
	X    float64 // its centre from the panel's left end, m
	out  int     // index of its doubt
	Line int
}

// Bond is a grid panel bonded to the glass behind it.
type Bond struct {
	Panel         string
	At            string
	Width, Height float64 // m
	Depth         float64 // of the sheet
	StandOff      float64
	Rows, Columns int  // of spots
	Ragged        bool // the last row has fewer
	Patches       []joint.Patch
	Spot          [2]float64
	Rests         bool
	Pieces        []Piece
	Doubts        []BondDoubt // the first four are share, weight, foam and film
	Line          int
}

// Indices of a bond's first doubts.
const (
	bondShare = iota
	bondMass
	bondFoam
	bondFilm
	bondFirstPiece
)

// BondCase is a choice of a value for every doubt of a bond, by index.
type BondCase []float64

// Likely returns the case of likely values.
func (b *Bond) Likely() BondCase {
	c := make(BondCase, len(b.Doubts))
	for i := range c {
		c[i] = b.Doubts[i].Likely
	}
	return c
}

// GridBond poses a panel that hangs on the glass. The error says why it cannot
// be: spots that do not fit on it.
func GridBond(e *enclosure.Enclosure, g *design.GridPanel) (*Bond, error) {
	pitch := float64(g.Pitch.Value)
	b := &Bond{
		Panel: g.Name.Value, At: g.At.Value, Width: float64(g.Across.Value) * pitch, Height: float64(g.Up.Value) * pitch,
		Depth: sheetDepth, StandOff: float64(g.StandOff.Value), Rests: g.Bond.Rests.Value, Line: g.Bond.Pos.Line,
		Spot: [2]float64{float64(g.Bond.Width.Value), float64(g.Bond.Height.Value)},
	}
	if g.Thick.Given() {
		b.Depth = float64(g.Thick.Value)
	}
	if err := b.spread(g.Bond.Spots.Value); err != nil {
		return nil, err
	}
	b.doubts(e, g)
	b.pieces(e, g)
	return b, nil
}

// spread lays n spots evenly over the panel, in rows and columns as near to its
// shape as their number allows; a number with no fair pair of factors gives rows
// that are not all full.
func (b *Bond) spread(n int) error {
	if n > 10000 {
		return fmt.Errorf("%d spots are too many to be meant", n)
	}
	shape := b.Width / b.Height
	off := func(rows int) float64 { // from the panel's shape
		return math.Abs(math.Log(float64(n) / float64(rows*rows) / shape))
	}
	fits := func(rows, columns int) bool {
		return float64(columns)*b.Spot[0] <= b.Width*(1+1e-9) && float64(rows)*b.Spot[1] <= b.Height*(1+1e-9)
	}
	best := 0
	for rows := 1; rows <= n; rows++ {
		if n%rows == 0 && fits(rows, n/rows) && (best == 0 || off(rows) < off(best)) {
			best = rows
		}
	}
	if fair := math.Log(2.5); best == 0 || off(best) > fair {
		rows := min(max(1, int(math.Round(math.Sqrt(float64(n)/shape)))), n)
		if columns := (n + rows - 1) / rows; n%rows != 0 && fits(rows, columns) {
			best, b.Ragged = rows, true
		}
	}
	if best == 0 {
		return fmt.Errorf("%d spots of %.0f by %.0f mm do not fit on it side by side", n, b.Spot[0]*1000, b.Spot[1]*1000)
	}
	b.Rows, b.Columns = best, (n+best-1)/best
	left := n
	for j := range b.Rows {
		k := min((left+b.Rows-j-1)/(b.Rows-j), b.Columns) // full rows below
		left -= k
		for i := range k {
			b.Patches = append(b.Patches, joint.Patch{
				X:     b.Width*(float64(i)+0.5)/float64(k) - b.Spot[0]/2,
				Y:     b.Height*(float64(j)+0.5)/float64(b.Rows) - b.Spot[1]/2,
				Width: b.Spot[0], Height: b.Spot[1],
			})
		}
	}
	return nil
}

func (b *Bond) doubts(e *enclosure.Enclosure, g *design.GridPanel) {
	share := BondDoubt{Band: quantity.Band[float64]{Low: shareLow, Likely: shareLikely, High: shareHigh}, What: "share of each spot that meets both faces", Why: "assumed, no source", Settle: "pull one trial spot off and look at it", Assumed: true, Key: "bond.share", Kind: BondShare}
	if s := g.Bond.Share; s.Given() {
		share.Band = quantity.Band[float64]{Low: float64(s.Value.Low), Likely: float64(s.Value.Likely), High: float64(s.Value.High)}
		share.Assumed, share.Why, share.Line = false, "as the file has it", s.Pos.Line
	}
	area := b.Width * b.Height
	mass := BondDoubt{Band: quantity.Band[float64]{Low: wallLow * area, Likely: wallLikely * area, High: wallHigh * area}, What: "weight of the panel with all that grows on it, wet", Why: "10 to 35 kg for each m2 assumed, no source", Settle: "weigh a wet piece of it", Assumed: true, Key: "weight", Kind: BondMass}
	if g.Mass.Given() {
		mass.Band = quantity.Exactly(float64(g.Mass.Value))
		mass.Assumed, mass.Why, mass.Line = false, "as the file has it", g.Mass.Pos.Line
	}
	film := BondDoubt{Band: quantity.Exactly(e.FilmHoldUp.Value * area), What: "water that runs on it", Kind: BondMass}
	if i, ok := e.FilmHoldUp.Doubt(); ok {
		d := &e.Doubts[i]
		film.Band = quantity.Band[float64]{Low: d.Low * area, Likely: d.Likely * area, High: d.High * area}
		film.Why, film.Settle, film.Line = d.Why, d.Settle, d.Pos.Line
	}
	film.Band = film.Scale(1000) // kg
	b.Doubts = []BondDoubt{
		share, mass,
		{Band: quantity.Band[float64]{Low: foamLow, Likely: foamLikely, High: foamHigh}, What: "thickness of foam and moss before it", Why: "assumed, no source", Settle: "measure it where it is carved", Assumed: true, Kind: BondDepth},
		film,
	}
}

func (b *Bond) pieces(e *enclosure.Enclosure, g *design.GridPanel) {
	for i := range e.Design.Hardscape {
		h := &e.Design.Hardscape[i]
		if h.On.Value != g.Name.Value {
			continue
		}
		p := Piece{Name: h.Name.Value, Mass: float64(h.Mass.Value), X: b.Width / 2, out: len(b.Doubts), Line: h.Pos.Line}
		if h.Left.Given() {
			p.X = float64(h.Left.Value)
		}
		out := BondDoubt{Band: quantity.Band[float64]{Low: outLow, Likely: outLikely, High: outHigh}, What: fmt.Sprintf("how far the %s stands out", p.Name), Why: "assumed, no source", Settle: "balance it on a stick", Assumed: true, Key: "hardscape[" + p.Name + "].out", Kind: BondDepth}
		if h.Out.Given() {
			out.Band, out.Assumed, out.Why, out.Line = quantity.Exactly(float64(h.Out.Value)), false, "as the file has it", h.Out.Pos.Line
		}
		b.Pieces = append(b.Pieces, p)
		b.Doubts = append(b.Doubts, out)
	}
}

// BondState says what hangs on the bond.
type BondState uint8

// The states: bare sheet as first bonded, wet with the pump off, running.
const (
	BondBare BondState = iota
	BondWet
	BondRunning
)

// Stress returns what the bond bears in a case and a state, leaving out the piece
// of index without, -1 for none. What rests on its lower edge is carried there: only
// its leaning stays.
func (b *Bond) Stress(c BondCase, state BondState, without int) (joint.BondStress, error) {
	middle := b.StandOff + (b.Depth+c[bondFoam])/2
	var loads []joint.Hang
	add := func(mass, x, z float64) {
		down := mass * joint.G
		loads = append(loads, joint.Hang{Down: down, X: x, Y: b.Height / 2, Z: z})
		if b.Rests {
			loads = append(loads, joint.Hang{Down: -down, X: x, Z: b.StandOff + b.Depth/2})
		}
	}
	switch state {
	case BondBare:
		add(sheetHeavy*b.Width*b.Height, b.Width/2, b.StandOff+b.Depth/2)
	case BondRunning:
		add(c[bondFilm], b.Width/2, b.StandOff+b.Depth+c[bondFoam])
		fallthrough
	default:
		add(c[bondMass], b.Width/2, middle)
		for i := range b.Pieces {
			if p := &b.Pieces[i]; i != without {
				add(p.Mass, p.X, b.StandOff+b.Depth+c[p.out])
			}
		}
	}
	return joint.Bond(c[bondShare], b.Patches, loads...)
}

// Worst returns the case with every doubt at the end (side 1) that loads the bond
// most, or (side -1) least. Each is moved alone to see which end that is.
func (b *Bond) Worst(side int) (BondCase, error) {
	c := b.Likely()
	for i := range b.Doubts {
		low, high, err := b.Ends(i)
		if err != nil {
			return nil, err
		}
		d := &b.Doubts[i]
		c[i] = d.Low
		if (high > low) == (side > 0) {
			c[i] = d.High
		}
	}
	return c, nil
}

// Ends returns the worst stress (Pa) with one doubt low and high and all others
// likely, running.
func (b *Bond) Ends(doubt int) (low, high float64, err error) {
	c := b.Likely()
	c[doubt] = b.Doubts[doubt].Low
	l, err := b.Stress(c, BondRunning, -1)
	if err != nil {
		return 0, 0, err
	}
	c[doubt] = b.Doubts[doubt].High
	h, err := b.Stress(c, BondRunning, -1)
	return l.Worst, h.Worst, err
}
