package cutting

import (
	"cmp"
	"math"
	"slices"
)

// packed is a sheet being cut: its parts, and which are still free.
type packed struct {
	stock int
	cut   []node
	free  []int32
	piece []int // what is on it
	area  int64
}

// node is a part; near and far are 0 if it is not cut.
type node struct {
	part
	near, far int32
	across    bool
	piece     int16
}

// put cuts a piece from a free part that fits it.
func (p *packed) put(at int, i int, size part, across bool) {
	n := p.free[at]
	p.free = slices.Delete(p.free, at, at+1)
	// The first cut leaves a strip of the whole part, the second one cuts the piece.
	for range 2 {
		if c := p.cut[n]; across && c.h > size.h {
			n = p.split(n, true, size.h)
		} else if !across && c.w > size.w {
			n = p.split(n, false, size.w)
		}
		across = !across
	}
	p.cut[n].piece = int16(i)
	p.piece = append(p.piece, i)
	p.area += size.area()
}

func (p *packed) split(n int32, across bool, size int64) int32 {
	c := p.cut[n]
	near, far := node{part: c.part, piece: -1}, node{part: c.part, piece: -1}
	if across {
		near.h, far.h = size, c.h-size
	} else {
		near.w, far.w = size, c.w-size
	}
	at := int32(len(p.cut))
	p.cut = append(p.cut, near, far)
	p.cut[n].near, p.cut[n].far, p.cut[n].across = at, at+1, across
	p.free = append(p.free, at+1)
	return at
}

func (p *packed) tree(n int32) *cut {
	c := p.cut[n]
	out := &cut{part: c.part, across: c.across, piece: int(c.piece)}
	if c.near > 0 {
		out.near, out.far = p.tree(c.near), p.tree(c.far)
	}
	return out
}

// packer packs a few sheets anew at a time, and keeps what is no worse: cheaper,
// or with the pieces more on some sheets than on others, so that one gets empty
// (after Pisinger & Ropke 2007, Comput. Oper. Res. 34, 2403-2435, from memory).
type packer struct {
	*sheets
	lying [][]part // the ways of each piece
	seq   sequence
	on    []packed
	lost  []int // pieces without a place
	left  []int // stock not used; -1: any number
}

// rules of one packing, drawn anew each time.
type rules struct {
	order, fit, split int
	jitter            float64
	whole             bool // one sheet after the other, each time the piece that fits best
}

func (p *packer) draw() rules {
	return rules{
		order: p.seq.below(4), fit: p.seq.below(3), split: p.seq.below(3),
		jitter: 0.5 * p.seq.unit() * p.seq.unit(), whole: p.seq.below(4) == 0,
	}
}

// place returns the best free part of a sheet for a piece: how badly it fits (least
// is best), where, which way, and which cut comes first.
func (p *packer) place(on *packed, i int, r *rules) (bad int64, at int, size part, across bool) {
	bad, at = math.MaxInt64, -1
	p.worked += len(on.free)
	for f, n := range on.free {
		room := on.cut[n].part
		for _, w := range p.lying[i] {
			dw, dh := room.w-w.w, room.h-w.h
			if dw < 0 || dh < 0 || dw > 0 && dw < p.strip || dh > 0 && dh < p.strip {
				continue
			}
			var b int64
			switch r.fit {
			case 0:
				b = min(dw, dh)
			case 1:
				b = (room.area() - w.area()) >> 8 // so that jitter fits in
			default:
				b = max(dw, dh)
			}
			if b >= bad {
				continue
			}
			bad, at, size = b, f, w
			switch r.split {
			case 0: // the largest strip stays whole
				across = dh*room.w > dw*room.h
			case 1:
				across = room.w > room.h
			default:
				across = dw < dh
			}
		}
	}
	return bad, at, size, across
}

// fill packs pieces on new sheets, of stock that may be used, until the cost
// exceeds a limit.
func (p *packer) fill(pieces, left []int, limit int64, r *rules) (on []packed, lost []int, cost int64) {
	p.arrange(pieces, r)
	for len(pieces) > 0 && cost <= limit {
		i := pieces[0]
		best, at, to, size, across := int64(math.MaxInt64), -1, -1, part{}, false
		if r.whole {
			if n := len(on) - 1; n >= 0 {
				for l := range pieces {
					if l > 0 && pieces[l] == pieces[l-1] {
						continue
					}
					if b, a, s, c := p.place(&on[n], pieces[l], r); b < best {
						best, at, to, size, across, i = b, a, n, s, c, l
					}
				}
				if to >= 0 {
					l := i
					i = pieces[l]
					on[to].put(at, i, size, across)
					pieces = append(pieces[:l], pieces[l+1:]...)
					continue
				}
			}
		} else {
			for n := range on {
				if b, a, s, c := p.place(&on[n], i, r); b < best {
					best, at, to, size, across = b, a, n, s, c
				}
			}
		}
		if to < 0 {
			k := p.open(i, left)
			if k < 0 {
				lost, pieces = append(lost, i), pieces[1:]
				continue
			}
			if left[k] > 0 {
				left[k]--
			}
			cost += p.cost[k]
			on = append(on, packed{stock: k, cut: []node{{part: p.stock[k], piece: -1}}, free: []int32{0}})
			to = len(on) - 1
			_, at, size, across = p.place(&on[to], i, r)
		}
		on[to].put(at, i, size, across)
		pieces = pieces[1:]
	}
	return on, lost, cost
}

