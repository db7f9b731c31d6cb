package finding

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write the golden file anew")

// The printed form was looked at in a terminal that counts East Asian wide
// characters as two columns; the golden file holds it.
func TestWriteGolden(t *testing.T) {
	long := "note: " + strings.Repeat("water runs down the wall and ", 6) + "bore: 13 # and " + strings.Repeat("on it goes ", 9)
	l := List{
		{Place{"grotto.yaml", 41, 11, 2}, Error, "bore", `bore "13" has no unit`, "write 13 mm or 1/2 in", "    bore: 13"},
		{Place{"grotto.yaml", 7, 5, 2}, Error, "", "behind tabs", "use blanks", "\tx:\t12"},
		{Place{"grotto.yaml", 8, 10, 2}, Warning, "", "behind wide characters", "", "name: 水の壁 13"},
		{Place{"grotto.yaml", 9, 7, 3}, Warning, "", "on wide characters", "", "name: 水の壁 13"},
		{Place{"grotto.yaml", 10, 12, 2}, Warning, "", "behind a mark on its letter", "", "name: cafe\u0301 13"},
		{Place{"grotto.yaml", 123456, 3, 0}, Note, "", "a large line number", "", "a b"},
		{Place{"grotto.yaml", 12, 8, 0}, Error, "", "past the end", "add a value", "depth:"},
		{Place{"grotto.yaml", 13, 0, 0}, Note, "", "no column", "", "depth: 3 mm"},
		{Place{"grotto.yaml", 14, 187, 2}, Error, "", "within a long line", "", long},
		{Place{"grotto.yaml", 15, 1, 0}, Error, "", "at the start of a long line", "", long},
		{Place{"grotto.yaml", 16, 2, 4}, Error, "", "a\ttab and \x1b[31mcolour", "one\ntwo\x07", "\x1b[2Jabc \u202e"},
		{Place{File: "grotto.yaml"}, Error, "", "the file is empty", "write a design into it", ""},
		{Place{}, Note, "", "no place at all", "", "not shown"},
	}
	var b bytes.Buffer
	if err := Write(&b, l); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/write.txt"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("printed findings changed (-golden +now); if rightly, run with -update:\n%s", diff)
	}
}

// The first case stands in the house rules, letter for letter.
func TestWriteExample(t *testing.T) {
	const want = `grotto.yaml:41:11: error: bore "13" has no unit
   41 |     bore: 13
      |           ^^
  do: write 13 mm or 1/2 in
`
	var b strings.Builder
	err := Write(&b, List{{Place{"grotto.yaml", 41, 11, 2}, Error, "bore", `bore "13" has no unit`, "write 13 mm or 1/2 in", "    bore: 13"}})
	if err != nil || b.String() != want {
		t.Errorf("got\n%s%v\nwant\n%s", b.String(), err, want)
	}
}

type brokenPipe struct{}

var errPipe = errors.New("broken pipe")

func (brokenPipe) Write([]byte) (int, error) { return 0, errPipe }

func TestWriteFails(t *testing.T) {
	if err := Write(brokenPipe{}, List{{What: "x"}}); !errors.Is(err, errPipe) {
		t.Errorf("got %v, want the writer's error", err)
	}
}

// Whatever the line holds, the marks stand under the marked characters, and no
// control character reaches the terminal.
func TestMarksLineUp(t *testing.T) {
	letters := []rune("ab:# \t水ﾜＷ\u0301é½\x1b\u202e🪴")
	rapid.Check(t, func(t *rapid.T) {
		line := []rune(rapid.StringOfN(rapid.SampledFrom(letters), 0, 300, -1).Draw(t, "line"))
		column := rapid.IntRange(1, 310).Draw(t, "column")
		// A letter of its own at the place, to find again in the print.
		if column <= len(line) {
			line[column-1] = 'Q'
		}
		f := Finding{Place: Place{"f", 1, column, rapid.IntRange(0, 20).Draw(t, "width")}, Excerpt: string(line)}
		text, at, width := f.excerpt()
		if strings.IndexFunc(text, hidden) >= 0 {
			t.Fatalf("hidden character in %q", text)
		}
		total, mark := 0, -1
		for _, r := range text {
			if r == 'Q' {
				mark = total
			}
			total += columns(r)
		}
		if total > maxColumns+2 {
			t.Fatalf("%d columns: %q", total, text)
		}
		if width < 1 || at < 0 || at > total && column <= len(line) {
			t.Fatalf("marks at %d, %d wide, in %d columns", at, width, total)
		}
		if column <= len(line) && mark != at {
			t.Fatalf("marks at %d, letter at %d in %q", at, mark, text)
		}
	})
}

// Widths from Unicode Standard Annex 11, EastAsianWidth.txt.
func TestColumns(t *testing.T) {
	for _, c := range []struct {
		r    rune
		want int
	}{
		{'a', 1},
		{'½', 1},
		{'″', 1},
		{'–', 1},
		{'\u0301', 0},
		{'\u200d', 0},
		{'\u1100', 2},
		{'\u10ff', 1},
		{'\u1160', 1},
		{'水', 2},
		{'ﾜ', 1},
		{'Ｗ', 2},
		{'한', 2},
		{'✓', 1},
		{'🌡', 1},
		{'🪴', 2},
		{'\U00020000', 2},
		{'\U0010ffff', 1},
	} {
		if got := columns(c.r); got != c.want {
			t.Errorf("columns(%U) = %d, want %d", c.r, got, c.want)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	l := make(List, 100)
	for i := range l {
		l[i] = Finding{Place{"grotto.yaml", 41, 11, 2}, Error, "bore", `bore "13" has no unit`, "write 13 mm or 1/2 in", "    bore: 13"}
	}
	b.ReportAllocs()
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := Write(&out, l); err != nil {
			b.Fatal(err)
		}
	}
}
