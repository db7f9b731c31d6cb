package layout

import (
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func BenchmarkOf(b *testing.B) {
	e := trial.Resolved(b, examples.CorridorCabinet, enclosure.Resolve)
	for b.Loop() {
		Of(e)
	}
}
