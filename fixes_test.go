package rillwright

import (
	"bytes"
	"encoding/json"
	"runtime"
	"slices"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// written is a file with a fix written into it.
func written(t *testing.T, data []byte, f *answers.Fix) []byte {
	t.Helper()
	if len(f.Edits) == 0 {
		t.Fatalf("%q has no edits", f.Do)
	}
	out, err := design.Apply(data, f.Edits)
	if err != nil {
		t.Fatalf("%q: %v", f.Do, err)
	}
	// Comments stay, but for those on lines that go.
	if n, was := bytes.Count(out, []byte("#")), bytes.Count(data, []byte("#")); n < was-1 {
		t.Errorf("%q leaves %d comments of %d", f.Do, n, was)
	}
	return out
}

func find(list []answers.Answer, id string) answers.Answer {
	for i := range list {
		if list[i].ID == id {
			return list[i]
		}
	}
	return answers.Answer{}
}

// What a fix promises is what its edits give when they are made: the same figure, the same verdict, and every other answer that comes out worse is
// in its list. The search keeps the senses that it found before the change, the
// file is surveyed anew, so that this also checks that short cut.
func TestFixesAsWritten(t *testing.T) {
	for demo, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		base := build(t, data)
		some := 0
		for _, a := range base.Answers {
			for _, f := range a.Fixes {
				some++
				after, err := Build("fixed.yaml", written(t, data, &f), Options{NoFixes: true})
				if err != nil || after.Findings.HasErrors() {
					t.Errorf("%s: %q: %v %v", demo, f.Do, err, after.Findings)
					continue
				}
				id := a.ID
				if id == "pump-size" {
					id = "lift" // what a larger pump is for
				}
				was, now := find(base.Answers, id), find(after.Answers, id)
				if text := now.Figures[now.Key].Text; text != f.After || now.Verdict != f.Verdict {
					t.Errorf("%s, %s: %q promises %s (%v), the file gives %s (%v)", demo, a.ID, f.Do, f.After, f.Verdict, text, now.Verdict)
				}
				if now.Verdict > was.Verdict || now.Verdict == was.Verdict && now.Score <= was.Score {
					t.Errorf("%s, %s: %q makes it no better", demo, a.ID, f.Do)
				}
				if f.Before != was.Figures[was.Key].Text || f.Cost == "" {
					t.Errorf("%s, %s: before %q, cost %q", demo, a.ID, f.Before, f.Cost)
				}
				if have := breaks(base, after, a.ID, id); !slices.Equal(have, f.Breaks) {
					t.Errorf("%s, %s: %q breaks %q, says %q", demo, a.ID, f.Do, have, f.Breaks)
				}
			}
		}
		if some < 5 {
			t.Errorf("%s: %d fixes", demo, some)
		}
	}
}

// breaks lists the answers about the water, but for the fix's own, that come out
// worse.
func breaks(before, after *Report, own, seen string) []answers.Break {
	var out []answers.Break
	for _, a := range after.Survey.Water() {
		if was := find(before.Answers, a.ID); a.ID != own && a.ID != seen && a.Verdict > was.Verdict {
			out = append(out, answers.Break{ID: a.ID, Question: a.Question, Verdict: a.Verdict})
		}
	}
	return out
}

// Cheapest first among those that break nothing, then those that do.
func TestFixesInOrder(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		for _, a := range build(t, data).Answers {
			for i := 1; i < len(a.Fixes); i++ {
				x, y := a.Fixes[i-1], a.Fixes[i]
				if len(x.Breaks) > 0 && len(y.Breaks) == 0 {
					t.Errorf("%s: %q stands before %q", a.ID, x.Do, y.Do)
				}
				if len(x.Breaks) > 0 == (len(y.Breaks) > 0) && x.Verdict == y.Verdict && x.Weight > y.Weight {
					t.Errorf("%s: %q is dearer than %q", a.ID, x.Do, y.Do)
				}
			}
		}
	}
}

// Same file in, same bytes out, on one processor or two.
func TestRepeatable(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		var first []byte
		for _, n := range []int{1, 2, 2, 1} {
			was := runtime.GOMAXPROCS(n)
			text, err := json.Marshal(build(t, data).Answers)
			runtime.GOMAXPROCS(was)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = text
			}
			if !bytes.Equal(first, text) {
				t.Errorf("%s: the report differs on %d processors", name, n)
			}
		}
	}
}

// A pump that is short of head and a drain that spills get fixes too, and none
// of them makes its answer worse.
func TestFixesOfBadDesigns(t *testing.T) {
	for name, data := range map[string][]byte{
		"weak pump":    trial.Swap(t, examples.CorridorCabinet, "flow: 1200 L/h, head: 2.4 m", "flow: 600 L/h, head: 1.3 m"),
		"shut valve":   trial.Swap(t, examples.CounterWall, "open: 60 %", "open: 0 %"),
		"narrow drain": trial.Swap(t, examples.CounterWall, "bulkhead 3/4 in", "bulkhead 1/2 in", "pipe 3/4 in sch", "pipe 1/2 in sch", "solvent 3/4 in", "solvent 1/2 in", "strainer 3/4 in", "strainer 1/2 in"),
		"not vented":   trial.Swap(t, examples.CorridorCabinet, "vented: yes", "vented: no"),
		"one feed":     trial.Swap(t, examples.CorridorCabinet, "feed: centre", "feed: left", "hole: 2.0 mm", "hole: 4.0 mm"),
	} {
		fails, fixed := 0, 0
		for _, a := range build(t, data).Answers {
			if a.Verdict == answers.Fails || a.Verdict == answers.Tight {
				fails++
			}
			for _, f := range a.Fixes {
				fixed++
				if f.Verdict > a.Verdict || strings.TrimSpace(f.Do) == "" {
					t.Errorf("%s, %s: %+v", name, a.ID, f)
				}
			}
		}
		if fails == 0 || fixed == 0 {
			t.Errorf("%s: %d answers not well, %d fixes", name, fails, fixed)
		}
	}
}

