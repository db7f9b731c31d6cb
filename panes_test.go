package rillwright

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
)

const (
	metricDam  = "  thickness: 6 mm\n  set-back"
	metricPane = "height: 200 mm, thickness: 6 mm, glass: annealed"
)

func paneFigure(t *testing.T, a *answers.Answer, name string) answers.Figure {
	t.Helper()
	for _, f := range a.Figures {
		if strings.HasPrefix(f.Name, name) {
			return f
		}
	}
	t.Fatalf("%s has no figure %q", a.ID, name)
	return answers.Figure{}
}

// What the file says of panes comes out in the verdict, and what it leaves open is
// asked for.
func TestPaneVerdicts(t *testing.T) {
	for _, c := range []struct {
		name  string
		pairs []string
		id    string
		want  answers.Verdict
		says  string
	}{
		{"a place nobody gives", []string{"name: back, at: back", "name: pane 2", "pane: back,", "pane: pane 2,"}, "pane[pane 2]", answers.Unknown, "write at for it"},
		{"no thickness of the dam", []string{metricDam, "  set-back", "    - { name: dam pane, at: dam, width: 886 mm, " + metricPane + " }\n", ""}, "dam", answers.Unknown, "dam.thickness"},
		{"a push at the free edge", nil, "dam", answers.Tight, "slips or leans"},
		{"a thick dam", []string{metricDam, "  thickness: 10 mm\n  set-back"}, "dam", answers.Holds, "Yes"},
		{"toughened", []string{metricPane, "height: 200 mm, thickness: 6 mm, glass: toughened"}, "dam", answers.Holds, "Yes"},
		{"a floor on its rim", []string{"rests: on a full board", "rests: on its rim"}, "pane[base]", answers.Holds, "its rim alone"},
		{"a thin floor on its rim", []string{"rests: on a full board", "rests: on its rim", "height: 450 mm, thickness: 8 mm", "height: 450 mm, thickness: 4 mm"}, "pane[base]", answers.Fails, "stress may be"},
		{"a thin floor on nobody knows what", []string{"  rests: on a full board\n", "", "height: 450 mm, thickness: 8 mm", "height: 450 mm, thickness: 4 mm"}, "pane[base]", answers.Unknown, "enclosure.rests"},
		{"a floor on a board", nil, "pane[base]", answers.Holds, "full board"},
		{"a slot with sharp corners", []string{"riser hole, pane: back, size: 26 mm", "riser hole, pane: back, width: 40 mm, height: 26 mm"}, "pane[back]", answers.Unknown, "sharp corners"},
		{"a slot with round ones", []string{"riser hole, pane: back, size: 26 mm", "riser hole, pane: back, width: 40 mm, height: 26 mm, corner: 8 mm"}, "pane[back]", answers.Holds, "Yes"},
		{"a hole that touches the edge", []string{"up: 110 mm, in: 110 mm", "up: 110 mm, in: 22 mm"}, "pane[back]", answers.Fails, "without end"},
		{"plastic", []string{metricDam, "  thickness: 15 mm\n  set-back", metricPane, "height: 200 mm, thickness: 15 mm, glass: acrylic"}, "dam", answers.Tight, "bows"},
		{"water outside, the pool drained", []string{"  set-back: 30 mm", "  set-back: 30 mm\n  water-outside: 1 m"}, "dam", answers.Fails, "pool drained"},
		{"a dam that nothing holds", []string{metricPane, metricPane + ", edges: { bottom: free, left: free, right: free }"}, "dam", answers.Unknown, "nothing holds"},
		{"a side that swings", []string{"name: side, at: sides", "name: side, edges: { left: free }, at: sides"}, "pane[side]", answers.Unknown, "can swing"},
		{"what hangs on its rim", []string{
			metricDam, "  thickness: 3 mm\n  set-back", metricPane, "height: 200 mm, thickness: 3 mm, glass: toughened, edges: { top: rim }",
			"  ways:", "  rims:\n    - { at: top, of: steel, flat: 40 mm, wall: 3 mm }\n  ways:",
		}, "dam", answers.Tight, "hangs on the rim"},
		{"thin plastic", []string{metricPane, "height: 200 mm, thickness: 6 mm, glass: acrylic"}, "dam", answers.Fails, ""},
	} {
		a := find(structures(t, trial.Swap(t, examples.CorridorCabinet, c.pairs...)), c.id)
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
	}
}

