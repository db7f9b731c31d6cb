package cutting

import "slices"

// block is a set of pieces joined by cuts that go right through. It can be cut from
// parts whose width is wa or at least wb, and whose height is ha or at least hb:
// beside a piece there must be nothing, or a strip wide enough to come off.
type block struct {
	wa, wb, ha, hb int64
	left, right    ref // the two that are joined
	across         bool
	piece          int16 // if it is a single piece, else -1
}

// ref names a block: its set of pieces and its place in the list of that.
type ref struct{ set, at int32 }

// fitsSize reports whether a size is one that a block can be cut from.
func fitsSize(a, b, size int64) bool { return size == a || size >= b }

func (b *block) fits(p part) bool { return fitsSize(b.wa, b.wb, p.w) && fitsSize(b.ha, b.hb, p.h) }

// single returns a block of one piece lying in a way, beside which there must be
// nothing or a strip.
func single(i int, p part, strip int64) block {
	return block{wa: p.w, wb: p.w + strip, ha: p.h, hb: p.h + strip, piece: int16(i)}
}

// joined reports whether a block is two in one direction. Three in a row are joined
// from the first on, so the first of two is never a row itself.
func (b *block) joined(across bool) bool { return b.piece < 0 && b.across == across }

// beside returns the sizes of two blocks one after the other: both as small as can
// be, or one of them larger.
func beside(a1, b1, a2, b2 int64) (a, b int64) { return a1 + a2, min(a1+b2, b1+a2) }

// along returns the sizes that suit both of two blocks.
func along(a1, b1, a2, b2 int64) (a, b int64) {
	b = max(b1, b2)
	switch {
	case a1 == a2, a1 > a2 && a1 >= b2:
		return a1, b
	case a2 > a1 && a2 >= b1:
		return a2, b
	}
	return b, b
}

// join returns two blocks side by side, or one above the other.
func join(x, y *block, across bool) block {
	j := block{across: across, piece: -1}
	if across {
		j.wa, j.wb = along(x.wa, x.wb, y.wa, y.wb)
		j.ha, j.hb = beside(x.ha, x.hb, y.ha, y.hb)
	} else {
		j.wa, j.wb = beside(x.wa, x.wb, y.wa, y.wb)
		j.ha, j.hb = along(x.ha, x.hb, y.ha, y.hb)
	}
	return j
}

// covers reports whether a block can be cut from whatever another can.
func (b *block) covers(o *block) bool {
	return o.wb >= b.wb && o.hb >= b.hb && fitsSize(b.wa, b.wb, o.wa) && fitsSize(b.ha, b.hb, o.ha)
}

// insert adds a block to a list of those of the same pieces, by rising width,
// without the ones that another covers.
func insert(list []block, n block) []block {
	at, end := 0, len(list)
	for at < end { // the first that is wider
		if m := (at + end) / 2; list[m].wa > n.wa {
			end = m
		} else {
			at = m + 1
		}
	}
	// What covers it is no wider, and most likely nearly as wide.
	for i := at - 1; i >= 0; i-- {
		if list[i].ha <= n.ha && list[i].covers(&n) {
			return list
		}
	}
	first := at
	for first > 0 && list[first-1].wa == n.wa {
		first--
	}
	keep := list[:first]
	for i := first; i < len(list); i++ {
		if list[i].ha < n.ha || !n.covers(&list[i]) {
			keep = append(keep, list[i])
		} else if i < at {
			at--
		}
	}
	at = min(at, len(keep))
	for at > first && keep[at-1].wa > n.wa {
		at--
	}
	return slices.Insert(keep, at, n)
}

// insertSorted is insert for blocks without strips, in a list of rising width, so of
// falling height.
func insertSorted(list []block, n block) []block {
	at, end := 0, len(list)
	for at < end { // the first that is wider
		if m := (at + end) / 2; list[m].wa > n.wa {
			end = m
		} else {
			at = m + 1
		}
	}
	if at > 0 && list[at-1].ha <= n.ha {
		return list
	}
	if at > 0 && list[at-1].wa == n.wa {
		at--
	}
	end = at
	for end < len(list) && list[end].ha >= n.ha {
		end++
	}
	return slices.Replace(list, at, end, n)
}

// lay cuts a block from a part that fits it. Strips beside the block come off
// whole, the larger one first.
func (t *sets) lay(c *cut, b *block) {
	loose := func(size, a int64) bool { return size > a && size-a >= t.strip }
	wide, high := loose(c.w, b.wa), loose(c.h, b.ha)
	switch {
	case wide && (!high || (c.w-b.wa)*c.h >= (c.h-b.ha)*c.w):
		near, _ := c.split(false, b.wa)
		t.lay(near, b)
	case high:
		near, _ := c.split(true, b.ha)
		t.lay(near, b)
	case b.piece >= 0:
		c.piece = int(b.piece)
	default:
		x, y := &t.list[b.left.set][b.left.at], &t.list[b.right.set][b.right.at]
		var near, far *cut
		if b.across {
			near, far = c.split(true, share(x.ha, y.ha, y.hb, c.h))
		} else {
			near, far = c.split(false, share(x.wa, y.wa, y.wb, c.w))
		}
		t.lay(near, x)
		t.lay(far, y)
	}
}

// share returns what the first of two blocks gets of a size that both fill: one of
// them gets its least.
func share(a1, a2, b2, size int64) int64 {
	if fitsSize(a2, b2, size-a1) {
		return a1
	}
	return size - a2
}
