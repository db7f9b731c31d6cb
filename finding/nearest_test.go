package finding

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	fields := []string{"width", "height", "depth", "thickness", "bore", "lip", "in", "level-error", "set-back", "main drain"}
	for _, c := range []struct{ word, want string }{
		{"widht", "width"},
		{"ehight", "height"},
		{"Heigth", "height"},
		{"LIP", "lip"},
		{"lpi", "lip"},
		{"thickness", "thickness"},
		{"thiknes", "thickness"},
		{"setback", "set-back"},
		{"level error", "level-error"},
		{"mian drian", "main drain"},
		{"In", "in"},
		{"it", ""}, // two letters: nothing but case may differ
		{"", ""},
		{"colour", ""},
		{"diameter", ""},
		{"bo", ""},
		{"bored", "bore"},
	} {
		got, ok := Nearest(c.word, fields)
		if got != c.want || ok != (c.want != "") {
			t.Errorf("Nearest(%q) = %q %v, want %q", c.word, got, ok, c.want)
		}
	}
	if got, _ := Nearest("drain", []string{"drains", "train", "drain"}); got != "drain" {
		t.Errorf("a word that is there: %q", got)
	}
	if got, _ := Nearest("pomp", []string{"pimp", "pump"}); got != "pimp" {
		t.Errorf("of equals the first: %q", got)
	}
	if got, ok := Nearest("x", nil); ok {
		t.Errorf("no candidates: %q", got)
	}
	long := strings.Repeat("manifold ", 30)
	if got, ok := Nearest(long+"x", []string{long}); !ok || got != long {
		t.Errorf("a long word: %q %v", got, ok)
	}
}

// plainDistance is the definition, word for word and without any shortcut:
// restricted edit distance with transposition of neighbours (Boytsov 2011, ACM J.
// Exp. Algorithmics 16, optimal string alignment; from memory).
func plainDistance(a, b string) int {
	if a == "" || b == "" {
		return len(a) + len(b)
	}
	x, y := a[:len(a)-1], b[:len(b)-1]
	cost := 1
	if a[len(x)] == b[len(y)] {
		cost = 0
	}
	d := min(plainDistance(x, y)+cost, plainDistance(x, b)+1, plainDistance(a, y)+1)
	if len(x) > 0 && len(y) > 0 && a[len(x)] == b[len(y)-1] && a[len(x)-1] == b[len(y)] {
		d = min(d, plainDistance(x[:len(x)-1], y[:len(y)-1])+1)
	}
	return d
}

func TestDistance(t *testing.T) {
	word := rapid.StringOfN(rapid.SampledFrom([]rune("abc")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		limit := rapid.IntRange(0, 6).Draw(t, "limit")
		got, want := distance([]rune(a), []rune(b), limit, nil), plainDistance(a, b)
		if want <= limit && got != want || want > limit && got <= limit {
			t.Fatalf("distance(%q, %q) to %d = %d, want %d", a, b, limit, got, want)
		}
	})
}

// Nearest must choose what a search over all candidates by the plain definition
// chooses.
func TestNearestPlain(t *testing.T) {
	word := rapid.StringOfN(rapid.SampledFrom([]rune("abc")), 1, 7, -1)
	rapid.Check(t, func(t *rapid.T) {
		w := word.Draw(t, "word")
		candidates := rapid.SliceOfN(word, 0, 6).Draw(t, "candidates")
		want, least := "", 100
		for _, c := range candidates {
			if d := plainDistance(w, c); d <= slips(min(len(w), len(c))) && d < least {
				want, least = c, d
			}
		}
		if got, ok := Nearest(w, candidates); got != want || ok != (want != "") {
			t.Fatalf("Nearest(%q, %q) = %q %v, want %q", w, candidates, got, ok, want)
		}
	})
}

func BenchmarkNearest(b *testing.B) {
	var parts []string
	for _, kind := range []string{"vinyl hose", "elbow 90 barbed", "ball valve", "bulkhead threaded", "rigid pipe"} {
		for _, size := range []string{"1/4 in", "3/8 in", "1/2 in", "3/4 in", "1 in", "12 mm", "16 mm", "20 mm", "25 mm", "32 mm"} {
			parts = append(parts, kind+" "+size)
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if got, _ := Nearest("bulkhaed thraeded 3/4 in", parts); got != "bulkhead threaded 3/4 in" {
			b.Fatal(got)
		}
	}
}
