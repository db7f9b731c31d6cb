package rillwright

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// standStructure builds a demo, changed, with what glass, floor and stand bear.
func standStructure(t *testing.T, data []byte, pairs ...string) *Report {
	t.Helper()
	r, err := Build("demo.yaml", trial.Swap(t, data, pairs...), Options{Structure: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Whatever a design leaves out, both answers come with finite figures.
func TestWeightOfOddDesigns(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	const stand = "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg, feet: 4, foot: 50 mm, inset: 0 mm, carries-sump: yes, fixed: yes }\n"
	for name, pairs := range map[string][]string{
		"no outside":       {"  outside: { width: 900 mm, depth: 450 mm, height: 1048 mm }\n", ""},
		"no stand":         {stand, ""},
		"five feet":        {"feet: 4, foot: 50 mm", "feet: 5"},
		"one open box":     {"  chambers:\n    - { name: drain side, length: 220 mm, under: 40 mm }\n    - { name: pump side, length: 380 mm }\n", "", "in: pump side", "in: sump", "to: drain side", "to: sump", "from: pump side", "from: sump"},
		"a divider":        {"name: top strip, at: top", "name: top strip, at: inside"},
		"a pane nowhere":   {"name: top strip, at: top", "name: glass"},
		"a lot of braces":  {"  ways:  ", "  rims: [ { at: top, of: steel, flat: 30 mm, wall: 1 mm } ]\n  braces: [ { name: tie, pane: side, to: side, runs: across, width: 60 mm, thickness: 6 mm, of: glass }, { name: bar, pane: back, runs: along, width: 40 mm, thickness: 6 mm, of: glass } ]\n  ways:  "},
		"doors of plastic": {"opens: slides, width: 450 mm, height: 820 mm, thickness: 4 mm, count: 2, glass: annealed", "opens: hinged left, width: 450 mm, height: 820 mm, thickness: 4 mm, count: 2, glass: polycarbonate"},
		"sunk sump":        {"  bottom: 50 mm\n", "  bottom: -400 mm\n", "length: 900 mm }", "length: 2 m }"},
	} {
		r := standStructure(t, examples.CorridorCabinet, pairs...)
		if r.Findings.HasErrors() {
			t.Errorf("%s: %v", name, r.Findings)
			continue
		}
		for _, id := range []string{"weight", "standing"} {
			a := find(r.Answers, id)
			if len(a.Figures) == 0 || a.Say == "" {
				t.Errorf("%s: %s says nothing", name, id)
			}
			for _, f := range a.Figures {
				if v := f.Low + f.Likely + f.High; math.IsNaN(v) || math.IsInf(v, 0) || f.Low > f.High || strings.Contains(f.Text, "NaN") {
					t.Errorf("%s: %s: %+v", name, id, f)
				}
			}
			for _, m := range a.Matters {
				if math.IsNaN(m.Swing) || math.IsInf(m.Swing, 0) {
					t.Errorf("%s: %s: %+v", name, id, m)
				}
			}
		}
	}
}

// The whole chain: the counter wall is asked to be fixed, with fixes, worst first;
// a stand that cannot be is refused with its line.
func TestStandingWholeChain(t *testing.T) {
	r := standStructure(t, examples.CounterWall)
	a := find(r.Answers, "standing")
	if a.Verdict != answers.Tight || len(a.Fixes) == 0 || a.Fixes[0].Change != "stand.fixed: yes" || a.LimitingLine != r.Design.Stand.Pos.Line {
		t.Errorf("%v, fixes %+v, line %d", a.Verdict, a.Fixes, a.LimitingLine)
	}
	for _, f := range a.Fixes {
		if strings.Contains(f.Do, "glass") {
			t.Errorf("against tipping over: %s", f.Do)
		}
	}
	if w := find(r.Answers, "weight"); w.Verdict != answers.Tight || !strings.Contains(w.Say, "engineer") {
		t.Errorf("%v: %s", w.Verdict, w.Say)
	}
	for what, want := range map[string]string{"feet: 4": "feet: 2", "inset: 0 in": "inset: 9 in"} {
		bad := standStructure(t, examples.CounterWall, what, want)
		if !bad.Findings.HasErrors() || bad.Answers != nil {
			t.Errorf("%s: taken without a word", want)
		}
	}
	for _, a := range []answers.Answer{a, find(r.Answers, "weight")} {
		text := a.Say + strings.Join(a.Cautions, " ") + a.Limit.Text
		for _, word := range []string{"safe", "certif", "guarantee"} {
			if strings.Contains(strings.ToLower(text), word) {
				t.Errorf("%s says %q: %s", a.ID, word, text)
			}
		}
	}
}

// A tall stand tips sooner than a low one. By hand, running: 50 kg of panes and 12
// of wall with their centres 1.33 m up, 7 and 12 kg of what is in the pool and 37 of
// water 0.9 m, 8 and 31 kg of sump 0.13 m, 34 of stand 0.4 m: 191 kg, 0.79 m up. Its
// centre lies 0.245 m behind the front of a top at 1.848 m.
func TestStandingByHand(t *testing.T) {
	figures := func(pairs ...string) (tilt, push, high, stiff float64) {
		r := standStructure(t, examples.CorridorCabinet, append(pairs, "fixed: yes", "fixed: no")...)
		a := find(r.Answers, "standing")
		in := 0.0
		for _, f := range a.Figures {
			switch f.Name {
			case "push at its top that begins to tip it":
				push = f.Likely
			case "running, towards the front":
				tilt = f.Likely
			case "centre of its weight running, above the floor":
				high = f.Likely / 1000
			case "and behind the front of its feet":
				in = f.Likely / 1000
			}
		}
		if a.Verdict != answers.Tight {
			t.Errorf("%v: %v", pairs, a.Verdict)
		}
		return tilt, push, high, math.Atan(in/high) * 180 / math.Pi
	}
	tilt, push, high, stiff := figures()
	if byHand := (62*1.33 + 56*0.9 + 39*0.13 + 34*0.4) / 191; !within(high, byHand, 0.03) {
		t.Errorf("centre %g m up, by hand %g", high, byHand)
	}
	if byHand := math.Atan(0.245/0.79) * 180 / math.Pi; !within(tilt, byHand, 0.05) {
		t.Errorf("goes over at %g degrees, by hand %g with water that stays", tilt, byHand)
	}
	// Free water that moves makes it less than the angle of a stiff thing.
	if tilt >= stiff || tilt < 0.95*stiff {
		t.Errorf("goes over at %g degrees, stiff at %g", tilt, stiff)
	}
	lowTilt, lowPush, lowHigh, _ := figures("  bottom: 808 mm", "  bottom: 508 mm", "crest: -438 mm", "crest: -138 mm")
	if lowTilt <= tilt || lowPush <= push || lowHigh >= high {
		t.Errorf("lower: %g degrees, %g N, %g m; before %g, %g, %g", lowTilt, lowPush, lowHigh, tilt, push, high)
	}
}
