package answers

import (
	"slices"
	"strings"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

func accessed(t testing.TB, data []byte, pairs ...string) Answer {
	t.Helper()
	e := trial.Resolved(t, trial.Swap(t, data, pairs...), enclosure.Resolve)
	s, err := NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	_, plan := s.Ready(0)
	a := s.Access(plan)
	s.Opened(&a, plan)
	return a
}

func way(t testing.TB, a Answer, name string) string {
	t.Helper()
	i := slices.IndexFunc(a.Figures, func(f Figure) bool { return f.Name == name })
	if i < 0 {
		t.Fatalf("no %q among %v", name, a.Figures)
	}
	return a.Figures[i].Text
}

const drainWindow = "      - { for: drain window, across: 6, up: 6, left: 1, bottom: 0 }\n"

// Ways of the cabinet, by hand: the dam's top lies 200 mm and the doors' lower edge
// 210 mm up, the lip 150 mm and the window in the grid from 190 to 280 mm. So the
// strainer, 150 to 200 mm up, must be lifted by 50 mm to 60 mm over the dam and out
// under the doors' track or over it, and the pipe under it, from 110 mm, by 90 mm to
// 100 mm. The bar, 820 mm, is longer than half the front that slid doors leave.
func TestWaysOfCabinet(t *testing.T) {
	a := accessed(t, examples.CorridorCabinet)
	if a.Verdict != Holds {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
	for name, want := range map[string]string{
		"strainer of the main drain":  "49 mm up, then forwards; by hand",
		"standpipe of the main drain": "90 mm up, then forwards, after its strainer",
		"drip bar":                    "forwards, with the doors out of their tracks",
		"main pump":                   "320 mm up, then forwards",
	} {
		if got := way(t, a, name); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %q", name, got)
		}
	}
	// A bar of less than half the front comes out past slid doors.
	short := accessed(t, examples.CorridorCabinet, "    length: 820 mm\n", "    length: 400 mm\n    left: 30 mm\n", "count: 27, pitch: 30 mm", "count: 13, pitch: 30 mm")
	if got := way(t, short, "drip bar"); strings.Contains(got, "tracks") {
		t.Errorf("short bar: %q", got)
	}
}

// buried is the cabinet with its drain behind a panel from wall to wall.
var buried = []string{
	drainWindow, "", "    bottom: 190 mm\n", "    bottom: 20 mm\n", "stand-off: 40 mm", "stand-off: 80 mm", "out: 65 mm", "out: 105 mm",
	"across: 54\n", "across: 59\n", "up: 50\n", "up: 66\n", "height: 260 mm", "height: 430 mm", "across: 3, up: 4, left: 25, bottom: 46", "across: 2, up: 4, left: 28, bottom: 61",
}

// Without its window the drain is behind the grid for good: what keeps it in is named,
// with the step after which it does, and a window is the way to free it.
func TestLostBehindTheGrid(t *testing.T) {
	pairs := buried
	a := accessed(t, examples.CorridorCabinet, pairs...)
	if a.Verdict != Fails || !strings.Contains(a.Say, "the wall grid") || !strings.Contains(a.Say, `"Bond wall grid with its stand-offs", `) {
		t.Errorf("%v: %s: %v", a.Verdict, a.Say, a.Figures)
	}
	if len(a.Fixes) == 0 {
		t.Fatal("no fix")
	}
	data := trial.Swap(t, examples.CorridorCabinet, pairs...)
	for _, f := range a.Fixes {
		text, err := design.Apply(data, f.Edits)
		if err != nil {
			t.Fatal(err)
		}
		if again := accessed(t, text); again.Verdict != f.Verdict || again.Score <= a.Score {
			t.Errorf("%s: said to come to %v, comes to %v: %s", f.Do, f.Verdict, again.Verdict, again.Say)
		}
	}
}

// What comes out itself is taken out first: in the last test's cabinet with a wider
// notch for the hose, the drain comes through that once the bar is off.
func TestBehindWhatComesOut(t *testing.T) {
	pairs := slices.Clone(buried)
	k := slices.Index(pairs, "across: 2, up: 4, left: 28, bottom: 61")
	pairs[k] = "across: 3, up: 4, left: 25, bottom: 61"
	a := accessed(t, examples.CorridorCabinet, pairs...)
	if got := way(t, a, "strainer of the main drain"); !strings.Contains(got, "after the drip bar") {
		t.Errorf("%q", got)
	}
}

// Foam is masked before a strainer that it would bury; a window in the panel under it
// does as well, as written.
func TestWindowInFoam(t *testing.T) {
	a := accessed(t, examples.CounterWall)
	if a.Verdict != Tight || !strings.Contains(a.Say, "leaves a window") || len(a.Fixes) == 0 {
		t.Fatalf("%v with %d fixes: %s", a.Verdict, len(a.Fixes), a.Say)
	}
	text, err := design.Apply(examples.CounterWall, a.Fixes[0].Edits)
	if err != nil {
		t.Fatal(err)
	}
	if again := accessed(t, text); again.Verdict != Holds {
		t.Errorf("%s: %v: %s", a.Fixes[0].Do, again.Verdict, again.Say)
	}
}

// A standpipe in the floor stands in its own flange, which is no obstacle to it.
func TestStandpipeInTheFloor(t *testing.T) {
	a := accessed(t, design.Starter())
	if got := way(t, a, "standpipe of the main drain"); !strings.Contains(got, "up, then forwards") || a.Verdict != Holds {
		t.Errorf("%v: %q", a.Verdict, got)
	}
}

// With a heavy root before its window the strainer goes round under the panel: too many
// pulls for a hand.
func TestWoodInTheWay(t *testing.T) {
	pairs := []string{"name: main root, on: wall grid, weight: 2.5 kg, out: 110 mm, up: 420 mm", "name: main root, on: wall grid, weight: 30 kg, out: 200 mm, up: 120 mm, left: 60 mm"}
	a := accessed(t, examples.CorridorCabinet, pairs...)
	if a.Verdict != Tight || !strings.Contains(a.Say, "strainer of the main drain takes 5 pulls to come out, round the main root") {
		t.Fatalf("%v: %s: %v", a.Verdict, a.Say, a.Figures)
	}
	if len(a.Fixes) == 0 || !strings.HasPrefix(a.Fixes[0].Do, "hang the main root") {
		t.Fatalf("%v", a.Fixes)
	}
	text, err := design.Apply(trial.Swap(t, examples.CorridorCabinet, pairs...), a.Fixes[0].Edits)
	if err != nil {
		t.Fatal(err)
	}
	if again := accessed(t, text); again.Verdict != a.Fixes[0].Verdict || again.Score <= a.Score {
		t.Errorf("%s: %v: %s", a.Fixes[0].Do, again.Verdict, again.Say)
	}
}

// A sump right under the stand's top lets no pump out; a lower one does.
func TestPumpUnderTheStand(t *testing.T) {
	a := accessed(t, examples.CorridorCabinet, "depth: 400 mm, height: 320 mm", "depth: 400 mm, height: 740 mm")
	if a.Verdict != Fails || !strings.Contains(a.Say, "main pump") {
		t.Errorf("%v: %s", a.Verdict, a.Say)
	}
}

// A lamp that hangs inside behind a panel is kept in by it; one above is lifted off.
func TestLampsOut(t *testing.T) {
	const lamp = "lamp, power: 24 W, hours: 11 h, price: 60 USD }"
	if got := way(t, accessed(t, examples.CounterWall), "lamp"); got != "up, off the top; its plug first" {
		t.Errorf("%q", got)
	}
	a := accessed(t, examples.CounterWall, lamp, "lamp, power: 24 W, sits: inside, up: 33 in, out: 9 in, length: 14 in }")
	if got := way(t, a, "lamp"); !strings.HasPrefix(got, "forwards") {
		t.Errorf("%q", got)
	}
	a = accessed(t, examples.CounterWall, lamp, "lamp, power: 24 W, sits: inside, up: 12 in, out: 1/2 in, length: 17 in }")
	if got := way(t, a, "lamp"); !strings.HasPrefix(got, "kept in by") && !strings.HasPrefix(got, "not known") {
		t.Errorf("%q", got)
	}
}

func BenchmarkAccess(b *testing.B) {
	e := trial.Resolved(b, examples.CorridorCabinet, enclosure.Resolve)
	s, err := NewSurvey(e)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s.Access(nil)
	}
}

