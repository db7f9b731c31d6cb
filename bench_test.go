package rillwright

import (
	"testing"

	"rillwright/examples"
	"rillwright/study"
)

// BenchmarkCheck is the whole chain on a built-in design, fixes and all.
func BenchmarkCheck(b *testing.B) {
	for name, data := range demos() {
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

// BenchmarkGlass is every pane and joint of a built-in design, the water's state
// being known; BenchmarkPanes is the panes alone, without their words.
func BenchmarkGlass(b *testing.B) {
	for name, data := range demos() {
		r, err := Build(name, data, Options{NoFixes: true})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s := r.Survey.Rebuilt(r.Enclosure, true)
				if _, err := s.Glass(); err != nil {
					b.Fatal(err)
				}
				s.Sealed()
			}
		})
	}
}

func BenchmarkPanes(b *testing.B) {
	for name, data := range demos() {
		r, err := Build(name, data, Options{NoFixes: true})
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				study.Glass(r.Enclosure, r.Enclosure.Likely(), r.Survey.Likely.PoolLevel)
			}
		})
	}
}

func demos() map[string][]byte {
	return map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall}
}
