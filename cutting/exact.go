package cutting

// exact compares all layouts, given one that was found (nil if none holds all
// pieces), and sets bound, none and leftover; ok is false if that is too much work.
func (s *sheets) exact(found []sheet) (best []sheet, ok bool) {
	layers := 1
	for _, c := range s.count {
		layers += max(0, min(c, s.pieces()))
	}
	t := newSets(s)
	if t == nil || layers*t.pairs > mostSteps {
		return nil, false
	}
	defer func() { s.worked += t.tries }()
	whole := len(t.list) - 1
	single := found != nil && len(found) == 1 && layers == 1 && len(s.stock) == 1
	floor := 0.0
	waste := int64(mostArea)
	if found != nil {
		waste = s.areaFor(s.total(found)) - t.area[whole]
	}
	if single {
		floor = s.usefulness(found)
		waste = s.stock[0].area() - t.area[whole] - s.largest(found[0].tree)
	}
	if !t.join(waste) {
		return nil, false
	}
	fit := make([][]float64, len(s.stock))
	for k, p := range s.stock {
		fit[k] = make([]float64, len(t.list))
		for set := range fit[k] {
			fit[k][set] = -1
			if set == 0 || t.holding(set, p) != nil {
				fit[k][set] = 0
			}
		}
	}
	cheap, possible := t.cover(fit)
	if !possible {
		s.none = true
		return nil, true
	}
	s.bound = cheap[len(cheap)-1].value[whole].cost
	rests := make([][][]rest, len(s.stock))
	last := make([][]ref, len(s.stock))
	s.leftover = true
	for k, p := range s.stock {
		target := 0
		if single {
			target = whole
		}
		r, ok := t.leftovers(p, target, floor)
		if !ok {
			s.leftover = false
			break
		}
		rests[k], last[k] = r, make([]ref, len(t.list))
		for set := range r {
			for at := range r[set] {
				if u := s.use(r[set][at].part); u > fit[k][set] && set > 0 && fit[k][set] >= 0 {
					fit[k][set], last[k][set] = u, ref{int32(set), int32(at)}
				}
			}
		}
	}
	layered, _ := t.cover(fit)
	stock, set := t.takes(layered, fit)
	var out []sheet
	for i, k := range stock {
		if l := last[k]; l != nil && l[set[i]].set > 0 {
			out = append(out, sheet{k, t.tree(s.stock[k], rests[k], l[set[i]])})
			continue
		}
		root := &cut{part: s.stock[k], piece: -1}
		t.lay(root, t.holding(set[i], s.stock[k]))
		out = append(out, sheet{k, root})
	}
	return out, true
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

// largest is the area (square steps) of the largest offcut that is worth keeping.
func (s *sheets) largest(tree *cut) (area int64) {
	best := 0.0
	tree.offcuts(func(p part) {
		if u := s.use(p); u > best {
			best, area = u, (p.w-s.kerf)*(p.h-s.kerf)
		}
	})
	return area
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
