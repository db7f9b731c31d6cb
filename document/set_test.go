package document

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSet(t *testing.T) {
	const text = "# top\ntitle: My shed   # keep\n\nroof:  \"flat\"\t# too\nroom: { width: 1 m , depth: 'a b' }\n" +
		"shelf:\n  - name: top # n\n    length: 3 mm\n  -   {name: 'a.b[c]', length: 4 mm}\nnotes: |  # why\n  one\n\n  two\n\n# end\nair: 1\n  to 2 mm\nlast: \"x\n  y\" # z\n"
	for _, c := range []struct{ path, value, old, want string }{
		{"title", "Other", "title: My shed   #", "title: Other   #"},
		{"title", "a: b", "title: My shed   #", "title: 'a: b'   #"},
		{"title", "it's #1", "title: My shed   #", "title: 'it''s #1'   #"},
		{"title", "two\nlines", "title: My shed   #", `title: "two\nlines"   #`},
		{"title", "{x}", "title: My shed   #", "title: '{x}'   #"},
		{"title", "null", "title: My shed   #", "title: 'null'   #"},
		{"roof", "pitched", `"flat"`, "pitched"},
		{"room.width", "1 1/2 in", "width: 1 m ,", "width: 1 1/2 in ,"},
		{"room.width", "1, 2", "width: 1 m ,", "width: '1, 2' ,"},
		{"room.depth", "grün ½", "'a b'", "grün ½"},
		{"shelf[top].length", "12 mm", "3 mm", "12 mm"},
		{"shelf[2].length", "12 mm", "4 mm", "12 mm"},
		{"shelf[a.b[c]].length", "12 mm", "4 mm", "12 mm"},
		{"shelf[top].name", "bottom", "name: top #", "name: bottom #"},
		{"notes", "three", "|  # why\n  one\n\n  two\n", "three  # why\n"},
		{"air", "3 mm", "1\n  to 2 mm", "3 mm"},
		{"last", "w", "\"x\n  y\" #", "w #"},
	} {
		for _, crlf := range []bool{false, true} {
			in, old, want := text, c.old, c.want
			if crlf {
				in, old, want = strings.ReplaceAll(in, "\n", "\r\n"), strings.ReplaceAll(old, "\n", "\r\n"), strings.ReplaceAll(want, "\n", "\r\n")
			}
			wantAll := strings.Replace(in, old, want, 1)
			got, err := Set([]byte(in), c.path, c.value)
			if err != nil || string(got) != wantAll {
				t.Errorf("%s = %q (CRLF %v): %v, got\n%s\nwant\n%s", c.path, c.value, crlf, err, got, wantAll)
			}
		}
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ text, path, value, want string }{
		{soundShed, "titel", "x", `there is no "titel": did you mean "title"?`},
		{soundShed, "title", " ", "an empty value cannot be written: give a text"},
		{soundShed, "room", "x", "room is not a single value"},
		{soundShed, "shelf[high].length", "x", `shelf has no entry "high"`},
		{soundShed, "shelf[top.length", "x", `path "shelf[top.length" has a [ that is not closed: write the entry's name between [ and ], as "drains[main drain].lip"`},
		{"title: [", "title", "x", "the file cannot be changed while it has mistakes: this [ is never closed"},
		{"title:\n", "title", "x", "title is not a single value"},
	} {
		got, err := Set([]byte(c.text), c.path, c.value)
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: got %q, %v; want %s", c.path, got, err, c.want)
		}
	}
}

// Whatever text is set, reading the file back gives it, and gives every other
// value as it was; and only the lines of the value have changed.
func TestSetProperty(t *testing.T) {
	texts := []string{soundShed, strings.ReplaceAll(soundShed, "\n", "\r\n"), byteOrderMark + soundShed}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "file")
		var before shed
		if list := Decode("f", []byte(text), &before); len(list) > 0 {
			t.Fatal(show(list))
		}
		old := map[string]string{}
		var paths []string
		Walk(&before, func(sp Spot) {
			if sp.Leaf.Given() {
				paths = append(paths, sp.Path)
				old[sp.Path], _ = sp.Leaf.Source()
			}
		})
		path := rapid.SampledFrom(paths).Draw(t, "path")
		value := rapid.OneOf(
			rapid.String(), rapid.StringMatching(`[-?:,\[\]{}#&*!|>'"%@ a1\\]{1,12}`), rapid.SampledFrom([]string{"1 1/2 in", "~", "---", "a\r\nb", "\ufeffx", "x\u2028y"}),
		).Filter(func(s string) bool { return strings.TrimSpace(s) != "" }).Draw(t, "value")
		changed, err := Set([]byte(text), path, value)
		if err != nil {
			t.Fatalf("%s = %q: %v", path, value, err)
		}
		var after shed
		Decode("f", changed, &after)
		index := 0
		Walk(&after, func(sp Spot) {
			if !sp.Leaf.Given() {
				return
			}
			want := old[paths[index]]
			if paths[index] == path {
				want = value
			}
			if got, _ := sp.Leaf.Source(); got != want {
				t.Fatalf("set %s to %q: %s became %q, want %q", path, value, paths[index], got, want)
			}
			index++
		})
		if index != len(paths) {
			t.Fatalf("%d values, want %d", index, len(paths))
		}
		a, b := strings.SplitAfter(text, "\n"), strings.SplitAfter(string(changed), "\n")
		differ := 0
		for i := range a {
			if i >= len(b) || a[i] != b[i] {
				differ++
			}
		}
		if len(a) != len(b) || differ > 1 {
			t.Fatalf("%d lines changed, from %d to %d", differ, len(a), len(b))
		}
	})
}
