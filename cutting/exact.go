package cutting

import (
	"math"
	"slices"
)

// mostOf is the part of the search's limit that each comparison of sets may take.
const mostOf = 2

// exact compares all layouts, given the best that was found (nil if none holds all
// pieces), and returns the best of all, or what was given if that is too much work.
// It raises bound, and sets none and leftover.
//
// First with strips of any width: that is less work, and what it cannot do cannot
// be done with strips of the narrowest width either.
func (s *sheets) exact(found []sheet) []sheet {
	layers := 1
	for _, c := range s.count {
		layers += max(0, min(c, s.pieces()))
	}
	t := newSets(s, 0, 0)
	if t == nil || layers*t.pairs > mostSteps {
		return found
	}
	whole := len(t.list) - 1
	if found == nil || s.total(found) > s.bound { // is there a cheaper one?
		cost := int64(math.MaxInt64)
		if found != nil {
			cost = s.total(found) - 1
		}
		for _, strip := range slices.Compact([]int64{0, s.strip}) {
			t := newSets(s, strip, s.effort/mostOf)
			ok := t.join(s.areaFor(cost) - t.area[whole])
			s.worked += t.tries
			if !ok {
				return found
			}
			fit := t.fit()
			layers, possible := t.cover(fit)
			least := int64(math.MaxInt64)
			if possible {
				least = layers[len(layers)-1].value[whole].cost
			}
			if found == nil && !possible {
				s.none = true
				return nil
			}
			if found != nil && least > cost {
				s.bound = s.total(found)
				break
			}
			s.bound = max(s.bound, least)
			if strip == s.strip {
				found = t.build(layers, fit, nil, nil)
			}
		}
	}
	if found == nil {
		return nil
	}
	return s.tidy(found)
}

// tidy returns the layout with the most useful leftovers at the cost of one that is
// given, or the best one found if that is too much work.
//
// What is neither a piece nor the largest offcut of its sheet is waste. Layouts
// with little of it are compared first; more useful leftovers than the best of
// them have a known area together, which limits their waste, and once that was
// allowed for, the best is proven.
func (s *sheets) tidy(found []sheet) []sheet {
	use := s.usefulness(found)
	total := s.areaFor(s.total(found))
	for i, p := range s.piece {
		total -= int64(s.need[i]) * p.area()
	}
	left := s.effort / mostOf
	for waste := max(1, total/64); ; waste += max(1, waste/2) {
		waste = min(waste, total-s.together(use))
		t := newSets(s, s.strip, left)
		better, ok := t.neat(found, use, waste)
		s.worked += t.tries
		left -= t.tries
		if !ok {
			return found
		}
		if better != nil {
			found, use = better, s.usefulness(better)
		}
		if waste >= total-s.together(use) {
			s.leftover = true
			return found
		}
	}
}

// neat returns the layout with the most useful leftovers that wastes no more than a
// given area, nil if none is better than one given; ok is false if that is too much
// work.
func (t *sets) neat(found []sheet, use float64, waste int64) (better []sheet, ok bool) {
	if !t.join(waste) {
		return nil, false
	}
	fit := t.fit()
	rests, last := make([][][]rest, len(t.stock)), make([][]ref, len(t.stock))
	for k, p := range t.stock {
		r, ok := t.leftovers(p, waste)
		if !ok {
			return nil, false
		}
		rests[k], last[k] = r, make([]ref, len(t.list))
		for set := 1; set < len(r); set++ {
			for at := range r[set] {
				if u := t.use(r[set][at].part); u > fit[k][set] { // it fits, around its rest
					fit[k][set], last[k][set] = u, ref{int32(set), int32(at)}
				}
			}
		}
	}
	layers, possible := t.cover(fit)
	best := layers[len(layers)-1].value[len(t.list)-1]
	if !possible || best.cost > t.total(found) || !best.better(value{best.cost, use}) {
		return nil, true
	}
	return t.build(layers, fit, rests, last), true
}

// fit returns for each kind of stock and each set 0 if it fits, -1 if not.
func (t *sets) fit() [][]float64 {
	fit := make([][]float64, len(t.stock))
	for k, p := range t.stock {
		fit[k] = make([]float64, len(t.list))
		for set := 1; set < len(t.list); set++ {
			if t.holding(set, p) == nil {
				fit[k][set] = -1
			}
		}
	}
	return fit
}

// build returns the layout of a cover, with the rests that last names where it
// names one.
func (t *sets) build(layers []layer, fit [][]float64, rests [][][]rest, last [][]ref) []sheet {
	var out []sheet
	stock, set := t.takes(layers, fit)
	for i, k := range stock {
		if last != nil && last[k][set[i]].set > 0 {
			out = append(out, sheet{k, t.tree(t.stock[k], rests[k], last[k][set[i]])})
			continue
		}
		root := &cut{part: t.stock[k], piece: -1}
		t.lay(root, t.holding(set[i], t.stock[k]))
		out = append(out, sheet{k, root})
	}
	return out
}

// together returns the least area (square steps) that offcuts, none larger than a
// sheet, have together if they are as useful as given: few large ones.
func (s *sheets) together(use float64) int64 {
	most := 0.0
	for _, p := range s.stock {
		most = max(most, metres(p.w-s.kerf)*metres(p.h-s.kerf))
	}
	n := math.Floor(use / (most * most))
	area := n*most + math.Sqrt(max(0, use-n*most*most))
	return int64(area / (step * step) * (1 - 1e-9))
}

// mostSteps is the most pairs of sets that are looked at in all layers of cover.
const mostSteps = 6_000_000

// areaFor returns the most area of stock that costs no more than given.
func (s *sheets) areaFor(cost int64) int64 {
	a := 0.0
	ratio := 0.0
	for k, p := range s.stock {
		if s.cost[k] == 0 {
			a += float64(s.count[k]) * float64(p.area())
		} else {
			ratio = max(ratio, float64(p.area())/float64(s.cost[k]))
		}
	}
	return int64(min(mostArea, a+ratio*float64(cost)+1))
}

// mostArea is more than any job may have, in square steps, and far enough below
// what an integer holds.
const mostArea = 4e18

// usefulness is how useful the largest offcuts of sheets are, and the stock on
// hand that stays whole.
func (s *sheets) usefulness(found []sheet) float64 {
	u := 0.0
	left := make([]int, len(s.stock))
	copy(left, s.count)
	for _, f := range found {
		left[f.stock]--
		best := 0.0
		f.tree.offcuts(func(p part) { best = max(best, s.use(p)) })
		u += best
	}
	for k, n := range left {
		if s.cost[k] == 0 {
			u += float64(n) * s.use(s.stock[k])
		}
	}
	return u
}

// offcuts calls f with every part that is left over.
func (c *cut) offcuts(f func(p part)) {
	switch {
	case c.near != nil:
		c.near.offcuts(f)
		c.far.offcuts(f)
	case c.piece < 0 && c.w > 0 && c.h > 0:
		f(c.part)
	}
}

func (s *sheets) total(found []sheet) (cost int64) {
	for _, f := range found {
		cost += s.cost[f.stock]
	}
	return cost
}
