package study

import (
	"math"
	"testing"

	"rillwright/examples"
)

// The brace of layout's test, by hand: 340.8 mm on one side and 24 mm less on the other,
// 47 mm wide, of grid that weighs 1.8 kg/m2.
func TestBraceWeight(t *testing.T) {
	const above = "    notches:\n      - { for: riser,"
	w := weighed(t, examples.CorridorCabinet, above, "    braces: [{ name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg }]\n"+above)
	for _, l := range w.At(Running, nil) {
		if l.Name != "brace ledge" {
			continue
		}
		if want := (0.34080 - 0.012) * 0.047 * 1.8; math.Abs(l.Mass-want) > 1e-5 {
			t.Errorf("%g kg, by hand %g", l.Mass, want)
		}
		// Between its panel at x 661.5 and the side at 888, y 46 and 272.5, at mid height 520.
		if c := l.Centre; math.Abs(c.X-0.7718) > 0.005 || math.Abs(c.Y-0.156) > 0.005 || math.Abs(c.Z-0.520) > 1e-9 {
			t.Errorf("its weight at %+v", c)
		}
		return
	}
	t.Error("the brace weighs nothing")
}
