package rillwright

import (
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// What a change that costs less promises is what its edits give when they are made:
// the same total, the same verdict; a weaker pump tells what the water makes of it.
func TestCostFixesAsWritten(t *testing.T) {
	pumps, together := 0, 0
	for name, data := range map[string][]byte{
		"metric": examples.CorridorCabinet, "us": examples.CounterWall,
		"little money": trial.Swap(t, examples.CorridorCabinet, "money: 650 EUR", "money: 400 EUR"),
	} {
		base, err := Build(name, data, Options{Structure: true})
		if err != nil || base.Findings.HasErrors() {
			t.Fatal(name, err, base.Findings)
		}
		was := find(base.Answers, "cost")
		if len(was.Fixes) < 3 {
			t.Errorf("%s: %d changes", name, len(was.Fixes))
		}
		for _, f := range was.Fixes {
			after, err := Build("fixed.yaml", written(t, data, &f), Options{Structure: true, NoFixes: true})
			if err != nil || after.Findings.HasErrors() {
				t.Errorf("%s: %q: %v %v", name, f.Do, err, after.Findings)
				continue
			}
			now := find(after.Answers, "cost")
			if now.Figures[0].Text != f.After || now.Verdict != f.Verdict || now.Score <= was.Score {
				t.Errorf("%s: %q promises %s (%v), the file gives %s (%v)", name, f.Do, f.After, f.Verdict, now.Figures[0].Text, now.Verdict)
			}
			if strings.Contains(f.Do, "from the shelf") {
				pumps++
				for _, b := range f.Breaks {
					if x := find(after.Answers, b.ID); x.Verdict != b.Verdict || x.Verdict <= find(base.Answers, b.ID).Verdict {
						t.Errorf("%s: %q breaks %s: %v, the file gives %v", name, f.Do, b.ID, b.Verdict, x.Verdict)
					}
				}
				if lift := find(after.Answers, "lift"); lift.Verdict > find(base.Answers, "lift").Verdict && len(f.Breaks) == 0 {
					t.Errorf("%s: %q does not tell that the pump is too weak", name, f.Do)
				}
			}
			if strings.Contains(f.Do, "together") {
				together++
			}
		}
	}
	if pumps < 2 || together < 2 {
		t.Errorf("%d pumps, %d sets", pumps, together)
	}
}

// With more money than it costs at the dear end there is nothing to spare.
func TestCostHolds(t *testing.T) {
	r, err := Build("rich", trial.Swap(t, examples.CorridorCabinet, "money: 650 EUR", "money: 6500 EUR"), Options{Structure: true})
	if err != nil {
		t.Fatal(err)
	}
	if a := find(r.Answers, "cost"); a.Verdict != answers.Holds || len(a.Fixes) > 0 || *a.Figures[0].Bound != 6500 {
		t.Errorf("%+v", a)
	}
}
