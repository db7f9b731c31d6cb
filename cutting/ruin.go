package cutting

import (
	"cmp"
	"slices"
)

// save keeps what is on a sheet until the round is over.
func (r *refitter) save(at int) {
	if slices.Contains(r.savedAt, at) {
		return
	}
	n := len(r.savedAt)
	r.savedAt = append(r.savedAt, at)
	if n == len(r.saved) {
		r.saved = append(r.saved, tree{})
	}
	r.saved[n].set(&r.on[at])
}

// take takes all below a knot off a sheet.
func (r *refitter) take(at int, n int32) {
	r.save(at)
	t := &r.on[at]
	from := len(r.lost)
	r.lost = t.take(n, r.stock[t.stock], r.lost)
	for _, i := range r.lost[from:] {
		t.area -= r.piece[i].area()
		r.area += r.piece[i].area()
	}
	if t.root < 0 {
		r.spent -= r.cost[t.stock]
		if r.left[t.stock] >= 0 {
			r.left[t.stock]++
		}
	}
}

// ruin takes a whole sheet off, or some parts here and there.
func (r *refitter) ruin() {
	want := 1 + r.seq.below(ruinMost)
	whole := r.seq.below(16) == 0
	for range 30 {
		at := r.seq.below(len(r.on))
		t := &r.on[at]
		if t.root < 0 {
			continue
		}
		if whole {
			r.take(at, t.root)
			return
		}
		n := int32(r.seq.below(len(t.knots)))
		if t.knots[n].piece == gone {
			continue
		}
		if c := t.under(n); c <= want+1 {
			r.take(at, n)
			if want -= c; want <= 0 {
				return
			}
		}
	}
}

// recreate gives lost pieces a place, as far as there is any.
func (r *refitter) recreate() {
	r.arrange()
	r.rule = [...]int{0, 0, 0, 0, 0, 1, 2, 2}[r.seq.below(8)]
	keep, failed := r.lost[:0], int16(-1)
	for _, i := range r.lost {
		if i == failed {
			keep = append(keep, i)
			continue
		}
		s := spot{sheet: -1, bad: 1<<63 - 1}
		for at := range r.on {
			if r.on[at].root >= 0 {
				r.find(at, int(i), &s)
			}
		}
		if s.sheet < 0 {
			s = r.open(int(i))
		}
		if s.sheet < 0 {
			keep, failed = append(keep, i), i
			continue
		}
		r.save(s.sheet)
		t := &r.on[s.sheet]
		t.put(s.knot, r.leaf(int(i), s.way), s.across, r.piece[i].area(), r.stock[t.stock])
		r.area -= r.piece[i].area()
	}
	r.lost = keep
}

// arrange puts the lost pieces in an order, the large ones first as a rule.
func (r *refitter) arrange() {
	order, jitter := r.seq.below(6), 0.4*r.seq.unit()*r.seq.unit()
	for _, i := range r.lost {
		s := r.piece[i]
		k := s.w + s.h
		switch order {
		case 0, 1, 2:
			k = s.area() >> 16 // the same order, and shorter steps
		case 3:
			k = max(s.w, s.h)
		case 4:
			k = min(s.w, s.h)
		}
		r.key[i] = float64(k) * (1 - jitter*r.seq.unit())
	}
	slices.SortFunc(r.lost, func(x, y int16) int { return cmp.Or(cmp.Compare(r.key[y], r.key[x]), cmp.Compare(x, y)) })
}

// round changes some sheets, and changes them back if what bad returns of it is
// more than before and than some rounds ago.
func (r *refitter) round(n int, bad func() float64) {
	now := bad()
	r.savedAt = r.savedAt[:0]
	r.note(&r.before)
	r.ruin()
	r.recreate()
	then := bad()
	past := &r.past[n%memory]
	if then <= now || then <= *past {
		*past = min(*past, then)
		return
	}
	for k, at := range r.savedAt {
		r.on[at], r.saved[k] = r.saved[k], r.on[at]
	}
	r.lost, r.before.lost = r.before.lost, r.lost
	r.left, r.before.left = r.before.left, r.left
	r.area, r.spent = r.before.area, r.before.spent
}

