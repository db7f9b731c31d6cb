package cutting

import "math"

// rest is what remains of a sheet in one part when a set of pieces has been cut off
// it, block by block.
type rest struct {
	part
	from   ref // the rest before
	block  ref // the last block cut off
	across bool
}

// leftovers makes, for every set, the largest rests that a sheet can have: width
// and height of none are both below those of another. What is cut off may waste no
// more than a given area, and the rest must be worth keeping.
func (t *sets) leftovers(sheet part, waste int64) ([][]rest, bool) {
	out := make([][]rest, len(t.list))
	out[0] = []rest{{part: sheet, from: ref{-1, 0}}}
	var ready []int32
	for set := range t.list {
		if len(t.list[set]) > 0 {
			ready = append(ready, int32(set))
		}
	}
	for set := range out {
		before := out[set]
		if len(before) == 0 {
			continue
		}
		t.partners(set, ready, func(p int) bool { return len(t.list[p]) > 0 }, func(p int) {
			blocks := t.list[p]
			if t.area[set]+t.area[p] > sheet.area() || t.tries > t.most {
				return
			}
			// add cuts a block off a rest, and reports whether the rest is long enough.
			add := func(r, b int, across bool) bool {
				k := &blocks[b]
				n := rest{part: before[r].part, from: ref{int32(set), int32(r)}, block: ref{int32(p), int32(b)}, across: across}
				if across {
					if !fitsSize(k.wa, k.wb, n.w) {
						return false
					}
					n.h -= k.ha
				} else {
					if !fitsSize(k.ha, k.hb, n.h) {
						return false
					}
					n.w -= k.wa
				}
				if min(n.w, n.h) > 0 && min(n.w, n.h) >= t.strip && n.area() >= sheet.area()-t.area[set]-t.area[p]-waste && t.use(n.part) > 0 {
					out[set+p] = insertRest(out[set+p], n)
				}
				return true
			}
			for r := range before {
				for _, across := range [2]bool{false, true} {
					// Two blocks cut off the same way are one block, of two in a row.
					if before[r].from.set >= 0 && before[r].across == across {
						continue
					}
					if t.strip > 0 {
						t.tries += len(blocks)
						for b := range blocks {
							add(r, b, across)
						}
						continue
					}
					// The first block that fits is the thinnest one.
					for b := range blocks {
						t.tries++
						if across {
							b = len(blocks) - 1 - b
						}
						if add(r, b, across) {
							break
						}
					}
				}
			}
		})
		if t.tries > t.most {
			return nil, false
		}
	}
	return out, true
}

func insertRest(list []rest, n rest) []rest {
	for i := range list {
		if list[i].w >= n.w && list[i].h >= n.h {
			return list
		}
	}
	keep := list[:0]
	for i := range list {
		if list[i].w > n.w || list[i].h > n.h {
			keep = append(keep, list[i])
		}
	}
	return append(keep, n)
}

// tree cuts a set from a sheet so that the rest named is left.
func (t *sets) tree(sheet part, rests [][]rest, last ref) *cut {
	var chain []rest
	for r := rests[last.set][last.at]; r.from.set >= 0; r = rests[r.from.set][r.from.at] {
		chain = append(chain, r)
	}
	root := &cut{part: sheet, piece: -1}
	c := root
	for i := len(chain) - 1; i >= 0; i-- {
		b := &t.list[chain[i].block.set][chain[i].block.at]
		size := b.wa
		if chain[i].across {
			size = b.ha
		}
		near, far := c.split(chain[i].across, size)
		t.lay(near, b)
		c = far
	}
	return root
}

// value is a cost and how useful what is left over is.
type value struct {
	cost int64
	use  float64
}

func (v value) better(o value) bool {
	// Uses that differ by rounding are equal, so that the first one found stays.
	return v.cost < o.cost || v.cost == o.cost && v.use > o.use+1e-12*math.Abs(o.use)
}

// layer is one more sheet that may be used: the values of all sets cut from it and
// the sheets before, and what of each set comes from it.
type layer struct {
	stock int
	value []value
	take  []int32 // -1: the sheet is not used
}

// cover finds the best way to cut all pieces, given how useful the rest of each
// kind of stock is when each set is cut from it (below 0: the set does not fit).
// Stock of limited number is one layer a sheet; then there is one layer for all
// that there is any number of.
func (t *sets) cover(use [][]float64) (layers []layer, possible bool) {
	n := len(t.list)
	none := value{cost: math.MaxInt64}
	before := make([]value, n)
	for set := range before {
		before[set] = none
	}
	before[0] = value{}
	for k := range t.stock {
		for range max(0, min(t.count[k], t.pieces())) {
			l := layer{k, make([]value, n), make([]int32, n)}
			for set := range n {
				l.value[set], l.take[set] = before[set], -1
				if t.cost[k] == 0 && before[set].cost < math.MaxInt64 {
					l.value[set].use += t.use(t.stock[k]) // it stays whole
				}
				t.parts(set, func(p int) {
					if p == 0 || use[k][p] < 0 || before[set-p].cost == math.MaxInt64 {
						return
					}
					v := value{before[set-p].cost + t.cost[k], before[set-p].use + use[k][p]}
					if v.better(l.value[set]) {
						l.value[set], l.take[set] = v, int32(p)
					}
				})
			}
			layers, before = append(layers, l), l.value
		}
	}
	l := layer{-1, make([]value, n), make([]int32, n)}
	for set := range n {
		l.value[set], l.take[set] = before[set], -1
		t.parts(set, func(p int) {
			if p == 0 {
				return
			}
			for k := range t.stock {
				if t.count[k] >= 0 || use[k][p] < 0 || l.value[set-p].cost == math.MaxInt64 {
					continue
				}
				v := value{l.value[set-p].cost + t.cost[k], l.value[set-p].use + use[k][p]}
				if v.better(l.value[set]) {
					l.value[set], l.take[set] = v, int32(p)
				}
			}
		})
	}
	layers = append(layers, l)
	return layers, l.value[n-1].cost < math.MaxInt64
}

func (s *sheets) pieces() (n int) {
	for _, c := range s.need {
		n += c
	}
	return n
}

// takes returns which sets the best way cuts from which stock.
func (t *sets) takes(layers []layer, use [][]float64) (stock []int, set []int) {
	left := len(t.list) - 1
	for i := len(layers) - 1; i >= 0; i-- {
		l := layers[i]
		for l.take[left] >= 0 {
			p := int(l.take[left])
			k := l.stock
			if k < 0 { // the kind that gives the value
				want := l.value[left]
				for c := range t.stock {
					if t.count[c] < 0 && use[c][p] >= 0 && l.value[left-p].cost+t.cost[c] == want.cost && l.value[left-p].use+use[c][p] == want.use {
						k = c
						break
					}
				}
			}
			stock, set = append(stock, k), append(set, p)
			left -= p
			if l.stock >= 0 {
				break
			}
		}
	}
	return stock, set
}
