package cutting

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// bin gives whole lengths, in mm, to be cut from bars of one length, any number.
func bin(room float64, lengths, counts []int) BarJob {
	j := BarJob{Stock: []BarStock{{Name: "bar", Length: room / 1e3, Cost: 1}}}
	for i, l := range lengths {
		j.Pieces = append(j.Pieces, BarPiece{Length: float64(l) / 1e3, Count: counts[i]})
	}
	return j
}

// u120 is instance u120_00 of Falkenauer 1996, J. Heuristics 2, 5-30, as
// OR-Library's binpack1 gives it.
var u120 = []int{
	42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73,
	49, 70, 59, 23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38,
	82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84,
	37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84, 60, 55, 49, 78,
	73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39,
}

func TestBarsPublished(t *testing.T) {
	for _, c := range []struct {
		name string
		job  BarJob
		want float64
	}{
		// Chvatal 1983, Linear Programming, ch. 13: relaxation 452.25, so 453.
		{"rolls of 100", bin(100, []int{45, 36, 31, 14}, []int{97, 610, 395, 211}), 453},
		// OR-Library gives 48 as the fewest known; it is also the bound.
		{"u120_00", bin(150, u120, slices.Repeat([]int{1}, len(u120))), 48},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := cutBars(t, c.job)
			if p.Cost != c.want || p.Bound != c.want || p.Status != Proven {
				t.Errorf("cost %g, bound %g, %v after %d steps; want %g, proven", p.Cost, p.Bound, p.Status, p.Steps, c.want)
			}
			t.Logf("%d steps", p.Steps)
		})
	}
}

func cutBars(t interface {
	Helper()
	Fatal(args ...any)
}, j BarJob,
) BarPlan {
	t.Helper()
	p, err := CutBars(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// barJob draws a job in whole mm with all that a job can have.
func barJob(t *rapid.T) BarJob {
	mm := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) / 1e3 }
	j := BarJob{Kerf: mm("kerf", 0, 4), Keep: mm("keep", 0, 300)}
	for range rapid.IntRange(1, 6).Draw(t, "rows") {
		j.Pieces = append(j.Pieces, BarPiece{Length: mm("length", 20, 900), Count: rapid.IntRange(0, 4).Draw(t, "count")})
	}
	for range rapid.IntRange(1, 3).Draw(t, "stock") {
		s := BarStock{Length: mm("stock", 300, 2000), Trim: mm("trim", 0, 20), Cost: float64(rapid.IntRange(1, 9).Draw(t, "cost"))}
		if s.OnHand = rapid.Bool().Draw(t, "on hand"); s.OnHand {
			s.Count = rapid.IntRange(1, 2).Draw(t, "bars")
		}
		j.Stock = append(j.Stock, s)
	}
	return j
}

// Every piece is there once or reported missing, no two share material or a saw
// cut, trim stays whole, no bar is used twice, and the figures are those of the
// layouts.
func TestBarsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := barJob(t)
		p := cutBars(t, j)
		checkBars(t, j, p)
		if q := cutBars(t, j); !samePlan(p, q) {
			t.Fatal("the same job gave two plans")
		}
		more := j
		more.Stock = append(slices.Clone(j.Stock), BarStock{Length: 0.777, OnHand: true, Count: 1})
		q := cutBars(t, more)
		if len(p.Missing) == 0 && p.Status == Proven && q.Status == Proven && (len(q.Missing) > 0 || q.Cost > p.Cost+1e-9) {
			t.Fatalf("one more bar on hand: cost %g becomes %g", p.Cost, q.Cost)
		}
	})
}

func samePlan(p, q BarPlan) bool {
	return p.Cost == q.Cost && p.Steps == q.Steps && slices.EqualFunc(p.Bars, q.Bars, func(x, y BarLayout) bool {
		return x.Stock == y.Stock && slices.Equal(x.Cuts, y.Cuts)
	})
}