// forget makes all rounds before as bad as the present.
func (r *refitter) forget(bad float64) {
	for i := range r.past {
		r.past[i] = bad
	}
}

// missing is the area of the pieces without a place.
func (r *refitter) missing() float64 { return float64(r.area) }

// lower sets a goal below what the sheets cost, and takes off those that are used
// least until it is met.
func (r *refitter) lower() {
	r.goal = r.spent - 1
	r.savedAt = r.savedAt[:0]
	for r.spent > r.goal {
		least := -1
		for at := range r.on {
			t := &r.on[at]
			if t.root >= 0 && r.cost[t.stock] > 0 && (least < 0 || t.area < r.on[least].area) {
				least = at
			}
		}
		r.take(least, r.on[least].root)
	}
	r.forget(r.missing())
}

// refit returns the best layout that a number of rounds finds, and how many pieces
// it misses; it ends when the cost is a bound.
func (r *refitter) refit(rounds int, low int64) {
	if r.on == nil {
		r.recreate()
		r.keep()
		r.forget(r.missing())
	}
	for n := range rounds {
		for r.area == 0 {
			if r.spent <= low {
				return
			}
			r.lower()
		}
		if r.worked > r.effort || len(r.on) == 0 {
			return
		}
		r.round(n, r.missing)
		if r.area < r.best.area || r.area == r.best.area && r.spent < r.best.spent {
			r.keep()
		}
	}
}

// keep notes the present layout as the best one.
func (r *refitter) keep() {
	r.note(&r.best)
	r.bestOn = slices.Grow(r.bestOn, len(r.on))[:len(r.on)]
	for at := range r.on {
		r.bestOn[at].set(&r.on[at])
	}
}

// back goes back to the best layout.
func (r *refitter) back() {
	for at := range r.on {
		if at < len(r.bestOn) {
			r.on[at].set(&r.bestOn[at])
		} else {
			r.on[at].root = -1
		}
	}
	r.lost, r.left = append(r.lost[:0], r.best.lost...), append(r.left[:0], r.best.left...)
	r.area, r.spent = r.best.area, r.best.spent
}

// spread is how little useful the leftovers are: that of the largest strip of each
// sheet, and how evenly pieces are spread.
func (r *refitter) spread() float64 {
	if r.area > 0 {
		return 1e30
	}
	use, even := 0.0, 0.0
	for at := range r.on {
		t := &r.on[at]
		if t.root < 0 {
			continue
		}
		s, k := r.stock[t.stock], &t.knots[t.root]
		wide, high := part{s.w - k.wa, s.h}, part{s.w, s.h - k.ha}
		use += max(r.use(wide), r.use(high))
		a := metres(t.area) * step
		even += a * a
	}
	for k, n := range r.left {
		if n > 0 && r.cost[k] == 0 {
			use += float64(n) * r.use(r.stock[k])
		}
	}
	return -use - 1e-3*even
}

// gather makes the leftovers of the best layout more useful at its cost.
func (r *refitter) gather(rounds int) {
	r.back()
	r.goal = r.spent
	least := r.spread()
	r.forget(least)
	for n := range rounds {
		if r.worked > r.effort {
			break
		}
		r.round(n, r.spread)
		if now := r.spread(); now < least {
			least = now
			r.keep()
		}
	}
}

// layout returns the best layout.
func (r *refitter) layout() (out []sheet) {
	for at := range r.bestOn {
		if t := &r.bestOn[at]; t.root >= 0 {
			root := &cut{part: r.stock[t.stock], piece: -1}
			t.cut(root, t.root, r.strip)
			out = append(out, sheet{t.stock, root})
		}
	}
	return out
}
