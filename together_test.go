package rillwright

import (
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// Where no one change keeps an answer from failing, two at once are offered, each pair
// with what it comes to: written into the file and computed from there, it does.
func TestTwoFixesAtOnce(t *testing.T) {
	if testing.Short() {
		t.Skip("computes several designs whole")
	}
	noShelf := "shelf:\n  - { name: smaller, label: { flow: 1000 L/h, head: 2.2 m }, price: 32 EUR }\n  - { name: larger, label: { flow: 1500 L/h, head: 2.8 m }, price: 46 EUR }\n\n"
	paired := 0
	for _, label := range []string{"{ flow: 5000 L/h, head: 7 m }", "{ flow: 6000 L/h, head: 8 m }", "{ flow: 7000 L/h, head: 9 m }"} {
		text := trial.Swap(t, examples.CorridorCabinet, "label: { flow: 1200 L/h, head: 2.4 m }\n    in", "label: "+label+"\n    in", noShelf, "", "hole: 2.0 mm, hole", "hole: 4.0 mm, hole")
		r, err := Build("weak.yaml", text, Options{})
		if err != nil || r.Findings.HasErrors() {
			t.Fatal(err, r.Findings)
		}
		for _, a := range r.Answers {
			alone := false
			for _, x := range a.Fixes {
				if !strings.Contains(x.Do, ", and ") {
					alone = alone || x.Verdict < answers.Fails && len(x.Breaks) == 0
					continue
				}
				paired++
				if alone {
					t.Errorf("%s: %q, where one change is enough", a.ID, x.Do)
				}
				if a.Verdict != answers.Fails || x.Verdict == answers.Fails || len(x.Edits) < 2 {
					t.Errorf("%s %v: %+v", a.ID, a.Verdict, x)
				}
				both, err := design.Apply(text, x.Edits)
				if err != nil {
					t.Fatal(err)
				}
				then, err := Build("both.yaml", both, Options{NoFixes: true})
				if err != nil || then.Findings.HasErrors() {
					t.Fatal(err, then.Findings)
				}
				for _, b := range then.Answers {
					if b.ID == a.ID && (b.Verdict != x.Verdict || b.Figures[b.Key].Text != x.After) {
						t.Errorf("%s: %q promises %s (%s), the file gives %s (%s)", a.ID, x.Do, x.After, x.Verdict, b.Figures[b.Key].Text, b.Verdict)
					}
				}
			}
		}
	}
	if paired == 0 {
		t.Error("no pair was offered")
	}
}
