package pieces

import "rillwright/cutting"

// Layouts says which piece is cut from what.
type Layouts struct {
	Glass []GlassLayout // one for each material and thickness
	Grids []GridLayout  // one for each pitch
	Bars  []BarLayout   // one for each part
	// Ordered are pieces that are ordered to size since they cannot be cut here.
	Ordered []Ordered
	// Buy counts what must be bought, in the order of the layouts.
	Buy []Bought
}

// Ordered is a piece ordered to size.
type Ordered struct {
	Piece int // row of List.Pieces
	Why   string
}

// Bought is stock to be bought.
type Bought struct {
	What  string // glass 6 mm, grid sheet, or the part's name
	Label string // 2250 x 1605 mm, 2 m
	Count int
	Size  [2]float64 // width and height; of a bar its length and 0, m
}

// Stock is what something is cut from.
type Stock struct {
	Name   string
	OnHand bool
	Line   int // where the file lists it; 0 if it is bought
	Note   string
}

// GlassLayout is how pieces of one material and thickness are cut.
type GlassLayout struct {
	What   string // "annealed glass, 6 mm"
	Thick  float64
	Pieces []int // rows of List.Pieces, as Job.Pieces
	Stock  []Stock
	Job    cutting.SheetJob
	Plan   cutting.SheetPlan
	Err    string // why there is no plan
}

// GridLayout is how panels of one pitch are cut.
type GridLayout struct {
	Pitch  float64
	Panels []int // rows of List.Panels, as Job.Pieces
	Stock  []Stock
	Job    cutting.CellJob
	Plan   cutting.CellPlan
	Err    string
}

// BarLayout is how lengths of one part are cut.
type BarLayout struct {
	Part    string
	Lengths []int // rows of List.Lengths, as Job.Pieces
	Stock   []Stock
	Job     cutting.BarJob
	Need    float64 // all lengths together, m
	Roll    bool    // sold off a roll, by the length
	Plan    cutting.BarPlan
	Err     string
}

// BarCuts is one length of pipe or hose and what is cut from it.
type BarCuts = cutting.BarLayout

// Least says how a layout stands against the least that could be bought.
type Least struct {
	Proven bool    // no layout buys less
	Gap    float64 // otherwise at most this share more is bought
}

// Least tells how good the layout is.
func (g *GlassLayout) Least() Least { return Least{g.Plan.Status == cutting.Proven, g.Plan.Gap} }

// Least tells how good the layout is.
func (g *GridLayout) Least() Least { return Least{g.Plan.Status == cutting.Proven, g.Plan.Gap} }

// Least tells how good the layout is.
func (g *BarLayout) Least() Least { return Least{g.Plan.Status == cutting.Proven, g.Plan.Gap} }
