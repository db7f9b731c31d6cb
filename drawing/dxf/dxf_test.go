package dxf

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"rillwright/drawing"
)

func sample() *drawing.Sheet {
	s := &drawing.Sheet{Title: "Pane", Width: 210, Height: 297, Scale: 0.2}
	s.Add(
		drawing.Line(drawing.Point{X: 20, Y: 97}, drawing.Point{X: 120, Y: 97}, drawing.Dashed),
		&drawing.Path{Points: []drawing.Point{{X: 1, Y: 2}, {X: 3, Y: 4}, {X: 5, Y: 6}}, Pen: drawing.Thick},
		drawing.Rectangle(drawing.Box{Left: 20, Top: 40, Right: 60, Bottom: 60}, drawing.Medium, drawing.Pale),
		&drawing.Path{Points: []drawing.Point{{X: 1, Y: 2}, {X: 3, Y: 4}, {X: 5, Y: 9}}, Closed: true, Fill: drawing.Solid},
		&drawing.Circle{Centre: drawing.Point{X: 100, Y: 100}, Radius: 22, Pen: drawing.Thin},
		&drawing.Circle{Centre: drawing.Point{X: 100, Y: 100}, Radius: 2, Fill: drawing.Paper},
		&drawing.Text{At: drawing.Point{X: 50, Y: 60}, Text: "⌀ 44 ± ½″, 100 % \U0001F438", Height: 2.5, Anchor: drawing.Middle, Rotation: 90},
	)
	return s
}

func TestWrite(t *testing.T) {
	var a, b bytes.Buffer
	if err := Write(&a, sample()); err != nil {
		t.Fatal(err)
	}
	if err := Write(&b, sample()); err != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Errorf("two runs differ, %v", err)
	}
	for i, l := range strings.SplitAfter(a.String(), "\n") {
		if l != "" && !strings.HasSuffix(l, "\r\n") {
			t.Fatalf("line %d ends without CR LF: %q", i+1, l)
		}
	}
	for _, c := range a.Bytes() {
		if c > '~' {
			t.Fatalf("a byte %x beyond ASCII", c)
		}
	}
	s := sample()
	s.Add(drawing.Line(drawing.Point{X: math.NaN()}, drawing.Point{}, drawing.Thin))
	a.Reset()
	if err := Write(&a, s); err == nil || a.Len() > 0 {
		t.Errorf("err = %v, wrote %d bytes", err, a.Len())
	}
	if err := Write(full{}, sample()); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("a full disk gave %v", err)
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestASCII(t *testing.T) {
	for in, want := range map[string]string{
		"⌀ 44":    "%%c 44",
		"100 %":   "100 %",
		"100 %%c": "100 % %c",
		"%⌀":      "% %%c",
		"≤ 3″ 中":  "<= 3\" ?",
	} {
		if got := ascii(in); got != want {
			t.Errorf("ascii(%q) = %q, want %q", in, got, want)
		}
	}
}

// python returns a Python that has ezdxf, Debian's if the first in PATH has not.
// The test is skipped where there is none, unless RILLWRIGHT_CROSSCHECK=1 says there
// must be.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if path, err := exec.LookPath(name); err == nil && exec.Command(path, "-c", "import ezdxf").Run() == nil {
			return path
		}
	}
	if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
		t.Fatal("no Python with ezdxf")
	}
	t.Skip("no cross-check without ezdxf (Debian: python3-ezdxf)")
	return ""
}

type read struct {
	Version   string
	Units     int
	Errors    []string
	Layers    []string
	Kinds     map[string]int
	Lines     [][4]float64
	Circles   [][3]float64
	Arcs      [][7]float64 // centre, radius, start and end
	Polylines []struct {
		Closed bool
		Points [][2]float64
	}
	Texts []struct {
		Text           string
		Height, Turned float64
	}
}