// open returns which stock to take for a piece, -1 if none: stock on hand if there
// is some, mostly the smallest; else what is bought, mostly the cheapest by area.
func (p *packer) open(i int, left []int) int {
	best, k := math.Inf(1), -1
	for s, size := range p.stock {
		if left[s] == 0 || !slices.ContainsFunc(p.lying[i], func(w part) bool {
			b := single(i, w, p.strip)
			return b.fits(size)
		}) {
			continue
		}
		score := float64(size.area()) / 1e18 // below any cost by area
		if p.cost[s] > 0 {
			score = 1 + float64(p.cost[s])/float64(size.area())
			if p.seq.below(3) == 0 {
				score = 1 + float64(p.cost[s])*1e-18
			}
		}
		if score *= 1 + 0.5*p.seq.unit()*p.seq.unit(); score < best {
			best, k = score, s
		}
	}
	return k
}

// arrange puts pieces in an order, the large ones first as a rule.
func (p *packer) arrange(pieces []int, r *rules) {
	key := make([]float64, len(p.piece))
	for i, s := range p.piece {
		switch r.order {
		case 0:
			key[i] = float64(s.area())
		case 1:
			key[i] = float64(max(s.w, s.h))
		case 2:
			key[i] = float64(min(s.w, s.h))
		default:
			key[i] = float64(s.w + s.h)
		}
		key[i] *= 1 - r.jitter*p.seq.unit()
	}
	slices.SortFunc(pieces, func(x, y int) int { return cmp.Or(cmp.Compare(key[y], key[x]), cmp.Compare(x, y)) })
}

// better compares two packings of the same pieces: 1 if the first is better.
func (p *packer) better(x, y []packed, lostX, lostY []int) int {
	area := func(lost []int) (a int64) {
		for _, i := range lost {
			a += p.piece[i].area()
		}
		return a
	}
	var costX, costY int64
	var unevenX, unevenY float64
	for _, s := range x {
		costX += p.cost[s.stock]
		unevenX += float64(s.area) * float64(s.area)
	}
	for _, s := range y {
		costY += p.cost[s.stock]
		unevenY += float64(s.area) * float64(s.area)
	}
	return cmp.Or(cmp.Compare(area(lostY), area(lostX)), cmp.Compare(costY, costX), cmp.Compare(unevenX, unevenY))
}

// round packs some sheets anew.
func (p *packer) round() {
	n := len(p.on)
	pick := make([]int, 0, 4)
	if n > 0 {
		// One sheet that is little used, the least of a few, and others.
		first := p.seq.below(n)
		for range 2 {
			if o := p.seq.below(n); p.on[o].area < p.on[first].area {
				first = o
			}
		}
		pick = append(pick, first)
		for range min(n-1, 1+p.seq.below(3)) {
			if o := p.seq.below(n); !slices.Contains(pick, o) {
				pick = append(pick, o)
			}
		}
	}
	left := slices.Clone(p.left)
	pieces := slices.Clone(p.lost)
	var old []packed
	limit := int64(0)
	for _, o := range pick {
		s := p.on[o]
		old = append(old, s)
		pieces = append(pieces, s.piece...)
		limit += p.cost[s.stock]
		if left[s.stock] >= 0 {
			left[s.stock]++
		}
	}
	if len(p.lost) > 0 {
		limit = math.MaxInt64 // a place comes before cost
	}
	r := p.draw()
	on, lost, cost := p.fill(pieces, left, limit, &r)
	if cost > limit || p.better(on, old, lost, p.lost) < 0 {
		return
	}
	slices.Sort(pick)
	for i := len(pick) - 1; i >= 0; i-- {
		p.on = slices.Delete(p.on, pick[i], pick[i]+1)
	}
	p.on, p.lost, p.left = append(p.on, on...), lost, left
}

// pack returns the best layout of a number of rounds; fewer once the cost is a
// bound and the rounds after that are spent on leftovers.
func (s *sheets) pack(rounds, after int, low int64) (found []sheet, lost int) {
	p := &packer{sheets: s, seq: 1, left: slices.Clone(s.count)}
	var all []int
	for i, n := range s.need {
		p.lying = append(p.lying, s.ways(i))
		all = append(all, slices.Repeat([]int{i}, n)...)
	}
	p.on, p.lost, _ = p.fill(all, p.left, math.MaxInt64, &rules{})
	best, use := p.snapshot()
	cost, missing := s.total(best), len(p.lost)
	for n := range rounds {
		if cost <= low && missing == 0 {
			if after--; after < 0 {
				break
			}
		}
		if s.worked > s.effort {
			break
		}
		if n%2 == 1 && len(p.on) > 1 && len(p.lost) == 0 && rounds > 1000 {
			p.dense()
		} else {
			p.round()
		}
		var c int64
		for _, o := range p.on {
			c += s.cost[o.stock]
		}
		if len(p.lost) > missing || len(p.lost) == missing && c > cost {
			continue
		}
		if f, u := p.snapshot(); len(p.lost) < missing || c < cost || u > use {
			best, use, cost, missing = f, u, c, len(p.lost)
		}
	}
	return best, missing
}

// snapshot returns the present layout and how useful its leftovers are.
func (p *packer) snapshot() ([]sheet, float64) {
	var out []sheet
	for i := range p.on {
		out = append(out, sheet{p.on[i].stock, p.on[i].tree(0)})
	}
	return out, p.usefulness(out)
}

// solve returns the best layout found, and sets the bound.
func (s *sheets) solve() []sheet {
	if len(s.need) == 0 {
		s.leftover = true
		return nil
	}
	low := s.least()
	s.bound = low
	found, lost := s.pack(1000, 1000, low)
	given := found
	if lost > 0 {
		given = nil
	}
	if given = s.exact(given); s.none || given != nil && s.total(given) <= s.bound {
		if s.none {
			return found
		}
		return given
	}
	if again, out := s.pack(30_000, 3000, low); out < lost || out == lost && s.total(again) <= s.total(found) {
		return again
	}
	return found
}
