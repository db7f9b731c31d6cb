package drawing

import (
	"math"
	"testing"
)

func square(title string, side float64) Sheet {
	s := Sheet{Title: title, Width: side + 20, Height: side + 20}
	s.Add(Rectangle(Box{10, 10, 10 + side, 10 + side}, NoPen, Mid), &Text{At: Point{20, 20}, Text: title, Height: 4})
	return s
}

// Two squares of 100 mm share a page of A4, one of 400 mm gets a page of its own and
// is made as wide as the frame: 190 mm less 3 mm at each side.
func TestBind(t *testing.T) {
	list := []Sheet{square("a", 100), square("b", 100), square("c", 400)}
	out := A4().Bind(TitleBlock{Name: "n"}, "Curves", list)
	if len(out) != 2 || out[0].Title != "a" || out[1].Title != "c" || out[1].Group != "Curves" {
		t.Fatalf("%d pages: %+v", len(out), out)
	}
	for i := range out {
		if len(out[i].Outside()) > 0 || out[i].Width != 210 || out[i].Height != 297 {
			t.Errorf("%s reaches over the edge", out[i].Title)
		}
	}
	last := out[1].Items[len(out[1].Items)-2].Bounds()
	if math.Abs(last.Right-last.Left-184) > 1e-9 || math.Abs(last.Left-13) > 1e-9 {
		t.Errorf("%+v", last)
	}
	// The drawings themselves are as they were.
	if b := list[2].Items[0].Bounds(); b.Left != 10 || b.Right != 410 {
		t.Errorf("changed: %+v", b)
	}
	if len(A4().Bind(TitleBlock{}, "", []Sheet{{Title: "empty"}})) != 0 {
		t.Error("a page for nothing")
	}
}

// A4 with margins of 10 mm onto Letter: 259.4 of 277 mm high.
func TestFit(t *testing.T) {
	s := Sheet{Width: 210, Height: 297, Scale: 0.5}
	s.Add(Rectangle(Box{10, 10, 200, 287}, NoPen, Mid))
	out := Letter().Fit(s)
	b := out.Items[0].Bounds()
	if k := 259.4 / 277; math.Abs(b.Bottom-b.Top-259.4) > 1e-9 || math.Abs(out.Scale-0.5*k) > 1e-12 || math.Abs((b.Left+b.Right)/2-Letter().Width/2) > 1e-9 {
		t.Errorf("%+v, scale %g", b, out.Scale)
	}
	if same := A4().Fit(s).Items[0].Bounds(); math.Abs(same.Left-10) > 1e-9 || math.Abs(same.Bottom-287) > 1e-9 {
		t.Errorf("moved: %+v", same)
	}
}
