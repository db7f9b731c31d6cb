package gravity

import (
	"math"
	"testing"
)

// Rising functions whose crossing is known in closed form, among them flat
// ones, steep ones, kinks and a jump.
func TestRoots(t *testing.T) {
	for name, c := range map[string]struct {
		hi, want float64
		f        func(x float64) float64
	}{
		"line":       {3, 1.25, func(x float64) float64 { return 4*x - 5 }},
		"cube":       {10, 2, func(x float64) float64 { return x*x*x - 8 }},
		"weir":       {0.7, math.Cbrt(1e-8), func(x float64) float64 { return x*math.Sqrt(x) - 1e-4 }},
		"root":       {1, 1e-8, func(x float64) float64 { return math.Sqrt(x) - 1e-4 }},
		"tiny":       {1, 1e-13, func(x float64) float64 { return x - 1e-13 }},
		"kink":       {1, 0.625, func(x float64) float64 { return max(x-0.75, 1e3*(x-0.625)) }},
		"jump":       {1, 0.3, func(x float64) float64 { return math.Copysign(1, x-0.3) }},
		"at the end": {2, 2, func(x float64) float64 { return x - 2 }},
		"beyond":     {2, 2, func(x float64) float64 { return x - 3 }},
		"at zero":    {2, 0, func(x float64) float64 { return x }},
	} {
		calls := 0
		low, got := root(c.hi, func(x float64) float64 { calls++; return c.f(x) })
		// The bracket is closed to 4e-16; the closed forms and functions are
		// good to about as much.
		if math.Abs(got-c.want) > 2e-15*c.want {
			t.Errorf("%s: %.17g, want %.17g", name, got, c.want)
		}
		if name != "beyond" && c.f(got) < 0 {
			t.Errorf("%s: below zero at %g", name, got)
		}
		if low > got || low < got*(1-1e-15) || low < got && c.f(low) >= 0 {
			t.Errorf("%s: lower end %.17g, upper %.17g", name, low, got)
		}
		if calls > 120 {
			t.Errorf("%s: %d calls", name, calls)
		}
	}
	if x := newton(5, func(x float64) (float64, float64) { return x*x - 9, 2 * x }); math.Abs(x-3) > 1e-15 {
		t.Errorf("%.17g, want 3", x)
	}
	if x := newton(2, func(x float64) (float64, float64) { return x*x - 9, 2 * x }); x != 2 {
		t.Errorf("%g beyond the end, want 2", x)
	}
	// A wrong slope costs time, not the answer.
	if x := newton(5, func(x float64) (float64, float64) { return x*x - 9, 1e-3 }); math.Abs(x-3) > 2e-15 {
		t.Errorf("%.17g with a wrong slope, want 3", x)
	}
}
