package record

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var names = Names{Pumps: []string{"main pump", "main"}, Manifolds: []string{"spray bar"}}

// The expected figures are sums by hand: 3.785411784 L to the US gallon.
func TestTyped(t *testing.T) {
	for _, c := range []struct {
		line, id, note string
		want           []float64
	}{
		{"bare main pump 10 l in 43 s, 44 s, 43 s", "bare[main pump]", "", []float64{0.01 / 43, 0.01 / 44, 0.01 / 43}},
		{"bare main 10 l in 43, 44, 43 s # new rotor", "bare[main]", "new rotor", []float64{0.01 / 43, 0.01 / 44, 0.01 / 43}},
		{"bare[main pump] 800 L/h", "bare[main pump]", "", []float64{0.8 / 3600}},
		{"hose 2 US gal in 33 s; 10 L in 43 s", "hose", "", []float64{2 * 0.003785411784 / 33, 0.01 / 43}},
		{"rise 12 mm", "rise", "", []float64{0.012}},
		{"rise 1/2 in, 12 mm", "rise", "", []float64{0.0127, 0.012}},
		{"cups 40 38 41 ml in 30 s", "even[spray bar]", "", []float64{40e-6 / 30, 38e-6 / 30, 41e-6 / 30}},
		{"even spray bar 40 ml, 0.1 L in 20 s", "even[spray bar]", "", []float64{2e-6, 5e-6}},
		{"cups 85 %", "even[spray bar]", "", []float64{0.85}},
		{"shut-off main 1.45 m", "shut-off[main]", "", []float64{1.45}},
		{"shut-off main 4 ft 9 in", "shut-off[main]", "", []float64{57 * 0.0254}},
		{"breaker not ok", "breaker", "", []float64{0}},
		{"restart 40 s", "restart", "", []float64{40}},
		{"skin 3 mm in 24 h, 1/8 in in 36 h", "skin", "", []float64{0.003 / math.Sqrt(86400), 0.003175 / math.Sqrt(129600)}},
		{"top-up 2 L in 3 days", "top-up", "", []float64{0.002 / 259200}},
		{"Cleaned strainer # much moss", "cleaned[strainer]", "much moss", nil},
	} {
		r, err := Typed(c.line, names)
		if err != nil {
			t.Errorf("%q: %v", c.line, err)
			continue
		}
		same := cmp.Diff(c.want, r.Values, cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Abs(a) }))
		if r.ID() != c.id || r.Note != c.note || same != "" {
			t.Errorf("%q: %s note %q values %v, want %s %q %v", c.line, r.ID(), r.Note, r.Values, c.id, c.note, c.want)
		}
	}
}

func TestTypedRefuses(t *testing.T) {
	for line, want := range map[string]string{
		"":                       "there is nothing to note",
		"barr main 10 l in 43 s": "write bare",
		"bare 10 l in 43 s":      "bare of which?",
		"bare main":              "the figure is missing",
		"bare main 10 l":         "write how much in what time",
		"bare main 10 l in 0 s":  "how many seconds",
		"bare main 10 l in 43 l": "43 l",
		"rise 12":                "unit",
		"rise -3 mm":             "0 or more",
		"breaker perhaps":        "write ok, or not ok",
		"cleaned":                "cleaned what?",
		"skin 3 mm":              "3 mm in 24 h",
		"skin 3 mm in 0 h":       "how many seconds",
		"skin 24 h in 3 mm":      "24 h",
		"bare[main 10 l in 43 s": "put ] behind the part",
		"hose 10 m in 3 s":       "10 m",
	} {
		if r, err := Typed(line, names); err == nil {
			t.Errorf("%q is taken, as %v", line, r.Values)
		} else if !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q in it", line, err, want)
		}
	}
}

func TestCSV(t *testing.T) {
	table := "\ufeffWhat,value,time,note\r\nbare main,\"10 L in 43 s, 44 s\",2026-11-26 18:30,first\r\nrise,1/2 in,2026-11-26T18:30:00+01:00\r\nrise,12,2026-11-27,\r\nrise,12 mm,3/4/2026,\r\n"
	got, found := CSV("t.csv", []byte(table), names, time.UTC)
	if len(got) != 2 || got[0].Note != "first" || got[1].Values[0] != 0.0127 {
		t.Errorf("read %+v", got)
	}
	if len(found) != 2 || found[0].Place.Line != 4 || found[1].Place.Line != 5 || found[1].Field != "time" {
		t.Errorf("found %v", found)
	}
	if _, found := CSV("t.csv", []byte("a,b\n1,2\n"), names, time.UTC); len(found) != 3 {
		t.Errorf("a table without columns: %v", found)
	}
}

// drawn is a reading such as people make them.
func drawn(t *rapid.T) Reading {
	line := rapid.SampledFrom([]string{
		"bare main 10 l in 43 s, 44 s", "hose 2 US gal in 33 s, 10 L in 43 s", "rise 1/2 in, 12 mm", "cups 40 38 41 ml in 30 s",
		"breaker ok", "cleaned strainer", "top-up 2 L in 3 days", "restart 40 s",
	}).Draw(t, "line")
	r, err := Typed(line, names)
	if err != nil {
		t.Fatal(err)
	}
	// A clock that jumps: any time, in any zone.
	zone := time.FixedZone("", 60*rapid.IntRange(-12*60, 14*60).Draw(t, "zone"))
	r.Time = time.Unix(rapid.Int64Range(1.7e9, 1.9e9).Draw(t, "time"), 0).In(zone)
	r.Design = rapid.StringMatching("[0-9a-f]{8}|").Draw(t, "design")
	r.Note = strings.NewReplacer("\t", " ", "\n", " ", "\r", " ").Replace(rapid.String().Draw(t, "note"))
	return r
}

