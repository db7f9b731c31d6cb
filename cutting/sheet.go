package cutting

import (
	"cmp"
	"slices"
)

// SheetPiece is a rectangle wanted, some number of times.
type SheetPiece struct {
	Name          string
	Width, Height float64 // finished, m
	Count         int
	Fixed         bool // may not be turned by a quarter: a pattern, a rolled texture
}

// SheetStock is a sheet or an offcut to cut from.
type SheetStock struct {
	Name          string
	Width, Height float64 // m
	Trim          float64 // lost along each edge, its cut included, m
	OnHand        bool    // costs nothing; otherwise it is bought
	Count         int     // how many there are; 0 of what is bought means any number
	Cost          float64 // of each one bought; 0 for all of them means that area counts
}

// SheetJob is what to cut from what.
type SheetJob struct {
	Pieces   []SheetPiece
	Stock    []SheetStock
	Kerf     float64 // lost in each cut: 0 for glass that is scored and snapped, m
	MinStrip float64 // the narrowest strip that comes off in one piece, m
	Keep     float64 // the shorter side of the smallest offcut worth keeping, m
	Effort   int     // limit of the search in thousands of steps; 0 means 20,000
}

// Rect is a rectangle on a sheet: its corner nearest to the sheet's own, and its
// size, m.
type Rect struct{ X, Y, W, H float64 }

// SheetPlace is one piece on a sheet.
type SheetPlace struct {
	Piece int // row of SheetJob.Pieces
	Rect
	Turned bool // width and height of the piece changed places
}

// SheetCut goes right through a part, from edge to edge.
type SheetCut struct {
	Part   Rect    // what is cut in two
	Across bool    // the cut runs along X, at a Y; otherwise along Y, at an X
	At     float64 // where the nearer part ends: the kerf lies beyond, m
	Trim   bool    // takes off the edge of the stock
	Level  int     // how many cuts made the part, trim apart
}

// SheetOffcut is a part that holds no piece.
type SheetOffcut struct {
	Rect
	Reusable bool // its shorter side is not below SheetJob.Keep
}

// SheetLayout is one sheet.
type SheetLayout struct {
	Stock   int // row of SheetJob.Stock
	Pieces  []SheetPlace
	Cuts    []SheetCut // in an order in which they can be made
	Offcuts []SheetOffcut
}

// SheetPlan is what to cut where.
type SheetPlan struct {
	Sheets   []SheetLayout // stock on hand first, as in SheetJob.Stock
	Missing  []int         // rows of SheetJob.Pieces, one for each that found no place
	Cost     float64       // of what is bought
	Bound    float64       // no layout of all pieces costs less; 0 if pieces are missing
	Gap      float64       // 1 - Bound/Cost; 0 if Cost is
	Status   Status
	Leftover Status // Proven: at that cost, no leftovers are more useful
	Steps    int    // of the search
}

// CutSheets lays rectangles onto sheets by cuts that go right through, in any
// number of stages.
//
// For few pieces (as a rule up to 12 different ones, more where some are equal)
// all ways to join them into blocks are compared, set of pieces by set of pieces,
// and the cost is proven least; then the leftovers, of each sheet the largest
// single offcut, which takes longer and more often ends at the limit. With a
// MinStrip, leftovers are compared among the layouts whose offcut lies flush
// against the blocks around it. For more pieces, and where the comparison of costs
// reaches its limit, a search that takes some pieces off and puts them back another
// way, over and over, gives the layout, and the bound is the better one of the area
// and of dual feasible functions (Fekete & Schepers 2004, Math. Methods Oper. Res. 60,
// 311-329, from memory). An error wraps ErrInput.
func CutSheets(j SheetJob) (SheetPlan, error) {
	s, err := newSheets(j)
	if err != nil {
		return SheetPlan{}, err
	}
	return s.plan(j, s.solve()), nil
}

// part is a rectangle in steps, and one kerf longer and wider than it is: then a
// cut loses nothing, its two sides add up.
type part struct{ w, h int64 }

func (p part) area() int64 { return p.w * p.h }

// sheets is a job in whole numbers, equal pieces and equal sheets together.
type sheets struct {
	piece []part // with kerf, the greatest area first
	fixed []bool
	need  []int
	rows  [][]int // rows of SheetJob.Pieces, one for each piece

	stock []part // what trim leaves, with kerf
	cost  []int64
	count []int   // -1: any number
	from  [][]int // rows of SheetJob.Stock: one for each sheet, or one if any number
	unit  float64

	kerf, keep int64
	strip      int64 // what is left beside a piece is 0 or at least this, kerf included
	effort     int
	worked     int

	bound    int64
	none     bool // it is proven that no layout holds all pieces
	leftover bool // leftovers are proven
}

func newSheets(j SheetJob) (*sheets, error) {
	s := &sheets{kerf: steps(j.Kerf), keep: steps(j.Keep), effort: 1000 * j.Effort}
	if s.effort == 0 {
		s.effort = 20_000_000
	}
	if !inRange(j.Kerf) || !inRange(j.Keep) || !inRange(j.MinStrip) || j.Effort < 0 {
		return nil, wrong("kerf %g m, narrowest strip %g m, keep %g m, effort %d: each must be 0 or more, and no length over %d m", j.Kerf, j.MinStrip, j.Keep, j.Effort, longest)
	}
	if len(j.Stock) == 0 {
		return nil, wrong("no stock to cut from: give at least one sheet")
	}
	if strip := steps(j.MinStrip); strip > 0 {
		s.strip = strip + s.kerf
	}
	if err := s.addStock(j); err != nil {
		return nil, err
	}
	return s, s.addPieces(j)
}

