package sheets

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"rillwright/drawing"
	"rillwright/drawing/pdf"
	"rillwright/examples"
)

// The template of the cabinet's drain as it comes out of a printer, drawn by
// poppler: its bar of 100 mm, its hole of 44 mm and the 110 mm from the hole's centre
// to two edges are so long on paper within 0.1 mm. It is skipped where poppler is
// missing, unless RILLWRIGHT_CROSSCHECK=1 says it must be there.
func TestTemplateOnPaper(t *testing.T) {
	draw, err := exec.LookPath("pdftoppm")
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without poppler (Debian: poppler-utils): %v", err)
	}
	s := Templates(remade(t, examples.CorridorCabinet), print4(drawing.A4()))[0]
	// Where to look is taken from the sheet, how long it is from the picture.
	var hole *drawing.Circle
	var bar, upright, level *drawing.Path
	for _, i := range s.Items {
		switch i := i.(type) {
		case *drawing.Circle:
			if i.Pen == drawing.Thick {
				hole = i
			}
		case *drawing.Path:
			a, b := i.Points[0], i.Points[len(i.Points)-1]
			switch {
			case i.Pen == drawing.Medium && a.Y == b.Y && math.Abs(b.X-a.X-100) < 1:
				bar = i
			case i.Pen == drawing.Heavy && a.X == b.X:
				upright = i
			case i.Pen == drawing.Heavy:
				level = i
			}
		}
	}
	if hole == nil || bar == nil || upright == nil || level == nil {
		t.Fatal("the template lacks its hole, bar or edges")
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, "template", []drawing.Sheet{s}); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "template.pdf")
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	const dpi, pitch = 508, 25.4 / 508
	out, err := exec.Command(draw, "-gray", "-r", fmt.Sprint(dpi), name).Output()
	if err != nil {
		t.Fatal(err)
	}
	var wide, high int
	if _, err := fmt.Fscanf(bytes.NewReader(out), "P5\n%d %d\n255", &wide, &high); err != nil {
		t.Fatal(err)
	}
	pixels := out[len(out)-wide*high:]
	// ink is the middle of what is printed within 2 mm of a place, along x or y, mm.
	ink := func(x, y float64, across bool) float64 {
		sum, at := 0.0, 0.0
		for d := -2.0; d <= 2; d += pitch {
			px, py := int(x/pitch), int(y/pitch)
			if across {
				px = int((x + d) / pitch)
			} else {
				py = int((y + d) / pitch)
			}
			v := 1 - float64(pixels[py*wide+px])/255
			c := px
			if !across {
				c = py
			}
			sum, at = sum+v, at+v*(float64(c)+0.5)*pitch
		}
		if sum == 0 {
			t.Fatalf("nothing is printed at %g, %g", x, y)
		}
		return at / sum
	}
	c, r := hole.Centre, hole.Radius
	// Aslant of the centre lines.
	off := r * math.Sin(math.Pi/6)
	left, right := ink(c.X-r*math.Cos(math.Pi/6), c.Y+off, true), ink(c.X+r*math.Cos(math.Pi/6), c.Y+off, true)
	top, bottom := ink(c.X+off, c.Y-r*math.Cos(math.Pi/6), false), ink(c.X+off, c.Y+r*math.Cos(math.Pi/6), false)
	ends := bar.Points
	for what, v := range map[string][2]float64{
		"bar":            {ink(ends[1].X, ends[1].Y-1, true) - ink(ends[0].X, ends[0].Y-1, true), 100},
		"hole, across":   {(right - left) / math.Cos(math.Pi/6), 44},
		"hole, down":     {(bottom - top) / math.Cos(math.Pi/6), 44},
		"to the right":   {ink(upright.Points[0].X, c.Y+20, true) - (left+right)/2, 110},
		"to the bottom":  {ink(c.X+20, level.Points[0].Y, false) - (top+bottom)/2, 110},
		"from page left": {(left + right) / 2, c.X},
	} {
		t.Logf("%s: %.3f mm", what, v[0])
		if math.Abs(v[0]-v[1]) > 0.1 {
			t.Errorf("%s: %.3f mm, want %.3f", what, v[0], v[1])
		}
	}
}
