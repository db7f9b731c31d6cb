package catalogue

import (
	"math"
	"testing"
)

// ISO 727-1: half the outside and 6 mm: 16, 18.5 and 22 mm for 20, 25 and 32 mm.
// ASTM D2466: 0.875 in for 1 in. Both from memory, as the code says.
func TestDepth(t *testing.T) {
	for text, want := range map[string]float64{
		"socket 20 mm": 16, "socket 25 mm": 18.5, "socket 32 mm": 22,
		"socket 1 in sch 40": 22.225, "socket 1/2 in sch 40": 17.4752,
		"spigot 25 mm": 0, "barb 16 mm": 0, "socket 1/8 in": 0,
	} {
		e, err := ParseEnd(text)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := e.Depth()
		if ok != (want > 0) || math.Abs(float64(got)*1000-want) > 1e-9 {
			t.Errorf("%s: %g mm, %v, want %g", text, float64(got)*1000, ok, want)
		}
	}
}
