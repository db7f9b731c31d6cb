package workbench

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillwright/document"
)

// A draft comes back with the text it was typed on, byte for byte, whatever is in
// it; the bare text of an older version comes back without one.
func TestDraftBase(t *testing.T) {
	b, folder := bench(t)
	for _, text := range []string{"a: <b> & \u2028\r\n\t\"x\"\n", "{\"text\": \"of json\"}", strings.Repeat("\x01", document.MaxBytes)} {
		base := "base of " + text[:5]
		if err := b.shelf.keepDraft("wall.yaml", draft{text, &base}); err != nil {
			t.Fatal(err)
		}
		d, err := b.shelf.read("wall.yaml")
		if err != nil || d.Draft != text || d.DraftBase == nil || *d.DraftBase != base {
			t.Errorf("%q, %v: %v", text[:5], d.DraftBase, err)
		}
	}
	for _, old := range []string{"rillwright: 1\nname: x\n", `{"name": "x"}`, `"just words"`, "{\"text\": \"a\"}\nand: more\n", ""} {
		put(t, filepath.Join(folder, ".wall.yaml.draft"), old)
		d, err := b.shelf.read("wall.yaml")
		if err != nil || d.Draft != old || d.DraftBase != nil {
			t.Errorf("%q: %q, %v, %v", old, d.Draft, d.DraftBase, err)
		}
	}
	long := strings.Repeat("x", document.MaxBytes+1)
	if err := b.shelf.keepDraft("wall.yaml", draft{"short", &long}); err == nil {
		t.Error("a base that is too long was kept")
	}
	data, err := os.ReadFile(filepath.Join(folder, ".wall.yaml.draft"))
	if err != nil || len(data) > 0 {
		t.Errorf("%q, %v", data, err)
	}
}