func textOf(t *rapid.T, list []Reading) string {
	var b strings.Builder
	b.WriteString(Header)
	for i := range list {
		line, err := list[i].Line()
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(line)
	}
	return b.String()
}

var sameReading = cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".At" }, cmp.Ignore())

// What is read and written again is the same, in whatever order its lines stand.
func TestReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.Custom(drawn), 0, 12).Draw(t, "readings")
		l, found := Read("a.log", []byte(textOf(t, list)))
		if len(found) > 0 || len(l.Unread) > 0 {
			t.Fatalf("found %v", found)
		}
		shuffled := rapid.Permutation(list).Draw(t, "order")
		again, _ := Read("a.log", []byte(textOf(t, append(shuffled, list...))))
		if diff := cmp.Diff(l.Readings, again.Readings, sameReading); diff != "" {
			t.Fatal(diff)
		}
		for i := 1; i < len(l.Readings); i++ {
			if l.Readings[i].Time.Before(l.Readings[i-1].Time) {
				t.Fatal("not in order of time")
			}
		}
		for i := range l.Readings { // times keep their offset, figures their text
			line, err := l.Readings[i].Line()
			if err != nil || !strings.HasSuffix(line, l.Readings[i].Sum+"\n") {
				t.Fatalf("%q %v", line, err)
			}
		}
	})
}

// However many bytes of a log are lost at its end, all whole lines are read, the
// piece is told of and kept, and what is added behind it is read too.
func TestTruncated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.Custom(drawn), 1, 5).Draw(t, "readings")
		whole := textOf(t, list)
		cut := rapid.IntRange(0, len(whole)).Draw(t, "cut")
		text := whole[:cut]
		complete := max(strings.Count(text, "\n")-1, 0)
		if cut < len(whole) && whole[cut] == '\n' && cut > len(Header) {
			complete++ // only its end is missing
		}
		l, found := Read("a.log", []byte(text))
		want, _ := Read("a.log", []byte(textOf(t, list[:complete])))
		if diff := cmp.Diff(want.Readings, l.Readings, sameReading); diff != "" {
			t.Fatal(diff)
		}
		if len(found) != len(l.Unread) || len(found) > 1 || found.HasErrors() {
			t.Fatalf("found %v, unread %q", found, l.Unread)
		}
		if len(l.Unread) == 1 && !strings.HasSuffix(text, l.Unread[0]) {
			t.Fatalf("%q is not the piece", l.Unread[0])
		}
		more := list[0]
		more.Note = "later"
		line, err := more.Line()
		if err != nil {
			t.Fatal(err)
		}
		if text != "" && !strings.HasSuffix(text, "\n") {
			line = "\n" + line
		}
		after, _ := Read("a.log", []byte(text+line))
		if len(after.Readings) != len(Join(l, after).Readings) || len(after.Readings) < len(l.Readings) || len(after.Unread) != len(l.Unread) {
			t.Fatalf("%d readings after %d", len(after.Readings), len(l.Readings))
		}
	})
}

// A byte that is not what it was is found, wherever it is, and costs one line.
func TestChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfNDistinct(rapid.Custom(drawn), 3, 3, func(r Reading) int64 { return r.Time.Unix() }).Draw(t, "readings")
		text := []byte(textOf(t, list))
		at := rapid.IntRange(len(Header), len(text)-1).Draw(t, "at")
		b := rapid.Byte().Draw(t, "byte")
		if text[at] == '\n' || b == '\n' || b == text[at] || b == '#' || b == '\r' {
			return
		}
		text[at] = b
		l, found := Read("a.log", text)
		if len(l.Readings) != 2 || len(found) != 1 || len(l.Unread) != 1 {
			t.Fatalf("%d readings, found %v", len(l.Readings), found)
		}
	})
}

func TestMergeMarks(t *testing.T) {
	l, found := Read("a.log", []byte("<<<<<<< mine\n"))
	if len(found) != 1 || !strings.Contains(found[0].What, "git") || len(l.Unread) != 1 {
		t.Errorf("found %v", found)
	}
}

func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	for i := range 100_000 {
		r, err := Typed([]string{"bare main 10 l in 43 s, 44 s, 43 s", "rise 12 mm", "cups 40 38 41 ml in 30 s"}[i%3], names)
		if err != nil {
			b.Fatal(err)
		}
		r.Time = time.Unix(1.7e9+int64(i)*60, 0).UTC()
		line, err := r.Line()
		if err != nil {
			b.Fatal(err)
		}
		text.WriteString(line)
	}
	data := []byte(text.String())
	for b.Loop() {
		if l, _ := Read("a.log", data); len(l.Readings) != 100_000 {
			b.Fatal(len(l.Readings))
		}
	}
}
