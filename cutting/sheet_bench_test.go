package cutting

import "testing"

// panes draws n different panes, from 0.15 to 0.9 m, for sheets of glass.
func panes(n int, seed uint64) SheetJob {
	seq := sequence(seed)
	j := SheetJob{
		Stock:    []SheetStock{{Name: "sheet", Width: 2.25, Height: 1.605, Trim: 0.015}},
		MinStrip: 0.015, Keep: 0.1,
	}
	for range n {
		j.Pieces = append(j.Pieces, SheetPiece{Width: float64(150+seq.below(750)) / 1e3, Height: float64(150+seq.below(750)) / 1e3, Count: 1})
	}
	return j
}

func BenchmarkSheets12(b *testing.B) {
	for n := 0; b.Loop(); n++ {
		j := panes(12, uint64(n%20))
		p, err := CutSheets(j)
		if err != nil {
			b.Fatal(err)
		}
		if p.Status != Proven || p.Leftover != Proven {
			b.Error(n, p.Status, p.Leftover, len(p.Sheets), p.Gap)
		}
	}
}

func BenchmarkSheets60(b *testing.B) {
	for n := 0; b.Loop(); n++ {
		p, err := CutSheets(panes(60, uint64(n%20)))
		if err != nil {
			b.Fatal(err)
		}
		off, area := 0.0, 0.0
		for _, l := range p.Sheets {
			for _, o := range l.Offcuts {
				off = max(off, o.W*o.H)
			}
			for _, q := range l.Pieces {
				area += q.W * q.H
			}
		}
		usable := 2.22 * 1.575 * float64(len(p.Sheets))
		println(n, len(p.Sheets), int(p.Gap*100), "fill", int(area/usable*1000), "at bound", int(1000*area/(2.22*1.575*p.Bound/(2.25*1.605))), "net fill", int(1000*area/(usable-off)), p.Steps)
	}
}
