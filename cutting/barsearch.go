package cutting

import (
	"encoding/binary"
	"math"
	"slices"
)

// bar is one filled bar of a solution.
type bar pattern

// left returns what a bar's pieces leave of its room; below 0 if only the kerf
// beyond the last piece finds no place.
func (b *bars) left(f bar) int64 {
	left := b.room[f.stock]
	for i, n := range f.pieces {
		left -= int64(n) * b.length[i]
	}
	return left
}

func (b *bars) total(found []bar) (cost int64) {
	for _, f := range found {
		cost += b.cost[f.stock]
	}
	return cost
}

// barTrials is how many layouts are made from the relaxation before the search.
const barTrials = 60

// solve returns the cheapest layout found and sets the bound.
func (b *bars) solve() []bar {
	if len(b.length) == 0 {
		return nil
	}
	p, taken, times := b.relax()
	low := max(0, roundUp(b.least(&p, b.need, b.count)))
	var best []bar
	cost, lost := int64(math.MaxInt64), math.MaxInt
	seq := sequence(1)
	for trial := range barTrials {
		f, out := b.greedy(&p, taken, times, trial, &seq)
		if c := b.total(f); out < lost || out == lost && c < cost {
			best, cost, lost = f, c, out
		}
		if lost == 0 {
			b.bound = reachable(b.cost, low, cost)
		}
		if lost == 0 && b.bound == cost {
			break
		}
	}
	if lost > 0 || b.bound < cost {
		s := patternSearch{bars: b, p: &p, low: low, best: math.MaxInt64, seen: map[string]int64{}}
		if lost == 0 {
			s.best, s.low = cost, b.bound
		}
		s.run()
		if s.found != nil {
			best, cost, lost = s.found, s.best, 0
			b.bound = reachable(b.cost, low, cost)
		}
		if b.worked < b.effort {
			b.bound, b.none = cost, lost > 0
		}
	}
	return b.gather(best)
}

// greedy makes a layout: whole patterns of the relaxation (of every trial but the
// second, some of them), then one bar after the other, each filled with what is
// worth most, of the stock with the most worth for its cost. out is the number of
// pieces that find no place.
func (b *bars) greedy(p *prices, taken []pattern, times []float64, trial int, seq *sequence) (found []bar, out int) {
	need, count := slices.Clone(b.need), slices.Clone(b.count)
	apply := func(t pattern) {
		for i, n := range t.pieces {
			need[i] -= n
		}
		if count[t.stock] > 0 {
			count[t.stock]--
		}
		found = append(found, bar(t))
	}
	fits := func(t pattern) bool {
		for i, n := range t.pieces {
			if n > need[i] {
				return false
			}
		}
		return count[t.stock] != 0
	}
	if trial != 1 {
		for c, t := range taken {
			n := int(times[c] + 1e-9)
			if trial > 1 {
				n = max(0, n-seq.below(2))
			}
			for ; n > 0 && fits(t); n-- {
				apply(t)
			}
		}
	}
	var bag knapsack
	worth := make([]float64, len(need))
	most := make([]int, len(need))
	for {
		for i := range worth {
			// A piece of no price is still worth its length; long ones are hard to place later.
			l := float64(b.length[i]) / float64(slices.Max(b.room))
			worth[i] = p.piece[i] + 1e-3*l*(1+l)
			if trial > 1 {
				worth[i] *= 1 + 0.3*seq.unit()
			}
		}
		ratio, next := 0.0, pattern{stock: -1}
		for k := range b.room {
			if count[k] == 0 {
				continue
			}
			for i := range most {
				most[i] = int(min(int64(need[i]), b.room[k]/b.length[i]))
			}
			v, _ := bag.fill(b.length, worth, most, b.room[k])
			b.worked += bag.steps
			// Stock on hand costs next to nothing, and the shorter it is the less.
			c := float64(b.cost[k]) + 1e-6*float64(b.full[k])/float64(slices.Max(b.full))
			if v/c > ratio {
				ratio, next = v/c, pattern{k, slices.Clone(bag.best)}
			}
		}
		if next.stock < 0 {
			break
		}
		apply(next)
		for fits(next) && !b.limited(next.stock) && len(found) < mostPieces {
			apply(next)
		}
	}
	for _, n := range need {
		out += n
	}
	return found, out
}

func (b *bars) limited(k int) bool { return b.count[k] >= 0 }

// patternSearch looks for a cheaper layout: at each step the longest piece left
// gets its bar, filled so that nothing that is left could be added (moving a piece
// there from another bar never costs more). A pattern costs more than its pieces
// are worth; the sum of that excess may not reach what the best layout costs
// above the bound, which leaves few patterns to try.
type patternSearch struct {
	*bars
	p     *prices
	low   int64 // no layout costs less
	best  int64
	found []bar
	stack []bar
	seen  map[string]int64 // the least cost at which a remainder was met
}

func (s *patternSearch) run() {
	s.next(slices.Clone(s.need), slices.Clone(s.count), 0)
}

