package answers

import (
	"strings"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

const windowNotch = "      - { for: drain window, across: 6, up: 6, left: 1, bottom: 0 }\n"

func cellsOf(t testing.TB, data []byte, pairs ...string) Answer {
	t.Helper()
	a, ok := (&Survey{E: trial.Resolved(t, trial.Swap(t, data, pairs...), enclosure.Resolve)}).Cells()
	if !ok {
		t.Fatal("no answer")
	}
	return a
}

func TestCells(t *testing.T) {
	for _, c := range []struct {
		name  string
		pairs []string
		want  Verdict
		says  string
		fixes int
	}{
		{"as it is", nil, Holds, "1 thing passes", 0},
		{"no window: pipe and flange are drawn by guess", []string{windowNotch, ""}, Unknown, "columns 3 to 7, row 1", 0},
		{"lower than its window", []string{"bottom: 190 mm", "bottom: 100 mm"}, Unknown, "columns 3 to 7, row 7", 0},
		{"up against the drip bar", []string{"bottom: 190 mm", "bottom: 230 mm"}, Tight, "columns 1 to 54, rows 49 to 50", 0},
		{"in the drip bar's place", []string{"bottom: 190 mm", "bottom: 240 mm", "out: 65 mm", "out: 46 mm"}, Fails, "Cut them out", 0},
	} {
		a := cellsOf(t, examples.CorridorCabinet, c.pairs...)
		if a.Verdict != c.want || !strings.Contains(a.Say+strings.Join(a.Cautions, " "), c.says) || len(a.Fixes) != c.fixes {
			t.Errorf("%s: %v, %q, %q, %d fixes", c.name, a.Verdict, a.Say, a.Cautions, len(a.Fixes))
		}
	}
}

// The notch of a fix, written into the file, makes room.
func TestCellsFix(t *testing.T) {
	a := cellsOf(t, examples.CounterWall)
	if a.Verdict != Tight || len(a.Fixes) != 1 {
		t.Fatalf("%v, %d fixes", a.Verdict, len(a.Fixes))
	}
	text, err := design.Apply(examples.CounterWall, a.Fixes[0].Edits)
	if err != nil {
		t.Fatal(err)
	}
	if b := cellsOf(t, text); b.Verdict != Holds || len(b.Fixes) > 0 || b.Score <= a.Score {
		t.Errorf("with it: %v, %q", b.Verdict, b.Say)
	}
}