func (s *sheets) addStock(j SheetJob) error {
	costs := make([]float64, len(j.Stock))
	priced := slices.ContainsFunc(j.Stock, func(k SheetStock) bool { return !k.OnHand && k.Cost != 0 })
	for i, k := range j.Stock {
		trim := 2 * steps(k.Trim)
		switch {
		case max(k.Width, k.Height) > mostSide:
			return wrong("stock %q: %g m by %g m: at most %d m", k.Name, k.Width, k.Height, mostSide)
		case !inRange(k.Width) || !inRange(k.Height) || !inRange(k.Trim) || min(steps(k.Width), steps(k.Height)) <= trim:
			return wrong("stock %q: %g m by %g m with %g m lost along each edge leaves nothing", k.Name, k.Width, k.Height, k.Trim)
		case trim > 0 && steps(k.Trim) < steps(j.MinStrip):
			return wrong("stock %q: trim of %g m is narrower than the narrowest strip, %g m: trim more, or nothing", k.Name, k.Trim, j.MinStrip)
		case k.Count < 0 || k.OnHand && k.Count == 0:
			return wrong("stock %q: count %d: say how many there are", k.Name, k.Count)
		case !k.OnHand && (!(k.Cost >= 0) || k.Cost > 1e9 || priced && k.Cost < costStep):
			return wrong("stock %q: cost %g: give each sheet that is bought a cost, or none", k.Name, k.Cost)
		case k.OnHand:
		case priced:
			costs[i] = k.Cost
		default:
			costs[i] = k.Width * k.Height
		}
	}
	whole, unit := wholeCosts(costs)
	s.unit = unit
	for i, k := range j.Stock {
		p := part{steps(k.Width) - 2*steps(k.Trim) + s.kerf, steps(k.Height) - 2*steps(k.Trim) + s.kerf}
		limited := k.Count > 0
		at := -1
		for l := range s.stock {
			if s.stock[l] == p && s.cost[l] == whole[i] && (s.count[l] >= 0) == limited {
				at = l
			}
		}
		if at < 0 {
			at = len(s.stock)
			s.stock, s.cost, s.from = append(s.stock, p), append(s.cost, whole[i]), append(s.from, nil)
			s.count = append(s.count, -1)
			if limited {
				s.count[at] = 0
			}
		}
		if limited {
			s.count[at] += k.Count
			s.from[at] = append(s.from[at], slices.Repeat([]int{i}, k.Count)...)
		} else if len(s.from[at]) == 0 {
			s.from[at] = []int{i}
		}
	}
	return nil
}

// mostSide is the longest side (m) of a sheet: with it, areas of all sheets and
// pieces that a job may have stay below mostArea.
const mostSide = 20

func (s *sheets) addPieces(j SheetJob) error {
	var order []int
	total, area := 0, 0.0
	for _, k := range j.Stock {
		area += float64(k.Count) * (k.Width + j.Kerf) * (k.Height + j.Kerf) / (step * step)
	}
	for i, p := range j.Pieces {
		w, h := steps(p.Width), steps(p.Height)
		if !inRange(p.Width) || !inRange(p.Height) || min(w, h) <= 0 || p.Count < 0 {
			return wrong("piece %q: %g m by %g m, count %d: give sides up to %d m and a count of 0 or more", p.Name, p.Width, p.Height, p.Count, longest)
		}
		if min(w, h) < steps(j.MinStrip) {
			return wrong("piece %q: %g m by %g m is narrower than the narrowest strip that can be cut, %g m", p.Name, p.Width, p.Height, j.MinStrip)
		}
		if total += p.Count; total > mostPieces {
			return wrong("more than %d pieces: split the job", mostPieces)
		}
		if p.Count > 0 {
			order = append(order, i)
		}
		area += float64(p.Count) * (p.Width + j.Kerf) * (p.Height + j.Kerf) / (step * step)
	}
	if area > mostArea {
		return wrong("%g m2 of pieces and stock on hand: split the job", area*step*step)
	}
	slices.SortStableFunc(order, func(x, y int) int {
		area := func(p SheetPiece) int64 { return steps(p.Width) * steps(p.Height) }
		return cmp.Compare(area(j.Pieces[y]), area(j.Pieces[x]))
	})
	for _, i := range order {
		row := j.Pieces[i]
		p, fixed := part{steps(row.Width) + s.kerf, steps(row.Height) + s.kerf}, row.Fixed
		if !fixed && p.w < p.h {
			p.w, p.h = p.h, p.w
		}
		if p.w == p.h {
			fixed = true // turning changes nothing
		}
		at := -1
		for n := range s.piece {
			if s.piece[n] == p && s.fixed[n] == fixed {
				at = n
			}
		}
		if at < 0 {
			at = len(s.piece)
			s.piece, s.fixed, s.need, s.rows = append(s.piece, p), append(s.fixed, fixed), append(s.need, 0), append(s.rows, nil)
		}
		s.need[at] += row.Count
		s.rows[at] = append(s.rows[at], slices.Repeat([]int{i}, row.Count)...)
	}
	return nil
}

// ways returns the one or two ways a piece may lie.
func (s *sheets) ways(i int) []part {
	p := s.piece[i]
	if s.fixed[i] {
		return []part{p}
	}
	return []part{p, {p.h, p.w}}
}

// use is how useful a part of a sheet is as an offcut: the square of its area, m4.
func (s *sheets) use(p part) float64 {
	w, h := p.w-s.kerf, p.h-s.kerf
	if min(w, h) < max(s.keep, 1) {
		return 0
	}
	a := metres(w) * metres(h)
	return a * a
}
