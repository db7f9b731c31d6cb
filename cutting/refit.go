package cutting

import (
	"math"
	"slices"
)

const (
	// ruinMost is how many pieces come off at a time; blinkEvery is how many places
	// are looked at, on average, until one is overlooked; memory is how many results
	// back a layout may be as bad as. Tried on random jobs of 60 panes: half or twice
	// of each changes little.
	ruinMost, blinkEvery, memory = 12, 12, 60

	// refitFirst rounds go before the comparison of sets, refitMore after it where it
	// proved nothing, refitLeft are spent on leftovers.
	refitFirst, refitMore, refitLeft = 4000, 36_000, 2000
)

// refitter takes some pieces off the sheets and puts them back in another way, over
// and over. Sheets may cost no more than a goal; pieces that then find no place are
// kept aside, and their area is what gets less. Once all have a place, the goal is
// lowered. (After Gardeyn & Wauters 2022, Eur. J. Oper. Res. 301, 432-444, and the
// late acceptance of Burke & Bykov 2017, ibid. 258, 70-78; both from memory.)
type refitter struct {
	*sheets
	lying [][]part // the ways of each piece
	seq   sequence
	on    []tree
	lost  []int16 // pieces without a place
	area  int64   // of those
	spent int64   // what the sheets cost
	left  []int   // stock not used; -1: any number
	goal  int64

	rule  int // how places are compared
	blink int // places until one is overlooked
	key   []float64

	saved   []tree // what was on sheets before this round
	savedAt []int
	before  state
	best    state
	bestOn  []tree
	past    [memory]float64
}

// state is all of a refitter that changes, sheets apart.
type state struct {
	lost        []int16
	left        []int
	area, spent int64
}

// note keeps the present state.
func (r *refitter) note(s *state) {
	s.lost, s.left = append(s.lost[:0], r.lost...), append(s.left[:0], r.left...)
	s.area, s.spent = r.area, r.spent
}

// spot is a place for a piece.
type spot struct {
	sheet  int
	knot   int32
	way    part
	across bool
	bad    int64 // how badly it fits
}

func (s *sheets) refitter() *refitter {
	r := &refitter{sheets: s, seq: 1, left: slices.Clone(s.count), key: make([]float64, len(s.piece)), goal: math.MaxInt64}
	for i, n := range s.need {
		r.lying = append(r.lying, s.ways(i))
		r.lost = append(r.lost, slices.Repeat([]int16{int16(i)}, n)...)
		r.area += int64(n) * s.piece[i].area()
	}
	return r
}

func (r *refitter) leaf(i int, w part) knot {
	return knot{wa: w.w, wb: w.w + r.strip, ha: w.h, hb: w.h + r.strip, up: -1, near: -1, far: -1, piece: int16(i)}
}

// find looks for a place for a piece on one sheet that is better than the best.
func (r *refitter) find(at, i int, best *spot) {
	t := &r.on[at]
	sheet := r.stock[t.stock]
	if t.area+r.piece[i].area() > sheet.area() {
		return
	}
	ways := r.lying[i]
	r.worked += len(t.knots) * len(ways) / 4 // less work than joining two blocks
	for n := range t.knots {
		k := &t.knots[n]
		if k.piece == gone {
			continue
		}
		for _, w := range ways {
			if w.w > k.rw || w.h > k.rh {
				continue
			}
			for _, across := range [2]bool{false, true} {
				// In a row, beside one of it is the same as beside all of it.
				if k.up >= 0 && t.knots[k.up].across == across {
					continue
				}
				x, y := k.rw-w.w, k.rh-w.h // what would be left free
				if across {
					y -= k.ha
				} else {
					x -= k.wa
				}
				if x < 0 || y < 0 {
					continue
				}
				var bad int64
				switch r.rule {
				case 0:
					bad = min(x, y)
				case 1:
					bad = x*(y+w.h) + y*w.w
				default: // what the join wastes
					if across {
						bad = max(k.wa, w.w)*(k.ha+w.h) - k.wa*k.ha - w.area()
					} else {
						bad = max(k.ha, w.h)*(k.wa+w.w) - k.wa*k.ha - w.area()
					}
				}
				if bad >= best.bad {
					continue
				}
				if r.blink--; r.blink < 0 {
					r.blink = r.seq.below(2 * blinkEvery)
					continue
				}
				if r.strip > 0 {
					leaf := r.leaf(i, w)
					if !t.holds(int32(n), &leaf, across, sheet) {
						continue
					}
				}
				*best = spot{at, int32(n), w, across, bad}
			}
		}
	}
}

// open begins a sheet for a piece if the goal allows: stock on hand if there is
// some, mostly the smallest; else what is bought, mostly the cheapest by area.
func (r *refitter) open(i int) spot {
	least, kind, way := math.Inf(1), -1, part{}
	for k, size := range r.stock {
		if r.left[k] == 0 || r.cost[k] > r.goal-r.spent {
			continue
		}
		for _, w := range r.lying[i] {
			if b := single(i, w, r.strip); !b.fits(size) {
				continue
			}
			score := float64(size.area()) / 1e18 // below any cost by area
			if r.cost[k] > 0 {
				score = 1 + float64(r.cost[k])/float64(size.area())
				if r.seq.below(3) == 0 {
					score = 1 + float64(r.cost[k])*1e-18
				}
			}
			if score *= 1 + 0.5*r.seq.unit()*r.seq.unit(); score < least {
				least, kind, way = score, k, w
			}
		}
	}
	if kind < 0 {
		return spot{sheet: -1}
	}
	at := slices.IndexFunc(r.on, func(t tree) bool { return t.root < 0 })
	if at < 0 {
		at = len(r.on)
		r.on = append(r.on, tree{root: -1})
	}
	r.save(at)
	r.on[at].stock = kind
	r.spent += r.cost[kind]
	if r.left[kind] > 0 {
		r.left[kind]--
	}
	return spot{sheet: at, knot: -1, way: way}
}
