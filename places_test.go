package rillwright

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// places answers what needs no water to run, without running it.
func places(tb testing.TB, data []byte, pairs ...string) []answers.Answer {
	tb.Helper()
	s := &answers.Survey{E: trial.Resolved(tb, trial.Swap(tb, data, pairs...), enclosure.Resolve)}
	return s.Places()
}

func notes(a answers.Answer) string { return a.Say + "\n" + strings.Join(a.Cautions, "\n") }

const (
	drainWindow = "      - { for: drain window, across: 6, up: 6, left: 1, bottom: 0 }\n"
	backHole    = "hole: { pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left }"
	liftOut     = "    notches:\n      - { for: lift-out panel, across: 12, up: 12, left: 0, bottom: 0 }\n"
)

// What is in each other's way is told with how much, and what the file leaves open
// is asked for. Depths by hand from the sizes in the file.
func TestClash(t *testing.T) {
	for _, c := range []struct {
		name  string
		data  []byte
		pairs []string
		want  answers.Verdict
		says  string
	}{
		{"as it is", examples.CorridorCabinet, nil, answers.Holds, "nothing is in the way"},
		{"the other", examples.CounterWall, nil, answers.Tight, "0.125 in at each side"},
		// The wall's lower edge at 120 comes down over the standpipe, whose lip is at
		// 150: the window, now from 120 to 210, makes room for it and its strainer, unless that is 100 long.
		{"grid lower", examples.CorridorCabinet, []string{"bottom: 190 mm", "bottom: 120 mm"}, answers.Tight, "may be in each other's way by up to"},
		{"grid lower, no window", examples.CorridorCabinet, []string{"bottom: 190 mm", "bottom: 120 mm", drainWindow, ""}, answers.Unknown, "The wall grid and the standpipe of the main drain are in each other's way by 18.6 mm"},
		// 50 - 10 to 60 before the wall's front at 52, 10 of its height over the top at 940.
		{"manifold in the wall", examples.CorridorCabinet, []string{"out: 65 mm", "out: 46 mm", "height: 962 mm\n", "height: 930 mm\n"}, answers.Fails, "in each other's way by 16.0 mm"},
		{"manifold just in the wall", examples.CorridorCabinet, []string{"out: 65 mm", "out: 60 mm", "height: 962 mm\n", "height: 930 mm\n"}, answers.Unknown, "in each other's way by 2.0 mm (lines 101 and 137), as far as they can be drawn"},
		{"manifold close to the wall", examples.CorridorCabinet, []string{"out: 65 mm", "out: 64 mm", "height: 962 mm\n", "height: 930 mm\n"}, answers.Tight, "are drawn 2.0 mm apart"},
		{"wall too wide", examples.CorridorCabinet, []string{"across: 54", "across: 60"}, answers.Fails, "The wall grid is 12.0 mm longer than the inside"},
		{"branch out at the front", examples.CorridorCabinet, []string{"out: 90 mm, up: 600 mm, left: 200 mm", "out: 500 mm, up: 600 mm, left: 200 mm"}, answers.Fails, "The branch reaches 108.0 mm out of the inside"},
		{"sump larger than the stand", examples.CorridorCabinet, []string{"stand: { width: 900 mm", "stand: { width: 580 mm"}, answers.Fails, "its inside is 20.0 mm larger side to side"},
		{"sump as deep as the stand", examples.CorridorCabinet, []string{"depth: 450 mm, weight: 34 kg", "depth: 420 mm, weight: 34 kg"}, answers.Tight, "20.0 mm are left front to back"},
		{"sump nowhere", examples.CorridorCabinet, []string{"carries-sump: yes", "carries-sump: no"}, answers.Unknown, "sump.left and sump.front"},
		{"sump beside it", examples.CorridorCabinet, []string{"carries-sump: yes", "carries-sump: no", "sump:\n", "sump:\n  left: -700 mm\n  front: 420 mm\n"}, answers.Holds, "nothing is in the way"},
		{"sump in the stand's leg", examples.CorridorCabinet, []string{"carries-sump: yes", "carries-sump: no", "sump:\n", "sump:\n  left: -500 mm\n  front: 420 mm\n"}, answers.Fails, "where the stand or the enclosure is"},
		// The dam moved to the front edge and made higher than the doors' lower edge.
		{"door does not shut", examples.CorridorCabinet, []string{"  height: 200 mm\n  thickness: 6 mm\n  set-back: 30 mm", "  height: 220 mm\n  thickness: 6 mm\n  set-back: 0 mm", "depth: 408 mm", "depth: 438 mm", "dam pane, at: dam, width: 886 mm, height: 200 mm", "dam pane, at: dam, width: 886 mm, height: 220 mm"}, answers.Fails, "does not shut"},
		{"inside and panes too wide", examples.CorridorCabinet, []string{"inside: { width: 888 mm", "inside: { width: 890 mm"}, answers.Fails, "2.0 mm more than the outside"},
		{"dam as wide as the inside", examples.CorridorCabinet, []string{"inside: { width: 888 mm", "inside: { width: 886 mm"}, answers.Tight, "leaves 0.0 mm at each side"},
		{"two sizes of one dam", examples.CorridorCabinet, []string{"dam pane, at: dam, width: 886 mm, height: 200 mm", "dam pane, at: dam, width: 886 mm, height: 210 mm"}, answers.Unknown, "which is it?"},
		{"a grid without a height", examples.CorridorCabinet, []string{"    bottom: 190 mm\n", ""}, answers.Holds, "Not drawn, since the file does not place it: wall grid (grid[wall grid].bottom)"},
		{"false bottom over the strainer", examples.CounterWall, []string{liftOut, ""}, answers.Unknown, "The false bottom and the strainer of the side drain are in each other's way"},
	} {
		a := find(places(t, c.data, c.pairs...), "clash")
		if a.Verdict != c.want || !strings.Contains(notes(a), c.says) {
			t.Errorf("%s: %v, limited by %q on line %d\n%s", c.name, a.Verdict, a.Limiting, a.LimitingLine, notes(a))
		}
		if a.LimitingLine == 0 || a.Limit.Mark == "" || len(a.Figures) == 0 {
			t.Errorf("%s: line %d, %+v, %d figures", c.name, a.LimitingLine, a.Limit, len(a.Figures))
		}
	}
}

