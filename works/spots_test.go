package works

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/structure/cure"
)

// Spots of 30 mm bear what practice says when it says so; of broad ones so much less has
// cured by then that the wait is theirs. By hand for 100 mm square, at the likely 21 C: half
// of the area is left in the middle where each side is 70.7 mm, 14.6 mm from the rim.
func TestSpotsOfAGrid(t *testing.T) {
	bears := func(text []byte) (*Work, *Line) {
		w := demo(t, text)
		_, lines, err := Planned(w)
		if err != nil {
			t.Fatal(err)
		}
		for i := range lines {
			if lines[i].ID == "grid-bears" {
				return w, &lines[i]
			}
		}
		t.Fatal("no grid bears")
		return nil, nil
	}
	w, small := bears(examples.CorridorCabinet)
	if small.By != "" || small.Finish-small.End != 5*1440 {
		t.Errorf("30 mm: %+v", small)
	}
	const spots = "width: 30 mm, height: 30 mm, line: 2 to 4 mm"
	_, broad := bears(bytes.Replace(examples.CorridorCabinet, []byte(spots), []byte("width: 100 mm, height: 100 mm, line: 2 to 4 mm"), 1))
	full, err := cure.Through((0.1-0.1*math.Sqrt(0.5))/2, w.Air)
	if err != nil {
		t.Fatal(err)
	}
	if got := float64(broad.Finish-broad.End) * 60; broad.By != "the spots of wall grid" || math.Abs(got-float64(full.Likely)) > 60 {
		t.Errorf("100 mm: %g days, %g by hand, by %q", got/86400, float64(full.Likely)/86400, broad.By)
	}
	said := func(w *Work) bool {
		return strings.Contains(strings.Join(w.Assumed, "\n"), "the spots of wall grid have cured through only after")
	}
	if !said(w) {
		t.Errorf("%v", w.Assumed)
	}
	if none, _ := bears(bytes.Replace(examples.CorridorCabinet, []byte(spots), []byte("width: 6 mm, height: 6 mm, line: 2 to 4 mm"), 1)); said(none) {
		t.Error("spots of 6 mm are said to cure late")
	}
}
