package design

import (
	"errors"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"rillwright/document"
)

// files are whole designs in several layouts of bytes. A file is read thousands of
// times here, so that of the other layouts only each eighth key is taken.
func files(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{"starter": string(starter)}
	for _, name := range []string{"corridor-cabinet.yaml", "counter-wall.yaml"} {
		data, err := os.ReadFile("../examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		out[name] = string(data)
	}
	for name, text := range maps.Clone(out) {
		out[name+" with CRLF"] = strings.ReplaceAll(text, "\n", "\r\n")
		out[name+" without an end"] = strings.TrimRight(text, "\n")
	}
	return out
}

func taken(name string, n int) bool { return n%8 == 0 || !strings.Contains(name, " with") }

// inner finds the part of b that a does not have, if b is a with one piece put in.
func inner(a, b string) (string, bool) {
	n := 0
	for n < len(a) && a[n] == b[n] {
		n++
	}
	if len(b) < len(a) || !strings.HasSuffix(b, a[n:]) {
		return "", false
	}
	return b[n : len(b)-len(a)+n], true
}

// Every key that a design may have and does not can be put there, one at a time:
// the file then gives it and all else as before, one piece has been added to its
// bytes, and cutting it gives the file back.
func TestPutEveryKey(t *testing.T) {
	for name, text := range files(t) {
		var d Design
		if list := document.Decode(name, []byte(text), &d); len(list) > 0 {
			t.Fatal(list)
		}
		before := given(&d)
		tried := 0
		document.Walk(&d, func(sp document.Spot) {
			if sp.Leaf.Given() {
				return
			}
			if tried++; !taken(name, tried) {
				return
			}
			to := "a text: with #1, {2} and [3]"
			if words := sp.Tag.Get("words"); words != "" {
				to = strings.Split(words, "|")[0]
			} else if what, examples := sp.Leaf.Describe(); len(examples) > 0 {
				to = examples[0]
			} else if what == "a value" { // strength, which has no example
				to = "1 MPa"
			}
			got, err := Apply([]byte(text), []Edit{{Path: sp.Path, To: to}})
			if err != nil {
				t.Errorf("%s: %s: %v", name, sp.Path, err)
				return
			}
			var now Design
			// A new section may lack other keys that it must have.
			for _, f := range document.Decode(name, got, &now) {
				if !strings.Contains(f.What, "is missing in") {
					t.Errorf("%s: %s: %v", name, sp.Path, f)
				}
			}
			after := given(&now)
			if after[sp.Path] != to || len(after) != len(before)+1 {
				t.Errorf("%s: %s is %q, want %q", name, sp.Path, after[sp.Path], to)
			}
			for path, was := range before {
				if after[path] != was {
					t.Errorf("%s: putting %s made %s %q, was %q", name, sp.Path, path, after[path], was)
				}
			}
			piece, ok := inner(text, string(got))
			if !ok || strings.Contains(text, "\r\n") && strings.Count(piece, "\n") != strings.Count(piece, "\r\n") {
				t.Errorf("%s: putting %s changed the file elsewhere", name, sp.Path)
			}
			if tried%8 != 0 {
				return
			}
			back, err := Apply(got, []Edit{{Path: sp.Path, Kind: EditCut}})
			// The blank line that sets a new section off stays.
			if err != nil || strings.TrimRight(string(back), "\r\n") != strings.TrimRight(text, "\r\n") {
				t.Errorf("%s: %s put and cut: %v", name, sp.Path, err)
			}
		})
		if tried < 50 {
			t.Errorf("%s: only %d keys were put", name, tried)
		}
	}
}

// Values that a design gives can be cut, one at a time, and only that goes.
func TestCutKeys(t *testing.T) {
	for name, text := range files(t) {
		var d Design
		document.Decode(name, []byte(text), &d)
		before := given(&d)
		for n, path := range slices.Sorted(maps.Keys(before)) {
			if n%3 != 0 || !taken(name, n/3) {
				continue
			}
			got, err := Apply([]byte(text), []Edit{{Path: path, Kind: EditCut}})
			var p *document.Problem
			if errors.As(err, &p) && strings.Contains(p.What, "is all that") {
				continue
			}
			if err != nil {
				t.Errorf("%s: %s: %v", name, path, err)
				continue
			}
			var now Design
			for _, f := range document.Decode(name, got, &now) {
				if !strings.Contains(f.What, "is missing") {
					t.Errorf("%s: %s: %v", name, path, f)
				}
			}
			if after := given(&now); len(after) != len(before)-1 {
				t.Errorf("%s: cutting %s left %d values of %d", name, path, len(after), len(before))
			}
		}
	}
}

func given(d *Design) map[string]string {
	out := map[string]string{}
	document.Walk(d, func(sp document.Spot) {
		if text, _ := sp.Leaf.Source(); sp.Leaf.Given() {
			out[sp.Path] = text
		}
	})
	return out
}

// Lists take an entry more, in the layout that each has, and lists that are not
// there are made.
func TestAppendToLists(t *testing.T) {
	for name, text := range files(t) {
		for path, entry := range map[string]string{
			"drains": "name: another\nkind: floor opening\nlip: 0 mm\nto: sump\npieces:\n  - { part: elbow 90 solvent 1 in }", "shelf": "{ name: another, label: { flow: 1 L/h, head: 1 m } }",
			"scenarios": "name: another\nlasts: 1 h\nsteps:\n  - { at: 0 s, what: power off }", "pool.zones": "{ name: another, from: 0 mm, to: 10 mm, displaced: 40 % }",
			"budget.prices": "{ what: another, price: 1 EUR }", "bridges": "name: another\nkind: cord\nfrom: sump\nto: floor",
		} {
			got, err := Apply([]byte(text), []Edit{{Path: path, To: entry, Kind: EditAppend}})
			if err != nil {
				t.Errorf("%s: %s: %v", name, path, err)
				continue
			}
			var d Design
			for _, f := range document.Decode(name, got, &d) {
				if !strings.Contains(f.What, "is missing") {
					t.Errorf("%s: %s: %v", name, path, f)
				}
			}
			if _, ok := inner(text, string(got)); !ok || !strings.Contains(string(got), "another") {
				t.Errorf("%s: one more in %s changed the file elsewhere", name, path)
			}
		}
	}
}

func TestApplyRefuses(t *testing.T) {
	for _, c := range []struct {
		edit Edit
		want string
	}{
		{Edit{Path: "dam.hight", To: "1 mm"}, `there is no "hight" in dam: did you mean "dam.height"?`},
		{Edit{Path: "dam.height.a", To: "1 mm"}, "dam.height is a single value: end the path there"},
		{Edit{Path: "drains.lip", To: "1 mm"}, `drains is a list: say which entry: "drains[its name]", or its number from 1`},
		{Edit{Path: "dam[1].height", To: "1 mm"}, `dam is not a list: leave the brackets out: "dam"`},
		{Edit{Path: "dam", To: "x"}, "dam is not a single value: write one of its keys, or cut it first"},
		{Edit{Path: "dam.height", To: "1 mm", Kind: "set"}, `"set" is no kind of edit: leave it empty to put a value, or write append, insert, cut or measure`},
		{Edit{Path: "", To: "x"}, `path "" has an empty part: write it as "drains[main drain].lip"`},
	} {
		got, err := Apply(starter, []Edit{{Path: "name", To: "other"}, c.edit})
		if err == nil || err.Error() != c.want || got != nil {
			t.Errorf("%+v: %v, want %s", c.edit, err, c.want)
		}
	}
}
