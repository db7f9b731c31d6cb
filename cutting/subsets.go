package cutting

import "slices"

// sets compares all ways to join pieces, set by set. A set is numbered by how many
// of each piece it has, as digits of a number.
type sets struct {
	*sheets
	strip  int64 // 0 to leave strips of any width, which makes the bound of the other
	stride []int
	digit  []uint8 // of set n at n*len(need)
	area   []int64
	list   [][]block // the blocks of each set that no other covers
	pairs  int       // of sets
	tries  int       // of joining
	most   int
}

// mostPairs is the most pairs of sets that are looked at: 12 different pieces have
// 3^12 of them.
const mostPairs = 600_000

// newSets returns nil if there are too many.
func newSets(s *sheets, strip int64, most int) *sets {
	pairs, n := 1.0, 1
	for _, c := range s.need {
		if c > 250 {
			return nil
		}
		pairs *= float64(c+1) * float64(c+2) / 2
		if pairs > mostPairs {
			return nil
		}
		n *= c + 1
	}
	t := &sets{sheets: s, digit: make([]uint8, n*len(s.need)), area: make([]int64, n), list: make([][]block, n), pairs: int(pairs), strip: strip, most: most}
	stride := 1
	for i, c := range s.need {
		t.stride = append(t.stride, stride)
		for set := range n {
			d := set / stride % (c + 1)
			t.digit[set*len(s.need)+i] = uint8(d)
			t.area[set] += int64(d) * s.piece[i].area()
		}
		stride *= c + 1
	}
	return t
}

func (t *sets) digits(set int) []uint8 { return t.digit[set*len(t.need) : (set+1)*len(t.need)] }

// parts calls f with every set that is part of a set, the empty one and itself
// included, in rising order.
func (t *sets) parts(set int, f func(part int)) {
	whole := t.digits(set)
	var odometer [64]uint8
	d, at := odometer[:len(whole)], 0
	for {
		f(at)
		i := 0
		for ; i < len(whole); i++ {
			if d[i] < whole[i] {
				d[i]++
				at += t.stride[i]
				break
			}
			at -= int(d[i]) * t.stride[i]
			d[i] = 0
		}
		if i == len(whole) {
			return
		}
	}
}

// join makes the lists of all sets, of blocks that some sheet holds and that waste
// no more than a given area between their pieces; false if that was too much work.
func (t *sets) join(waste int64) bool {
	var most part
	var area int64
	for _, k := range t.stock {
		most.w, most.h, area = max(most.w, k.w), max(most.h, k.h), max(area, k.area())
	}
	holds := func(b *block) bool {
		if b.wa > most.w || b.ha > most.h {
			return false
		}
		for _, k := range t.stock {
			if b.wa <= k.w && b.ha <= k.h {
				return true
			}
		}
		return false
	}
	for i := range t.need {
		for _, p := range t.ways(i) {
			if b := single(i, p, t.strip); holds(&b) {
				t.list[t.stride[i]] = t.insert(t.list[t.stride[i]], b)
			}
		}
	}
	var list []block
	for set := 1; set < len(t.list); set++ {
		if t.area[set] > area {
			continue
		}
		list = append(list[:0], t.list[set]...)
		limit := waste + t.area[set]
		first := 0 // the piece that the first of two must have
		for whole := t.digits(set); whole[first] == 0; {
			first++
		}
		t.parts(set, func(p int) {
			q := set - p
			if t.digit[p*len(t.need)+first] == 0 || q == 0 || t.tries > t.most {
				return
			}
			x, y := t.list[p], t.list[q]
			t.tries++
			if len(x) == 0 || len(y) == 0 {
				return
			}
			if t.strip > 0 {
				list = t.all(list, p, q, limit, most, holds)
				return
			}
			// The lists go by rising width and falling height: the next pair worth a
			// look has less of what is the larger of the two.
			t.tries += len(x) + len(y)
			put := func(a, b int, across bool, w, h int64) {
				n := block{wa: w, wb: w, ha: h, hb: h, left: ref{int32(p), int32(a)}, right: ref{int32(q), int32(b)}, across: across, piece: -1}
				if holds(&n) {
					list = insertSorted(list, n)
				}
			}
			for a, b := 0, 0; a < len(x) && b < len(y); {
				if x[a].joined(false) {
					a++
					continue
				}
				w, h := x[a].wa+y[b].wa, max(x[a].ha, y[b].ha)
				if w > most.w {
					break
				}
				if w*h <= limit && h <= most.h {
					put(a, b, false, w, h)
				}
				if x[a].ha == h {
					a++
				} else {
					b++
				}
			}
			for a, b := len(x)-1, len(y)-1; a >= 0 && b >= 0; {
				if x[a].joined(true) {
					a--
					continue
				}
				w, h := max(x[a].wa, y[b].wa), x[a].ha+y[b].ha
				if h > most.h {
					break
				}
				if w*h <= limit && w <= most.w {
					put(a, b, true, w, h)
				}
				if x[a].wa == w {
					a--
				} else {
					b--
				}
			}
		})
		t.list[set] = slices.Clone(list)
		if t.tries > t.most {
			return false
		}
	}
	return true
}

// all adds the joins of two sets, in both directions, to a list.
func (t *sets) all(list []block, p, q int, limit int64, most part, holds func(b *block) bool) []block {
	x, y := t.list[p], t.list[q]
	t.tries += len(x) * len(y)
	for a := range x {
		for b := range y {
			for _, across := range [2]bool{false, true} {
				if x[a].joined(across) {
					continue
				}
				w, h := x[a].wa+y[b].wa, max(x[a].ha, y[b].ha)
				if across {
					w, h = max(x[a].wa, y[b].wa), x[a].ha+y[b].ha
				}
				if w*h > limit || w > most.w || h > most.h {
					continue // joined, they are no smaller than that
				}
				n := join(&x[a], &y[b], across)
				if n.wa*n.ha > limit || !holds(&n) {
					continue
				}
				n.left, n.right = ref{int32(p), int32(a)}, ref{int32(q), int32(b)}
				list = insert(list, n)
			}
		}
	}
	return list
}

func (t *sets) insert(list []block, b block) []block {
	if t.strip == 0 {
		return insertSorted(list, b)
	}
	return insert(list, b)
}

// holding returns a block of a set that a part fits.
func (t *sets) holding(set int, p part) *block {
	for i := range t.list[set] {
		if b := &t.list[set][i]; b.fits(p) {
			return b
		}
	}
	return nil
}
