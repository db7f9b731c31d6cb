package rillwright

import (
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/examples"
)

// What moves is the difference between two whole computations, of the file and of the
// file with the edits written in; what is written back moves nothing.
func TestSuppose(t *testing.T) {
	moved, edits, r, err := Suppose("wall.yaml", examples.CorridorCabinet, nil, 0, []string{"pump=larger", "dam.height=210 mm"})
	if err != nil || r.Findings.HasErrors() || len(edits) < 3 {
		t.Fatalf("%v, %v, %v", err, r.Findings, edits)
	}
	o := Options{NoFixes: true, Structure: true, Faults: MainFaults}
	drawn, err := Build("wall.yaml", examples.CorridorCabinet, o)
	if err != nil {
		t.Fatal(err)
	}
	text, err := design.Apply(examples.CorridorCabinet, edits)
	if err != nil {
		t.Fatal(err)
	}
	changed, err := Build("wall.yaml", text, o)
	if err != nil {
		t.Fatal(err)
	}
	told := map[string]*Moved{}
	for i := range moved {
		told[moved[i].ID] = &moved[i]
	}
	for i := range changed.Answers {
		b := &changed.Answers[i]
		for k := range drawn.Answers {
			a := &drawn.Answers[k]
			if a.ID != b.ID {
				continue
			}
			same := a.Verdict == b.Verdict && len(a.Figures) == len(b.Figures)
			for f := range b.Figures {
				same = same && a.Figures[f].Name == b.Figures[f].Name && a.Figures[f].Text == b.Figures[f].Text
			}
			m := told[b.ID]
			if same && m != nil || !same && m == nil && len(a.Figures) <= len(b.Figures) {
				t.Errorf("%s: the same: %t, told: %v", b.ID, same, m)
			}
			if m != nil && (m.From != a.Verdict || m.To != b.Verdict) {
				t.Errorf("%s: %v to %v, told %v to %v", b.ID, a.Verdict, b.Verdict, m.From, m.To)
			}
		}
	}
	if m := told["lift"]; m == nil || m.From != answers.Tight || m.To != answers.Holds || !strings.Contains(m.Figures[0].From, "386") {
		t.Errorf("lift: %+v", m)
	}
	if back, _, _, err := Suppose("wall.yaml", examples.CorridorCabinet, nil, 0, []string{"dam.height=200 mm"}); err != nil || len(back) != 0 {
		t.Errorf("what stands there already moves %v, %v", back, err)
	}
}
