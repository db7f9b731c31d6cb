package cutting

import "testing"

// panes draws n panes of so many sizes, sides from 0.15 to 0.9 m, for sheets of
// glass.
func panes(n, sizes int, seed uint64) SheetJob {
	seq := sequence(seed)
	j := SheetJob{
		Stock:    []SheetStock{{Name: "sheet", Width: 2.25, Height: 1.605, Trim: 0.015}},
		MinStrip: 0.015, Keep: 0.1,
	}
	for i := range sizes {
		j.Pieces = append(j.Pieces, SheetPiece{
			Width: float64(150+seq.below(750)) / 1e3, Height: float64(150+seq.below(750)) / 1e3,
			Count: (n + i) / sizes,
		})
	}
	return j
}

// benchSheets lays out 20 jobs over and over, and reports how many of them have a
// proven cost, proven leftovers and a gap within 2 %.
func benchSheets(b *testing.B, job func(seed uint64) SheetJob) {
	var proven, leftover, within, n float64
	for b.Loop() {
		p, err := CutSheets(job(uint64(n) % 20))
		if err != nil {
			b.Fatal(err)
		}
		n++
		if p.Status == Proven {
			proven++
		}
		if p.Leftover == Proven {
			leftover++
		}
		if p.Gap <= 0.02 {
			within++
		}
	}
	b.ReportMetric(100*proven/n, "%proven")
	b.ReportMetric(100*leftover/n, "%leftover")
	b.ReportMetric(100*within/n, "%within2")
}

func BenchmarkSheets12(b *testing.B) {
	benchSheets(b, func(seed uint64) SheetJob { return panes(12, 7, seed) })
}

func BenchmarkSheets12Different(b *testing.B) {
	benchSheets(b, func(seed uint64) SheetJob { return panes(12, 12, seed) })
}

// A saw leaves strips of any width.
func BenchmarkSheets12Sawn(b *testing.B) {
	benchSheets(b, func(seed uint64) SheetJob {
		j := panes(12, 12, seed)
		j.MinStrip, j.Kerf = 0, 0.003
		return j
	})
}

func BenchmarkSheets60(b *testing.B) {
	benchSheets(b, func(seed uint64) SheetJob { return panes(60, 60, seed) })
}

func BenchmarkSheets60Pairs(b *testing.B) {
	benchSheets(b, func(seed uint64) SheetJob { return panes(60, 25, seed) })
}