// An arm, a notch and the room over the sump, by hand: the cabinet's farthest
// corner lies 444 behind the opening and 215 under its lower edge, 8 beside it.
func TestReach(t *testing.T) {
	a := find(places(t, examples.CorridorCabinet), "reach")
	found := false
	for _, f := range a.Figures {
		if strings.HasPrefix(f.Name, "farthest bottom corner") {
			found = true
			if want := math.Sqrt(444*444 + 215*215 + 8*8); math.Abs(f.Likely-want) > 0.5 {
				t.Errorf("corner %g mm in, by hand %g", f.Likely, want)
			}
		}
	}
	if !found {
		t.Error("no corner")
	}
	for _, c := range []struct {
		name  string
		data  []byte
		pairs []string
		want  answers.Verdict
		says  string
	}{
		{"as it is", examples.CorridorCabinet, nil, answers.Holds, "within reach"},
		{"the other", examples.CounterWall, nil, answers.Tight, "a short arm does not get there"},
		{"a short arm", examples.CorridorCabinet, []string{"place:\n", "place:\n  reach: 300 mm\n"}, answers.Fails, "an arm reaches 300 mm"},
		{"a long arm", examples.CounterWall, []string{"place:\n", "place:\n  reach: 30 in\n"}, answers.Tight, "must be lifted out first"},
		{"no notch", examples.CounterWall, []string{liftOut, ""}, answers.Tight, "The bulkhead of the side drain lies behind or under the false bottom"},
		{"a small notch", examples.CounterWall, []string{"across: 12, up: 12, left: 0, bottom: 0", "across: 7, up: 7, left: 0, bottom: 0"}, answers.Tight, "through a notch 3 1/2 in wide"},
		{"a slit", examples.CorridorCabinet, []string{"opening: { width: 870 mm, height: 810 mm }", "opening: { width: 870 mm, height: 80 mm }"}, answers.Fails, "The opening is 80 mm wide or high"},
		{"a tall sump", examples.CorridorCabinet, []string{"depth: 400 mm, height: 320 mm", "depth: 400 mm, height: 620 mm"}, answers.Fails, "the sump must come out"},
		{"a rather tall sump", examples.CorridorCabinet, []string{"depth: 400 mm, height: 320 mm", "depth: 400 mm, height: 540 mm"}, answers.Unknown, "measure the main pump"},
		{"no room round the nut", examples.CorridorCabinet, []string{backHole, "hole: { pane: back, size: 44 mm, up: 48 mm, in: 110 mm, edge: left }"}, answers.Tight, "hand or spanner wants 25 mm"},
	} {
		a := find(places(t, c.data, c.pairs...), "reach")
		if a.Verdict != c.want || !strings.Contains(notes(a), c.says) {
			t.Errorf("%s: %v, limited by %q on line %d\n%s", c.name, a.Verdict, a.Limiting, a.LimitingLine, notes(a))
		}
	}
}

