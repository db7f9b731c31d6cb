package design

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rillwright/quantity"
)

func TestAsBuilt(t *testing.T) {
	text := strings.Replace(sound, "as-built:\n", `as-built:
  - {of: "manifolds[bar].outlets[1].hole", is: 2.2 mm, note: with a drill shank}
  - {of: "pumps[main pump].label.flow", is: 1000 L/h}
  - {of: "drains[main drain].vented", is: no}
  - {of: "enclosure.panes[back].glass", is: laminated}
  - {of: "pool.displaced", is: 28 to 33 %}
`, 1)
	d, list := Read("f", []byte(text))
	if list.HasErrors() { // that the pane was not annealed after all is a warning
		t.Fatal(show(list))
	}
	plan, _, _ := strings.Cut(text, "as-built:")
	n := strings.Count(plan, "\n") + 2
	want := []Override{
		{"manifolds[bar].outlets[1].hole", "2 mm", "2.2 mm", Pos{Line: n, Column: 48, Width: 6}},
		{"pumps[main pump].label.flow", "1200 L/h", "1000 L/h", Pos{Line: n + 1, Column: 45, Width: 8}},
		{"drains[main drain].vented", "", "no", Pos{Line: n + 2, Column: 43, Width: 2}},
		{"enclosure.panes[back].glass", "annealed", "laminated", Pos{Line: n + 3, Column: 45, Width: 9}},
		{"pool.displaced", "30 to 40 %", "28 to 33 %", Pos{Line: n + 4, Column: 32, Width: 10}},
		{"drains[spill].lip", "170 mm", "172 mm", Pos{Line: n + 5, Column: 35, Width: 6}},
	}
	if diff := cmp.Diff(want, d.Overrides()); diff != "" {
		t.Error(diff)
	}
	hole := d.Manifolds[0].Outlets[0].Hole
	if got := float64(hole.Value); got < 0.0022-1e-12 || got > 0.0022+1e-12 || hole.Text != "2.2 mm" || hole.Pos != want[0].Pos {
		t.Errorf("hole = %+v", hole)
	}
	if d.Drains[0].Vented.Value || !d.Drains[0].Vented.Given() || d.Enclosure.Panes[0].Glass.Value != "laminated" {
		t.Error("overrides are not in the design")
	}
}

// A measured fact that cannot be read leaves the plan as it was.
func TestAsBuiltUnreadKeepsPlan(t *testing.T) {
	d, list := Read("f", []byte(strings.Replace(sound, "is: 172 mm", "is: 172", 1)))
	if len(list) != 1 || len(d.Overrides()) != 0 {
		t.Fatalf("%d overrides\n%s", len(d.Overrides()), show(list))
	}
	if lip := d.Drains[1].Lip; lip.Text != "170 mm" || lip.Value != quantity.Length(0.17) {
		t.Errorf("lip = %+v, want the plan's", lip)
	}
}
