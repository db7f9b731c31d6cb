package hydraulics

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

func values(t *testing.T, r row) []float64 {
	t.Helper()
	var q []float64
	for f := range strings.FieldsSeq(r.text("values")) {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			t.Fatal(err)
		}
		q = append(q, v)
	}
	return q
}

func TestUniformityTable(t *testing.T) {
	for _, r := range rows(t, "uniformity") {
		q := values(t, r)
		before := append([]float64(nil), q...)
		r.want("CU_pct", 100*ChristiansenUniformity(q))
		r.want("DUlq_pct", 100*DistributionUniformity(q, nil))
		r.want("DUlq_pct", 100*DistributionUniformity(q, make([]float64, 2, 40)))
		r.want("EU_pct_cv05_n1", 100*EmissionUniformity(q, 0.05, 1))
		r.want("US_pct", 100*StatisticalUniformity(q))
		for i := range q {
			if q[i] != before[i] {
				t.Fatalf("set %s: readings were moved", r.text("set"))
			}
		}
	}
}

// The manual of the R package (G. Grabow, North Carolina State University)
// prints CU 69.13955 for its fifteen cans, and 49.62 for the low quarter by
// rounding n/4 to 4 whole cans, a rule this package does not use.
func TestUniformityPublished(t *testing.T) {
	cans := []float64{47, 42, 45, 24, 13, 26, 33, 34, 27, 30, 40, 44, 32, 12, 12}
	// Half a unit of the last figure printed.
	if cu := 100 * ChristiansenUniformity(cans); math.Abs(cu-69.13955) > 5e-6 {
		t.Errorf("CU %.6f, want 69.13955", cu)
	}
	if du := 100 * DistributionUniformity(cans, nil); du >= 49.62 {
		t.Errorf("DU %.2f: the fraction of the fourth can was not weighted", du)
	}
}

func TestUniformityDegenerate(t *testing.T) {
	for _, q := range [][]float64{nil, {}, {0, 0}, {-1, -2}} {
		for _, v := range []float64{ChristiansenUniformity(q), DistributionUniformity(q, nil), EmissionUniformity(q, 0.05, 1), StatisticalUniformity(q)} {
			if !math.IsNaN(v) {
				t.Errorf("%v: got %g, want NaN", q, v)
			}
		}
	}
	if v := StatisticalUniformity([]float64{3}); !math.IsNaN(v) {
		t.Errorf("one reading: %g", v)
	}
	// One reading is its own lowest quarter.
	if v := DistributionUniformity([]float64{3}, nil); v != 1 {
		t.Errorf("one reading: %g, want 1", v)
	}
}

func TestUniformityDoesNotAllocate(t *testing.T) {
	q := []float64{4, 3, 5, 2, 6, 7}
	scratch := make([]float64, len(q))
	n := testing.AllocsPerRun(100, func() {
		sink = ChristiansenUniformity(q) + DistributionUniformity(q, scratch) + EmissionUniformity(q, 0.05, 1) + StatisticalUniformity(q)
	})
	if n != 0 {
		t.Errorf("%g allocations", n)
	}
}
