package drawing

import (
	"fmt"
	"math"
	"testing"
)

// Tiles laid so that their register marks meet show the drawing again: every line
// of it, once cut into pieces, is as long in the tiles less what they share twice.
func TestTilesShowAll(t *testing.T) {
	for _, c := range []struct{ w, h float64 }{{100, 100}, {500, 100}, {100, 700}, {640, 510}} {
		plate := Sheet{Title: "plate", Width: c.w, Height: c.h}
		y, x := 0.45*c.h, 0.45*c.w
		plate.Add(Line(Point{0, y}, Point{c.w, y}, Thick), Line(Point{x, 0}, Point{x, c.h}, Thick))
		plate.Add(&Circle{Centre: Point{c.w / 2, c.h / 2}, Radius: 40, Pen: Heavy})
		cut := Tiling{Paper: A4(), Title: TitleBlock{Sheet: "plate"}}
		across, down, _ := cut.Count(c.w, c.h)
		tiles := cut.Cut(&plate)
		if len(tiles) != across*down {
			t.Fatalf("%g x %g: %d tiles, want %d x %d", c.w, c.h, len(tiles), across, down)
		}
		flat, round := 0.0, 0.0
		marks := map[string]int{}
		for _, s := range tiles {
			if err := s.Check(); err != nil {
				t.Fatal(err)
			}
			if out := s.Outside(); len(out) > 0 {
				t.Errorf("%g x %g: outside: %v", c.w, c.h, out[0])
			}
			for _, i := range s.Items {
				switch i := i.(type) {
				case *Path:
					sum := 0.0
					for k := 1; k < len(i.Points); k++ {
						sum += math.Hypot(i.Points[k].X-i.Points[k-1].X, i.Points[k].Y-i.Points[k-1].Y)
					}
					switch i.Pen {
					case Thick:
						flat += sum
					case Heavy:
						round += sum
					}
				case *Circle:
					if i.Pen == Heavy {
						round += 2 * math.Pi * i.Radius
					}
				case *Text:
					if len(i.Text) == 1 {
						marks[i.Text]++
					}
				}
			}
		}
		// No line along a strip that is shared lies in it here.
		want := c.w + float64(across-1)*Overlap + c.h + float64(down-1)*Overlap
		if math.Abs(flat-want) > 1e-6 {
			t.Errorf("%g x %g: lines of %g mm in all, want %g", c.w, c.h, flat, want)
		}
		if round < 2*math.Pi*40-0.1 {
			t.Errorf("%g x %g: a circle of %g mm, want %g or more", c.w, c.h, round, 2*math.Pi*40)
		}
		// Each joint's two marks are on both its tiles; where four tiles meet, more may
		// show one.
		joints := (across-1)*down + (down-1)*across
		if len(marks) != joints {
			t.Errorf("%g x %g: marks %v of %d joints", c.w, c.h, marks, joints)
		}
		for m, n := range marks {
			if n < 4 {
				t.Errorf("%g x %g: mark %s stands %d times", c.w, c.h, m, n)
			}
		}
	}
}

// However close the places are, no words run into others or off the room given, and
// each dimension keeps its two ends.
func TestRows(t *testing.T) {
	for _, upright := range []bool{false, true} {
		for _, outward := range []float64{1, -1} {
			r := Rows{Upright: upright, First: 100, Outward: outward, Least: 0, Most: 400}
			places := []float64{20, 23, 24, 40, 41, 90, 200, 206, 207, 390}
			for i, p := range places {
				r.Measures = append(r.Measures, Measure{From: 20, To: p + 1, Text: fmt.Sprintf("%g to %g mm", 20.0, p+1), FromEdge: 100 - 8*outward, ToEdge: 100 - 8*outward})
				if i > 0 {
					r.Measures = append(r.Measures, Measure{From: p, To: places[i-1], Text: fmt.Sprintf("%g mm", p-places[i-1]), FromEdge: 100 - 8*outward, ToEdge: 100 - 8*outward})
				}
			}
			items, reach := r.Draw()
			var texts []Box
			for _, i := range items {
				b := i.Bounds()
				far := map[bool]map[float64]float64{true: {1: b.Right, -1: b.Left}, false: {1: b.Bottom, -1: b.Top}}[upright][outward]
				if outward*(far-reach) > 0.2 {
					t.Errorf("upright %v, outward %g: %v reaches beyond %g", upright, outward, b, reach)
				}
				x, ok := i.(*Text)
				if !ok {
					continue
				}
				for _, o := range texts {
					if b.Overlaps(o) {
						t.Errorf("upright %v, outward %g: %q runs into other words", upright, outward, x.Text)
					}
				}
				if lo, hi := b.Left, b.Right; !upright && (lo < 0 || hi > 400) {
					t.Errorf("%q stands from %g to %g", x.Text, lo, hi)
				}
				texts = append(texts, b)
			}
			if len(texts) != len(r.Measures) {
				t.Errorf("%d words for %d dimensions", len(texts), len(r.Measures))
			}
		}
	}
}

func TestFramed(t *testing.T) {
	long := TitleBlock{
		Name:  "The wall beside the counter of a shop for plants in a town with a long name",
		Sheet: "Template of the riser hole in the left side, seen from outside the enclosure",
		Scale: "1:1", Date: "2026-03-02", Mark: "0123456789abcdef0123456789",
	}
	for _, p := range []Format{A4(), Letter(), A4().Turned(), Letter().Turned()} {
		s, room := p.Framed(long)
		list := []Sheet{s, s}
		Number(list)
		if len(s.Items) == len(list[0].Items) {
			t.Error("no page number")
		}
		var texts []Box
		for _, i := range list[1].Items {
			x, ok := i.(*Text)
			if !ok {
				continue
			}
			b := x.Bounds()
			for _, o := range texts {
				if b.Overlaps(o) {
					t.Errorf("%s: %q runs into other words", p.Name, x.Text)
				}
			}
			if b.Overlaps(room) {
				t.Errorf("%s: %q stands in the room for the drawing", p.Name, x.Text)
			}
			texts = append(texts, b)
		}
		if out := list[1].Outside(); len(out) > 0 {
			t.Errorf("%s: outside: %v", p.Name, out)
		}
	}
}