// The dam's doubts are each moved to their ends: a rim along its top that holds or
// does not, plastic that creeps.
func TestPaneMatters(t *testing.T) {
	rim := []string{
		"width: 886 mm, " + metricPane, "width: 886 mm, " + metricPane + ", edges: { top: rim }",
		"  ways:", "  rims:\n    - { at: top, of: aluminium, flat: 25 mm, wall: 2 mm }\n  ways:",
	}
	a := find(structures(t, trial.Swap(t, examples.CorridorCabinet, rim...)), "dam")
	held, level := false, false
	for i, m := range a.Matters {
		held = held || strings.Contains(m.What, "really holds") && m.Swing > 0.2
		level = level || strings.Contains(m.What, "how high the water stands") && m.Swing > 0.2
		if i > 0 && m.Swing > a.Matters[i-1].Swing {
			t.Errorf("%s moves it by %g, after one that moves it by %g", m.What, m.Swing, a.Matters[i-1].Swing)
		}
	}
	if !held || !level {
		t.Errorf("rim %v, level %v among %+v", held, level, a.Matters)
	}
	plain := find(structures(t, examples.CorridorCabinet), "dam")
	if b, p := paneFigure(t, &a, "bow, pool full"), paneFigure(t, &plain, "bow, pool full"); b.High >= p.Low {
		t.Errorf("with a rim it bows %s, without %s", b.Text, p.Text)
	}
	plastic := find(structures(t, trial.Swap(t, examples.CorridorCabinet, metricPane, "height: 200 mm, thickness: 6 mm, glass: acrylic")), "dam")
	creeps := false
	for _, m := range plastic.Matters {
		creeps = creeps || strings.Contains(m.What, "creeps") && m.Swing > 0.2
	}
	if !creeps {
		t.Errorf("plastic does not creep in %+v", plastic.Matters)
	}
	// Glass in its place is glass.
	if p, g := paneFigure(t, &plastic, "in 8 mm glass"), paneFigure(t, &plain, "in 8 mm glass"); p.Text != g.Text {
		t.Errorf("for a dam of plastic %s, of glass %s", p.Text, g.Text)
	}
}

// The same design on a tape in mm and in inches, glass measured, not named.
func TestPanesInOtherUnits(t *testing.T) {
	mm := []string{metricDam, "  thickness: 6.1 mm\n  set-back", "height: 1040 mm, thickness: 6 mm", "height: 1040 mm, thickness: 6.1 mm"}
	in := func(v float64) string { return fmt.Sprintf("%.15g in", v/25.4) }
	inches := []string{
		metricDam, "  thickness: " + in(6.1) + "\n  set-back",
		"width: 900 mm, height: 1040 mm, thickness: 6 mm", "width: " + in(900) + ", height: " + in(1040) + ", thickness: " + in(6.1),
		"width: 443 mm, height: 1040 mm, thickness: 6 mm", "width: " + in(443) + ", height: " + in(1040) + ", thickness: " + in(6.1),
		"dam:\n  width: 886 mm\n  height: 200 mm", "dam:\n  width: " + in(886) + "\n  height: " + in(200),
	}
	a := build(t, trial.Swap(t, examples.CorridorCabinet, mm...))
	b := build(t, trial.Swap(t, examples.CorridorCabinet, inches...))
	u := study.Glass(a.Enclosure, a.Enclosure.Likely(), a.Survey.Likely.PoolLevel)
	v := study.Glass(b.Enclosure, b.Enclosure.Likely(), a.Survey.Likely.PoolLevel)
	if len(u) != len(v) || len(u) < 4 {
		t.Fatalf("%d and %d panes", len(u), len(v))
	}
	for i := range u {
		for k, p := range [][2]study.PaneState{{u[i].Running, v[i].Running}, {u[i].Brim[0], v[i].Brim[0]}, {u[i].Brim[2], v[i].Brim[2]}, {u[i].Knock, v[i].Knock}} {
			if math.Abs(p[0].Stress-p[1].Stress) > 1e-7*p[0].Stress || math.Abs(p[0].Bow-p[1].Bow) > 1e-7*p[0].Bow {
				t.Errorf("%s, state %d: %g Pa and %g m, in inches %g and %g", u[i].Name, k, p[0].Stress, p[0].Bow, p[1].Stress, p[1].Bow)
			}
		}
	}
}

