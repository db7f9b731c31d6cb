package record

import (
	"strings"
	"testing"
)

// FuzzRead: whatever stands in a log, every line of it is a reading, one that is
// there twice, or kept unread with a finding; and what was read can be written.
func FuzzRead(f *testing.F) {
	f.Add(Header + "2026-11-26T18:20:00+01:00\trise\t12 mm\t-\t\t0123456789abcdef\nxx\n\n#y")
	f.Add("<<<<<<< a\r\n\t\t\t\t\t\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, found := Read("a.log", []byte(text))
		lines := 0
		for s := range strings.SplitSeq(text, "\n") {
			if s = strings.TrimSuffix(s, "\r"); s != "" && s[0] != '#' {
				lines++
			}
		}
		if len(found) != len(l.Unread) || len(l.Readings)+len(l.Unread) > lines || lines > 0 && len(l.Readings)+len(l.Unread) == 0 {
			t.Fatalf("%d lines, %d readings, %d unread, %d findings", lines, len(l.Readings), len(l.Unread), len(found))
		}
		for i := range l.Readings {
			if _, err := l.Readings[i].Line(); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// FuzzTyped: what is taken at the floor stands in a log and comes back the same.
func FuzzTyped(f *testing.F) {
	for _, s := range []string{"bare main 10 l in 43 s, 44 s # x", "cups 40 38 41 ml in 30 s", "rise 1/2 in;12 mm", "cleaned a b", "bare[main pump] 1 L/h", "soak not ok"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		r, err := Typed(line, names)
		if err != nil {
			return
		}
		for _, v := range r.Values {
			if !(v >= 0) {
				t.Fatalf("%q reads as %v", line, r.Values)
			}
		}
		text, err := r.Line()
		if err != nil {
			return // a note that cannot stand in a line is refused there
		}
		l, found := Read("a.log", []byte(text))
		if len(found) > 0 || len(l.Readings) != 1 || l.Readings[0].ID() != r.ID() || len(l.Readings[0].Values) != len(r.Values) {
			t.Fatalf("%q comes back as %+v, %v", text, l.Readings, found)
		}
	})
}
