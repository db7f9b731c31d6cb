package cutting

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// brute tries every cut at every whole place, from the sheet down, which is how
// nothing in this package works.
type brute struct {
	piece       [][2]int
	fixed       []bool
	kerf, strip int
	keep        int
	seen        map[[3]int]int
}

// offcut returns the area of the largest offcut worth keeping when the pieces of a
// set are cut from a part; 0 if there is none, -1 if they cannot be.
func (b *brute) offcut(w, h, set int) int {
	if set == 0 {
		if min(w, h) >= max(b.keep, 1) {
			return w * h
		}
		return 0
	}
	key := [3]int{w, h, set}
	if v, ok := b.seen[key]; ok {
		return v
	}
	best := -1
	for i, p := range b.piece {
		if set == 1<<i && (p == [2]int{w, h} || !b.fixed[i] && p == [2]int{h, w}) {
			best = 0
		}
	}
	try := func(size int, part func(near, far, set int) (int, int)) {
		for near := max(1, b.strip); near < size; near++ {
			far := size - near - b.kerf
			if far > 0 && far < b.strip {
				continue
			}
			for some := set; ; some = (some - 1) & set {
				if far > 0 || some == set {
					x, y := part(near, far, some)
					if x >= 0 && y >= 0 {
						best = max(best, x, y)
					}
				}
				if some == 0 {
					break
				}
			}
		}
	}
	beyond := func(w, h, set int) int {
		if min(w, h) <= 0 {
			return 0
		}
		return b.offcut(w, h, set)
	}
	try(w, func(near, far, some int) (int, int) {
		x := b.offcut(near, h, some)
		if x < 0 {
			return x, 0
		}
		return x, beyond(far, h, set&^some)
	})
	try(h, func(near, far, some int) (int, int) {
		x := b.offcut(w, near, some)
		if x < 0 {
			return x, 0
		}
		return x, beyond(w, far, set&^some)
	})
	b.seen[key] = best
	return best
}

// best returns the least cost at which sheets hold a set, and the greatest sum of
// squares of what is left at it.
func (b *brute) best(stock []SheetStock, set int) (cost, use float64) {
	whole := func(s SheetStock) (int, int) { return int(math.Round(s.Width * 100)), int(math.Round(s.Height * 100)) }
	if len(stock) == 0 {
		if set == 0 {
			return 0, 0
		}
		return math.Inf(1), 0
	}
	s, rest := stock[0], stock[1:]
	w, h := whole(s)
	cost, use = b.best(rest, set) // without this one
	if s.OnHand && min(w, h) >= max(b.keep, 1) {
		use += float64(w * h * w * h)
	}
	price := s.Cost
	if s.OnHand {
		price = 0
	}
	for some := set; some > 0; some = (some - 1) & set {
		o := b.offcut(w, h, some)
		if o < 0 {
			continue
		}
		c, u := b.best(rest, set&^some)
		c, u = c+price, u+float64(o*o)
		if c < cost-1e-9 || c < cost+1e-9 && u > use {
			cost, use = c, u
		}
	}
	return cost, use
}