// Whatever section a file leaves out, there is an answer: with a verdict, words, and
// texts for all its figures.
func TestAnswersWithoutSections(t *testing.T) {
	if testing.Short() {
		t.Skip("answers many designs")
	}
	tried := 0
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		for _, section := range []string{"grid", "dam", "foam", "stand", "hardscape", "drains", "budget", "lights", "coat", "plants", "sealant", "place", "manifolds", "bridges"} {
			d, list := design.Read("example", withoutSection(string(file), section))
			if list.HasErrors() {
				continue
			}
			e, list := enclosure.Resolve(d, trial.Parts(t), nil)
			if list.HasErrors() {
				continue
			}
			s, err := NewSurvey(e)
			if err != nil {
				continue
			}
			tried++
			ready, plan := s.Ready(0)
			access := s.Access(plan)
			s.Opened(&access, plan)
			for _, a := range []Answer{ready, access} {
				if a.Say == "" || a.Verdict == Unknown && a.ID == "ready" || len(a.Figures) > 0 && a.Key >= len(a.Figures) {
					t.Errorf("without %s: %s: %v: %q, figure %d of %d", section, a.ID, a.Verdict, a.Say, a.Key, len(a.Figures))
				}
				for _, f := range a.Figures {
					if f.Name == "" || f.Text == "" {
						t.Errorf("without %s: %s: %+v", section, a.ID, f)
					}
				}
			}
		}
	}
	if tried < 15 {
		t.Errorf("only %d designs", tried)
	}
}

// withoutSection takes a section of the first level out of a file.
func withoutSection(text, key string) []byte {
	var out strings.Builder
	in := false
	for line := range strings.Lines(text) {
		if line[0] != ' ' && line[0] != '#' && line[0] != '\n' {
			in = strings.HasPrefix(line, key+":")
		}
		if !in {
			out.WriteString(line)
		}
	}
	return []byte(out.String())
}
