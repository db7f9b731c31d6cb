package answers

import (
	"strings"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

const aboveNotches = "    notches:\n      - { for: riser,"

// braced is the cabinet with braces in its wall grid, each as the file has it.
func braced(tb testing.TB, braces ...string) []byte {
	tb.Helper()
	text := "    braces:\n"
	for _, b := range braces {
		text += "      - { " + b + " }\n"
	}
	return trial.Swap(tb, examples.CorridorCabinet, aboveNotches, text+aboveNotches)
}

// The wall grid is 54 x 50 cells of 15 mm; its riser's notch takes columns 26 to 28 and
// rows 47 to 50, its window columns 2 to 7 and rows 1 to 6. Fifteen stand-offs of 30 mm
// are spread over it in rows of five: each 162 mm across, 250 up, so that the first
// stands in columns 5 to 7 and rows 8 to 10.
func TestBracesInCells(t *testing.T) {
	const corner = "to: side, leans: right, wide: 3, angle: 45 deg, "
	for _, c := range []struct {
		name   string
		braces []string
		want   Verdict
		says   string
		fixed  bool
	}{
		{"with room", []string{"name: a, " + corner + "left: 42, bottom: 22"}, Holds, "1 brace is slotted", false},
		{"at the foot", []string{"name: a, " + corner + "left: 42, bottom: 0"}, Fails, "opens the edge", true},
		{"into the riser's notch", []string{"name: a, " + corner + "left: 28, bottom: 42"}, Fails, "runs into the notch for the riser", true},
		{"into each other", []string{"name: a, " + corner + "left: 42, bottom: 22", "name: b, " + corner + "left: 44, bottom: 26"}, Fails, "run into one another", true},
		{"before a stand-off", []string{"name: a, to: side, leans: left, wide: 3, angle: 45 deg, left: 4, bottom: 8"}, Fails, "stand-off", true},
		{"over the dam", []string{"name: a, to: dam, leans: up, wide: 3, angle: 0 deg, left: 42, bottom: 22"}, Fails, "beyond the dam", false},
		{"no way told", []string{"name: a, to: side, wide: 3, angle: 45 deg, left: 42, bottom: 22"}, Unknown, "Which way does the brace a lean", false},
	} {
		data := braced(t, c.braces...)
		a := cellsOf(t, data)
		if a.Verdict != c.want || !strings.Contains(a.Say+strings.Join(a.Cautions, " "), c.says) || len(a.Fixes) > 0 != c.fixed {
			t.Errorf("%s: %v, %q, %q, %d fixes", c.name, a.Verdict, a.Say, a.Cautions, len(a.Fixes))
			continue
		}
		if !c.fixed {
			continue
		}
		text, err := design.Apply(data, a.Fixes[0].Edits)
		if err != nil {
			t.Fatal(err)
		}
		if b := cellsOf(t, text); b.Verdict != Holds {
			t.Errorf("%s, %s: %v, %q", c.name, a.Fixes[0].Do, b.Verdict, b.Say)
		}
	}
}

// A brace is in the way of what it crosses, and not of what it goes through or meets.
func TestBraceClash(t *testing.T) {
	met := func(brace string) string {
		a := (&Survey{E: trial.Resolved(t, braced(t, brace), enclosure.Resolve)}).Clash()
		for _, say := range append(a.Cautions, a.Say) {
			if strings.Contains(say, "he brace a and") || strings.Contains(say, "and the brace a ") {
				return say
			}
		}
		return ""
	}
	if say := met("name: a, to: side, leans: right, wide: 3, angle: 45 deg, left: 42, bottom: 22"); say != "" {
		t.Errorf("free: %q", say)
	}
	// From the upper rows to the top, 74 deg up, it crosses the drip bar that hangs 22 mm
	// over the panel's top and 19 mm before it.
	if say := met("name: a, to: top strip, wide: 4, angle: 74 deg, left: 10, bottom: 41"); !strings.Contains(say, "in each other's way") {
		t.Errorf("through the drip bar: %q", say)
	}
}