func checkBars(t interface {
	Helper()
	Fatalf(format string, args ...any)
}, j BarJob, p BarPlan,
) {
	t.Helper()
	const tiny = 1e-9 // rounding of sums of a few lengths
	got := make([]int, len(j.Pieces))
	used := make([]int, len(j.Stock))
	cost := 0.0
	for _, b := range p.Bars {
		s := j.Stock[b.Stock]
		used[b.Stock]++
		if !s.OnHand {
			cost += s.Cost
		}
		if len(b.Cuts) == 0 {
			t.Fatalf("a bar of stock %d without pieces", b.Stock)
		}
		at := s.Trim
		for i, c := range b.Cuts {
			if i > 0 {
				at += j.Kerf
			}
			if c.From < at-tiny || math.Abs(c.To-c.From-j.Pieces[c.Piece].Length) > tiny {
				t.Fatalf("piece %d from %g to %g: the last one and its cut end at %g", c.Piece, c.From, c.To, at)
			}
			at = c.To
			got[c.Piece]++
		}
		if at > s.Length-s.Trim+tiny {
			t.Fatalf("pieces end at %g of %g with trim %g", at, s.Length, s.Trim)
		}
		left := s.Length - at - j.Kerf
		if s.Length-s.Trim-at <= j.Kerf-tiny { // the rest is trim
			left = 0
		}
		if s.Length-s.Trim-at > j.Kerf+tiny && math.Abs(b.Offcut-left) > tiny || b.Reusable != (b.Offcut > 0 && b.Offcut >= j.Keep-tiny) {
			t.Fatalf("offcut %g (reusable %v), want %g", b.Offcut, b.Reusable, left)
		}
	}
	for _, i := range p.Missing {
		got[i]++
	}
	for i, n := range got {
		if n != j.Pieces[i].Count {
			t.Fatalf("%d of piece %d, want %d", n, i, j.Pieces[i].Count)
		}
	}
	for i, n := range used {
		if c := j.Stock[i].Count; c > 0 && n > c {
			t.Fatalf("%d bars of stock %d, there are %d", n, i, c)
		}
	}
	if math.Abs(cost-p.Cost) > 1e-9 || len(p.Missing) == 0 && (p.Bound > p.Cost+1e-9 || p.Gap < 0) {
		t.Fatalf("cost %g (bars: %g), bound %g, gap %g", p.Cost, cost, p.Bound, p.Gap)
	}
}

// An offcut on hand is cut before anything is bought, the shortest that does, and
// what is left over is in one piece.
func TestBarsOnHandFirst(t *testing.T) {
	j := BarJob{
		Pieces: []BarPiece{{"stub", 0.3, 1}, {"riser", 1.4, 1}, {"return", 0.5, 2}},
		Stock:  []BarStock{{Name: "pipe", Length: 2}, {Name: "long offcut", Length: 0.9, OnHand: true, Count: 1}, {Name: "short offcut", Length: 0.31, OnHand: true, Count: 1}},
		Kerf:   0.003, Keep: 0.1,
	}
	p := cutBars(t, j)
	checkBars(t, BarJob{Pieces: j.Pieces, Stock: []BarStock{{Length: 2, Cost: 2}, j.Stock[1], j.Stock[2]}, Kerf: j.Kerf, Keep: j.Keep}, p)
	if p.Cost != 2 || len(p.Bars) != 3 || p.Bars[0].Stock != 1 || p.Bars[1].Stock != 2 {
		t.Errorf("%+v", p)
	}
}

func BenchmarkBars60(b *testing.B) {
	seq := sequence(60)
	var l []int
	for range 60 {
		l = append(l, 80+seq.below(1400))
	}
	j := bin(3000, l, slices.Repeat([]int{1}, 60))
	j.Kerf = 0.0025
	for b.Loop() {
		p, err := CutBars(j)
		if err != nil || p.Gap > 0.02 {
			b.Fatal(p.Gap, err)
		}
	}
}