// Soft hose: 22 mm outside wants 88 to 176 mm. Stiff tube of 16 mm outside and 13.6
// inside wants 16 x 16 / 1.2 = 213 mm.
func TestBend(t *testing.T) {
	const long = "{ part: vinyl hose 16 mm, length: 2.35 m, bend: 180 mm }"
	for _, c := range []struct {
		name  string
		pairs []string
		want  answers.Verdict
		says  string
	}{
		{"as it is", nil, answers.Holds, "wider than its hose wants"},
		{"too tight", []string{long, "{ part: vinyl hose 16 mm, length: 2.35 m, bend: 80 mm }"}, answers.Fails, "less than 4 times its outside"},
		{"perhaps", []string{long, "{ part: vinyl hose 16 mm, length: 2.35 m, bend: 120 mm }"}, answers.Tight, "bend a sample"},
		{"not measured", []string{long, "{ part: vinyl hose 16 mm, length: 2.35 m }"}, answers.Unknown, "Measure the tightest bend"},
		{"stiff tube", []string{long, "{ part: irrigation tube 16 mm, length: 2.35 m, bend: 210 mm }"}, answers.Fails, "it wants 213 mm"},
		{"stiff tube, wide", []string{long, "{ part: irrigation tube 16 mm, length: 2.35 m, bend: 215 mm }"}, answers.Holds, "wider than its hose wants"},
	} {
		a := find(places(t, examples.CorridorCabinet, c.pairs...), "bend")
		if a.Verdict != c.want || !strings.Contains(notes(a), c.says) {
			t.Errorf("%s: %v\n%s", c.name, a.Verdict, notes(a))
		}
	}
	for _, a := range places(t, examples.CorridorCabinet,
		"      - { part: vinyl hose 16 mm, length: 0.4 m, bend: 180 mm }\n      - { part: ball valve 16 mm }\n      - { part: vinyl hose 16 mm, length: 2.35 m, bend: 180 mm }\n", "") {
		if a.ID == "bend" {
			t.Errorf("no hose to bend, and: %s", a.Say)
		}
	}
}

// The mirrored cabinet clashes and is reached as the other.
func TestPlacesMirrored(t *testing.T) {
	for i, a := range places(t, examples.CorridorCabinet) {
		b := places(t, examples.CorridorCabinet,
			"in: 450 mm, edge: left", "in: 450 mm, edge: right", "in: 110 mm, edge: left", "in: 110 mm, edge: right",
			"left: 25, bottom: 46", "left: 26, bottom: 46", "left: 1, bottom: 0", "left: 47, bottom: 0", "left: 200 mm", "left: 610 mm")[i]
		if a.Verdict != b.Verdict || math.Abs(a.Score-b.Score) > 1e-9 || a.Say != b.Say {
			t.Errorf("%s: %v %g, mirrored %v %g", a.ID, a.Verdict, a.Score, b.Verdict, b.Score)
		}
	}
}

func BenchmarkPlaces(b *testing.B) {
	s := &answers.Survey{E: trial.Resolved(b, examples.CorridorCabinet, enclosure.Resolve)}
	for b.Loop() {
		s.Places()
	}
}
