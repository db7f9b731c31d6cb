package drawing

import (
	"math"
	"strings"
	"testing"
)

// Widths in units of the font's em (2048), summed from its table of advances
// with fontTools 4.38.0 on DejaVu Sans 2.37. Advances are whole units, so that
// nothing but rounding of floats may differ.
func TestTextWidth(t *testing.T) {
	for text, units := range map[string]float64{
		"":                         0,
		"likely 386 L/h at 1.96 m": 24271,
		"AVAV":                     5604, // without kerning
		"…½⌀":                      5266,
	} {
		want := units / 1493 * 2.5 // capitals are 1493 units high
		if got := TextWidth(text, 2.5); math.Abs(got-want) > 1e-9 {
			t.Errorf("width of %q = %g mm, want %g", text, got, want)
		}
	}
	// A character that the font lacks still takes room.
	if w := TextWidth("\U0001F438", 2.5); w < 2 {
		t.Errorf("an emoji of %g mm", w)
	}
}

func TestTextBounds(t *testing.T) {
	w := TextWidth("flow", 2.5)
	for _, c := range []struct {
		anchor      Anchor
		rotation    float64
		left, right float64 // or bottom and top when upright, from At
	}{{Left, 0, 0, w}, {Middle, 0, -w / 2, w / 2}, {Right, 0, -w, 0}} {
		x := Text{At: Point{50, 40}, Text: "flow", Height: 2.5, Anchor: c.anchor}
		b := x.Bounds()
		if math.Abs(b.Left-50-c.left) > 1e-9 || math.Abs(b.Right-50-c.right) > 1e-9 || !(b.Top < 37.5 && b.Bottom > 40) {
			t.Errorf("anchor %d: %+v", c.anchor, b)
		}
		// A quarter turn counter-clockwise sends right to up.
		x.Rotation = 90
		b = x.Bounds()
		if math.Abs(b.Bottom-40+c.left) > 1e-9 || math.Abs(b.Top-40+c.right) > 1e-9 || !(b.Left < 47.5 && b.Right > 50) {
			t.Errorf("anchor %d, upright: %+v", c.anchor, b)
		}
	}
}

func TestWrapAndFit(t *testing.T) {
	const text = "Long dashes and hatching: the head that the circuit asks for."
	for _, width := range []float64{15, 40, 80, 1000} {
		lines := Wrap(text, 2.5, width)
		for _, l := range lines {
			if TextWidth(l, 2.5) > width {
				t.Errorf("%q is wider than %g mm", l, width)
			}
		}
		if width >= 40 && strings.Join(lines, " ") != text {
			t.Errorf("%g mm: words lost in %q", width, lines)
		}
	}
	if got := Wrap(" \n ", 2.5, 50); len(got) != 0 {
		t.Errorf("lines of nothing: %q", got)
	}
	if got := Fit("short", 2.5, 100); got != "short" {
		t.Errorf("Fit cut %q", got)
	}
	cut := Fit(strings.Repeat("long ", 40), 2.5, 60)
	if !strings.HasSuffix(cut, "…") || TextWidth(cut, 2.5) > 60 || TextWidth(cut, 2.5) < 50 {
		t.Errorf("Fit gave %q", cut)
	}
}

// Lines at a distance d from one another, each as long as the area is wide
// there, together cover the area: sum of lengths x d = area (midpoint rule; off
// by no more than one line at either side of each corner).
func TestHatchCovers(t *testing.T) {
	square := []Point{{10, 10}, {60, 10}, {60, 60}, {10, 60}}
	// An L: 50 x 50 less 30 x 30.
	bent := []Point{{10, 10}, {60, 10}, {60, 30}, {30, 30}, {30, 60}, {10, 60}}
	for _, c := range []struct {
		name    string
		polygon []Point
		area    float64
	}{{"square", square, 2500}, {"bent", bent, 1600}} {
		for _, angle := range []float64{0, 30, 45, 90, 135} {
			const d = 0.5
			sum := 0.0
			for _, i := range Hatch(c.polygon, angle, d, Fine) {
				p, ok := i.(*Path)
				if !ok || len(p.Points) != 2 {
					t.Fatalf("a hatch of %T", i)
				}
				a, b := p.Points[0], p.Points[1]
				sum += math.Hypot(b.X-a.X, b.Y-a.Y)
				// Up on paper is towards smaller y.
				if turn := math.Mod(math.Atan2(a.Y-b.Y, b.X-a.X)*180/math.Pi-angle+360, 180); math.Min(turn, 180-turn) > 1e-6 {
					t.Errorf("%s: a line at %g degrees off %g", c.name, turn, angle)
				}
			}
			if math.Abs(sum*d-c.area) > 0.02*c.area {
				t.Errorf("%s at %g degrees: lines cover %g mm2 of %g", c.name, angle, sum*d, c.area)
			}
		}
	}
	for _, none := range [][]Item{Hatch(square[:2], 45, 1, Fine), Hatch(square, 45, 0, Fine), Hatch(square, 45, math.NaN(), Fine)} {
		if len(none) != 0 {
			t.Errorf("a hatch of %d lines where there can be none", len(none))
		}
	}
}

