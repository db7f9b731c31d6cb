package fixes

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/faults"
	"rillwright/internal/trial"
)

// everyChange lists all changes there are words for, whatever answer asks.
func everyChange(f *finder) []change {
	var out []change
	for _, list := range [][]change{
		f.openValves(), f.throttle(), f.pumps(true), f.pumps(false), f.hoses(), f.moreWater(), f.holes(), f.feeds(), f.manifoldBores(),
		f.drains(), f.lowerLips(), f.vent(), f.smallSecond(), f.breakHoles(),
		{f.reservoir()},
		{f.fill(f.s.E.Sump.Level+0.010, "fill the sump more")},
	} {
		for _, c := range list {
			if c.apply != nil {
				out = append(out, c)
			}
		}
	}
	return out
}

// Every change, written into the file by its edits, gives what was tried: the same
// verdicts on the water and the same figures.
func TestWrittenAsTried(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	list := designs()
	const metric, us = "metric", "us"
	for name, pairs := range map[string][]string{
		"measured lip":   {metric, "\nstock:", "\nas-built:\n  - { of: \"drains[1].lip\", is: 152 mm }\n  - { of: \"pumps[main pump].label.flow\", is: 1150 L/h }\n\nstock:"},
		"pump by part":   {metric, "label: { flow: 1200 L/h, head: 2.4 m }\n    in", "part: pump 1000 L/h 2.0 m\n    in"},
		"curve":          {us, "label: { flow: 210 US gal/h, head: 5.9 ft }", "curve: [ { flow: 0 US gal/h, head: 6 ft }, { flow: 200 US gal/h, head: 0 ft } ]"},
		"through wall":   {metric, "kind: standpipe", "kind: wall opening", "    standpipe: rigid pipe 1 in sch 40\n    lip-bore: 26.6 mm\n", "", "up: 110 mm, in: 110 mm", "up: 163 mm, in: 110 mm"},
		"return":         {us, "manifolds:\n", "  - { name: return, from: main pump, to: pool, end-height: 2 in, pieces: [{ part: vinyl hose 16 mm, length: 1.5 m }] }\n\nmanifolds:\n"},
		"no hole":        {us, "    hole: { pane: left side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }\n", ""},
		"measured bores": {metric, "{ part: vinyl hose 16 mm, length: 0.4 m, ", "{ part: vinyl hose 16 mm, bore: 15.5 mm, length: 0.4 m, ", "level-error: 3 mm", "level-error: 3 mm\n    feed: left", "    feed: centre\n", ""},
	} {
		list[name] = pairs
	}
	edited, byHand := 0, 0
	for name, pairs := range list {
		data := trial.Swap(t, demo(pairs[0]), pairs[1:]...)
		f, _ := surveyed(t, data)
		for _, c := range everyChange(f) {
			e := f.s.E.Clone()
			if !c.apply(e) {
				continue
			}
			fix := f.fix(&c)
			if len(fix.Edits) == 0 {
				if byHand++; !strings.Contains(fix.Do, "write it into the file yourself") {
					t.Errorf("%s: %q has no edits and does not say so", name, fix.Do)
				}
				continue
			}
			edited++
			text, err := design.Apply(data, fix.Edits)
			if err != nil {
				t.Errorf("%s: %q: %v", name, c.do, err)
				continue
			}
			d, found := design.Read("written", text)
			if found.HasErrors() {
				t.Errorf("%s: %q:\n%v", name, c.do, found)
				continue
			}
			written, found := enclosure.Resolve(d, trial.Parts(t), nil)
			if found.HasErrors() {
				t.Errorf("%s: %q:\n%v", name, c.do, found)
				continue
			}
			sameAnswers(t, name+": "+c.do, e, written)
		}
	}
	if edited < 100 {
		t.Errorf("only %d changes were written, %d left to the builder", edited, byHand)
	}
	t.Logf("%d written, %d by hand", edited, byHand)
}