// What ezdxf reads and finds nothing to complain of: the sheet at 1:5 is five times
// as large as its paper, with y upwards. Lengths are good to the rounding of 1e-6 mm.
func TestAudit(t *testing.T) {
	py := python(t)
	name := filepath.Join(t.TempDir(), "pane.dxf")
	var b bytes.Buffer
	if err := Write(&b, sample()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(py, "testdata/audit.py", name).Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var got read
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if got.Version != "AC1009" || got.Units != 4 || len(got.Errors) > 0 {
		t.Errorf("version %s, units %d, complaints %q", got.Version, got.Units, got.Errors)
	}
	for _, p := range drawing.Pens() {
		if !slices.Contains(got.Layers, layer(p)) {
			t.Errorf("no layer %s in %q", layer(p), got.Layers)
		}
	}
	if len(got.Lines) != 1 || !near(got.Lines[0][:], 100, 1000, 600, 1000) {
		t.Errorf("lines %v", got.Lines)
	}
	if len(got.Circles) != 1 || !near(got.Circles[0][:], 500, 985, 110) {
		t.Errorf("circles %v", got.Circles)
	}
	if got.Kinds["SOLID"] != 1 || len(got.Polylines) != 2 || got.Polylines[0].Closed || !got.Polylines[1].Closed ||
		len(got.Polylines[1].Points) != 4 || !near(got.Polylines[1].Points[0][:], 100, 1285) {
		t.Errorf("polylines %+v, %v", got.Polylines, got.Kinds)
	}
	if len(got.Texts) != 1 || got.Texts[0].Text != "Ø 44 ± 1/2\", 100 % ?" || !near([]float64{got.Texts[0].Height, got.Texts[0].Turned}, 12.5, 90) {
		t.Errorf("texts %+v", got.Texts)
	}
}

// A slot of 60 x 30 with corners of 10, run through clockwise as seen, is four lines
// and four arcs, each of which goes round outside the corner's centre. Lengths are
// good to the rounding of 1e-6 mm, ends of arcs to that of angles besides.
func TestArcs(t *testing.T) {
	py := python(t)
	p := &drawing.Path{Closed: true, Pen: drawing.Thick}
	for q := range 4 {
		sx, sy := [4]float64{1, -1, -1, 1}[q], [4]float64{1, 1, -1, -1}[q]
		m := drawing.Point{X: 100 + 20*sx, Y: 100 + 5*sy}
		p.Arcs = append(p.Arcs, drawing.Arc{From: 5 * q, To: 5*q + 4, Centre: m, Radius: 10})
		for k := range 5 {
			sin, cos := math.Sincos(math.Pi / 2 * (float64(q) + float64(k)/4))
			p.Points = append(p.Points, drawing.Point{X: m.X + 10*cos, Y: m.Y + 10*sin})
		}
	}
	s := &drawing.Sheet{Title: "Slot", Width: 200, Height: 200, Scale: 1}
	s.Add(p)
	var b bytes.Buffer
	if err := Write(&b, s); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "slot.dxf")
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(py, "testdata/audit.py", name).Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var got read
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Errors) > 0 || len(got.Arcs) != 4 || len(got.Lines) != 4 || len(got.Polylines) != 0 {
		t.Fatalf("complaints %q, %d arcs, lines %v, %d polylines", got.Errors, len(got.Arcs), got.Lines, len(got.Polylines))
	}
	// The first corner is the lower right one on paper: from below it round to its right.
	if !near(got.Arcs[0][:], 120, 95, 10, 120, 85, 130, 95) {
		t.Errorf("arc %v", got.Arcs[0])
	}
	if !near(got.Lines[0][:], 120, 85, 80, 85) {
		t.Errorf("line %v", got.Lines[0])
	}
	p.Arcs[1].From = 2
	if err := Write(&b, s); err == nil {
		t.Error("arcs that overlap were written")
	}
}

func near(got []float64, want ...float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 2e-6 })
}
