package study

import (
	"testing"

	"rillwright/examples"
)

// BenchmarkRun is one steady state of a whole demo, from nothing and near
// another state.
func BenchmarkRun(b *testing.B) {
	e := changed(b, examples.CorridorCabinet)
	c := e.Likely()
	near, err := Run(e, c, Setting{})
	if err != nil {
		b.Fatal(err)
	}
	for _, s := range []struct {
		name string
		near *State
	}{{"cold", nil}, {"near", near}} {
		b.Run(s.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Run(e, c, Setting{Near: s.near}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
