package design

import (
	"bytes"
	"slices"
	"testing"

	"rillwright/examples"
)

// A measured fact goes if the plan changes under it, whatever it calls its place, and
// goes once; where the numbers of entries would change under one, there is no way.
func TestReplanned(t *testing.T) {
	data := bytes.Replace(examples.CorridorCabinet, []byte("\nstock:"), []byte("\nas-built:\n  - { of: dam.height, is: 198 mm }\n  - { of: \"drains[1].hole.in\", is: 111 mm }\n  - { of: \"runs[1].pieces[5].length\", is: 60 mm }\n\nstock:"), 1)
	d, found := Read("measured", data)
	if found.HasErrors() {
		t.Fatal(found)
	}
	edits := []Edit{{Path: "drains[main drain].hole.in", To: "120 mm"}, {Path: "dam.height", To: "190 mm"}, {Path: "dam.thickness", To: "8 mm"}}
	all, ok := d.Replanned(edits)
	if want := append([]Edit{{Path: "as-built[2]", Kind: EditCut}, {Path: "as-built[1]", Kind: EditCut}}, edits...); !ok || !slices.Equal(all, want) {
		t.Errorf("%v, want %v", all, want)
	}
	if again, ok := d.Replanned(all); !ok || !slices.Equal(again, all) {
		t.Errorf("made over again they are %v", again)
	}
	out, err := Apply(data, all)
	if err != nil {
		t.Fatal(err)
	}
	if now, found := Read("replanned", out); found.HasErrors() || len(now.AsBuilt) != 1 || now.Dam.Height.Text != "190 mm" || now.Drains[0].Hole.In.Text != "120 mm" {
		t.Errorf("%v, %v, %s high, hole %s in", found, now.AsBuilt, now.Dam.Height.Text, now.Drains[0].Hole.In.Text)
	}
	if all, ok := d.Replanned([]Edit{{Path: "runs[riser].pieces[1]", To: "{ part: ball valve 16 mm }", Kind: EditInsert}}); ok {
		t.Errorf("the fifth piece is the sixth then: %v", all)
	}
}
