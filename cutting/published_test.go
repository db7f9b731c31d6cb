package cutting

import (
	"errors"
	"strings"
	"testing"
)

// Problem 1 of Christofides & Whitlock 1977, Oper. Res. 25, 30-44, table 2
// (OR-Library's cgcut1): which pieces, none turned, are worth most together on one
// sheet of 15 by 10. The best value, 244, as OR-Library's users report it; the paper
// itself was not read. The comparison of sets answers that too.
func TestSetsPublished(t *testing.T) {
	j := SheetJob{Stock: []SheetStock{{Width: 15, Height: 10}}}
	values := map[part]int{}
	for _, p := range []struct{ w, h, value, most int }{
		{8, 4, 66, 2}, {3, 7, 35, 1}, {8, 2, 24, 3}, {3, 4, 17, 5}, {3, 3, 11, 2}, {3, 2, 8, 2}, {2, 1, 2, 1},
	} {
		j.Pieces = append(j.Pieces, SheetPiece{Width: float64(p.w), Height: float64(p.h), Count: p.most, Fixed: true})
		values[part{steps(float64(p.w)), steps(float64(p.h))}] = p.value
	}
	s, err := newSheets(j)
	if err != nil {
		t.Fatal(err)
	}
	sets := newSets(s, 0, 100_000_000)
	if !sets.join(s.stock[0].area()) {
		t.Fatal("too much work")
	}
	best := 0
	for set := 1; set < len(sets.list); set++ {
		if sets.holding(set, s.stock[0]) == nil {
			continue
		}
		value := 0
		for i, n := range sets.digits(set) {
			value += int(n) * values[s.piece[i]]
		}
		best = max(best, value)
	}
	if best != 244 {
		t.Errorf("best value %d, want 244", best)
	}
}

// Pieces cut from a sheet without waste need it whole: 4 quarters, or the parts
// of a cut into five that has no straight cut through it, which need two.
func TestSheetsWhirl(t *testing.T) {
	j := SheetJob{Stock: []SheetStock{{Width: 3, Height: 3, Cost: 1}}}
	for _, p := range [][2]float64{{1, 2}, {2, 1}, {1, 2}, {2, 1}, {1, 1}} {
		j.Pieces = append(j.Pieces, SheetPiece{Width: p[0], Height: p[1], Count: 1, Fixed: true})
	}
	if p := cutSheets(t, j); p.Cost != 2 || p.Status != Proven {
		t.Errorf("cost %g, %v: around the middle one, the four lie in a whirl that no cut goes through", p.Cost, p.Status)
	}
	j.Pieces = []SheetPiece{{Width: 1.5, Height: 1.5, Count: 4}}
	if p := cutSheets(t, j); p.Cost != 1 || p.Status != Proven || p.Leftover != Proven {
		t.Errorf("%+v", p)
	}
}

// A strip that is too narrow to come off takes another sheet.
func TestSheetsMinStrip(t *testing.T) {
	j := SheetJob{
		Pieces:   []SheetPiece{{Width: 0.5, Height: 0.4, Count: 1}, {Width: 0.49, Height: 0.4, Count: 1}},
		Stock:    []SheetStock{{Width: 1, Height: 0.4, Cost: 1}},
		MinStrip: 0.015,
	}
	if p := cutSheets(t, j); p.Cost != 2 || p.Status != Proven {
		t.Errorf("10 mm beside the panes: cost %g, %v", p.Cost, p.Status)
	}
	j.Pieces[1].Width = 0.485
	if p := cutSheets(t, j); p.Cost != 1 || p.Status != Proven {
		t.Errorf("15 mm beside the panes: cost %g, %v", p.Cost, p.Status)
	}
}

