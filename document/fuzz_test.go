package document

import (
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzDecode looks for panics, for findings that point outside the file, and
// for values whose place does not hold their text.
func FuzzDecode(f *testing.F) {
	for _, seed := range []string{
		soundShed, strings.ReplaceAll(soundShed, "\n", "\r\n"), "", "\x00", "\xff\xfe", byteOrderMark, "---\n", "...\n", "- \n- a",
		"title: &a [*a]\nroom: *a", "<<: *x", "? a\n: b", "title: !!binary x", "%YAML 1.2\n---\ntitle: x", "title: |\n", "title: >2-\n x\n  y",
		"{", "[", "}", "{title: x, room: {width: 1 m", "title: \"\\u12", "title: 'a\n\nroom: b'", "title:\tx\nroom:\t{width:\t1 m}",
		"shelf:\n- name: \"a]b\"\n  length: 1 m\n-\n- - -", "title: a: b: c", "  title: x\nroom:\n width: 1 m", "a: {b: {c: {d: [1, [2, [3]]]}}}",
		"title: x # c\n# d\n  # e\nroom: {}", "~: x\nnull: y\ntrue: z\n1: w\n1.5: v", "title: é\u0301\u202e\nroom: {width: ½ in}", "title: x\r\rroom: y",
		"title: >\n\n\n  a\n\n  b\n \nroom:", "title: 1,5\nroom: {width: 1,5 m, depth: 2}", "title: @x", "title: `x", "title: -", "title: - x", "title: ?", "title: :",
		"shelf: [[[]]]", "shelf: {}", "labels: [a, , b]", "labels: [\n a\n,\n]", "title: !a !b c", "title: &a &b c", "title: *", "title: &", "title: !", "title: |x\n y",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var s shed
		list := Decode("f", data, &s)
		lines := strings.Split(strings.TrimPrefix(string(data), byteOrderMark), "\n")
		for _, g := range list {
			if g.What == "" || g.Place.Line < 0 || g.Place.Line > len(lines) {
				t.Fatalf("finding outside the file or without words: %+v", g)
			}
			if !utf8.ValidString(g.Excerpt) {
				t.Fatalf("excerpt is not UTF-8: %q", g.Excerpt)
			}
		}
		if len(list) > 0 {
			return
		}
		Walk(&s, func(sp Spot) {
			text, at := sp.Leaf.Source()
			if !sp.Leaf.Given() {
				return
			}
			line := strings.TrimSuffix(lines[at.Line-1], "\r")
			rest := line[byteColumn(line, at.Column):]
			first := strings.Fields(text)
			if strings.ContainsAny(rest[:1], `"'|>`) || len(first) == 0 {
				return
			}
			if !strings.HasPrefix(rest, first[0]) {
				t.Fatalf("%s is %q, but at %d:%d stands %q", sp.Path, text, at.Line, at.Column, rest)
			}
		})
	})
}