// contrast is the ratio of WCAG 2.1, section "relative luminance".
func contrast(a, b Ink) float64 {
	light := func(i Ink) float64 {
		part := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*part(i.R) + 0.7152*part(i.G) + 0.0722*part(i.B)
	}
	x, y := light(a), light(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// WCAG 2.1: 3 to 1 for parts of graphics (1.4.11), 4.5 to 1 for words (1.4.3),
// which are black and may lie on any fill but black.
func TestPens(t *testing.T) {
	white := Ink{255, 255, 255}
	seen := map[string]bool{}
	for p := NoPen + 1; p < penCount; p++ {
		s := p.Stroke()
		if s.Width < 0.18 || s.Name == "" || seen[s.Name] {
			t.Errorf("pen %d: %+v", p, s)
		}
		seen[s.Name] = true
		if got := contrast(s.Ink, white); got < 3 {
			t.Errorf("pen %s has a contrast of %.2f on white", s.Name, got)
		}
	}
	for f := Paper; f < fillCount; f++ {
		ink, ok := f.Ink()
		if got := contrast(ink, Ink{}); !ok || f != Solid && got < 4.5 {
			t.Errorf("black on fill %d has a contrast of %.2f", f, got)
		}
	}
	if len(CurveA.Stroke().Dash) != 0 || len(CurveB.Stroke().Dash) == 0 {
		t.Error("the two curves differ in colour alone")
	}
}

type recorder struct{ seen string }

func (r *recorder) Path(*Path)     { r.seen += "p" }
func (r *recorder) Circle(*Circle) { r.seen += "c" }
func (r *recorder) Text(*Text)     { r.seen += "t" }

func TestSheet(t *testing.T) {
	s := Sheet{Width: 100, Height: 50}
	s.Add(Line(Point{1, 1}, Point{9, 9}, Thin), &Circle{Centre: Point{20, 20}, Radius: 3, Pen: Thin})
	s.Add(&Text{At: Point{5, 5}, Text: "x", Height: 2.5}, Rectangle(Box{90, 40, 99, 49}, Thin, Pale))
	if err := s.Check(); err != nil {
		t.Error(err)
	}
	if out := s.Outside(); len(out) != 0 {
		t.Errorf("outside: %v", out)
	}
	var r recorder
	if s.Draw(&r); r.seen != "pctp" {
		t.Errorf("drawn: %s", r.seen)
	}
	// A line of 0.25 mm along the edge reaches over it by half its width.
	edge := Line(Point{0, 10}, Point{0, 20}, Thin)
	s.Add(edge, &Circle{Centre: Point{98, 25}, Radius: 3})
	if out := s.Outside(); len(out) != 2 || out[0] != edge {
		t.Errorf("outside: %v", out)
	}
}

func TestCheckRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, i := range map[string]Item{
		"one point":    &Path{Points: []Point{{1, 1}}, Pen: Thin},
		"two corners":  &Path{Points: []Point{{1, 1}, {2, 2}}, Closed: true},
		"no number":    Line(Point{1, nan}, Point{2, 2}, Thin),
		"infinite":     Line(Point{1, 1}, Point{inf, 2}, Thin),
		"open fill":    &Path{Points: []Point{{1, 1}, {2, 2}}, Fill: Pale},
		"unknown pen":  Line(Point{1, 1}, Point{2, 2}, penCount),
		"unknown fill": &Circle{Centre: Point{5, 5}, Radius: 1, Fill: fillCount},
		"no radius":    &Circle{Centre: Point{5, 5}},
		"no height":    &Text{At: Point{5, 5}, Text: "x"},
		"anchor":       &Text{At: Point{5, 5}, Text: "x", Height: 3, Anchor: Right + 1},
		"text nowhere": &Text{At: Point{nan, 5}, Text: "x", Height: 3},
	} {
		s := Sheet{Width: 100, Height: 50, Items: []Item{i}}
		if s.Check() == nil {
			t.Errorf("%s: accepted", name)
		}
	}
	for _, s := range []Sheet{{}, {Width: -1, Height: 5}, {Width: nan, Height: 5}, {Width: inf, Height: 5}} {
		if s.Check() == nil {
			t.Errorf("accepted a sheet of %g x %g", s.Width, s.Height)
		}
	}
}

func BenchmarkTextWidth(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		TextWidth("likely 386 L/h at 1.96 m", 2.5)
	}
}
