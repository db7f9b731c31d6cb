package hydraulics

import (
	"math"
	"testing"
)

var allLegs = [...]TeeLeg{DividingBranch, DividingRun, CombiningBranch, CombiningRun}

func TestTeeTable(t *testing.T) {
	names := [...]string{"div_branch", "div_run", "comb_branch", "comb_run"}
	for _, r := range rows(t, "tee") {
		q := r.num("q")
		for i, leg := range allLegs {
			k, _ := IdelchikTee(leg, q)
			r.want("ic_"+names[i], k)
			k, _ = GardelTee(leg, q)
			r.want("gardel_"+names[i], k)
		}
	}
}

func TestTeeSlopes(t *testing.T) {
	for _, leg := range allLegs {
		for _, q := range []float64{0.05, 0.2, 0.36, 0.39, 0.42, 0.44, 0.6, 0.95} {
			at := func(f func(TeeLeg, float64) (float64, float64)) func(float64) (float64, float64) {
				return func(x float64) (float64, float64) { return f(leg, x) }
			}
			checkSlope(t, "Gardel "+leg.String(), q, at(GardelTee))
			checkSlope(t, "Idelchik "+leg.String(), q, at(IdelchikTee))
		}
	}
}

// The jump of the published form.
func TestCombiningBranchJump(t *testing.T) {
	below, _ := IdelchikTee(CombiningBranch, 0.4)
	above, _ := IdelchikTee(CombiningBranch, math.Nextafter(0.4, 1))
	if !within(below, 0.2376, 1e-12) || !within(above, 0.242, 1e-12) {
		t.Errorf("jump from %g to %g, want 0.2376 to 0.242", below, above)
	}
}

func TestUnknownLeg(t *testing.T) {
	for _, f := range []func(TeeLeg, float64) (float64, float64){GardelTee, IdelchikTee} {
		if k, d := f(TeeLeg(9), 0.5); k != 0 || d != 0 {
			t.Errorf("unknown leg gives %g, %g", k, d)
		}
	}
}