// The cost of small jobs is that of trying everything, and what is left as useful,
// with strips of any width; with a narrowest strip it may be more useful only
// where the offcut is not flush.
func TestSheetsBrute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
		b := brute{seen: map[[3]int]int{}, keep: n("keep", 0, 3)}
		if rapid.Bool().Draw(t, "glass") {
			b.strip = n("strip", 0, 2)
		} else {
			b.kerf = n("kerf", 0, 1)
		}
		j := SheetJob{Kerf: float64(b.kerf) / 100, MinStrip: float64(b.strip) / 100, Keep: float64(b.keep) / 100}
		for range n("pieces", 1, 4) {
			w, h := n("w", max(1, b.strip), 7), n("h", max(1, b.strip), 7)
			fixed := rapid.Bool().Draw(t, "fixed")
			b.piece, b.fixed = append(b.piece, [2]int{w, h}), append(b.fixed, fixed)
			j.Pieces = append(j.Pieces, SheetPiece{Width: float64(w) / 100, Height: float64(h) / 100, Count: 1, Fixed: fixed})
		}
		for range n("stock", 1, 3) {
			s := SheetStock{Width: float64(n("W", 5, 10)) / 100, Height: float64(n("H", 5, 10)) / 100, Count: 1, Cost: float64(n("cost", 1, 3))}
			s.OnHand = rapid.Bool().Draw(t, "on hand")
			j.Stock = append(j.Stock, s)
		}
		p := cutSheets(t, j)
		if p.Status != Proven || len(p.Missing) == 0 && p.Leftover != Proven {
			t.Fatalf("%v, leftovers %v", p.Status, p.Leftover)
		}
		cost, use := b.best(j.Stock, 1<<len(b.piece)-1)
		if math.IsInf(cost, 1) != (len(p.Missing) > 0) {
			t.Fatalf("%d missing, trying everything gives cost %g", len(p.Missing), cost)
		}
		if math.IsInf(cost, 1) {
			return
		}
		got := usefulness(j, p) * 1e8 // m4 to the fourth power of cm
		if math.Abs(p.Cost-cost) > 1e-9 || got > use*(1+1e-9) || b.strip == 0 && got < use*(1-1e-9) {
			t.Fatalf("cost %g, left %g; trying everything gives %g, %g", p.Cost, got, cost, use)
		}
	})
}

// usefulness is what Leftover is about, taken from the plan.
func usefulness(j SheetJob, p SheetPlan) (sum float64) {
	used := make([]int, len(j.Stock))
	for _, l := range p.Sheets {
		used[l.Stock]++
		best := 0.0
		for _, o := range l.Offcuts {
			if o.Reusable {
				best = max(best, o.W*o.H)
			}
		}
		sum += best * best
	}
	for i, s := range j.Stock {
		w, h := s.Width-2*s.Trim, s.Height-2*s.Trim
		if s.OnHand && min(w, h) >= j.Keep-tiny {
			sum += float64(s.Count-used[i]) * w * h * w * h
		}
	}
	return sum
}

// The bound is never above the least cost that trying everything finds, on
// thousands of small jobs; on some of them it is that cost, without any search.
func TestBoundBrute(t *testing.T) {
	seq := sequence(7)
	laid, met := 0, 0
	for n := range 4000 {
		b := brute{seen: map[[3]int]int{}, strip: seq.below(3)}
		if b.strip == 0 {
			b.kerf = seq.below(2)
		}
		j := SheetJob{Kerf: float64(b.kerf) / 100, MinStrip: float64(b.strip) / 100}
		for range 1 + seq.below(4) {
			w, h := max(1, b.strip)+seq.below(6), max(1, b.strip)+seq.below(6)
			fixed := seq.below(2) == 0
			b.piece, b.fixed = append(b.piece, [2]int{w, h}), append(b.fixed, fixed)
			j.Pieces = append(j.Pieces, SheetPiece{Width: float64(w) / 100, Height: float64(h) / 100, Count: 1, Fixed: fixed})
		}
		for range 2 + seq.below(2) {
			s := SheetStock{Width: float64(5+seq.below(5)) / 100, Height: float64(5+seq.below(5)) / 100, Count: 1, Cost: float64(1 + seq.below(3))}
			s.OnHand = seq.below(4) == 0
			j.Stock = append(j.Stock, s)
		}
		cost, _ := b.best(j.Stock, 1<<len(b.piece)-1)
		if math.IsInf(cost, 1) {
			continue
		}
		laid++
		s, err := newSheets(j)
		if err != nil {
			t.Fatal(err)
		}
		least := float64(s.least()) * s.unit
		if least > cost+1e-9 {
			t.Fatalf("job %d: bound %g, trying everything gives %g: %+v", n, least, cost, j)
		}
		if least > cost-1e-9 {
			met++
		}
	}
	t.Logf("%d jobs that can be laid out, %d with a bound that is the least cost", laid, met)
	if laid < 2000 || met < laid/2 {
		t.Errorf("of %d jobs that can be laid out, the bound is the least cost of %d only", laid, met)
	}
}
