package takeoff

import (
	"math"
	"testing"

	"rillwright/examples"
	"rillwright/internal/trial"
)

// A brace of 23 x 3 cells of 15 mm takes as much more grid, two ties, and under its end
// on the glass, 47 x 16.97 mm, sealant as thick as the panel's spots, 2 to 4 mm.
func TestBraceTaken(t *testing.T) {
	const above = "    notches:\n      - { for: riser,"
	bare, joints := demo(t, examples.CorridorCabinet)
	with, more := demo(t, trial.Swap(t, examples.CorridorCabinet, above,
		"    braces: [{ name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg }]\n"+above))
	a, b := Of(bare, joints), Of(with, more)
	for _, c := range []struct {
		name      string
		low, high float64
	}{
		{"grid sheet", 23 * 3 * 0.015 * 0.015, 23 * 3 * 0.015 * 0.015},
		{"cable tie, plain plastic", 2, 2},
	} {
		x, y := find(t, a, c.name).Amount, find(t, b, c.name).Amount
		if math.Abs(y.Low-x.Low-c.low) > 1e-9 || math.Abs(y.High-x.High-c.high) > 1e-9 {
			t.Errorf("%s: %v, with a brace %v", c.name, x, y)
		}
	}
	area := 0.047 * 0.012 * math.Sqrt2
	for side, line := range map[int]float64{-1: 0.002, 1: 0.004} {
		at := Ends{side, side, side}
		got := SealantFor(with.Design, more, BondLine(with), at).Grid - SealantFor(bare.Design, joints, BondLine(bare), at).Grid
		if math.Abs(got-area*line) > 1e-12 {
			t.Errorf("end %d: %g m3 more, want %g", side, got, area*line)
		}
	}
}
