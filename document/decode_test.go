package document

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rillwright/finding"
	"rillwright/quantity"
)

// The test's own file shape: a garden shed, so that nothing here depends on the
// design file.
type shed struct {
	Pos    Pos                                   `yaml:"-"`
	Title  Field[string]                         `yaml:"title" need:"yes" doc:"What you call it."`
	Count  Field[int]                            `yaml:"count" doc:"How many."`
	Dry    Field[bool]                           `yaml:"dry" doc:"Whether it is dry."`
	Roof   Field[string]                         `yaml:"roof" words:"flat|pitched|not known" doc:"Its roof."`
	Room   room                                  `yaml:"room" need:"yes" doc:"Its room."`
	Shelf  []plank                               `yaml:"shelf" doc:"Its shelves."`
	Labels []Field[string]                       `yaml:"labels" doc:"Labels on the door."`
	Air    Field[quantity.Band[quantity.Length]] `yaml:"air" doc:"Gap under the roof."`
}

type room struct {
	Pos   Pos                    `yaml:"-"`
	Width Field[quantity.Length] `yaml:"width" need:"yes" doc:"Left to right."`
	Depth Field[quantity.Length] `yaml:"depth" doc:"Front to back."`
	Door  door                   `yaml:"door" doc:"Its door."`
}

type door struct {
	Pos  Pos                   `yaml:"-"`
	Made Field[string]         `yaml:"made" need:"yes" doc:"What it is made of."`
	Cost Field[quantity.Money] `yaml:"cost" doc:"What it cost."`
}

type plank struct {
	Pos    Pos                    `yaml:"-"`
	Name   Field[string]          `yaml:"name" need:"yes" doc:"Its name."`
	Length Field[quantity.Length] `yaml:"length" need:"yes" doc:"Its length."`
	Holes  []bore                 `yaml:"holes" doc:"Holes in it."`
}

type bore struct {
	Pos  Pos                    `yaml:"-"`
	Size Field[quantity.Length] `yaml:"size" need:"yes" doc:"Its size."`
}

// show writes findings one a line: place, width, path, words.
func show(list finding.List) string {
	var b strings.Builder
	for _, f := range list {
		fmt.Fprintf(&b, "%d:%d+%d [%s] %s -> %s\n", f.Place.Line, f.Place.Column, f.Place.Width, f.Field, f.What, f.Do)
	}
	return b.String()
}

const soundShed = `# a shed
title: My shed
count: 3
dry: yes
roof: pitched
room:
  width: 1.50 m   # inside
  door: {made: oak, cost: 45 EUR}
shelf:
  - name: top
    length: 300 mm
    holes:
      - size: 10 mm
      - {size: 1/2 in}
  - {name: low, length: 30 cm}
labels: [one, 'two, three']
air: 10 to 20 mm
`

func TestDecodeSound(t *testing.T) {
	for name, text := range map[string]string{
		"LF": soundShed, "CRLF": strings.ReplaceAll(soundShed, "\n", "\r\n"),
		"byte order mark": byteOrderMark + soundShed, "leading dashes": "---\n" + soundShed,
	} {
		t.Run(name, func(t *testing.T) {
			var s shed
			if list := Decode("shed.yaml", []byte(text), &s); len(list) > 0 {
				t.Fatalf("findings in a sound file:\n%s", show(list))
			}
			down := strings.Count(text, "---")
			if got, want := s.Room.Width, (Field[quantity.Length]{1.5, "1.50 m", Pos{7 + down, 10, 6}}); got != want {
				t.Errorf("room.width = %+v, want %+v", got, want)
			}
			if got, want := s.Room.Door.Cost.Pos, (Pos{8 + down, 27, 6}); got != want {
				t.Errorf("place of room.door.cost = %v, want %v", got, want)
			}
			if !s.Dry.Value || s.Count.Value != 3 || s.Roof.Value != "pitched" || s.Labels[1].Value != "two, three" {
				t.Errorf("wrong values: %+v", s)
			}
			if s.Shelf[0].Holes[1].Size.Text != "1/2 in" || s.Shelf[1].Length.Text != "30 cm" {
				t.Errorf("wrong lists: %+v", s.Shelf)
			}
			if got, want := s.Shelf[1].Pos, (Pos{15 + down, 5, 1}); got != want {
				t.Errorf("place of the second shelf = %v, want %v", got, want)
			}
			if got, want := s.Room.Pos, (Pos{6 + down, 1, 4}); got != want {
				t.Errorf("place of room = %v, want %v", got, want)
			}
			if s.Room.Depth.Given() || !s.Air.Given() {
				t.Error("Given is wrong")
			}
			if got := s.Air.Value; got.Low >= got.High {
				t.Errorf("air = %v, want a band", got)
			}
		})
	}
}

