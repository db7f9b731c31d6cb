package document

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// edited is a file whose parts the tables below change.
const edited = `# top
title: My shed   # keep

roof: { slope: 3 deg, gap: 1 mm } # flat
empty: {}
bare:  # later
room:
  width: 1 m   # inside
  door:
    up: 2 m # too

  # nothing below
shelf:
  - name: top # n
    length: 3 mm

    grips: [ { at: 1 mm }, { at: 2 mm } ]
  - { name: low, length: 4 mm, grips: [] }
rows: { a: 1, # first
  b: 2 } # second
notes: |  # why
  one

# of the notes
`

func TestEdits(t *testing.T) {
	for _, c := range []struct{ kind, path, text, old, want string }{
		// Between braces.
		{"put", "roof.pitch", "2 in", "gap: 1 mm } #", "gap: 1 mm, pitch: 2 in } #"},
		{"put", "roof.pitch", "2, 3", "gap: 1 mm } #", "gap: 1 mm, pitch: '2, 3' } #"},
		{"put", "roof.pitch", "{ a: 1, b: 2 }", "gap: 1 mm } #", "gap: 1 mm, pitch: { a: 1, b: 2 } } #"},
		{"put", "roof.deep.down", "1 mm", "gap: 1 mm } #", "gap: 1 mm, deep: { down: 1 mm } } #"},
		{"put", "rows.c", "3", "b: 2 } #", "b: 2, c: 3 } #"},
		{"put", "empty.a", "1", "{}", "{ a: 1 }"},
		{"put", "shelf[low].deep", "1 mm", "grips: [] }", "grips: [], deep: 1 mm }"},
		// On lines of their own.
		{"put", "room.depth", "2 m", "up: 2 m # too\n", "up: 2 m # too\n  depth: 2 m\n"},
		{"put", "room.door.wide", "{ a: 1 }", "up: 2 m # too\n", "up: 2 m # too\n    wide: { a: 1 }\n"},
		{"put", "room.door.wide", "[later]", "up: 2 m # too\n", "up: 2 m # too\n    wide: '[later]'\n"},
		{"put", "shelf[top].up", "1 mm", "{ at: 2 mm } ]\n", "{ at: 2 mm } ]\n    up: 1 mm\n"},
		{"put", "shelf[1].deep.down", "1 mm", "{ at: 2 mm } ]\n", "{ at: 2 mm } ]\n    deep: { down: 1 mm }\n"},
		{"put", "bare", "now", "bare:  #", "bare: now  #"},
		{"put", "bare.a.b", "now", "bare:  #", "bare: { a: { b: now } }  #"},
		{"put", "title", "Other", "My shed ", "Other "},
		// At the top.
		{"put", "colour", "red", "# of the notes\n", "# of the notes\ncolour: red\n"},
		{"put", "paint.colour", "red", "# of the notes\n", "# of the notes\n\npaint:\n  colour: red\n"},
		{"put", "paint.coat.colour", "red", "# of the notes\n", "# of the notes\n\npaint:\n  coat: { colour: red }\n"},
		{"put", "paint", "{ colour: red }", "# of the notes\n", "# of the notes\n\npaint: { colour: red }\n"},
		// Lists.
		{"append", "shelf", "name: new\nlength: 1 mm", "grips: [] }\n", "grips: [] }\n  - name: new\n    length: 1 mm\n"},
		{"append", "shelf", "{ name: new }", "grips: [] }\n", "grips: [] }\n  - { name: new }\n"},
		{"append", "shelf[top].grips", "at: 3 mm\nof: 'a, b'", "{ at: 2 mm } ]", "{ at: 2 mm }, { at: 3 mm, of: 'a, b' } ]"},
		{"append", "shelf[low].grips", "at: 3 mm", "grips: []", "grips: [ { at: 3 mm } ]"},
		{"append", "shelf[low].hooks", "at: 3 mm", "grips: [] }", "grips: [], hooks: [ { at: 3 mm } ] }"},
		{"append", "room.hooks", "at: 3 mm\nof: steel", "up: 2 m # too\n", "up: 2 m # too\n  hooks:\n    - at: 3 mm\n      of: steel\n"},
		{"append", "room.door.hooks.of", "steel", "up: 2 m # too\n", "up: 2 m # too\n    hooks: { of: [ steel ] }\n"},
		{"append", "bare", "a: 1", "bare:  # later\n", "bare:  # later\n  - a: 1\n"},
		{"append", "tools", "a: 1\nb:\n  - c", "# of the notes\n", "# of the notes\n\ntools:\n  - a: 1\n    b:\n      - c\n"},
		{"insert", "shelf[1]", "name: new\nlength: 1 mm", "  - name: top", "  - name: new\n    length: 1 mm\n  - name: top"},
		{"insert", "shelf[low]", "{ name: new }", "  - { name: low", "  - { name: new }\n  - { name: low"},
		{"insert", "shelf[top].grips[2]", "at: 3 mm", "{ at: 2 mm }", "{ at: 3 mm }, { at: 2 mm }"},
		// Cuts.
		{"cut", "roof.gap", "", ", gap: 1 mm }", " }"},
		{"cut", "roof.slope", "", "slope: 3 deg, ", ""},
		{"cut", "rows.a", "", "{ a: 1, # first", "{  # first"},
		{"cut", "rows.b", "", "1, # first\n  b: 2 }", "1 # first\n   }"},
		{"cut", "room.width", "", "  width: 1 m   # inside\n", ""},
		{"cut", "room.door.up", "", "  door:\n    up: 2 m # too\n", ""},
		{"cut", "shelf[top].name", "", "name: top # n\n    length", "length"},
		{"cut", "shelf[top].grips", "", "    grips: [ { at: 1 mm }, { at: 2 mm } ]\n", ""},
		{"cut", "shelf[low]", "", "  - { name: low, length: 4 mm, grips: [] }\n", ""},
		{"cut", "shelf[top]", "", "  - name: top # n\n    length: 3 mm\n\n    grips: [ { at: 1 mm }, { at: 2 mm } ]\n", ""},
		{"cut", "shelf[top].grips[1]", "", "{ at: 1 mm }, ", ""},
		{"cut", "shelf[top].grips[2]", "", ", { at: 2 mm }", ""},
		{"cut", "notes", "", "notes: |  # why\n  one\n", ""},
		{"cut", "bare", "", "bare:  # later\n", ""},
		{"cut", "title", "", "title: My shed   # keep\n", ""},
		{"cut", "room.depth", "", "", ""},
		{"cut", "paint.coat", "", "", ""},
	} {
		for _, as := range []func(string) string{
			func(s string) string { return s },
			func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
			func(s string) string { return byteOrderMark + s },
		} {
			in := as(edited)
			want := as(strings.Replace(edited, c.old, c.want, 1))
			if c.old != "" && strings.Count(edited, c.old) != 1 {
				t.Fatalf("%s %s: %q stands there %d times", c.kind, c.path, c.old, strings.Count(edited, c.old))
			}
			got, err := edit(c.kind, []byte(in), c.path, c.text)
			if err != nil || string(got) != want {
				t.Errorf("%s %s %q: %v, got\n%s\nwant\n%s", c.kind, c.path, c.text, err, got, want)
			}
		}
	}
}

