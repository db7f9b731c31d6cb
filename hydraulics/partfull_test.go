package hydraulics

import (
	"math"
	"testing"
)

func TestPartFullTable(t *testing.T) {
	for _, r := range rows(t, "partfull") {
		d := r.num("D_m")
		y := r.num("y_over_D") * d
		s := PartFull(d, y)
		r.want("A_m2", s.Area)
		r.want("P_m", s.Perimeter)
		r.want("Q_manning_Lh", ManningFlow(d, y, r.num("slope"), r.num("n"))/litrePerHour)
		r.want("Q_critical_Lh", CriticalFlow(d, y)/litrePerHour)
	}
}

// dA/dy is the top width: ties the three figures of a Section together.
func TestPartFullGeometry(t *testing.T) {
	const d = 0.03
	for _, y := range []float64{0.002, 0.011, 0.015, 0.022, 0.029} {
		checkSlope(t, "area", y, func(x float64) (float64, float64) { s := PartFull(d, x); return s.Area, s.TopWidth })
	}
	full, empty := PartFull(d, d), PartFull(d, 0)
	if full.Area != CircleArea(d) || !within(full.Perimeter, math.Pi*d, 1e-15) || full.TopWidth != 0 || empty != (Section{}) {
		t.Errorf("full %+v, empty %+v", full, empty)
	}
	// Half full the hydraulic diameter is the bore.
	if dh := PartFull(d, d/2).HydraulicDiameter(); !within(dh, d, 1e-14) {
		t.Errorf("hydraulic diameter %g", dh)
	}
}

// Textbook: Manning's flow with constant n is greatest at y/d = 0.938.
func TestManningPeak(t *testing.T) {
	best, at := 0.0, 0.0
	for y := 0.8; y <= 1; y += 1e-4 {
		if q := ManningFlow(1, y, 0.01, 0.01); q > best {
			best, at = q, y
		}
	}
	if math.Abs(at-0.938) > 5e-4 {
		t.Errorf("peak at %.4f, want 0.938", at)
	}
}

func TestSlopingDrain(t *testing.T) {
	const d = 0.0345
	cases := []struct {
		h, slope float64
		want     PipeRunLimit
	}{{0.2 * d, 0.02, LimitInlet}, {2 * d, 0.02, LimitCritical}, {2 * d, 0.002, LimitNormal}}
	for _, c := range cases {
		q, limit := SlopingDrainCapacity(d, c.h, 0.5, c.slope, ManningPlastic)
		if limit != c.want || q <= 0 {
			t.Errorf("level %g, slope %g: %g by %v, want %v", c.h, c.slope, q, limit, c.want)
		}
	}
	if q, limit := SlopingDrainCapacity(d, d, 0.5, 0, ManningPlastic); q != 0 || limit != LimitNormal {
		t.Errorf("level pipe: %g by %v", q, limit)
	}
	if !math.IsInf(CriticalFlow(d, d), 1) || CriticalFlow(d, 0) != 0 {
		t.Error("critical flow at the ends")
	}
}
