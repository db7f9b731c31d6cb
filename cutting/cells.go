package cutting

import (
	"math"
	"slices"
)

// CellPiece is a panel of whole cells, some number of times.
type CellPiece struct {
	Name       string
	Cols, Rows int // cells; the panel has one wall more each way
	Count      int
	Fixed      bool // may not be turned by a quarter
}

// CellStock is a grid sheet, or an offcut of one, counted in whole cells: cells that
// are open at the edge do not count.
type CellStock struct {
	Name       string
	Cols, Rows int
	OnHand     bool
	Count      int     // how many there are; 0 of what is bought means any number
	Cost       float64 // of each one bought; 0 for all of them means that cells count
}

// CellJob is what to cut from what.
type CellJob struct {
	Pieces []CellPiece
	Stock  []CellStock
	// Shared says that a cut runs along a wall which only one of the two parts keeps
	// whole, so that no cell is lost. Otherwise each cut goes through a row of cells:
	// both parts keep their walls, and that row is lost.
	Shared bool
	Keep   int // cells along the shorter side of the smallest offcut worth keeping
	Effort int // as in SheetJob
}

// CellRect is a part of a sheet: how many cells lie before it, and how many it has.
type CellRect struct{ Col, Row, Cols, Rows int }

// CellPlace is one piece on a sheet.
type CellPlace struct {
	Piece int // row of CellJob.Pieces
	CellRect
	Turned bool
}

// CellCut goes right through a part.
type CellCut struct {
	Part   CellRect
	Across bool // along a row of cells; otherwise along a column
	At     int  // how many rows or columns of the sheet lie before the cut; the next one is lost unless walls are shared
	Level  int  // how many cuts made the part
}

// CellOffcut is a part that holds no piece.
type CellOffcut struct {
	CellRect
	Reusable bool
}

// CellLayout is one sheet.
type CellLayout struct {
	Stock   int // row of CellJob.Stock
	Pieces  []CellPlace
	Cuts    []CellCut // in an order in which they can be made
	Offcuts []CellOffcut
}

// CellPlan is what to cut where; the figures are those of SheetPlan.
type CellPlan struct {
	Sheets           []CellLayout
	Missing          []int
	Cost, Bound, Gap float64
	Status, Leftover Status
	Steps            int
}

// cell is the side (m) that stands for one cell among sheets.
const cell = 1e-3

// mostCells is the most cells along a side: so many as mostSide holds.
const mostCells = mostSide * 1000

// CutCells lays panels of whole cells onto grid sheets, as CutSheets does panes. An
// error wraps ErrInput.
func CutCells(j CellJob) (CellPlan, error) {
	s := SheetJob{Keep: float64(j.Keep) * cell, Effort: j.Effort}
	if !j.Shared {
		s.Kerf = cell
	}
	if j.Keep < 0 || j.Keep > mostCells {
		return CellPlan{}, wrong("keep %d cells: give 0 to %d", j.Keep, mostCells)
	}
	for _, p := range j.Pieces {
		if min(p.Cols, p.Rows) < 1 || max(p.Cols, p.Rows) > mostCells {
			return CellPlan{}, wrong("piece %q: %d by %d cells: give 1 to %d each way", p.Name, p.Cols, p.Rows, mostCells)
		}
		s.Pieces = append(s.Pieces, SheetPiece{p.Name, float64(p.Cols) * cell, float64(p.Rows) * cell, p.Count, p.Fixed})
	}
	priced := slices.ContainsFunc(j.Stock, func(k CellStock) bool { return !k.OnHand && k.Cost != 0 })
	for _, k := range j.Stock {
		if min(k.Cols, k.Rows) < 1 || max(k.Cols, k.Rows) > mostCells {
			return CellPlan{}, wrong("stock %q: %d by %d cells: give 1 to %d each way", k.Name, k.Cols, k.Rows, mostCells)
		}
		n := SheetStock{Name: k.Name, Width: float64(k.Cols) * cell, Height: float64(k.Rows) * cell, OnHand: k.OnHand, Count: k.Count, Cost: k.Cost}
		if !priced {
			n.Cost = float64(k.Cols) * float64(k.Rows)
		}
		s.Stock = append(s.Stock, n)
	}
	p, err := CutSheets(s)
	if err != nil {
		return CellPlan{}, err
	}
	out := CellPlan{Missing: p.Missing, Cost: p.Cost, Bound: p.Bound, Gap: p.Gap, Status: p.Status, Leftover: p.Leftover, Steps: p.Steps}
	for _, l := range p.Sheets {
		n := CellLayout{Stock: l.Stock}
		for _, q := range l.Pieces {
			n.Pieces = append(n.Pieces, CellPlace{q.Piece, cells(q.Rect), q.Turned})
		}
		for _, c := range l.Cuts {
			n.Cuts = append(n.Cuts, CellCut{cells(c.Part), c.Across, count(c.At), c.Level})
		}
		for _, o := range l.Offcuts {
			n.Offcuts = append(n.Offcuts, CellOffcut{cells(o.Rect), o.Reusable})
		}
		out.Sheets = append(out.Sheets, n)
	}
	return out, nil
}

func count(m float64) int { return int(math.Round(m / cell)) }

func cells(r Rect) CellRect { return CellRect{count(r.X), count(r.Y), count(r.W), count(r.H)} }
