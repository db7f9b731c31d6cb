package answers

import (
	"testing"

	"rillwright/examples"
)

// BenchmarkWeight and BenchmarkStanding are the answers alone, after the water's.
func BenchmarkWeight(b *testing.B)   { benchAnswer(b, (*Survey).Weight) }
func BenchmarkStanding(b *testing.B) { benchAnswer(b, (*Survey).Standing) }

func benchAnswer(b *testing.B, f func(*Survey) Answer) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		s := survey(b, changed(b, data))
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				f(s)
			}
		})
	}
}
