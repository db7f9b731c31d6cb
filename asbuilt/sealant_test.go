package asbuilt

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"rillwright/record"
)

func beads(t *testing.T, line string) record.Reading {
	t.Helper()
	r, err := record.Typed("skin "+line, record.Names{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Least squares through nothing have a closed form: k is the sum of depth times root of
// time over the sum of the times (any textbook of regression through the origin).
func TestSealant(t *testing.T) {
	list := []record.Reading{beads(t, "2.1 mm in 12 h, 3.1 mm in 24 h"), beads(t, "4.1 mm in 2 days")}
	over, under := 0.0, 0.0
	for _, b := range [][2]float64{{2.1e-3, 43200}, {3.1e-3, 86400}, {4.1e-3, 172800}} {
		over, under = over+b[0]*math.Sqrt(b[1]), under+b[1]
	}
	s, found, err := SealantOf(list)
	if err != nil || !found || s.Beads != 3 || len(s.Outliers) != 0 {
		t.Fatalf("%+v, %v, %v", s, found, err)
	}
	if want := over / under; math.Abs(s.Rate.Likely-want) > 1e-6*want {
		t.Errorf("k %g, by the closed form %g", s.Rate.Likely, want)
	}
	if end := bandEnd * cutDoubt / math.Sqrt(under); math.Abs(s.Rate.High-s.Rate.Likely-end) > 1e-6*end || math.Abs(s.Rate.Likely-s.Rate.Low-end) > 1e-6*end {
		t.Errorf("band %v, its half by the closed form %g", s.Rate, end)
	}
	if want := s.Rate.Likely * math.Sqrt(172800); s.Longest != 172800 || math.Abs(s.Skin-want) > 1e-12 {
		t.Errorf("skin %g m after %g s", s.Skin, s.Longest)
	}
	if _, found, err := SealantOf(nil); found || err != nil {
		t.Errorf("of no bead: %v, %v", found, err)
	}
	// A bead of another tube does not go with the others, and has little say.
	wrong, _, err := SealantOf(append(list, beads(t, "0.6 mm in 24 h")))
	if err != nil || len(wrong.Outliers) != 1 || wrong.Outliers[0].Reading != 2 || math.Abs(wrong.Rate.Likely/s.Rate.Likely-1) > 0.12 {
		t.Errorf("%+v, %v", wrong, err)
	}
}

// Nine bands of ten have the true rate in them, where people read as is assumed of them.
func TestSealantBand(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	const builds = 1000
	in := 0
	for range builds {
		k := (2 + 2*rng.Float64()) * 1e-3 / math.Sqrt(86400)
		var parts []string
		for range 2 + rng.IntN(3) {
			h := 12 + 60*rng.Float64()
			parts = append(parts, fmt.Sprintf("%.4f mm in %.4f h", 1000*(k*math.Sqrt(3600*h)+cutDoubt*rng.NormFloat64()), h))
		}
		s, _, err := SealantOf([]record.Reading{beads(t, strings.Join(parts, ", "))})
		if err != nil {
			t.Fatal(err)
		}
		if s.Rate.Low <= k && k <= s.Rate.High {
			in++
		}
	}
	// Three standard deviations of a share of 0.9 are 0.028; scatter only widens bands.
	if share := float64(in) / builds; share < 0.87 || share > 0.97 {
		t.Errorf("%.3f of the bands have the true rate in them", share)
	}
}

// Beads cut weeks before there is water do not begin the first month, nor end the last days.
func TestBeadsBeginNoMonth(t *testing.T) {
	at := time.Date(2025, 3, 1, 10, 0, 0, 0, time.UTC)
	water, err := record.Typed("rise 12 mm", record.Names{})
	if err != nil {
		t.Fatal(err)
	}
	early, late := beads(t, "3 mm in 24 h"), beads(t, "3 mm in 24 h")
	early.Time, late.Time, water.Time = at.AddDate(0, -2, 0), at.AddDate(0, 2, 0), at
	log := []record.Reading{early, water, late}
	if got := First(log); len(got) != 1 || got[0].What != "rise" {
		t.Errorf("the first month has %v", got)
	}
	if _, now := Split(log, time.Time{}); len(now) != 1 || now[0].What != "rise" {
		t.Errorf("the last days have %v", now)
	}
	if got := First(log[:1]); got != nil {
		t.Errorf("beads alone: %v", got)
	}
}
