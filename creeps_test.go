package rillwright

import (
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// What hangs over the dam, and what becomes of it. The dam's top is 200 mm over
// the pool's floor, which is the enclosure's inside bottom, and the water stands
// some 158 mm high.
func TestCreeps(t *testing.T) {
	const cable = "  - { name: pump cable, kind: cable, from: pump side, to: floor, foot: 20 mm, crest: -438 mm, section: 0.5 cm2, length: 900 mm }\n"
	bridge := func(text string) []byte { return trial.Swap(t, examples.CorridorCabinet, cable, "  - "+text+"\n") }
	for _, c := range []struct {
		name string
		data []byte
		want answers.Verdict
		says string
	}{
		{"moss over the dam", bridge("{ name: moss edge, kind: moss, from: pool, to: floor, foot: 100 mm, crest: 210 mm, section: 20 cm2, length: 1.5 m }"), answers.Fails, "moss edge"},
		{"moss out of reach of the water", bridge("{ name: moss edge, kind: moss, from: pool, to: floor, foot: 170 mm, crest: 210 mm, section: 20 cm2, length: 1.5 m }"), answers.Holds, "Nothing that is listed"},
		{"a filling hose to the floor", bridge("{ name: filling hose, kind: hose, from: pool, to: floor, foot: 20 mm, crest: 260 mm, bore: 12 mm, length: 2 m }"), answers.Fails, "siphons"},
		{"the same with its mouth over the water", bridge("{ name: filling hose, kind: hose, from: pool, to: floor, foot: 180 mm, crest: 260 mm, bore: 12 mm, length: 2 m }"), answers.Holds, "Nothing that is listed"},
		{"wood from the pool into the sump", bridge("{ name: root, kind: wood, from: pool, to: drain side, foot: 10 mm, crest: 230 mm, end: 200 mm, section: 10 cm2, length: 1.2 m }"), answers.Tight, "root"},
		{"nothing listed", trial.Swap(t, examples.CorridorCabinet, cable, "", "bridges:\n", ""), answers.Unknown, "lists nothing"},
		// Common practice, no source: a return that opens above the water keeps
		// a stopped pump from siphoning the pool away.
		{"a return under water", trial.Swap(t, examples.CorridorCabinet, "manifolds:\n", returnRun("120 mm")+"\nmanifolds:\n"), answers.Tight, "siphons when the pump stops"},
		{"a return above the water", trial.Swap(t, examples.CorridorCabinet, "manifolds:\n", returnRun("190 mm")+"\nmanifolds:\n"), answers.Holds, "Nothing that is listed"},
	} {
		a, err := build(t, c.data).Survey.Creeps()
		if err != nil {
			t.Fatal(err)
		}
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
	}
}

func returnRun(end string) string {
	return "  - { name: return, from: main pump, to: pool, end-height: " + end + ", pieces: [{ part: vinyl hose 16 mm, length: 1.5 m }] }\n"
}

// The card tells what to unplug, which valve, and where the water goes, with the
// figures of the answers.
func TestEmergencyCard(t *testing.T) {
	r := followed(t, examples.CorridorCabinet, EveryFault)
	card := r.Faults.Emergency()
	all := ""
	for _, s := range card {
		if s.Sign == "" || s.Water == "" || len(s.Do) == 0 {
			t.Errorf("half an entry: %+v", s)
		}
		all += s.Sign + strings.Join(s.Do, "; ") + s.Water + "\n"
	}
	for _, want := range []string{"Pull the plug of the main pump", "Shut the ball valve barbed 16 mm in the riser", "Clear the strainer of the main drain", "13.8 L can run over the dam", "fits into the sump"} {
		if !strings.Contains(all, want) {
			t.Errorf("the card lacks %q:\n%s", want, all)
		}
	}
	if bad := find(r.Answers, "blocked[main drain]").Figures[0].Text; !strings.Contains(bad, "13.8 L") {
		t.Errorf("the answer says %s", bad)
	}
}

// Pairs come worst first, each once, and none spills less than nothing; a drain
// that blocks while the standpipe of the same is out is no pair.
func TestPairs(t *testing.T) {
	r := followed(t, examples.CounterWall, FaultPairs)
	seen := map[string]bool{}
	last := 1e9
	for _, p := range r.Faults.Pairs {
		key := min(p.First, p.Second) + max(p.First, p.Second)
		if seen[key] || p.First == p.Second {
			t.Errorf("%s stands there twice", p.What)
		}
		seen[key] = true
		if p.Spilled > last+1e-6 || p.Spilled < -1e-9 {
			t.Errorf("%s: %g after %g", p.What, p.Spilled, last)
		}
		last = p.Spilled
		if strings.Contains(key, "blocked[side") && strings.Contains(key, "standpipe[side") {
			t.Errorf("%s is one thing", p.What)
		}
	}
	if len(seen) < 15 {
		t.Errorf("only %d pairs", len(seen))
	}
}