// YAML readers turn scalars that look like numbers into numbers; a part number
// must come through as typed.
func TestDecodeKeepsTextAsTyped(t *testing.T) {
	for _, c := range []struct{ yaml, want string }{
		{"010", "010"},
		{"1.50", "1.50"},
		{"0x1F", "0x1F"},
		{"1_000", "1_000"},
		{"1e3", "1e3"},
		{".inf", ".inf"},
		{"true", "true"},
		{"no", "no"},
		{"2026-01-31", "2026-01-31"},
		{"12:30", "12:30"},
		{`"1.50"`, "1.50"},
		{`'it''s'`, "it's"},
		{`"a\tb\n"`, "a\tb\n"},
		{`5' 3"`, `5' 3"`},
		{"grün # nicht", "grün"},
		{"a#b", "a#b"},
		{"|\n  x\n   y\n", "x\n y\n"},
		{">-\n  x\n  y\n", "x y"},
		{"|2-  # note\n    b", "  b"},
		{"one\n  two", "one two"},
		{`"one` + "\n  two\"", "one two"},
		{"-5", "-5"},
		{"½ in", "½ in"},
		{"a - b", "a - b"},
		{"#", ""},
	} {
		var s shed
		list := Decode("f", []byte("title: "+c.yaml+"\nroom: {width: 1 m}\n"), &s)
		if c.want == "" {
			if len(list) != 1 {
				t.Errorf("%q: want one finding, got\n%s", c.yaml, show(list))
			}
			continue
		}
		if len(list) > 0 || s.Title.Text != c.want || s.Title.Value != c.want {
			t.Errorf("%q: read %q, want %q\n%s", c.yaml, s.Title.Text, c.want, show(list))
		}
	}
}

