package cutting

import "slices"

// densePieces is how many pieces a part of a sheet is filled from: with more,
// comparing all their sets takes longer than it gains.
const densePieces = 10

// dense fills a part of one sheet with the set that leaves least, of the pieces
// that are on it and some of a sheet that is little used, and packs what is left of
// that one anew.
func (p *packer) dense() {
	x, y := p.seq.below(len(p.on)), p.seq.below(len(p.on))
	for range 2 {
		if o := p.seq.below(len(p.on)); p.on[o].area < p.on[y].area {
			y = o
		}
	}
	if x == y || p.on[x].area < p.on[y].area {
		return
	}
	// The part: any that has some pieces, but not too many.
	n := p.seq.below(len(p.on[x].cut))
	pool := p.on[x].under(int32(n), nil)
	if len(pool) < 2 || len(pool) > densePieces-3 {
		return
	}
	now := int64(0)
	for _, i := range pool {
		now += p.piece[i].area()
	}
	old := len(pool)
	given := slices.Clone(p.on[y].piece)
	for i := range given {
		j := i + p.seq.below(len(given)-i)
		given[i], given[j] = given[j], given[i]
	}
	pool = append(pool, given[:min(len(given), densePieces-old)]...)
	size := p.on[x].cut[n].part
	some := &sheets{stock: []part{size}, count: []int{1}, cost: []int64{1}, kerf: p.kerf, strip: p.strip, keep: p.keep}
	kinds := []int{}
	for _, i := range pool {
		at := slices.Index(kinds, i)
		if at < 0 {
			at = len(kinds)
			kinds = append(kinds, i)
			some.piece, some.fixed, some.need = append(some.piece, p.piece[i]), append(some.fixed, p.fixed[i]), append(some.need, 0)
		}
		some.need[at]++
	}
	t := newSets(some, p.strip, 300_000)
	done := t.join(size.area() - now)
	p.worked += t.tries / 4 // a pair of sets is less work than a free part
	if !done {
		return
	}
	best := 0
	for set := range t.list {
		if t.area[set] > max(now, t.area[best]) && t.holding(set, size) != nil {
			best = set
		}
	}
	if best == 0 {
		return
	}
	tree := p.on[x].tree(0)
	where := tree.at(p.on[x].cut, 0, int32(n))
	fresh := &cut{part: size, piece: -1}
	t.lay(fresh, t.holding(best, size))
	fresh.number(kinds)
	*where = *fresh
	full := packed{stock: p.on[x].stock}
	full.grow(tree)
	for _, i := range full.piece {
		full.area += p.piece[i].area()
	}
	rest := slices.Concat(p.on[x].piece, p.on[y].piece)
	for _, i := range full.piece {
		at := slices.Index(rest, i)
		rest = slices.Delete(rest, at, at+1)
	}
	left := slices.Clone(p.left)
	other := p.on[y].stock
	if left[other] >= 0 {
		left[other]++
	}
	for range 10 {
		r := p.draw()
		free := slices.Clone(left)
		on, lost, cost := p.fill(slices.Clone(rest), free, p.cost[other], &r)
		if cost > p.cost[other] || len(lost) > 0 {
			continue
		}
		p.on[x], p.left = full, free
		p.on = append(slices.Delete(p.on, y, y+1), on...)
		return
	}
}

// under returns the pieces below a part.
func (p *packed) under(n int32, to []int) []int {
	switch c := p.cut[n]; {
	case c.near > 0:
		return p.under(c.far, p.under(c.near, to))
	case c.piece >= 0:
		return append(to, int(c.piece))
	}
	return to
}

// at returns the part of a tree that a node became.
func (c *cut) at(nodes []node, here, n int32) *cut {
	if here == n {
		return c
	}
	if c.near == nil {
		return nil
	}
	if found := c.near.at(nodes, nodes[here].near, n); found != nil {
		return found
	}
	return c.far.at(nodes, nodes[here].far, n)
}

// number gives the pieces of a tree other numbers.
func (c *cut) number(to []int) {
	if c.near != nil {
		c.near.number(to)
		c.far.number(to)
	} else if c.piece >= 0 {
		c.piece = to[c.piece]
	}
}

// grow takes over a tree.
func (p *packed) grow(c *cut) int32 {
	at := int32(len(p.cut))
	p.cut = append(p.cut, node{part: c.part, across: c.across, piece: -1})
	switch {
	case c.near != nil:
		near := p.grow(c.near)
		far := p.grow(c.far)
		p.cut[at].near, p.cut[at].far = near, far
	case c.piece >= 0:
		p.cut[at].piece = int16(c.piece)
		p.piece = append(p.piece, c.piece)
	default:
		p.free = append(p.free, at)
	}
	return at
}