// Glass on hand is offered for the dam, and said to be too small if it is.
func TestDamFromStock(t *testing.T) {
	stock := "stock:\n  - { what: glass offcut, count: 1, size: 950 x 210 x 8 mm }\n  - { what: old pane, count: 1, size: 600 x 300 x 10 mm }\n  - { what: window glass, count: 1, size: 36 in x 9 in x 3/8 in }"
	a := find(structures(t, trial.Swap(t, examples.CorridorCabinet, "stock:", stock)), "dam")
	f := paneFigure(t, &a, "in your glass offcut")
	sold := paneFigure(t, &a, "in 8 mm glass")
	if f.High != sold.High || !strings.Contains(f.Text, "bow") {
		t.Errorf("offcut %s, sold %s", f.Text, sold.Text)
	}
	if f := paneFigure(t, &a, "in your old pane"); f.Text != "too small for the dam" {
		t.Errorf("old pane: %s", f.Text)
	}
	// 3/8 in glass measures 9.02 mm at least, thicker than 8 mm.
	if f := paneFigure(t, &a, "in your window glass"); f.High >= sold.High {
		t.Errorf("window glass: %s", f.Text)
	}
}

// What is called a fix does what it says when written into the file.
func TestPaneFixesInTheFile(t *testing.T) {
	fixed := func(id string, data []byte) answers.Answer {
		r, err := Build("demo", data, Options{Structure: true})
		if err != nil || r.Findings.HasErrors() {
			t.Fatal(err, r.Findings)
		}
		return *answerIn(t, r.Answers, id)
	}
	a := fixed("dam", examples.CorridorCabinet)
	if len(a.Fixes) < 3 {
		t.Fatalf("%d fixes: %+v", len(a.Fixes), a.Fixes)
	}
	written := map[string][]string{
		"make the dam of 8 mm glass":           {metricDam, "  thickness: 8 mm\n  set-back", metricPane, "height: 200 mm, thickness: 8 mm, glass: annealed"},
		"bond a strip of glass":                {"  ways:", "  braces:\n    - { name: edge strip, pane: dam, edge: top, runs: along, width: 50 mm, thickness: 6 mm, of: glass }\n  ways:"},
		"have the dam made of laminated glass": {metricDam, "  thickness: 12.76 mm\n  set-back", metricPane, "height: 200 mm, thickness: 12.76 mm, ply: 6 mm, glass: laminated"},
	}
	seen := 0
	for _, f := range a.Fixes {
		for do, pairs := range written {
			if !strings.HasPrefix(f.Do, do) {
				continue
			}
			seen++
			b := fixed("dam", trial.Swap(t, examples.CorridorCabinet, pairs...))
			if b.Verdict != f.Verdict || paneFigure(t, &b, "stress if somebody pushes").Text != f.After {
				t.Errorf("%s: said to come to %s, %v; comes to %s, %v", f.Do, f.After, f.Verdict, paneFigure(t, &b, "stress if somebody pushes").Text, b.Verdict)
			}
		}
	}
	if seen < 2 {
		t.Errorf("of the fixes %+v only %d were tried", a.Fixes, seen)
	}
	// A floor pane that fails on its rim is told to lie on a board.
	floor := fixed("pane[base]", trial.Swap(t, examples.CorridorCabinet, "rests: on a full board", "rests: on its rim", "height: 450 mm, thickness: 8 mm", "height: 450 mm, thickness: 4 mm"))
	board := false
	for _, f := range floor.Fixes {
		board = board || strings.Contains(f.Do, "board") && f.Verdict == answers.Holds
	}
	if !board {
		t.Errorf("%+v", floor.Fixes)
	}
	// A dam that fails is told to be lower, with what that does to the water.
	low := fixed("dam", trial.Swap(t, examples.CorridorCabinet, metricDam, "  thickness: 3 mm\n  set-back"))
	if low.Verdict != answers.Fails || len(low.Fixes) == 0 {
		t.Errorf("%v with %+v", low.Verdict, low.Fixes)
	}
}

func answerIn(t *testing.T, list []answers.Answer, id string) *answers.Answer {
	t.Helper()
	for i := range list {
		if list[i].ID == id {
			return &list[i]
		}
	}
	t.Fatalf("no answer %q", id)
	return nil
}
