package study

import (
	"testing"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
)

func resolved(tb testing.TB, data []byte) *enclosure.Enclosure {
	tb.Helper()
	d, list := design.Read("example", data)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	cat, err := catalogue.Builtin()
	if err != nil {
		tb.Fatal(err)
	}
	e, list := enclosure.Resolve(d, cat, nil)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	return e
}

// BenchmarkRun is one steady state of a whole demo, from nothing and near
// another state.
func BenchmarkRun(b *testing.B) {
	e := resolved(b, examples.CorridorCabinet)
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
