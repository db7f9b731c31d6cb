package shopping

import (
	"strings"
	"testing"

	"rillwright/catalogue"
	"rillwright/takeoff"
)

// A price in the builder's parts file goes before generic ranges: of hose by the
// metre, of a fitting by the piece.
func TestPartPrices(t *testing.T) {
	hose := takeoff.Need{
		Name: "grey hose", Key: "hose", Unit: takeoff.Metres, Amount: takeoff.Band{Low: 2.1, Likely: 2.2, High: 2.3}, Lengths: []takeoff.Length{{Name: "riser", Length: 2, Count: 1}},
		Part: catalogue.Part{Kind: catalogue.KindHose, Price: catalogue.Price{Low: 3, High: 3, Currency: "EUR", Per: "m"}},
	}
	tee := takeoff.Need{Name: "grey tee", Key: "tee", Amount: takeoff.Band{Low: 2, Likely: 2, High: 2}, Part: catalogue.Part{Kind: catalogue.KindTee, Price: catalogue.Price{Low: 4, High: 4, Currency: "EUR", Per: "piece"}}}
	l := listOf(t, bare(false), []takeoff.Need{hose, tee})
	if find(t, l, "grey hose").Cost.Likely != 9 || find(t, l, "grey tee").Cost.Likely != 8 || l.Generic != 0 {
		t.Errorf("%+v", l.Items)
	}
	// Pieces come whole out of what is on hand: a coil of 1.5 m does not hold one of 2 m.
	l = listOf(t, bare(false, stocked("grey hose", "1.5 m", 2)), []takeoff.Need{hose})
	if it := find(t, l, "grey hose"); it.Hold != "" || it.Packs[1] != 3 {
		t.Errorf("%+v", it)
	}
	l = listOf(t, bare(false, stocked("grey hose", "2.5 m", 2)), []takeoff.Need{hose})
	if it := find(t, l, "grey hose"); it.Hold != "1 x 2.5 m" || it.Packs[2] != 0 {
		t.Errorf("%+v", it)
	}
}

// Grid: the panels of the counter wall come out of one sheet, and a sheet on hand goes
// first.
func TestGridSheets(t *testing.T) {
	need := takeoff.Need{Name: "grid sheet", Key: "grid sheet", Unit: takeoff.SquareMetres, Panels: []takeoff.Panel{{Name: "wall", Across: 33, High: 52, Pitch: 0.0127}, {Name: "floor", Across: 34, High: 24, Pitch: 0.0127}}}
	if it := listOf(t, bare(true), []takeoff.Need{need}).Items[0]; it.Packs != (Ends{1, 1, 1}) {
		t.Errorf("%+v", it)
	}
	if it := listOf(t, bare(true, stocked("grid", "2 x 4 ft", 1)), []takeoff.Need{need}).Items[0]; it.Packs != (Ends{}) || it.Hold != "1 x 2 x 4 ft" {
		t.Errorf("%+v", it)
	}
	// 54 x 50 cells of 15 mm are larger than a sheet of 40 x 80: parts of two.
	need.Panels = []takeoff.Panel{{Name: "wall", Across: 54, High: 50, Pitch: 0.015}}
	if it := listOf(t, bare(false), []takeoff.Need{need}).Items[0]; it.Packs != (Ends{2, 2, 2}) || !strings.Contains(it.Rest, "made of parts") {
		t.Errorf("%+v", it)
	}
}

// A design of any size gives a list, and soon.
func TestHuge(t *testing.T) {
	const many = 1_000_000
	needs := []takeoff.Need{
		{Name: "grid sheet", Key: "grid sheet", Unit: takeoff.SquareMetres, Panels: []takeoff.Panel{{Name: "wall", Across: many, High: many, Pitch: 0.015}}},
		{Name: "pipe", Key: "pipe", Unit: takeoff.Metres, Amount: takeoff.Band{Low: many, Likely: many, High: many}, Lengths: []takeoff.Length{{Name: "a", Length: 1, Count: many}}},
		{Name: "hose", Key: "hose", Unit: takeoff.Metres, Amount: takeoff.Band{Low: many, Likely: many, High: many}, Lengths: []takeoff.Length{{Name: "a", Length: 1, Count: many}}},
	}
	l := listOf(t, bare(false, stocked("hose", "2 m", 9)), needs)
	for i := range l.Items {
		if n := l.Items[i].Packs[1]; n < many/5 {
			t.Errorf("%s: %d", l.Items[i].Name, n)
		}
	}
}

// Pipe: as few lengths as hold the pieces with a cut between each, stock first.
func TestPipe(t *testing.T) {
	pipe := takeoff.Need{Name: "rigid pipe 25 mm", Key: "pipe", Unit: takeoff.Metres, Amount: takeoff.Band{Low: 3, Likely: 3, High: 3}, Lengths: []takeoff.Length{{Name: "a", Length: 1, Count: 2}, {Name: "b", Length: 0.5, Count: 2}}}
	it := listOf(t, bare(false), []takeoff.Need{pipe}).Items[0]
	// 3 m in all, and three cuts of 3 mm: no single length of 3 m.
	if it.Pack == "3 m" && it.Packs[1] == 1 || it.Left.Likely < 0 {
		t.Errorf("%+v", it)
	}
	it = listOf(t, bare(false, stocked("rigid pipe 25 mm", "1.1 m", 4)), []takeoff.Need{pipe}).Items[0]
	if it.Packs != (Ends{}) || it.Hold != "3 x 1.1 m" {
		t.Errorf("%+v", it)
	}
}
