package cutting

import "math/bits"

// sets compares all ways to join pieces, set by set. A set is numbered by how many
// of each piece it has, as digits of a number.
type sets struct {
	*sheets
	strip  int64 // 0 to leave strips of any width, which makes the bound of the other
	stride []int
	digit  []uint8 // of set n at n*len(need)
	area   []int64
	fields []uint64  // the digits of each set, each in bits of its own with a free one above
	spare  uint64    // what each digit of the whole leaves of its bits
	over   uint64    // the free bits
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
	t.fields = make([]uint64, n)
	stride, bit := 1, 0
	for i, c := range s.need {
		t.stride = append(t.stride, stride)
		wide := bits.Len(uint(c))
		for set := range n {
			d := set / stride % (c + 1)
			t.digit[set*len(s.need)+i] = uint8(d)
			t.area[set] += int64(d) * s.piece[i].area()
			t.fields[set] |= uint64(d) << bit
		}
		t.spare |= uint64(1<<wide-1-c) << bit
		bit += wide + 1
		t.over |= 1 << (bit - 1)
		stride *= c + 1
	}
	return t
}

// apart reports whether two sets are part of the whole together: no digit of their
// sum runs over.
func (t *sets) apart(p, q int) bool { return (t.fields[p]+t.fields[q]+t.spare)&t.over == 0 }

// partners calls f with the sets of a rising list that are part of the whole
// together with a given one: it goes through the list, or through the parts of what
// the given one leaves, whichever is less.
func (t *sets) partners(set int, list []int32, has func(p int) bool, f func(p int)) {
	rest, ways := len(t.list)-1-set, 1
	for _, d := range t.digits(rest) {
		ways *= int(d) + 1
	}
	if ways < len(list) {
		t.tries += ways / 2
		t.parts(rest, func(p int) {
			if p > 0 && has(p) {
				f(p)
			}
		})
		return
	}
	t.tries += len(list) / 4
	for _, p := range list {
		if t.apart(set, int(p)) {
			f(int(p))
		}
	}
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
	var ready []int32 // the sets so far that have blocks
	for set := 1; set < len(t.list); set++ {
		if len(t.list[set]) == 0 {
			continue
		}
		ready = append(ready, int32(set))
		t.partners(set, ready, func(p int) bool { return p <= set && len(t.list[p]) > 0 }, func(p int) {
			if t.area[p]+t.area[set] <= area && t.tries <= t.most {
				// The first of two has the first piece of both together.
				has, had := t.first(p), t.first(set)
				if has <= had {
					t.pair(p, set, waste, most, holds)
				}
				if had <= has && p != set {
					t.pair(set, p, waste, most, holds)
				}
			}
		})
		if t.tries > t.most {
			return false
		}
	}
	return true
}

// first returns the first piece of a set.
func (t *sets) first(set int) int {
	for i, d := range t.digits(set) {
		if d > 0 {
			return i
		}
	}
	return len(t.need)
}

// pair adds the blocks that two sets, one after the other, make together.
func (t *sets) pair(p, q int, waste int64, most part, holds func(b *block) bool) {
	x, y := t.list[p], t.list[q]
	limit := waste + t.area[p] + t.area[q]
	if t.strip > 0 {
		t.list[p+q] = t.all(t.list[p+q], p, q, limit, most, holds)
		return
	}
	// The lists go by rising width and falling height: the next pair worth a
	// look has less of what is the larger of the two.
	t.tries += len(x) + len(y)
	put := func(a, b int, across bool, w, h int64) {
		n := block{wa: w, wb: w, ha: h, hb: h, left: ref{int32(p), int32(a)}, right: ref{int32(q), int32(b)}, across: across, piece: -1}
		if holds(&n) {
			t.list[p+q] = insertSorted(t.list[p+q], n)
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
