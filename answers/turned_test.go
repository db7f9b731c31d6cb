package answers

import (
	"math"
	"strings"
	"testing"

	"rillwright/examples"
)

// The mapping against turning a box: an upright tank has its open top at z = 1 and
// its bottom at z = -1, long sides at y, ends at x. The turns are rotations that
// bring the open top to the front, y = 1.
func TestTurnedToByRotation(t *testing.T) {
	type vec [3]int
	upright := map[vec]oldPane{{0, 0, -1}: oldBase, {0, 1, 0}: oldLong, {0, -1, 0}: oldLong, {1, 0, 0}: oldEnd, {-1, 0, 0}: oldEnd, {0, 0, 1}: oldTop}
	faces := map[vec]string{{0, 0, -1}: "bottom", {0, 1, 0}: "front", {0, -1, 0}: "back", {1, 0, 0}: "right", {-1, 0, 0}: "left", {0, 0, 1}: "top"}
	aboutX := func(v vec) vec { return vec{v[0], v[2], -v[1]} } // z to y
	aboutY := func(v vec) vec { return vec{v[2], v[1], -v[0]} } // z to x, x to -z
	aboutZ := func(v vec) vec { return vec{-v[1], v[0], v[2]} } // x to y
	for turned, turn := range map[string]func(vec) vec{
		"upright":     func(v vec) vec { return v },
		"on its back": aboutX,
		"on end":      func(v vec) vec { return aboutZ(aboutY(v)) },
	} {
		if turned != "upright" && turn(vec{0, 0, 1}) != (vec{0, 1, 0}) {
			t.Fatalf("%s: the open top is not at the front", turned)
		}
		for from, old := range upright {
			face := faces[turn(from)]
			got, ok := turnedTo(turned, face)
			if old == oldTop {
				if ok || openFace(turned) != face {
					t.Errorf("%s: the open top is at the %s: %v, %v", turned, face, got, ok)
				}
				continue
			}
			if !ok || got != old {
				t.Errorf("%s: the old %s is at the %s, told %v, %v", turned, old, face, got, ok)
			}
		}
	}
}

// The demo by hand: 18 1/4 by 36 3/16 in less a rim of 3/4 in all round.
func TestTurnedByHand(t *testing.T) {
	a := theAnswer(t, holesOf(t, examples.CounterWall), "turned")
	for name, want := range map[string]string{
		"clear opening by its rim": "16 3/4 in by 34 11/16 in",
		"now the back":             "the old bottom: back",
		"now the left side":        "the old long side: left side",
		"now the floor":            "the old end: floor pane",
		"now the front":            "the old open top",
		"dam goes in":              "slantwise, one end first",
		"wall grid goes in":        "straight",
	} {
		if f := theFigure(t, a, name); f.Text != want {
			t.Errorf("%s: %s, want %s", name, f.Text, want)
		}
	}
}

