package cutting

import (
	"testing"

	"pgregory.net/rapid"
)

// A panel 33 x 52 and a floor 34 x 24 from one sheet of 47 x 95 cells: with a row
// lost, 52 + 1 + 24 of 95 rows.
func TestCells(t *testing.T) {
	j := CellJob{
		Pieces: []CellPiece{{Name: "wall", Cols: 33, Rows: 52, Count: 1}, {Name: "floor", Cols: 34, Rows: 24, Count: 1}},
		Stock:  []CellStock{{Name: "sheet", Cols: 47, Rows: 95}},
		Keep:   6,
	}
	p, err := CutCells(j)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Sheets) != 1 || p.Status != Proven || p.Leftover != Proven {
		t.Errorf("%+v", p)
	}
	// Half and half only fit where no row is lost.
	j.Pieces = []CellPiece{{Cols: 47, Rows: 48, Count: 1}, {Cols: 47, Rows: 47, Count: 1}}
	for _, shared := range []bool{false, true} {
		j.Shared = shared
		p, err := CutCells(j)
		if want := map[bool]int{false: 2, true: 1}[shared]; err != nil || len(p.Sheets) != want || p.Status != Proven {
			t.Errorf("shared %v: %d sheets, %v, %v; want %d", shared, len(p.Sheets), p.Status, err, want)
		}
	}
}

// Painted onto the cells of the sheet, no two pieces share one; where rows are lost,
// each piece keeps the cells around it free of other pieces; and the cells of a
// sheet are those of pieces, offcuts and lost rows.
func TestCellsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int) int { return rapid.IntRange(from, to).Draw(t, name) }
		j := CellJob{Shared: rapid.Bool().Draw(t, "shared"), Keep: n("keep", 0, 5)}
		for range n("rows", 1, 5) {
			j.Pieces = append(j.Pieces, CellPiece{Cols: n("cols", 1, 20), Rows: n("rows", 1, 20), Count: n("count", 0, 2), Fixed: rapid.Bool().Draw(t, "fixed")})
		}
		for range n("stock", 1, 2) {
			j.Stock = append(j.Stock, CellStock{Cols: n("cols", 8, 40), Rows: n("rows", 8, 40)})
		}
		p, err := CutCells(j)
		if err != nil {
			t.Fatal(err)
		}
		got := make([]int, len(j.Pieces))
		for _, l := range p.Sheets {
			s := j.Stock[l.Stock]
			paint := make([]int, s.Cols*s.Rows)
			fill := func(r CellRect, by int) {
				for c := r.Col; c < r.Col+r.Cols; c++ {
					for w := r.Row; w < r.Row+r.Rows; w++ {
						if paint[w*s.Cols+c] != 0 {
							t.Fatalf("cell %d, %d twice", c, w)
						}
						paint[w*s.Cols+c] = by
					}
				}
			}
			for i, q := range l.Pieces {
				w := j.Pieces[q.Piece]
				if q.Turned {
					w.Cols, w.Rows = w.Rows, w.Cols
				}
				if w.Cols != q.Cols || w.Rows != q.Rows || q.Turned && w.Fixed {
					t.Fatalf("%+v is not %+v", q, w)
				}
				fill(q.CellRect, i+1)
				got[q.Piece]++
			}
			for i, o := range l.Offcuts {
				fill(o.CellRect, len(l.Pieces)+i+1)
				if o.Reusable != (min(o.Cols, o.Rows) >= j.Keep) {
					t.Fatalf("%+v", o)
				}
			}
			free := 0
			for c := range s.Cols {
				for w := range s.Rows {
					a := paint[w*s.Cols+c]
					if a == 0 {
						free++
					}
					for _, b := range []int{min(c+1, s.Cols-1) + w*s.Cols, c + min(w+1, s.Rows-1)*s.Cols} {
						if !j.Shared && a != 0 && paint[b] != 0 && paint[b] != a {
							t.Fatalf("cell %d, %d: two parts with no lost row between", c, w)
						}
					}
				}
			}
			lost := 0
			for _, c := range l.Cuts {
				if c.Across {
					lost += c.Part.Cols
				} else {
					lost += c.Part.Rows
				}
			}
			if j.Shared {
				lost = 0
			}
			if free != lost {
				t.Fatalf("%d cells are nobody's, the cuts lose %d", free, lost)
			}
		}
		for _, i := range p.Missing {
			got[i]++
		}
		for i, c := range got {
			if c != j.Pieces[i].Count {
				t.Fatalf("%d of piece %d", c, i)
			}
		}
	})
}
