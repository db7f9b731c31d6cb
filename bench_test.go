package rillwright

import (
	"testing"

	"rillwright/examples"
)

// BenchmarkCheck is the whole chain on a built-in design, fixes and all.
func BenchmarkCheck(b *testing.B) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r, err := Build(name, data, Options{})
				if err != nil || r.Findings.HasErrors() {
					b.Fatal(err, r.Findings)
				}
			}
		})
	}
}
