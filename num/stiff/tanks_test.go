package stiff

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Two tanks that act on each other, all flows in proportion to levels: J. C. Kantor,
// CBE30338 Chemical Process Control, University of Notre Dame, notebook 03.07
// "Interacting Tanks" (github.com/jckantor/CBE30338), from which are the figures:
// areas of 5 sq ft, 3 cu ft/min in, 0.75 (h1 - h2) between, 1.0 h2 out, from 6 and
// 5 ft to 7 and 3 ft in the end. The solution by the matrix's own values is ours.
// Limit: what 1e-10 in each of some hundred steps may add up to.
func TestInteractingTanks(t *testing.T) {
	const area, in, between, out = 5.0, 3.0, 0.75, 1.0
	sys := System{
		Stores: 4, Felt: 2, Paths: []Path{{3, 0}, {0, 1}, {1, 2}},
		Rates: func(_ float64, x, r []float64) {
			r[0], r[1], r[2] = in, between*(x[0]-x[1])/area, out*x[1]/area
		},
	}
	// d/dt of what is left to the end state: the matrix [-a a; a -a-b].
	a, b := between/area, out/area
	root := math.Sqrt(a*a + b*b/4)
	exact := func(t float64) (h1, h2 float64) {
		u, v := 6.0-7, 5.0-3
		mean := math.Exp(-(a + b/2) * t)
		c, s := math.Cosh(root*t), math.Sinh(root*t)/root
		return 7 + mean*(u*c+(b/2*u+a*v)*s), 3 + mean*(v*c+(a*u-b/2*v)*s)
	}
	s := NewSolver(sys, Settings{Tolerance: 1e-10})
	s.Start(0, []float64{6 * area, 5 * area, 0, 0})
	for _, at := range []float64{0.5, 2, 10, 30, 200} {
		advance(t, s, at)
		h1, h2 := exact(at)
		if got1, got2 := s.X()[0]/area, s.X()[1]/area; math.Abs(got1-h1) > 1e-8 || math.Abs(got2-h2) > 1e-8 {
			t.Errorf("at %g min: %.10g and %.10g ft, exactly %.10g and %.10g", at, got1, got2, h1, h2)
		}
	}
	if h1, h2 := exact(200); math.Abs(h1-7) > 1e-6 || math.Abs(h2-3) > 1e-6 {
		t.Errorf("ends at %g and %g ft, by the source 7 and 3", h1, h2)
	}
}

// A pool with an outlet in proportion to its level over a sump that a steady pump
// empties: rows coupled_linear of the table that package hydraulics is checked
// with. It prints ten digits.
func TestPoolOverSump(t *testing.T) {
	f, err := os.Open("../../hydraulics/testdata/transient.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for _, row := range all {
		if row[0] != "coupled_linear" {
			continue
		}
		rows++
		m := map[string]float64{}
		for _, pair := range strings.Split(row[1], ";") {
			key, text, _ := strings.Cut(pair, "=")
			m[key], _ = strconv.ParseFloat(text, 64)
		}
		pool, _ := strconv.ParseFloat(row[2], 64)
		sump, _ := strconv.ParseFloat(row[4], 64)
		s := NewSolver(System{
			Stores: 2, Felt: 2, Paths: []Path{{1, 0}, {0, 1}},
			Rates: func(_ float64, x, rate []float64) { rate[0], rate[1] = m["Qp"], m["k"]*x[0]/m["A1"] },
		}, Settings{Tolerance: 1e-14})
		s.Start(0, []float64{m["h1_0"] * m["A1"], m["h2_0"] * m["A2"]})
		advance(t, s, m["t"])
		if h1, h2 := s.X()[0]/m["A1"], s.X()[1]/m["A2"]; math.Abs(h1-pool) > 1e-9*pool || math.Abs(h2-sump) > 1e-9*sump {
			t.Errorf("%s: %.10g and %.10g m, want %.10g and %.10g", row[1], h1, h2, pool, sump)
		}
	}
	if rows != 6 {
		t.Errorf("%d rows", rows)
	}
}
