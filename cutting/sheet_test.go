package cutting

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

func cutSheets(t fataler, j SheetJob) SheetPlan {
	t.Helper()
	p, err := CutSheets(j)
	if err != nil {
		t.Fatal(err)
	}
	checkSheets(t, j, p)
	return p
}

const tiny = 1e-9 // m, rounding of sums of a few lengths

func same(a, b Rect) bool {
	return math.Abs(a.X-b.X) < tiny && math.Abs(a.Y-b.Y) < tiny && math.Abs(a.W-b.W) < tiny && math.Abs(a.H-b.H) < tiny
}

// checkSheets replays every layout: it starts with the sheet, makes each cut on a
// part that is there at that moment, and must end with the pieces and offcuts that
// the layout names. Since a cut makes two parts of one, nothing can overlap and
// every layout is one of cuts that go right through.
func checkSheets(t fataler, j SheetJob, p SheetPlan) {
	t.Helper()
	got := make([]int, len(j.Pieces))
	used := make([]int, len(j.Stock))
	cost, priced := 0.0, slices.ContainsFunc(j.Stock, func(s SheetStock) bool { return s.Cost > 0 })
	for n, l := range p.Sheets {
		s := j.Stock[l.Stock]
		used[l.Stock]++
		switch {
		case s.OnHand:
		case priced:
			cost += s.Cost
		default:
			cost += s.Width * s.Height
		}
		if len(l.Pieces) == 0 {
			t.Fatalf("sheet %d: no piece", n)
		}
		parts := []Rect{{0, 0, s.Width, s.Height}}
		trimmed := 0
		for _, c := range l.Cuts {
			i := slices.IndexFunc(parts, func(r Rect) bool { return same(r, c.Part) })
			if i < 0 {
				t.Fatalf("sheet %d: no part %+v to cut", n, c.Part)
			}
			parts = slices.Delete(parts, i, i+1)
			near, far := c.Part, c.Part
			if c.Across {
				near.H = c.At - c.Part.Y
				far.Y, far.H = c.At+j.Kerf, c.Part.H-near.H-j.Kerf
			} else {
				near.W = c.At - c.Part.X
				far.X, far.W = c.At+j.Kerf, c.Part.W-near.W-j.Kerf
			}
			strip := func(r Rect) {
				size := r.W
				if c.Across {
					size = r.H
				}
				if size > tiny && !c.Trim {
					if size < j.MinStrip-tiny {
						t.Fatalf("sheet %d: a strip of %g, less than %g", n, size, j.MinStrip)
					}
					parts = append(parts, r)
				}
			}
			if c.Trim {
				// Which side is trim follows from where the stock's edge is.
				trimmed++
				keepFar := trimmed == 1 || trimmed == 3
				want := s.Trim
				lost := c.Part.W - far.W
				if c.Across {
					lost = c.Part.H - far.H
				}
				keep := far
				if !keepFar {
					keep = near
					lost = c.Part.W - near.W
					if c.Across {
						lost = c.Part.H - near.H
					}
				} else if want < j.Kerf { // the saw runs over the edge
					keep, lost = c.Part, want
					if c.Across {
						keep.Y, keep.H = keep.Y+want, keep.H-want
					} else {
						keep.X, keep.W = keep.X+want, keep.W-want
					}
				}
				if math.Abs(lost-want) > tiny {
					t.Fatalf("sheet %d: trim of %g, want %g", n, lost, want)
				}
				parts = append(parts, keep)
				continue
			}
			strip(near)
			strip(far)
		}
		if s.Trim > 0 && trimmed != 4 {
			t.Fatalf("sheet %d: %d edges trimmed", n, trimmed)
		}
		take := func(r Rect, what string) {
			i := slices.IndexFunc(parts, func(p Rect) bool { return same(p, r) })
			if i < 0 {
				t.Fatalf("sheet %d: the cuts give no %s %+v", n, what, r)
			}
			parts = slices.Delete(parts, i, i+1)
		}
		for _, q := range l.Pieces {
			take(q.Rect, "piece")
			row := j.Pieces[q.Piece]
			w, h := row.Width, row.Height
			if q.Turned {
				w, h = h, w
			}
			if math.Abs(q.W-w) > tiny || math.Abs(q.H-h) > tiny || q.Turned && row.Fixed {
				t.Fatalf("sheet %d: piece %+v of row %+v", n, q, row)
			}
			got[q.Piece]++
		}
		for _, o := range l.Offcuts {
			take(o.Rect, "offcut")
			if o.Reusable != (min(o.W, o.H) >= j.Keep-tiny) {
				t.Fatalf("sheet %d: %+v, keep %g", n, o, j.Keep)
			}
		}
		if len(parts) > 0 {
			t.Fatalf("sheet %d: parts %+v are neither pieces nor offcuts", n, parts)
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
			t.Fatalf("%d sheets of stock %d, there are %d", n, i, c)
		}
	}
	if math.Abs(cost-p.Cost) > 1e-4 || len(p.Missing) == 0 && (p.Bound > p.Cost+1e-9 || p.Gap < 0) {
		t.Fatalf("cost %g (sheets: %g), bound %g, gap %g", p.Cost, cost, p.Bound, p.Gap)
	}
}

// sheetJob draws a job in units of 10 mm, so that many things meet exactly.
func sheetJob(t *rapid.T, rows, count int) SheetJob {
	cm := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(t, name)) / 100 }
	j := SheetJob{Keep: cm("keep", 0, 20)}
	if rapid.Bool().Draw(t, "glass") {
		j.MinStrip = cm("strip", 0, 4)
	} else {
		j.Kerf = cm("kerf", 0, 1)
	}
	for range rapid.IntRange(1, rows).Draw(t, "rows") {
		j.Pieces = append(j.Pieces, SheetPiece{
			Width: cm("width", 5, 60), Height: cm("height", 5, 60),
			Count: rapid.IntRange(0, count).Draw(t, "count"), Fixed: rapid.Bool().Draw(t, "fixed"),
		})
	}
	for range rapid.IntRange(1, 3).Draw(t, "stock") {
		s := SheetStock{Width: cm("sheet", 30, 120), Height: cm("sheet", 30, 120), Cost: float64(rapid.IntRange(1, 9).Draw(t, "cost"))}
		if rapid.Bool().Draw(t, "trim") {
			s.Trim = 0.04
		}
		if s.OnHand = rapid.Bool().Draw(t, "on hand"); s.OnHand {
			s.Count = rapid.IntRange(1, 2).Draw(t, "sheets")
		}
		j.Stock = append(j.Stock, s)
	}
	return j
}

func TestSheetsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := sheetJob(t, 6, 2)
		p := cutSheets(t, j)
		if q := cutSheets(t, j); !reflect.DeepEqual(p, q) {
			t.Fatal("the same job gave two plans")
		}
		more := j
		more.Stock = append(slices.Clone(j.Stock), SheetStock{Width: 0.5, Height: 0.37, OnHand: true, Count: 1})
		if q := cutSheets(t, more); len(p.Missing) == 0 && p.Status == Proven && q.Status == Proven && (len(q.Missing) > 0 || q.Cost > p.Cost+1e-9) {
			t.Fatalf("one more sheet on hand: cost %g becomes %g", p.Cost, q.Cost)
		}
	})
}

// The search for many pieces, with an effort that keeps the test short.
func TestSheetsMany(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := sheetJob(t, 20, 3)
		j.Effort = 20
		cutSheets(t, j)
	})
}