func sameAnswers(t *testing.T, what string, tried, written *enclosure.Enclosure) {
	t.Helper()
	var all [2][]answers.Answer
	for i, e := range []*enclosure.Enclosure{tried, written} {
		s, err := answers.NewSurvey(e)
		if err != nil {
			t.Fatal(err)
		}
		all[i] = s.Water()
	}
	for i := range all[0] {
		a, b := &all[0][i], &all[1][i]
		if a.ID != b.ID || a.Verdict != b.Verdict || headline(a) != headline(b) {
			t.Errorf("%s: tried, %s is %v at %s; written, %s is %v at %s", what, a.ID, a.Verdict, headline(a), b.ID, b.Verdict, headline(b))
		}
	}
}

// The same for the course of the usual faults in the likely case, after changes
// that matter there.
func TestWrittenAsTriedInFaults(t *testing.T) {
	back := "  - { name: return, from: main pump, to: pool, end-height: 2 in, pieces: [{ part: vinyl hose 16 mm, length: 1.5 m }] }\n\nmanifolds:\n"
	holes := 0
	for name, pairs := range map[string][]string{"metric": {"metric"}, "us": {"us"}, "return": {"us", "manifolds:\n", back}} {
		data := trial.Swap(t, demo(pairs[0]), pairs[1:]...)
		f, _ := surveyed(t, data)
		s := &f.s.E.Sump
		list := append(f.second(), f.smallSecond()...)
		list = append(list, f.breakHoles()...)
		holes += len(f.breakHoles())
		for _, c := range append(list, f.reservoir(), f.fill(s.Bottom+tape(s.Level-s.Bottom+0.010, f.s.E.Units, math.Round), "fill")) {
			e := f.s.E.Clone()
			c.apply(e)
			text, err := design.Apply(data, f.fix(&c).Edits)
			if err != nil {
				t.Fatalf("%s: %q: %v", name, c.do, err)
			}
			tried, got := courses(t, e), courses(t, trial.Resolved(t, text, enclosure.Resolve))
			for what, v := range tried {
				if math.Abs(v-got[what]) > 1e-6 {
					t.Errorf("%s: %q, %s: tried %g, written %g", name, c.do, what, v, got[what])
				}
			}
		}
	}
	if holes == 0 {
		t.Error("no break hole was tried")
	}
}

// courses tells how the usual faults end.
func courses(t *testing.T, e *enclosure.Enclosure) map[string]float64 {
	t.Helper()
	rig, err := faults.NewRig(e, e.Likely())
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]float64{}
	for _, x := range faults.Usual(e) {
		if x.Kind != faults.Blocked && x.Kind != faults.PowerCut && x.Kind != faults.Away {
			continue
		}
		r, err := rig.Run(&x.Scenario, x.Options)
		if err != nil {
			t.Fatal(err)
		}
		out[x.ID+", m3 spilled"], out[x.ID+", m the pool stands"], out[x.ID+", m the sump stands"] = r.Spilled, r.PoolMost, r.SumpMost
	}
	return out
}

// What only the builder can choose leaves a fix without edits, and it says so.
func TestByHand(t *testing.T) {
	for why, pairs := range map[string][]string{
		"where its hole goes":   {"pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left", "pane: back, size: 44 mm, up: 110 mm, in: 110 mm"},
		"what makes its lip":    {"kind: standpipe", "kind: floor opening", "lip: 150 mm", "lip: 0 mm", "    hole: { pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left }\n", "", "    standpipe: rigid pipe 1 in sch 40\n    lip-bore: 26.6 mm\n", ""},
		"which standpipe":       {"    standpipe: rigid pipe 1 in sch 40\n", ""},
		"a measured fact names": {"\nstock:", "\nas-built:\n  - { of: \"runs[1].pieces[5].length\", is: 60 mm }\n\nstock:"},
	} {
		f, _ := surveyed(t, trial.Swap(t, demo("metric"), pairs...))
		told := false
		for _, c := range everyChange(f) {
			fix := f.fix(&c)
			told = told || strings.Contains(fix.Do, "(write it into the file yourself: "+why) && fix.Edits == nil
		}
		if !told {
			t.Errorf("nothing is left to the builder because of %q", why)
		}
	}
}
