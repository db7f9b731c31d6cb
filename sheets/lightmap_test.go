package sheets

import (
	"math"
	"testing"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
)

// What the map shows dark is as much of its area as the light computed says, and it
// can be written.
func TestLightMapIsTheLight(t *testing.T) {
	e := trial.Resolved(t, examples.CounterWall, enclosure.Resolve)
	s, ok, err := LightMap(e)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	l, err := study.Shine(e)
	if err != nil {
		t.Fatal(err)
	}
	dark := 0
	for _, v := range l.Wall.DLI {
		if v < lightSteps()[0].to {
			dark++
		}
	}
	area, frame := 0.0, 0.0
	for _, i := range s.Items {
		p, is := i.(*drawing.Path)
		if !is || !p.Closed {
			continue
		}
		b := drawing.BoundsOf(p.Points)
		a := (b.Right - b.Left) * (b.Bottom - b.Top)
		switch {
		case p.Fill == drawing.Solid && p.Pen == drawing.NoPen:
			area += a
		case p.Pen == drawing.Medium && p.Fill == drawing.NoFill:
			frame = a
		}
	}
	want := float64(dark) / float64(len(l.Wall.DLI))
	if got := area / frame; want == 0 || want == 1 || math.Abs(got-want) > 1e-9 {
		t.Errorf("%g of the map is dark, %g of the wall", got, want)
	}
	if len(written(t, s)) == 0 {
		t.Error("nothing was written")
	}
	if _, ok, err := LightMap(trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve)); ok || err != nil {
		t.Errorf("a map without a lamp: %v, %v", ok, err)
	}
}

func BenchmarkLightMap(b *testing.B) {
	e := trial.Resolved(b, examples.CounterWall, enclosure.Resolve)
	for b.Loop() {
		if _, _, err := LightMap(e); err != nil {
			b.Fatal(err)
		}
	}
}
