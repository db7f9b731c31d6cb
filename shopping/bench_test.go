package shopping

import (
	"testing"

	"rillwright/examples"
	"rillwright/takeoff"
)

func BenchmarkList(b *testing.B) {
	e, joints := demo(b, examples.CorridorCabinet)
	for b.Loop() {
		if _, err := Of(e, takeoff.Of(e, joints), nil); err != nil {
			b.Fatal(err)
		}
	}
}