// What a fix of what carries promises is what its edits give when they are made:
// the same figure, the same verdict, and every other answer that comes out worse, of
// what carries and of the water, is in its list. What has no edits says why.
func TestStructureFixesAsWritten(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	const metric, us = "metric", "us"
	const hole = "up: 110 mm, in: 110 mm, edge: left"
	seen := map[string]int{}
	for name, pairs := range map[string][]string{
		"metric":           {metric},
		"us":               {us},
		"deep pool":        {metric, "  height: 200 mm\n  thickness: 6 mm\n", "  height: 300 mm\n  thickness: 10 mm\n", "width: 886 mm, height: 200 mm, thickness: 6 mm", "width: 886 mm, height: 300 mm, thickness: 10 mm"},
		"thick panes":      {metric, "  height: 200 mm\n", "  height: 240 mm\n", "height: 1040 mm, thickness: 6 mm", "height: 1040 mm, thickness: 12 mm"},
		"thin floor":       {metric, "rests: on a full board", "rests: on its rim", "height: 450 mm, thickness: 8 mm", "height: 450 mm, thickness: 4 mm"},
		"hole at the edge": {metric, hole, "up: 110 mm, in: 40 mm, edge: left"},
		"hole low":         {metric, hole, "up: 30 mm, in: 110 mm, edge: left"},
		"way at the edge":  {us, "size: 1 in, up: 33 1/4 in, in: 2 1/2 in, edge: rear", "size: 1 in, up: 33 1/4 in, in: 1 in, edge: rear"},
		"hole in the base": {metric, "hole: { pane: back, size: 44 mm, " + hole, "hole: { pane: base, size: 44 mm, up: 200 mm, in: 40 mm, edge: rear"},
		"sump apart":       {us, "carries-sump: yes", "carries-sump: no", "inset: 0 in", "inset: 2 in"},
		"no stand":         {metric, "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg, feet: 4, foot: 50 mm, inset: 0 mm, carries-sump: yes, fixed: yes }\n", ""},
	} {
		data := examples.CorridorCabinet
		if pairs[0] == us {
			data = examples.CounterWall
		}
		data = trial.Swap(t, data, pairs[1:]...)
		base, err := Build(name, data, Options{Structure: true})
		if err != nil || base.Findings.HasErrors() {
			t.Fatal(name, err, base.Findings)
		}
		list, err := base.Survey.Structure()
		if err != nil {
			t.Fatal(err)
		}
		all := append(list, base.Survey.Water()...)
		for _, about := range list {
			was := find(base.Answers, about.ID)
			for _, f := range was.Fixes {
				if len(f.Edits) == 0 {
					seen["by hand"]++
					if !strings.Contains(f.Do, "write it into the file yourself: ") {
						t.Errorf("%s, %s: %q has no edits and does not say why", name, was.ID, f.Do)
					}
					continue
				}
				id, _, _ := strings.Cut(was.ID, "[")
				seen[id]++
				after, err := Build("fixed.yaml", written(t, data, &f), Options{Structure: true, NoFixes: true})
				if err != nil || after.Findings.HasErrors() {
					t.Errorf("%s: %q: %v %v", name, f.Do, err, after.Findings)
					continue
				}
				now := find(after.Answers, was.ID)
				if now.Verdict != f.Verdict || now.Verdict > was.Verdict || now.Verdict == was.Verdict && now.Score <= was.Score {
					t.Errorf("%s, %s: %q promises %v, the file gives %v (%g, before %g)", name, was.ID, f.Do, f.Verdict, now.Verdict, now.Score, was.Score)
				}
				if text, ok := afterOf(&was, &now); ok && text != f.After {
					t.Errorf("%s, %s: %q promises %q, the file gives %q", name, was.ID, f.Do, f.After, text)
				}
				if f.Verdict != answers.Fails && (id == "hole" || id == "way") && !strings.HasSuffix(f.After, " to spare") {
					t.Errorf("%s, %s: %q comes to %q", name, was.ID, f.Do, f.After)
				}
				var breaks []answers.Break
				for _, b := range all {
					if x := find(after.Answers, b.ID); x.Verdict > b.Verdict && b.ID != was.ID {
						breaks = append(breaks, answers.Break{ID: x.ID, Question: x.Question, Verdict: x.Verdict})
					}
				}
				if !slices.Equal(breaks, f.Breaks) {
					t.Errorf("%s, %s: %q breaks %q, says %q", name, was.ID, f.Do, breaks, f.Breaks)
				}
			}
		}
	}
	for _, id := range []string{"dam", "pane", "joints", "bond", "hole", "way", "standing", "weight", "by hand"} {
		if seen[id] == 0 {
			t.Errorf("no fix of %q was tried: %v", id, seen)
		}
	}
}

// afterOf is what a fix should say of the figure that an answer turns on, if it is
// said by that figure: of openings it is by the distance with the least to spare.
func afterOf(was, now *answers.Answer) (string, bool) {
	key := now.Key
	switch id, _, _ := strings.Cut(now.ID, "["); id {
	case "hole", "way":
		return "", false
	case "standing":
		if strings.Contains(now.Say, "fixed to the wall") {
			return "held by the wall, as far as its fixing holds", true
		}
		key = was.Key
	}
	return now.Figures[key].Text, true
}