func TestDecodeFindings(t *testing.T) {
	const ok = "title: x\nroom: {width: 1 m}\n"
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "0:0+0 [] the file is empty -> begin from the starter file\n"},
		{"only comments", "# x\n\n# y\n", "0:0+0 [] the file is empty -> begin from the starter file\n"},
		{"unknown key", ok + "tilte: y\n", "3:1+5 [tilte] unknown key \"tilte\" -> did you mean \"title\"?\n"},
		{
			"unknown key far from all", ok + "chimney: y\n",
			"3:1+7 [chimney] unknown key \"chimney\" -> the keys here are: title, count, dry, roof, room, shelf, labels, air\n",
		},
		{
			"misspelt section is still read", "title: x\nrooom: {width: 1 m, wat: 2}\n",
			"2:1+5 [rooom] unknown key \"rooom\" -> did you mean \"room\"?\n" +
				"2:21+3 [room.wat] unknown key \"wat\" in room -> the keys here are: width, depth, door\n",
		},
		{"duplicate key", ok + "count: 1\ncount: 2\n", "4:1+5 [count] \"count\" is given a second time; the first is on line 3 -> keep one of the two\n"},
		{"missing key at the top", "room: {width: 1 m}\n", "0:0+0 [title] \"title\" is missing -> write \"title:\" and the text (What you call it)\n"},
		{"missing section", "title: x\n", "0:0+0 [room] \"room\" is missing -> write \"room:\" and its keys below, indented (Its room)\n"},
		{
			"missing key in a section", "title: x\nroom: {depth: 1 m}\n",
			"2:1+4 [room.width] \"width\" is missing in room -> write \"width: 300 mm\" with your own figure (Left to right)\n",
		},
		{
			"missing key in a list", ok + "shelf:\n  - name: top\n  - length: 3 mm\n",
			"4:5+4 [shelf[top].length] \"length\" is missing in shelf[top] -> write \"length: 300 mm\" with your own figure (Its length)\n" +
				"5:5+6 [shelf[2].name] \"name\" is missing in shelf[2] -> write \"name:\" and the text (Its name)\n",
		},
		{
			"value where a section is wanted", "title: x\nroom: 3 m\n",
			"2:7+3 [room] \"room\" holds keys, and this is the single value \"3 m\" -> write its keys below, indented: width, depth, door\n",
		},
		{
			"list where a section is wanted", "title: x\nroom:\n  - width: 1 m\n",
			"3:3+1 [room] \"room\" holds keys, and this is a list -> write its keys below, indented: width, depth, door\n",
		},
		{
			"section where a list is wanted", ok + "shelf:\n  name: top\n  length: 3\n",
			"4:3+4 [shelf[top]] \"shelf\" is a list, and this is a section with keys -> begin each entry with \"- \"\n" +
				"5:11+1 [shelf[top].length] length \"3\": no unit -> write 12 mm or 1/2 in\n",
		},
		{"section where a value is wanted", ok + "count: {a: 1}\n", "3:8+1 [count] \"count\" holds one value, and this is a section with keys -> write a whole number behind the colon, as 3\n"},
		{"list where a value is wanted", ok + "roof: [flat]\n", "3:7+1 [roof] \"roof\" holds one value, and this is a list -> write text behind the colon\n"},
		{
			"value in a list of sections", ok + "shelf:\n  - top\n",
			"4:5+3 [shelf[1]] an entry of \"shelf\" holds keys, and this is the single value \"top\" -> write its keys: name, length, holes\n",
		},
		{"empty entry", ok + "shelf:\n  -\n  - {name: a, length: 1 m}\n", "4:4+1 [shelf[1]] entry 1 of \"shelf\" is empty -> write something behind the \"- \", or take the line away\n"},
		{"empty value", ok + "count:\n", "3:1+5 [count] \"count\" has no value -> write it as \"count: 3\", or leave the key out\n"},
		{"empty needed value", "title: ~\nroom: {width: 1 m}\n", "1:8+1 [title] \"title\" has no value -> write its value\n"},
		{"empty section", "title: x\nroom:\n", "2:1+4 [room] \"room\" has no value -> write its keys below, indented\n"},
		{"empty quotes", "title: ''\nroom: {width: 1 m}\n", "1:8+2 [title] \"title\" has no value -> write something between the quotes, or leave the key out\n"},
		{"word not allowed", ok + "roof: flatt\n", "3:7+5 [roof] roof \"flatt\": not one of the words it can be -> did you mean \"flat\"? the words here are flat, pitched or \"not known\"\n"},
		{"word far from all", ok + "roof: thatched\n", "3:7+8 [roof] roof \"thatched\": not one of the words it can be -> write flat, pitched or \"not known\"\n"},
		{"not a whole number", ok + "count: 2.5\n", "3:8+3 [count] count \"2.5\": not a whole number -> write plain digits and nothing else, as 3\n"},
		{"hexadecimal", ok + "count: 0x1F\n", "3:8+4 [count] count \"0x1F\": not a whole number -> write plain digits and nothing else, as 3\n"},
		{"leading zero", ok + "count: 010\n", "3:8+3 [count] count \"010\": a zero in front -> write it without the zero in front\n"},
		{"too large", ok + "count: 99999999999999999999\n", "3:8+20 [count] count \"99999999999999999999\": too large -> write a smaller whole number\n"},
		{"neither yes nor no", ok + "dry: maybe\n", "3:6+5 [dry] dry \"maybe\": neither yes nor no -> write yes or no\n"},
		{"alias and anchor", "title: &a x\nroom: {width: 1 m, depth: *a}\n", "1:8+1 [title] a value cannot begin with \"&\" (a YAML anchor) -> write the value out, or put it in quotes if it is a text\n" +
			"2:27+1 [room.depth] a value cannot begin with \"*\" (a YAML alias) -> write the value out again, or put it in quotes if it is a text\n"},
		{"merge", "title: x\nroom:\n  <<: {depth: 1 m}\n  width: 1 m\n", "3:3+2 [] \"<<\" (a YAML merge) cannot be used -> write the keys out\n"},
		{"tag", "title: !!str 3\nroom: {width: 1 m}\n", "1:8+5 [title] a value cannot begin with \"!\" (a YAML tag) -> leave the tag out, or put the value in quotes if it is a text\n"},
		{"second document", ok + "---\ntitle: y\n", "3:1+3 [] a second document begins here, and only the first would be read -> keep one design in a file; take the line of dashes away\n"},
		{"second document behind dots", ok + "...\ntitle: y\n", "4:1+5 [] a second document begins here, and only the first would be read -> keep one design in a file; take the line of dashes away\n"},
		{"decimal comma", "title: x\nroom: {width: 1 m, depth: 1,5 m}\n", "2:27+1 [room.depth] depth \"1\": no unit -> write 12 mm or 1/2 in\n" +
			"2:29+3 [room.5 m] unknown key \"5 m\" in room -> a comma begins a new key here: write 1.5 with a point, not 1,5, or put the value in quotes\n"},
		{"no blank behind the colon", "title: x\nroom: {width: 1 m, depth:2 m}\n", "2:20+5 [room.depth] no blank stands behind the colon of \"depth\" -> write a blank behind it, as \"depth: ...\"\n"},
		{"no blank behind the colon, alone", ok + "count:3\n", "3:1+7 [count] this line is not a key with a value -> write a key, a colon, a blank and the value, as \"width: 300 mm\" (is the blank behind the colon missing?)\n"},
		{"tab in the indentation", "title: x\nroom:\n\twidth: 1 m\n", "3:1+1 [] a tab stands in the indentation -> use blanks, two for each step\n"},
		{"not UTF-8", "title: x\nroom: {width: 1 \xb5m}\n", "2:17+1 [] this character is not saved as UTF-8 -> save the file as UTF-8 in your editor, or type the character again\n"},
		{"UTF-16", "\xff\xfet\x00", "0:0+0 [] the file is saved as UTF-16 -> save it as UTF-8 (plain text) in your editor\n"},
		{"control character", "title: a\x00b\n", "1:9+1 [] an invisible character (U+0000) stands here -> delete it and type the place again\n"},
		{"colon in a text", ok + "roof: note: flat\n", "3:7+4 [roof] a colon and a blank stand inside a value, or the next line is indented too far -> put the value in quotes, or line the next key up with this one\n"},
		{"quote not closed", ok + "roof: 'flat\n", "3:7+5 [roof] a quote is opened here and never closed -> write the same quote at the end of the text\n"},
		{"bracket not closed", "title: x\nroom: {width: 1 m\n", "2:7+1 [] this { is never closed -> write } at the end of the entry\n"},
		{"wrong bracket", "title: x\nroom: {width: 1 m]\n", "2:7+1 [] this { is never closed -> write } at the end of the entry\n"},
		{"closing bracket too many", "title: x\nroom: {width: 1 m}}\n", "2:19+1 [room] this } closes nothing -> take it away, or put the whole value in quotes\n"},
		{"brackets crossed", "title: x\nroom: {width: [1 m}]\n", "2:19+1 [] this } stands where ] should close the [ of line 2 -> write ] in its place\n"},
		{"just text", "hello\n", "1:1+5 [] the file does not begin with a key -> begin each line with a key and a colon, as \"name: my wall\"\n"},
		{"top is a list", "- a\n- b\n", "1:1+1 [] the file does not begin with a key -> begin each line with a key and a colon, as \"name: my wall\"\n"},
		{"reserved character", ok + "roof: @flat\n", "3:7+1 [roof] a value cannot begin with this character -> put the value in quotes\n"},
		{"list on the line of its key", ok + "shelf: - name: a\n", "3:8+1 [shelf] a list cannot begin on the line of its key -> begin the entry on the next line, indented, with \"- \"\n"},
		{
			"two sections with mistakes in the YAML, and a wrong value", "title: 'x\nroom:\n  width: 1\nshelf:\n  - name: [a\nroof: x\n",
			"1:8+2 [title] a quote is opened here and never closed -> write the same quote at the end of the text\n" +
				"3:10+1 [room.width] width \"1\": no unit -> write 12 mm or 1/2 in\n" +
				"5:11+1 [shelf] this [ is never closed -> write ] at the end of the list\n" +
				"6:7+1 [roof] roof \"x\": not one of the words it can be -> write flat, pitched or \"not known\"\n",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s shed
			list := Decode("f", []byte(c.text), &s)
			if diff := cmp.Diff(c.want, show(list)); diff != "" {
				t.Error(diff)
			}
			for _, f := range list {
				lines := strings.Split(c.text, "\n")
				if f.Place.Line > 0 && f.Excerpt == "" || f.Place.File != "f" || f.Severity != finding.Error {
					t.Errorf("finding without file, severity or source line: %+v", f)
				}
				if n := f.Place.Line; n > 0 && len([]rune(f.Excerpt)) != len([]rune(lines[n-1])) {
					t.Errorf("excerpt %q is not line %q", f.Excerpt, lines[n-1])
				}
			}
		})
	}
}

func TestDecodeLimits(t *testing.T) {
	for name, text := range map[string]string{
		"bytes":          "title: " + strings.Repeat("x", MaxBytes),
		"brackets":       "title: " + strings.Repeat("[", 20_000),
		"closed":         "title: " + strings.Repeat("[", 100) + strings.Repeat("]", 100),
		"hidden closers": "title: " + strings.Repeat(`["]]]]", `, 2000),
		"dashes":         strings.Repeat("- ", 20_000) + "x",
		"values":         strings.Repeat("a: b\n", 20_000),
	} {
		t.Run(name, func(t *testing.T) {
			var s shed
			if list := Decode("f", []byte(text), &s); len(list) != 1 {
				t.Errorf("want one finding, got %d", len(list))
			}
		})
	}
	var s shed
	if list := Decode("f", []byte(strings.Repeat("wrong: b\n", 5000)), &s); len(list) != maxFindings+1 {
		t.Errorf("%d findings, want %d and a last line that counts the rest", len(list), maxFindings)
	}
}
