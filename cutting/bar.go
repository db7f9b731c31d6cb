package cutting

import (
	"cmp"
	"slices"
)

// BarPiece is a length wanted, some number of times.
type BarPiece struct {
	Name   string
	Length float64 // finished, m
	Count  int
}

// BarStock is a bar, pipe or coil to cut from.
type BarStock struct {
	Name   string
	Length float64 // m
	Trim   float64 // lost at each end, its cut included, m
	OnHand bool    // costs nothing; otherwise it is bought
	Count  int     // how many there are; 0 of what is bought means any number
	Cost   float64 // of each one bought; 0 for all of them means that length counts
}

// BarJob is what to cut from what.
type BarJob struct {
	Pieces []BarPiece
	Stock  []BarStock
	Kerf   float64 // lost in each cut, m
	Keep   float64 // the shortest offcut worth keeping, m
	Effort int     // limit of the search in thousands of steps; 0 means 1000
}

// BarCut is one piece on a bar.
type BarCut struct {
	Piece    int     // row of BarJob.Pieces
	From, To float64 // from the bar's first end, m
}

// BarLayout is one bar.
type BarLayout struct {
	Stock    int      // row of BarJob.Stock
	Cuts     []BarCut // from the first end, longest first
	Offcut   float64  // left at the far end, its trim included, m
	Reusable bool     // not shorter than BarJob.Keep
}

// BarPlan is what to cut where.
type BarPlan struct {
	Bars    []BarLayout // stock on hand first, as in BarJob.Stock
	Missing []int       // rows of BarJob.Pieces, one for each that found no place
	Cost    float64     // of what is bought
	Bound   float64     // no layout of all pieces costs less; 0 if pieces are missing
	Gap     float64     // 1 - Bound/Cost; 0 if Cost is
	Status  Status
	Steps   int // of the search
}

// CutBars lays pieces onto bars. The cost is proven least where Status is Proven:
// the bound comes from the linear relaxation over cutting patterns (Gilmore &
// Gomory 1961, Oper. Res. 9, 849-859), as a Lagrangian bound that holds for any
// prices, and where it does not meet the layout found, a search through patterns
// closes the gap or ends at its limit. That the leftovers are as useful as
// possible is not proven. An error wraps ErrInput.
func CutBars(j BarJob) (BarPlan, error) {
	b, err := newBars(j)
	if err != nil {
		return BarPlan{}, err
	}
	return b.plan(j, b.solve()), nil
}

// bars is a job in whole numbers, equal pieces and equal bars together, longest
// piece first. A piece is longer by the kerf, and so is a bar: its last piece
// may end where the bar does.
type bars struct {
	length []int64 // of pieces, with kerf, falling
	need   []int
	rows   [][]int // rows of BarJob.Pieces, one for each piece

	room   []int64 // of stock, with kerf
	cost   []int64 // in units
	count  []int   // -1: any number
	from   [][]int // rows of BarJob.Stock: one for each bar, or one if any number
	full   []int64 // whole length
	unit   float64
	kerf   int64
	keep   int64
	effort int
	worked int
	bound  int64
	none   bool // it is proven that no layout holds all pieces
}

func newBars(j BarJob) (*bars, error) {
	b := &bars{kerf: steps(j.Kerf), keep: steps(j.Keep), effort: 1000 * j.Effort}
	if b.effort == 0 {
		b.effort = 1_000_000
	}
	switch {
	case !inRange(j.Kerf) || !inRange(j.Keep) || j.Effort < 0:
		return nil, wrong("kerf %g m, keep %g m, effort %d: each must be 0 or more, and no length over %d m", j.Kerf, j.Keep, j.Effort, longest)
	case len(j.Stock) == 0:
		return nil, wrong("no stock to cut from: give at least one length")
	}
	if err := b.addStock(j); err != nil {
		return nil, err
	}
	return b, b.addPieces(j)
}