func TestTurnedVerdicts(t *testing.T) {
	const full = "on a full board"
	board := []string{"rests: on its rim", "rests: " + full}
	with := func(pairs ...string) []string { return append(pairs, board...) }
	const back = "glass: toughened, was: bottom"
	const opening = "opening: { width: 16 3/4 in, height: 34 1/2 in }"
	const brace = "  braces:\n    - { name: old brace, pane: left side, to: right side, edge: right, runs: across, width: 2 in, thickness: 1/4 in, of: glass }\n  panes:\n"
	for _, c := range []struct {
		name  string
		pairs []string
		want  Verdict
		says  string
	}{
		{"on its rim", nil, Tight, "Put a board under all of it"},
		{"on a board", with(), Holds, "Every pane is where"},
		{"nothing said of what it rests on", []string{"  rests: on its rim ", "  # "}, Unknown, "enclosure.rests"},
		{"how it stands is not said", []string{"  turned: on end\n", ""}, Unknown, "enclosure.turned"},
		{"the words contradict", with(back, "glass: toughened, was: end"), Fails, `Pane "back" was the old end (line 41) and stands at the back`},
		{"a word that is no pane", with(back, "glass: toughened, was: window"), Unknown, "no pane of a tank"},
		{"turned otherwise", with("turned: on end", "turned: on its back"), Fails, "widest from left to right"},
		{"a pane of another size", with("name: top pane, at: top, width: 18 1/4 in, height: 16 15/16 in", "name: top pane, at: top, width: 18 1/4 in, height: 12 in"), Fails, "it is another pane"},
		{"no pane at the top", with("    - { name: top pane, at: top, width: 18 1/4 in, height: 16 15/16 in, thickness: 1/4 in, glass: annealed, was: end }\n", ""), Unknown, "top (the old end)"},
		{"an opening larger than the rim leaves", with(opening, "opening: { width: 17 1/2 in, height: 34 1/2 in }"), Fails, "measure it again"},
		{"an opening with something in it", with(opening, "opening: { width: 16 3/4 in, height: 30 in }"), Holds, "something else stands in it"},
		{"no opening measured", with("  "+opening+"\n", ""), Holds, "enclosure.opening"},
		// In the middle of 36 3/16 in, 11/32 in of it below the inside bottom.
		{"a brace across", with("  panes:\n", brace), Tight, "leaves 16 3/4 in at most"},
		{"an opening too narrow for the grid", with(opening, "opening: { width: 5 in, height: 10 in }"), Fails, "The wall grid, 16 1/2 in by 26 in (line"},
		{"an opening for it edge on", with(opening, "opening: { width: 5 in, height: 20 in }"), Tight, "The wall grid (line"},
		{"nobody has looked at the old bottom", with(back, "glass: not checked, was: bottom"), Holds, "Nobody has looked"},
		{"and it is to be drilled", with(back, "glass: not checked, was: bottom", "hole: { pane: left side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }", "hole: { pane: back, size: 1 1/2 in, up: 3 in, in: 3 in, edge: left }"), Unknown, "The template of side drain in it is refused"},
		{"a way in toughened glass", with("name: riser hole, pane: left side", "name: riser hole, pane: back", "in: 2 1/2 in, edge: rear", "in: 2 1/2 in, edge: left"), Fails, "The template of riser hole in it is refused"},
		{"said to be annealed", with(back, "glass: annealed, was: bottom"), Holds, "crossed polarisers first"},
	} {
		a := theAnswer(t, holesOf(t, examples.CounterWall, c.pairs...), "turned")
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
	}
	for _, a := range holesOf(t, examples.CorridorCabinet) {
		if a.ID == "turned" {
			t.Error("an enclosure made from panes is not turned")
		}
	}
}

// By hand: a dam of 17 1/2 in through 16 3/4 in into a room of 17 3/4 by 15 1/2 in.
// With one end behind the frame 17 1/4 in are free: the cosine of its slant is at
// most that over 17 1/2, and it is then 2.9 in deep. In a room no deeper than 2 in,
// or none wider than the opening and it, it does not go so.
func TestThrough(t *testing.T) {
	dam := rigid{w: 17.5, h: 7, d: 0}
	for _, c := range []struct {
		name string
		r    rigid
		w, h float64
		room [3]float64
		want entry
	}{
		{"straight", dam, 17.6, 34, [3]float64{17.75, 35, 15.5}, straight},
		{"slantwise", dam, 16.75, 34.5, [3]float64{17.75, 35.5, 15.5}, slanting},
		{"2.95 in deep is enough", dam, 16.75, 7, [3]float64{17.75, 35.5, 2.95}, slanting},
		{"2.9 in deep is not, but edge on it goes in", dam, 16.75, 7, [3]float64{17.75, 35.5, 2.9}, turnedIn},
		{"turned upright, and laid down inside", dam, 16.75, 34.5, [3]float64{17.75, 35.5, 2.9}, turnedIn},
		{"too wide for the room", dam, 16.75, 34.5, [3]float64{17.4, 35.5, 15.5}, barred},
		{"a rod, one end first", rigid{w: 17.5, h: 0.8, d: 0.8}, 5, 5, [3]float64{17.75, 35.5, 15.5}, slanting},
		{"a rod in a shallow room", rigid{w: 17.5, h: 0.8, d: 0.8}, 5, 5, [3]float64{17.75, 35.5, 12}, turnedIn},
		{"a board that is too large both ways", rigid{w: 17.5, h: 30, d: 8}, 5, 5, [3]float64{17.75, 35.5, 15.5}, barred},
	} {
		if got := c.r.through(c.w, c.h, c.room); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// A wider opening is never worse.
	for _, r := range []rigid{dam, {w: 16.5, h: 26, d: 0.4}, {w: 17, h: 0.4, d: 12}} {
		last := barred
		for w := 1.0; w < 17.7; w += 0.05 {
			if got := r.through(w, 34.5, [3]float64{17.75, 35.5, 15.5}); got > last {
				t.Fatalf("%+v at %g: %v after %v", r, w, got, last)
			} else {
				last = got
			}
		}
	}
	if deep := 17.5 * math.Sin(math.Acos(17.25/17.5)); deep < 2.9 || deep > 2.95 {
		t.Errorf("by hand %g in deep", deep)
	}
}