func (s *patternSearch) next(need, count []int, cost int64) {
	if s.worked++; s.worked >= s.effort || s.best <= s.low {
		return
	}
	first := slices.IndexFunc(need, func(n int) bool { return n > 0 })
	if first < 0 {
		if cost < s.best {
			s.best, s.found = cost, slices.Clone(s.stack)
		}
		return
	}
	if cost+roundUp(s.least(s.p, need, count)) >= s.best {
		return
	}
	key := make([]byte, 0, 2*len(need)+2*len(count))
	for _, n := range need {
		key = binary.AppendUvarint(key, uint64(n))
	}
	for _, n := range count {
		key = binary.AppendUvarint(key, uint64(n+1))
	}
	if c, ok := s.seen[string(key)]; ok && c <= cost {
		return
	}
	s.seen[string(key)] = cost
	type choice struct {
		pattern
		excess float64
	}
	var choices []choice
	// What the pattern may cost beyond its worth, for the rest to beat the best.
	spare := math.Inf(1)
	if s.best < math.MaxInt64 {
		spare = float64(s.best-1-cost) - s.least(s.p, need, count) + 1e-6
	}
	for k := range s.room {
		if count[k] == 0 || s.room[k] < s.length[first] {
			continue
		}
		take := make([]int, len(need))
		take[first] = 1
		var fill func(i int, room int64, worth float64)
		fill = func(i int, room int64, worth float64) {
			if s.worked++; s.worked >= s.effort {
				return
			}
			if i == len(need) {
				for l, n := range need {
					if take[l] < n && s.length[l] <= room {
						return // not full
					}
				}
				// A limited bar that is used no longer lowers the bound.
				if e := float64(s.cost[k]) + s.p.stock[k] - worth; e <= spare {
					choices = append(choices, choice{pattern{k, slices.Clone(take)}, e})
				}
				return
			}
			least := take[i]
			most := min(need[i], least+int(room/s.length[i]))
			for n := most; n >= least; n-- {
				take[i] = n
				d := n - least
				fill(i+1, room-int64(d)*s.length[i], worth+float64(d)*s.p.piece[i])
			}
			take[i] = least
		}
		fill(first, s.room[k]-s.length[first], s.p.piece[first])
	}
	slices.SortStableFunc(choices, func(x, y choice) int {
		switch {
		case x.excess < y.excess:
			return -1
		case x.excess > y.excess:
			return 1
		}
		return 0
	})
	for _, c := range choices {
		if s.worked >= s.effort || s.best <= s.low {
			return
		}
		for i, n := range c.pieces {
			need[i] -= n
		}
		if count[c.stock] > 0 {
			count[c.stock]--
		}
		s.stack = append(s.stack, bar(c.pattern))
		s.next(need, count, cost+s.cost[c.stock])
		s.stack = s.stack[:len(s.stack)-1]
		for i, n := range c.pieces {
			need[i] += n
		}
		if s.count[c.stock] >= 0 {
			count[c.stock]++
		}
	}
}

// use is how useful the leftover of a bar is: the square of the reusable length.
func (b *bars) use(f bar) float64 {
	if l := b.left(f); l >= max(b.keep, 1) {
		x := float64(l)
		return x * x
	}
	return 0
}

// gather moves pieces between bars, and onto stock on hand that is still whole, as
// long as that makes leftovers more useful, and returns the bars that have pieces.
func (b *bars) gather(found []bar) []bar {
	const most = 120 // bars: beyond, pairs are too many
	if len(found) > most {
		return found
	}
	n := len(found)
	for k, c := range b.count {
		for _, f := range found[:n] {
			if f.stock == k {
				c--
			}
		}
		for range min(c, most) {
			if b.cost[k] == 0 {
				found = append(found, bar{k, make([]int, len(b.length))})
			}
		}
	}
	var bag knapsack
	worth := make([]float64, len(b.length))
	for i, l := range b.length {
		worth[i] = float64(l)
	}
	for better := true; better; {
		better = false
		for x := range found {
			for y := range found {
				if x == y || !slices.ContainsFunc(found[y].pieces, func(n int) bool { return n > 0 }) {
					continue
				}
				all := slices.Clone(found[x].pieces)
				for i, n := range found[y].pieces {
					all[i] += n
				}
				bag.fill(b.length, worth, all, b.room[found[x].stock])
				b.worked += bag.steps
				nx, ny := bar{found[x].stock, slices.Clone(bag.best)}, bar{found[y].stock, all}
				for i, n := range nx.pieces {
					ny.pieces[i] -= n
				}
				if b.left(ny) >= 0 && b.use(nx)+b.use(ny) > b.use(found[x])+b.use(found[y]) {
					found[x], found[y], better = nx, ny, true
				}
			}
		}
	}
	return slices.DeleteFunc(found, func(f bar) bool {
		return !slices.ContainsFunc(f.pieces, func(n int) bool { return n > 0 })
	})
}
