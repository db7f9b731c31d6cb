package sheets

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"rillwright/drawing"
	"rillwright/drawing/dxf"
	"rillwright/drawing/pdf"
	"rillwright/examples"
)

// Every sheet of both demos, on either paper: nothing off the sheet, no words over
// words (see written), all three formats written, and the same bytes twice.
func TestDrawings(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		s := survey(t, c.file)
		for _, p := range papers {
			list := Drawings(s, print4(p))
			drawing.Number(list)
			for i := range list {
				got := written(t, list[i])
				// Templates have golden files of their own.
				if p.Name == "A4" && list[i].Group != templateGroup {
					golden(t, fmt.Sprintf("%s-sheet-%02d", c.name, i+1), got)
				}
				var b bytes.Buffer
				if err := dxf.Write(&b, &list[i]); err != nil {
					t.Error(err)
				}
				if w, h := list[i].Width, list[i].Height; (w != p.Width || h != p.Height) && (w != p.Height || h != p.Width) {
					t.Errorf("%s: a sheet of %g x %g mm on %s", list[i].Title, w, h, p.Name)
				}
			}
			var a, b bytes.Buffer
			again := Drawings(survey(t, c.file), print4(p))
			drawing.Number(again)
			if err := pdf.Write(&a, c.name, list); err != nil {
				t.Fatal(err)
			}
			if err := pdf.Write(&b, c.name, again); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Errorf("%s: two runs differ", c.name)
			}
			if a.Len() > 2<<20 {
				t.Errorf("%s: %d bytes of PDF, at most 2 MB", c.name, a.Len())
			}
			t.Logf("%s, %s: %d sheets, %d bytes of PDF", c.name, p.Name, len(list), a.Len())
		}
	}
}

// Of five columns and three rows of spots the lowest left one is 66 to 96 mm from the
// left and 110 to 140 mm up: a window as far as cell 12 each way, 180 mm, takes it away.
func TestCellMapStandOffs(t *testing.T) {
	for _, c := range []struct {
		window  string
		crossed int
	}{
		{"across: 6, up: 6, left: 1, bottom: 0", 0},
		{"across: 12, up: 12, left: 0, bottom: 0", 1},
	} {
		s := CellMaps(remade(t, examples.CorridorCabinet, "across: 6, up: 6, left: 1, bottom: 0", c.window), print4(drawing.A4()))[0]
		spots, crosses := 0, 0
		for _, i := range s.Items {
			p, ok := i.(*drawing.Path)
			switch {
			case ok && p.Fill == drawing.Mid:
				spots++
			case ok && p.Pen == drawing.Medium && len(p.Points) == 2 && p.Points[0].X != p.Points[1].X && p.Points[0].Y != p.Points[1].Y:
				crosses++
			}
		}
		all := texts([]drawing.Sheet{s})
		if spots != 15 || crosses != 2*c.crossed || !strings.Contains(all, "15 stand-offs") || strings.Contains(all, "1 crossed") != (c.crossed == 1) {
			t.Errorf("%s: %d spots, %d lines of crosses, %q", c.window, spots, crosses, all)
		}
	}
}

// Cells are counted by hand from the file: 54 x 50 with notches of 3 x 4 and 6 x 6,
// and what is cut runs along walls: the panel's outline, less what notches take of it,
// with their other sides.
func TestCellMap(t *testing.T) {
	e := remade(t, examples.CorridorCabinet)
	s := CellMaps(e, print4(drawing.A4()))[0]
	all := texts([]drawing.Sheet{s})
	for _, want := range []string{"54 x 50 cells", "810 x 750 mm", "2652 of 2700 cells stay", "columns 26 to 28 from the left, rows 47 to 50", "columns 2 to 7 from the left, rows 1 to 6"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	// Outline 2 x (54 + 50). The riser's notch is open at the top: its walls add
	// 2 x 4, its bottom stands for what it takes of the edge. So does the window's,
	// 2 x 6. In cells of 15 mm at the sheet's scale.
	cells := 0.0
	for _, i := range s.Items {
		if p, ok := i.(*drawing.Path); ok && p.Pen == drawing.Heavy {
			cells += (abs(p.Points[1].X-p.Points[0].X) + abs(p.Points[1].Y-p.Points[0].Y)) / (15 * s.Scale)
		}
	}
	if want := 2.0*(54+50) + 2*4 + 2*6; abs(cells-want) > 1e-6 {
		t.Errorf("cut along %g walls, want %g", cells, want)
	}
}

func abs(v float64) float64 { return max(v, -v) }

// A panel at the left is seen from inside, its rear on the right.
func TestCellMapMirrored(t *testing.T) {
	e := remade(t, examples.CorridorCabinet, "across: 54\n    up: 50\n    pitch: 15.0 mm\n    at: back", "across: 24\n    up: 50\n    pitch: 15.0 mm\n    at: left",
		"- { for: riser, across: 3, up: 4, left: 25, bottom: 46 }\n", "- { for: riser, across: 3, up: 4, left: 20, bottom: 46 }\n")
	s := CellMaps(e, print4(drawing.A4()))[0]
	written(t, s)
	one, last := 0.0, 0.0
	for _, i := range s.Items {
		if x, ok := i.(*drawing.Text); ok && x.Anchor == drawing.Middle {
			switch x.Text {
			case "1":
				one = x.At.X
			case "20":
				last = x.At.X
			}
		}
	}
	if one <= last || last == 0 {
		t.Errorf("column 1 at %g, column 20 at %g", one, last)
	}
}

func TestPaneSheets(t *testing.T) {
	list := PaneSheets(remade(t, examples.CounterWall), print4(drawing.Letter()))
	if len(list) != 6 {
		t.Fatalf("%d sheets of 6 panes", len(list))
	}
	all := texts(list[1:2])
	for _, want := range []string{"16 15/16 x 36 3/16 in", "annealed glass", "right rim", "centre 3 from the left and 3 from the lower edge"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	if pane := list[0]; pane.Scale == 0 || !strings.Contains(texts(list[:1]), "toughened") {
		t.Error("no scale, or the back is not toughened")
	}
	// By hand: 0.9 m x 0.45 m x 8 mm x 2500 kg/m3 = 8.1 kg.
	base := texts(PaneSheets(remade(t, examples.CorridorCabinet), print4(drawing.A4()))[:1])
	if !strings.Contains(base, "Each weighs 8.1 kg") {
		t.Errorf("the base: %q", base)
	}
}

func BenchmarkDrawings(b *testing.B) {
	s := survey(b, examples.CorridorCabinet)
	for b.Loop() {
		list := Drawings(s, print4(drawing.A4()))
		drawing.Number(list)
		if err := pdf.Write(&bytes.Buffer{}, "demo", list); err != nil {
			b.Fatal(err)
		}
	}
}