// Offcuts on hand go first, a small one rather than part of a large one, and what fits nowhere is named.
func TestSheetsOnHandFirst(t *testing.T) {
	j := SheetJob{
		Pieces: []SheetPiece{{Name: "dam", Width: 0.886, Height: 0.2, Count: 1}, {Name: "door", Width: 0.45, Height: 0.82, Count: 2}},
		Stock: []SheetStock{
			{Name: "sheet", Width: 1.6, Height: 1.2, Cost: 60},
			{Name: "large offcut", Width: 1.1, Height: 0.7, OnHand: true, Count: 1},
			{Name: "small offcut", Width: 0.905, Height: 0.215, OnHand: true, Count: 1},
		},
		MinStrip: 0.015, Keep: 0.1,
	}
	p := cutSheets(t, j)
	if p.Cost != 60 || p.Status != Proven || len(p.Sheets) != 3 || p.Sheets[0].Stock != 1 || p.Sheets[1].Stock != 2 {
		t.Errorf("%+v", p)
	}
	j.Pieces = append(j.Pieces, SheetPiece{Name: "back", Width: 1.7, Height: 0.3, Count: 1})
	if p := cutSheets(t, j); p.Status != Proven || len(p.Missing) != 1 || p.Missing[0] != 2 {
		t.Errorf("%+v", p)
	}
}

func TestInputErrors(t *testing.T) {
	pane := []SheetPiece{{Name: "pane", Width: 0.5, Height: 0.4, Count: 1}}
	stock := []SheetStock{{Name: "sheet", Width: 1, Height: 1}}
	for _, c := range []struct {
		job  SheetJob
		word string
	}{
		{SheetJob{Pieces: pane}, "no stock"},
		{SheetJob{Pieces: pane, Stock: []SheetStock{{Name: "sheet", Width: 1, Height: 1, Trim: 0.5}}}, `"sheet"`},
		{SheetJob{Pieces: pane, Stock: []SheetStock{{Name: "sheet", Width: 1, Height: 1, Trim: 0.005}}, MinStrip: 0.01}, "trim more"},
		{SheetJob{Pieces: pane, Stock: []SheetStock{{Name: "offcut", Width: 1, Height: 1, OnHand: true}}}, "how many"},
		{SheetJob{Pieces: []SheetPiece{{Name: "sliver", Width: 0.5, Height: 0.004, Count: 1}}, Stock: stock, MinStrip: 0.01}, `"sliver"`},
		{SheetJob{Pieces: []SheetPiece{{Name: "nothing", Width: 0, Height: 0.4, Count: 1}}, Stock: stock}, `"nothing"`},
		{SheetJob{Pieces: pane, Stock: stock, Kerf: -1}, "kerf"},
		{SheetJob{Pieces: []SheetPiece{{Name: "pane", Width: 0.5, Height: 0.4, Count: 6000}}, Stock: stock}, "split"},
		{SheetJob{Pieces: pane, Stock: append(stock, SheetStock{Name: "dear", Width: 1, Height: 1, Cost: 3})}, `"sheet"`},
	} {
		if _, err := CutSheets(c.job); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), c.word) {
			t.Errorf("%v: want an error that names %s", err, c.word)
		}
	}
	for _, c := range []struct {
		job  BarJob
		word string
	}{
		{BarJob{}, "no stock"},
		{BarJob{Stock: []BarStock{{Name: "pipe", Length: 2, Trim: 1}}}, `"pipe"`},
		{BarJob{Pieces: []BarPiece{{"riser", -1, 1}}, Stock: []BarStock{{Length: 2}}}, `"riser"`},
	} {
		if _, err := CutBars(c.job); !errors.Is(err, ErrInput) || !strings.Contains(err.Error(), c.word) {
			t.Errorf("%v: want an error that names %s", err, c.word)
		}
	}
	if _, err := CutCells(CellJob{Pieces: []CellPiece{{Name: "wall", Cols: 3, Count: 1}}, Stock: []CellStock{{Cols: 9, Rows: 9}}}); !errors.Is(err, ErrInput) {
		t.Error(err)
	}
}
