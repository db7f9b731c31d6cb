package design

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rillwright/finding"
)

// All mistakes of a file are shown at once, and in the order of the file.
func TestReadManyMistakes(t *testing.T) {
	data, err := os.ReadFile("testdata/many.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, list := Read("many.yaml", data)
	var out strings.Builder
	if err := finding.Write(&out, list); err != nil {
		t.Fatal(err)
	}
	got := out.String()
	const golden = "testdata/many.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Error(diff)
	}
	// One planted mistake on each of these lines.
	lines := map[int]bool{}
	for i, f := range list {
		lines[f.Place.Line] = true
		if i > 0 && f.Place.Line < list[i-1].Place.Line {
			t.Errorf("finding %d is out of order", i)
		}
	}
	for _, n := range []int{4, 6, 7, 8, 10, 11, 12, 14, 20, 21, 23, 26, 29, 32, 33, 35, 39, 42, 43, 44, 45, 47, 49} {
		if !lines[n] {
			t.Errorf("the mistake on line %d was not found", n)
		}
	}
}
