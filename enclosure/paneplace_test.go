package enclosure

import (
	"testing"

	"rillwright/design"
)

func TestPanePlace(t *testing.T) {
	for _, c := range []struct {
		name, at string
		count    int
		want     string
		guessed  bool
	}{
		{"anything", "left", 1, "left", false},
		{"rear wall", "", 1, "back", true},
		{"Base", "", 1, "bottom", true},
		{"side", "", 2, "sides", true},
		{"side", "", 1, "", false},
		{"left side", "", 1, "left", true},
		{"backdoor", "", 1, "", false},
		{"pane 3", "", 1, "", false},
	} {
		p := design.Pane{}
		p.Name.Value, p.At.Value, p.Count.Value = c.name, c.at, c.count
		if at, guessed := PanePlace(&p); at != c.want || guessed != c.guessed {
			t.Errorf("%q: %q, guessed %v", c.name, at, guessed)
		}
	}
}
