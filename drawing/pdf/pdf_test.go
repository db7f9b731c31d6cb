package pdf

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"rillwright/drawing"
)

func sample() []drawing.Sheet {
	a := drawing.Sheet{Title: "Pane ⌀ ½″", Group: "Panes", Width: 210, Height: 297}
	a.Add(
		drawing.Line(drawing.Point{X: 20, Y: 30}, drawing.Point{X: 120, Y: 30}, drawing.Dashed),
		&drawing.Path{Points: []drawing.Point{{X: 1, Y: 2}, {X: 3, Y: 4}, {X: 5, Y: 6}}, Pen: drawing.Thick},
		drawing.Rectangle(drawing.Box{Left: 20, Top: 40, Right: 60, Bottom: 60}, drawing.NoPen, drawing.Pale),
		&drawing.Circle{Centre: drawing.Point{X: 100, Y: 100}, Radius: 22, Pen: drawing.Thin, Fill: drawing.Paper},
		&drawing.Text{At: drawing.Point{X: 50, Y: 60}, Text: "a (b) \\ c", Height: 2.5, Anchor: drawing.Middle, Rotation: 90},
		&drawing.Text{At: drawing.Point{X: 50, Y: 80}, Text: "", Height: 2.5},
	)
	b := drawing.Sheet{Title: "wide", Group: "Panes", Width: 279.4, Height: 215.9}
	b.Add(drawing.Line(drawing.Point{X: 20, Y: 30}, drawing.Point{X: 120, Y: 30}, drawing.Thin))
	c := drawing.Sheet{Title: "alone", Width: 100, Height: 50}
	return []drawing.Sheet{a, b, c}
}

func write(t testing.TB, sheets []drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, "Trial", sheets); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestSameBytes(t *testing.T) {
	first := write(t, sample())
	for range 5 {
		if !bytes.Equal(first, write(t, sample())) {
			t.Fatal("the same sheets gave other bytes")
		}
	}
	// What is on the sheets does matter.
	other := sample()
	other[0].Add(&drawing.Text{At: drawing.Point{X: 50, Y: 90}, Text: "more", Height: 2.5})
	if bytes.Equal(first, write(t, other)) {
		t.Error("a word more gave the same bytes")
	}
	if len(first) > 60_000 {
		t.Errorf("%d bytes: is the whole typeface in it?", len(first))
	}
}

func TestWriteRefuses(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, "none", nil); err == nil {
		t.Error("no sheets were accepted")
	}
	s := sample()
	s[1].Add(drawing.Line(drawing.Point{X: math.NaN()}, drawing.Point{}, drawing.Thin))
	if err := Write(&b, "bad", s); err == nil || b.Len() > 0 || !strings.Contains(err.Error(), "sheet 2") {
		t.Errorf("err = %v, wrote %d bytes", err, b.Len())
	}
	if err := Write(full{}, "disk", sample()); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("a full disk gave %v", err)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestPlain(t *testing.T) {
	for in, want := range map[string]string{
		"⌀ 44 mm ½″ → ≤":   "⌀ 44 mm ½″ → ≤",
		"frog \U0001F438!": "frog \uFFFD!",
		"bad \xff byte":    "bad \uFFFD byte",
		"tab\tnul\x00":     "tab\uFFFDnul\uFFFD",
	} {
		if got := plain(in); got != want {
			t.Errorf("plain(%q) = %q, want %q", in, got, want)
		}
	}
}

// Whatever is typed as a name or note, a file comes out.
func FuzzWrite(f *testing.F) {
	for _, s := range []string{"", "⌀ ½″", "\U0001F438", "\xff\xfe", "{nb}", "(((", "\\", "\u202e", "\U000E0001", "\x00"} {
		f.Add(s, s, s)
	}
	f.Fuzz(func(t *testing.T, title, group, text string) {
		s := drawing.Sheet{Title: title, Group: group, Width: 100, Height: 50}
		s.Add(&drawing.Text{At: drawing.Point{X: 5, Y: 5}, Text: text, Height: 2.5, Anchor: drawing.Right, Rotation: 30})
		var b bytes.Buffer
		if err := Write(&b, title, []drawing.Sheet{s}); err != nil {
			t.Fatal(err)
		}
		if !bytes.HasPrefix(b.Bytes(), []byte("%PDF-")) || !bytes.Contains(b.Bytes(), []byte("%%EOF")) {
			t.Errorf("no PDF: %q", b.Bytes()[:20])
		}
	})
}

func BenchmarkWrite(b *testing.B) {
	s := sample()
	b.ReportAllocs()
	for b.Loop() {
		if err := Write(io.Discard, "Trial", s); err != nil {
			b.Fatal(err)
		}
	}
}
