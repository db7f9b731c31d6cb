package pdf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"rillwright/drawing"
)

// tool returns the path of a program of poppler, another reader of PDF. The test
// is skipped where that is missing, unless RILLWRIGHT_CROSSCHECK=1 says it must be
// there.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without poppler (Debian: poppler-utils): %v", err)
	}
	return path
}

// picture is a page in shades of grey, by rows.
type picture struct {
	width, height int
	pixels        []byte
}

// dark is how much ink a pixel has, 0 to 1.
func (p *picture) dark(x, y int) float64 { return 1 - float64(p.pixels[y*p.width+x])/255 }

// render draws the first page of a file with poppler.
func render(t *testing.T, data []byte, dpi int) *picture {
	t.Helper()
	draw := tool(t, "pdftoppm")
	name := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(draw, "-gray", "-r", fmt.Sprint(dpi), "-f", "1", "-l", "1", name).Output()
	if err != nil {
		t.Fatal(err)
	}
	p := &picture{}
	var most int
	if _, err := fmt.Fscanf(bytes.NewReader(out), "P5\n%d %d\n%d", &p.width, &p.height, &most); err != nil || most != 255 {
		t.Fatalf("not a picture: %q, %v", out[:min(20, len(out))], err)
	}
	p.pixels = out[len(out)-p.width*p.height:]
	return p
}

// middle returns the centre of the ink along a row or column, in pixels, from one
// pixel to another.
func (p *picture) middle(from, to int, ink func(i int) float64) float64 {
	sum, at := 0.0, 0.0
	for i := from; i < to; i++ {
		sum += ink(i)
		at += ink(i) * (float64(i) + 0.5)
	}
	return at / sum
}

// 100 mm on paper must be 100 mm, along and down, for a template to be of use:
// within 0.1 mm. At 508 dpi a pixel is 0.05 mm, and the middle of a line of
// several pixels is known to a fraction of one.
func TestTrueSize(t *testing.T) {
	const dpi, pitch = 508, 25.4 / 508
	s := drawing.Sheet{Title: "size", Width: 210, Height: 297}
	for _, v := range []float64{50, 150} {
		s.Add(drawing.Line(drawing.Point{X: v, Y: 20}, drawing.Point{X: v, Y: 280}, drawing.Thick))
		s.Add(drawing.Line(drawing.Point{X: 10, Y: v + 20}, drawing.Point{X: 200, Y: v + 20}, drawing.Thick))
	}
	s.Add(&drawing.Circle{Centre: drawing.Point{X: 100, Y: 230}, Radius: 22, Pen: drawing.Thick})
	p := render(t, write(t, []drawing.Sheet{s}), dpi)
	if w := float64(p.width) * pitch; math.Abs(w-210) > 0.1 {
		t.Errorf("the page is %.2f mm wide", w)
	}
	px := func(mm float64) int { return int(mm / pitch) }
	row := func(i int) float64 { return p.dark(i, px(40)) }
	column := func(i int) float64 { return p.dark(px(30), i) }
	x1, x2 := p.middle(px(45), px(55), row), p.middle(px(145), px(155), row)
	y1, y2 := p.middle(px(65), px(75), column), p.middle(px(165), px(175), column)
	for what, got := range map[string][2]float64{
		"along":         {(x2 - x1) * pitch, 100},
		"down":          {(y2 - y1) * pitch, 100},
		"from left":     {x1 * pitch, 50},
		"from top":      {y1 * pitch, 70},
		"circle, along": {(p.middle(px(118), px(126), func(i int) float64 { return p.dark(i, px(230)) }) - p.middle(px(74), px(82), func(i int) float64 { return p.dark(i, px(230)) })) * pitch, 44},
		"circle, down":  {(p.middle(px(248), px(256), func(i int) float64 { return p.dark(px(100), i) }) - p.middle(px(204), px(212), func(i int) float64 { return p.dark(px(100), i) })) * pitch, 44},
	} {
		t.Logf("%s: %.3f mm", what, got[0])
		if math.Abs(got[0]-got[1]) > 0.1 {
			t.Errorf("%s: %.3f mm, want %g", what, got[0], got[1])
		}
	}
}

// What another program reads: number and sizes of pages, words, the typeface
// inside. Sizes are in points, to the last digit printed.
func TestReads(t *testing.T) {
	info, words, fonts := tool(t, "pdfinfo"), tool(t, "pdftotext"), tool(t, "pdffonts")
	name := filepath.Join(t.TempDir(), "sheets.pdf")
	if err := os.WriteFile(name, write(t, sample()), 0o600); err != nil {
		t.Fatal(err)
	}
	ask := func(args ...string) string {
		out, err := exec.Command(args[0], args[1:]...).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
		return string(out)
	}
	about := strings.Join(strings.Fields(ask(info, "-l", "3", name)), " ")
	for _, want := range []string{"Title: Trial", "Pages: 3", "Page 1 size: 595.28 x 841.89 pts", "Page 2 size: 792 x 612 pts", "Page 3 size: 283.46 x 141.73 pts"} {
		if !strings.Contains(about, want) {
			t.Errorf("%q is not in %s", want, about)
		}
	}
	if got := ask(words, name, "-"); !strings.Contains(got, `a (b) \ c`) {
		t.Errorf("words were lost: %q", got)
	}
	if got := ask(fonts, name); !strings.Contains(got, "yes") || strings.Count(got, "\n") != 3 {
		t.Errorf("fonts: %s", got)
	}
}
