package cutting

// knot is a part of a sheet that holds one piece, or two knots one after the
// other; its sizes are those of a block.
type knot struct {
	wa, wb, ha, hb int64
	rw, rh         int64 // what it may grow to, all others as small as they can be
	up, near, far  int32
	piece          int16 // -1: two knots; gone: not in use
	across         bool
}

const gone = -2

// tree is one sheet. Where on it a knot lies is not said: what is free is free
// wherever it is wanted.
type tree struct {
	stock int
	root  int32 // -1: the sheet is not used
	count int   // of pieces
	area  int64 // of pieces
	knots []knot
	spare []int32
}

// set makes a tree the copy of another, in memory of its own.
func (t *tree) set(o *tree) {
	knots, spare := append(t.knots[:0], o.knots...), append(t.spare[:0], o.spare...)
	*t = *o
	t.knots, t.spare = knots, spare
}

func (t *tree) add(k knot) int32 {
	if n := len(t.spare); n > 0 {
		at := t.spare[n-1]
		t.spare = t.spare[:n-1]
		t.knots[at] = k
		return at
	}
	t.knots = append(t.knots, k)
	return int32(len(t.knots) - 1)
}

func (t *tree) drop(n int32) {
	t.knots[n].piece = gone
	t.spare = append(t.spare, n)
}

// measure sets the sizes of a knot from those of its two.
func (k *knot) measure(x, y *knot) {
	if k.across {
		k.wa, k.wb = along(x.wa, x.wb, y.wa, y.wb)
		k.ha, k.hb = beside(x.ha, x.hb, y.ha, y.hb)
	} else {
		k.wa, k.wb = beside(x.wa, x.wb, y.wa, y.wb)
		k.ha, k.hb = along(x.ha, x.hb, y.ha, y.hb)
	}
}

// other returns which of two knots below one a given one is not.
func (t *tree) other(up, n int32) int32 {
	if k := &t.knots[up]; k.near == n {
		return k.far
	}
	return t.knots[up].near
}

// swap puts a knot where another is, below a knot or at the root.
func (t *tree) swap(up, was, is int32) {
	t.knots[is].up = up
	switch {
	case up < 0:
		t.root = is
	case t.knots[up].near == was:
		t.knots[up].near = is
	default:
		t.knots[up].far = is
	}
}

// grown measures a knot and all above it.
func (t *tree) grown(n int32) {
	for ; n >= 0; n = t.knots[n].up {
		k := &t.knots[n]
		if k.piece < 0 {
			k.measure(&t.knots[k.near], &t.knots[k.far])
		}
	}
}

// room sets what a knot and each below it may grow to.
func (t *tree) room(n int32, w, h int64) {
	k := &t.knots[n]
	k.rw, k.rh = w, h
	if k.piece >= 0 {
		return
	}
	x, y := &t.knots[k.near], &t.knots[k.far]
	if k.across {
		t.room(k.near, w, h-y.ha)
		t.room(k.far, w, h-x.ha)
	} else {
		t.room(k.near, w-y.wa, h)
		t.room(k.far, w-x.wa, h)
	}
}

// holds reports whether a sheet still holds all if one more piece comes beside a
// knot. Without strips, room alone says so.
func (t *tree) holds(n int32, piece *knot, across bool, sheet part) bool {
	now := knot{across: across}
	now.measure(&t.knots[n], piece)
	for up := t.knots[n].up; up >= 0; n, up = up, t.knots[up].up {
		next := knot{across: t.knots[up].across}
		next.measure(&now, &t.knots[t.other(up, n)])
		now = next
	}
	return fitsSize(now.wa, now.wb, sheet.w) && fitsSize(now.ha, now.hb, sheet.h)
}

// put cuts a piece from a sheet, beside a knot; from an empty sheet if that is -1.
func (t *tree) put(n int32, leaf knot, across bool, area int64, sheet part) {
	at := t.add(leaf)
	if t.root < 0 {
		t.root = at
	} else {
		up := t.knots[n].up
		j := t.add(knot{near: n, far: at, piece: -1, across: across})
		t.swap(up, n, j)
		t.knots[n].up, t.knots[at].up = j, j
		t.grown(j)
	}
	t.count++
	t.area += area
	t.room(t.root, sheet.w, sheet.h)
}

// take takes all that is below a knot off a sheet, and adds the pieces to a list.
func (t *tree) take(n int32, sheet part, to []int16) []int16 {
	up := t.knots[n].up
	to = t.clear(n, to)
	if up < 0 {
		t.root = -1
		return to
	}
	other, above := t.other(up, n), t.knots[up].up
	t.swap(above, up, other)
	t.drop(up)
	t.grown(above)
	t.room(t.root, sheet.w, sheet.h)
	return to
}

func (t *tree) clear(n int32, to []int16) []int16 {
	k := t.knots[n]
	t.drop(n)
	if k.piece >= 0 {
		t.count--
		return append(to, k.piece)
	}
	return t.clear(k.far, t.clear(k.near, to))
}

// under returns how many pieces lie below a knot.
func (t *tree) under(n int32) int {
	k := &t.knots[n]
	if k.piece >= 0 {
		return 1
	}
	return t.under(k.near) + t.under(k.far)
}

// cut writes a knot as cuts of a part that fits it, as lay does for a block.
func (t *tree) cut(c *cut, n int32, strip int64) {
	k := &t.knots[n]
	loose := func(size, a int64) bool { return size > a && size-a >= strip }
	wide, high := loose(c.w, k.wa), loose(c.h, k.ha)
	switch {
	case wide && (!high || (c.w-k.wa)*c.h >= (c.h-k.ha)*c.w):
		near, _ := c.split(false, k.wa)
		t.cut(near, n, strip)
	case high:
		near, _ := c.split(true, k.ha)
		t.cut(near, n, strip)
	case k.piece >= 0:
		c.piece = int(k.piece)
	default:
		x, y := &t.knots[k.near], &t.knots[k.far]
		var near, far *cut
		if k.across {
			near, far = c.split(true, share(x.ha, y.ha, y.hb, c.h))
		} else {
			near, far = c.split(false, share(x.wa, y.wa, y.wb, c.w))
		}
		t.cut(near, k.near, strip)
		t.cut(far, k.far, strip)
	}
}
