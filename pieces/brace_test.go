package pieces_test

import (
	"math"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/quantity"
)

const aboveNotches = "    notches:\n      - { for: riser,"

// By hand (see layout's test of the same brace): 226.5 mm to the side, 6 mm of its
// panel and half its own width along the lean, at 45 deg: 240.985 x 1.4142 = 340.8 mm.
// One of n cells of 15 mm is 15 n + 2 mm long at most, so that it takes 23. It opens 3 x 4
// cells beside notches of 3 x 4 and 6 x 6.
func TestBracePieces(t *testing.T) {
	l := build(t, strings.Replace(string(examples.CorridorCabinet), aboveNotches,
		"    braces: [{ name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg }]\n"+aboveNotches, 1))
	notched, found := 0, false
	for i := range l.Panels {
		p := &l.Panels[i]
		notched += p.Notched
		if p.Brace == nil {
			if at := p.FirstCol; at > 40 && at < 43 {
				t.Errorf("a seam before column %d cuts the slot in two", at+1)
			}
			continue
		}
		found = true
		if p.Cols != 23 || p.Rows != 3 || math.Abs(p.Brace.Length-0.34080) > 5e-6 || p.Brace.Slots != 1 {
			t.Errorf("%+v %+v", *p, *p.Brace)
		}
		if got, want := p.Brace.Ends(quantity.Metric), "sawn 341 mm long on its longer side, both ends 45 deg off square through its depth"; got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if !found || notched != 12+36+12 {
		t.Errorf("found %v, %d cells cut out", found, notched)
	}
	laid := false
	for i := range l.Layouts.Grids {
		g := &l.Layouts.Grids[i]
		for k := range g.Plan.Sheets {
			for _, x := range g.Plan.Sheets[k].Pieces {
				laid = laid || g.Job.Pieces[x.Piece].Name == "brace ledge" && x.Cols*x.Rows == 69
			}
		}
	}
	if !laid {
		t.Error("the brace is cut from no sheet")
	}
}