func edit(kind string, data []byte, path, text string) ([]byte, error) {
	switch kind {
	case "append":
		return Append(data, path, text)
	case "insert":
		return Insert(data, path, text)
	case "cut":
		return Cut(data, path)
	}
	return Put(data, path, text)
}

// Odd layouts: no line end at the end, keys behind dashes, commas in comments.
func TestEditsOfOddFiles(t *testing.T) {
	for _, c := range []struct{ kind, text, path, value, want string }{
		{"put", "a: 1", "b", "2", "a: 1\nb: 2"},
		{"put", "a:\r\n  b: 1", "a.c", "2", "a:\r\n  b: 1\r\n  c: 2"},
		{"put", "a: {b: 1}", "a.c", "2", "a: {b: 1, c: 2}"},
		{"put", "a: { b: 1, }", "a.c", "2", "a: { b: 1, c: 2, }"},
		{"put", "a: { }", "a.c", "2", "a: { c: 2 }"},
		{"put", "a: { b: , c: }", "a.b", "2", "a: { b: 2 , c: }"},
		{"put", "a: ~ # x\n", "a", "2", "a: 2 # x\n"},
		{"put", "---\na: 1\n...\n", "b", "2", "---\na: 1\nb: 2\n...\n"},
		{"put", "  a: 1\n", "b", "2", "  a: 1\n  b: 2\n"},
		{"put", "a:\n- b: 1\n- b: 2\nc: 3\n", "a[1].d", "4", "a:\n- b: 1\n  d: 4\n- b: 2\nc: 3\n"},
		{"put", "a:\n  b: |\n    x\n\n\nc: 1\n", "a.d", "2", "a:\n  b: |\n    x\n  d: 2\n\n\nc: 1\n"},
		{"append", "a: []", "a", "b", "a: [ b ]"},
		{"append", "a:\n- b\n# c\n", "a", "d", "a:\n- b\n- d\n# c\n"},
		{"append", "a: [\n  b, # x, y\n  c # z\n]", "a", "d", "a: [\n  b, # x, y\n  c, d # z\n]"},
		{"cut", "a: 1\nb: 2", "b", "", "a: 1"},
		{"cut", "a:\n  - b: 1 # x\n    # y\n    c: 2\n", "a[1].b", "", "a:\n  -\n    # y\n    c: 2\n"},
		{"cut", "a: { b: 1, c: 2, }", "a.c", "", "a: { b: 1, }"},
		{"cut", "a: { b: 1, # x, y\n  c: 2, # z\n  d: 3 }", "a.c", "", "a: { b: 1 # x, y\n  , # z\n  d: 3 }"},
		{"cut", "a: [\n  b, # x, y\n  c\n]", "a[2]", "", "a: [\n  b # x, y\n]"},
	} {
		got, err := edit(c.kind, []byte(c.text), c.path, c.value)
		if err != nil || string(got) != c.want {
			t.Errorf("%s %s of %q: %v, got %q, want %q", c.kind, c.path, c.text, err, got, c.want)
		}
	}
}