func (b *bars) addStock(j BarJob) error {
	costs := make([]float64, len(j.Stock))
	priced := slices.ContainsFunc(j.Stock, func(s BarStock) bool { return !s.OnHand && s.Cost != 0 })
	for i, s := range j.Stock {
		switch {
		case !inRange(s.Length) || !inRange(s.Trim) || steps(s.Length) <= 2*steps(s.Trim):
			return wrong("stock %q: length %g m with %g m lost at each end leaves nothing; at most %d m", s.Name, s.Length, s.Trim, longest)
		case s.Count < 0 || s.OnHand && s.Count == 0:
			return wrong("stock %q: count %d: say how many there are", s.Name, s.Count)
		case !s.OnHand && (!(s.Cost >= 0) || s.Cost > 1e9 || priced && s.Cost < costStep):
			return wrong("stock %q: cost %g: give each length that is bought a cost, or none", s.Name, s.Cost)
		case s.OnHand:
		case priced:
			costs[i] = s.Cost
		default:
			costs[i] = s.Length
		}
	}
	whole, unit := wholeCosts(costs)
	b.unit = unit
	for i, s := range j.Stock {
		room, limited := steps(s.Length)-2*steps(s.Trim)+b.kerf, s.Count > 0
		k := -1
		for l := range b.room {
			if b.room[l] == room && b.full[l] == steps(s.Length) && b.cost[l] == whole[i] && (b.count[l] >= 0) == limited {
				k = l
			}
		}
		if k < 0 {
			k = len(b.room)
			b.room, b.full, b.cost = append(b.room, room), append(b.full, steps(s.Length)), append(b.cost, whole[i])
			b.from = append(b.from, nil)
			b.count = append(b.count, -1)
			if limited {
				b.count[k] = 0
			}
		}
		if limited {
			b.count[k] += s.Count
			b.from[k] = append(b.from[k], slices.Repeat([]int{i}, s.Count)...)
		} else if len(b.from[k]) == 0 {
			b.from[k] = []int{i}
		}
	}
	return nil
}

func (b *bars) addPieces(j BarJob) error {
	order := make([]int, 0, len(j.Pieces))
	total := 0
	for i, p := range j.Pieces {
		if !inRange(p.Length) || steps(p.Length) <= 0 || p.Count < 0 {
			return wrong("piece %q: length %g m, count %d: give a length up to %d m and a count of 0 or more", p.Name, p.Length, p.Count, longest)
		}
		if total += p.Count; total > mostPieces {
			return wrong("more than %d pieces: split the job", mostPieces)
		}
		if p.Count > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(steps(j.Pieces[y].Length), steps(j.Pieces[x].Length)) })
	for _, i := range order {
		l := steps(j.Pieces[i].Length) + b.kerf
		if n := len(b.length); n == 0 || b.length[n-1] != l {
			b.length, b.need, b.rows = append(b.length, l), append(b.need, 0), append(b.rows, nil)
		}
		n := len(b.length) - 1
		b.need[n] += j.Pieces[i].Count
		b.rows[n] = append(b.rows[n], slices.Repeat([]int{i}, j.Pieces[i].Count)...)
	}
	return nil
}

// mostPieces is the most pieces of one job: beyond any household.
const mostPieces = 5000

// plan writes a solution in metres, with the rows of the job.
func (b *bars) plan(j BarJob, found []bar) BarPlan {
	p := BarPlan{Steps: b.worked}
	rows := make([][]int, len(b.rows))
	for i := range rows {
		rows[i] = slices.Clone(b.rows[i])
	}
	from := make([][]int, len(b.from))
	for k := range from {
		from[k] = slices.Clone(b.from[k])
	}
	var cost int64
	for _, f := range found {
		l := BarLayout{Stock: from[f.stock][0]}
		if b.count[f.stock] >= 0 {
			from[f.stock] = from[f.stock][1:]
		}
		cost += b.cost[f.stock]
		at := steps(j.Stock[l.Stock].Trim)
		for i, n := range f.pieces {
			for range n {
				c := BarCut{Piece: rows[i][0], From: metres(at), To: metres(at + b.length[i] - b.kerf)}
				rows[i] = rows[i][1:]
				l.Cuts = append(l.Cuts, c)
				at += b.length[i]
			}
		}
		left := b.full[f.stock] - at
		if b.left(f) <= 0 { // what is beyond the last piece is trim
			left = 0
		}
		l.Offcut, l.Reusable = metres(left), left > 0 && left >= b.keep
		p.Bars = append(p.Bars, l)
	}
	slices.SortStableFunc(p.Bars, func(x, y BarLayout) int {
		hand := func(l BarLayout) int {
			if j.Stock[l.Stock].OnHand {
				return 0
			}
			return 1
		}
		return cmp.Or(cmp.Compare(hand(x), hand(y)), cmp.Compare(x.Stock, y.Stock), cmp.Compare(x.Offcut, y.Offcut))
	})
	p.Missing = slices.Sorted(slices.Values(slices.Concat(rows...)))
	p.Cost, p.Bound, p.Gap, p.Status = judged(cost, b.bound, b.unit, len(p.Missing) > 0, b.none)
	return p
}
