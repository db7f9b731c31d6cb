package rillwright

import (
	"testing"

	"rillwright/answers"
	"rillwright/examples"
)

// What check adds for the main faults, and all faults with every two at once,
// over all doubts but without looking for fixes.
func BenchmarkFloods(b *testing.B) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		r, err := Build("demo.yaml", data, Options{NoFixes: true})
		if err != nil {
			b.Fatal(err)
		}
		for depth, o := range map[string]answers.FaultOptions{"main": {Brief: true}, "every": {Pairs: true}} {
			b.Run(name+"/"+depth, func(b *testing.B) {
				for b.Loop() {
					if _, err := r.Survey.Floods(o); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
