package design

import (
	"errors"
	"strings"
	"testing"

	"rillwright/document"
)

// What was measured is added to the file and nothing else is; it counts in place of the
// plan. Measured again, the new value stands and the old one is in the note.
func TestMeasure(t *testing.T) {
	for name, text := range files(t) {
		if !strings.Contains(name, "cabinet") {
			continue
		}
		first, err := Apply([]byte(text), []Edit{{Path: "drains[main drain].lip", To: "152 mm", Kind: EditMeasure, On: "2026-03-28"}})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		put, ok := inner(text, string(first))
		if !ok || !strings.Contains(put, "of: drains[main drain].lip") && !strings.Contains(put, "of: 'drains[main drain].lip'") {
			t.Errorf("%s: %q was added", name, put)
		}
		// A number names the same entry.
		again, err := Apply(first, []Edit{{Path: "drains[1].lip", To: "154 mm", Kind: EditMeasure}})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for k, want := range []string{"152 mm", "154 mm"} {
			d, list := Read(name, [][]byte{first, again}[k])
			if list.HasErrors() {
				t.Fatalf("%s: %v", name, list)
			}
			o := d.Overrides()
			if len(o) != 1 || o[0].Measured != want || o[0].Planned == "" || d.Drains[0].Lip.Text != want || d.AsBuilt[0].On.Value != "2026-03-28" {
				t.Errorf("%s: %+v, lip %s", name, o, d.Drains[0].Lip.Text)
			}
			if note := d.AsBuilt[0].Note.Value; k == 1 && note != "152 mm before" {
				t.Errorf("%s: note %q", name, note)
			}
		}
		if same, err := Apply(again, []Edit{{Path: "drains[1].lip", To: "154 mm", Kind: EditMeasure}}); err != nil || string(same) != string(again) {
			t.Errorf("%s: the same value again changes the file: %v", name, err)
		}
	}
}

func TestMeasureRefuses(t *testing.T) {
	text := files(t)["corridor-cabinet.yaml"]
	for _, c := range []struct{ path, to, says string }{
		{"drains[main drain].lip", "152", "unit"},
		{"drains[main drain].lipp", "152 mm", "lipp"},
		{"drains[mian drain].lip", "152 mm", "main drain"},
		{"name", "other", "not something that is measured"},
		{"as-built[1].is", "1 mm", "as-built"},
		{"heater.watts", "50 W", "heater"},
	} {
		got, err := Apply([]byte(text), []Edit{{Path: c.path, To: c.to, Kind: EditMeasure}})
		var p *document.Problem
		if got != nil || !errors.As(err, &p) || !strings.Contains(p.What+p.Do, c.says) {
			t.Errorf("%s = %s: %v", c.path, c.to, err)
		}
	}
}