func TestEditsRefuse(t *testing.T) {
	for _, c := range []struct{ kind, path, text, want string }{
		{"put", "room", "x", "room is not a single value: write one of its keys, or cut it first"},
		{"put", "title.a", "x", "title has no keys: end the path there"},
		{"put", "title", " ", "an empty value cannot be written: give a text"},
		{"put", "shelf[high].length", "x", "shelf[high] is not there: the list has 2 entries: name one, or add it first"},
		{"put", "tools[saw].length", "x", "tools[saw] is not there: add the whole entry to the list first"},
		{"put", "room[1].length", "x", "room is not a list: leave the brackets out"},
		{"append", "room", "a: 1", "room is not a list: name a list of the file, or one that it may have"},
		{"append", "shelf", "a:", "a key of the new entry has no value: write it, or leave the key out"},
		{"append", "shelf", "", "an empty entry cannot be added: give its keys, or its value"},
		{"insert", "room.width", "a: 1", "room.width is not an entry of a list: name the entry that the new one comes in front of"},
		{"cut", "shelf[9]", "", "shelf[9] is not there: the list has 2 entries: name one, or add it first"},
		{"cut", "room[", "", `path "room[" has a [ that is not closed: write the entry's name between [ and ], as "drains[main drain].lip"`},
	} {
		got, err := edit(c.kind, []byte(edited), c.path, c.text)
		var p *Problem
		if !errors.As(err, &p) || err.Error() != c.want {
			t.Errorf("%s %s: got %q, %v; want %s", c.kind, c.path, got, err, c.want)
		}
	}
	if _, err := Cut([]byte("a:\n  b: 1\n"), "a.b"); err == nil || err.Error() != "a.b is all that the file holds: begin from the starter file" {
		t.Error(err)
	}
	if _, err := Cut([]byte("a:\n  - b: 1\n  - c: 2\n"), "a[1].b"); err == nil || err.Error() != "a[1].b is all that a[1] holds: take the whole entry out" {
		t.Error(err)
	}
}

// What is given in a struct is written so that it reads back as it was.
func TestBlock(t *testing.T) {
	var s, back shed
	if list := Decode("f", []byte(soundShed), &s); len(list) > 0 {
		t.Fatal(show(list))
	}
	for _, text := range []string{Block(&s), Flow(&s)} {
		back = shed{}
		if list := Decode("f", []byte(text), &back); len(list) > 0 {
			t.Fatalf("%s\n%s", show(list), text)
		}
		if a, b := texts(&s), texts(&back); a != b {
			t.Errorf("wrote\n%s\nwhich reads\n%s\nwant\n%s", text, b, a)
		}
	}
}

func texts(s *shed) string {
	var b strings.Builder
	Walk(s, func(sp Spot) {
		if text, _ := sp.Leaf.Source(); sp.Leaf.Given() {
			b.WriteString(sp.Path + "=" + text + "\n")
		}
	})
	return b.String()
}

// FuzzEdit looks for edits that spoil a file: whatever is asked, either the
// result can be read, or there is an error that says what to do and the file is
// as it was.
func FuzzEdit(f *testing.F) {
	for _, text := range []string{
		edited, soundShed, strings.ReplaceAll(edited, "\n", "\r\n"), byteOrderMark + soundShed, "a: [\n b, #,\n c # }\n]", "a: {b, c: {d: }}", "? a\n: b", "a: [b: c]",
		"- a", "a:\n- - b\n  - c\n", "a: |+\n  x\n\n\n", "a: >-\n x\nb: \"y\n  z\"", "--- # x\na: 1\n... # y\n", "a: '{'\nb: \"}\" # }\n", "é: { ½: 1 }\n",
	} {
		for _, path := range []string{"a", "a.b", "a[1]", "a[1].b", "room.width", "shelf[top].length", "é.x", "new.key"} {
			f.Add([]byte(text), uint8(len(text)), path, "{ x: 1 }")
			f.Add([]byte(text), uint8(len(path)), path, "x # y")
		}
	}
	f.Fuzz(func(t *testing.T, data []byte, kind uint8, path, text string) {
		before := bytes.Clone(data)
		got, err := edit([]string{"put", "append", "insert", "cut"}[kind%4], data, path, text)
		if !bytes.Equal(before, data) {
			t.Fatal("the file given was changed")
		}
		if err != nil {
			var p *Problem
			if !errors.As(err, &p) || p.What == "" || got != nil {
				t.Fatalf("%v with %q", err, got)
			}
			return
		}
		if _, _, err := readable(got); err != nil {
			t.Fatalf("%q %s %q became %q: %v", data, path, text, got, err)
		}
	})
}
