package sheets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

var papers = []drawing.Format{drawing.A4(), drawing.Letter()}

func print4(p drawing.Format) Print { return Print{Paper: p, Date: "2026-03-02", Mark: "0123abcd"} }

// remade resolves an example: pieces of text and what they become.
func remade(t testing.TB, file []byte, changes ...string) *enclosure.Enclosure {
	t.Helper()
	text := string(file)
	for i := 0; i+1 < len(changes); i += 2 {
		if !strings.Contains(text, changes[i]) {
			t.Fatalf("the example has no %q", changes[i])
		}
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return trial.Resolved(t, []byte(text), enclosure.Resolve)
}

func TestTemplateGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		for _, p := range papers {
			list := Templates(remade(t, c.file), print4(p))
			for i, s := range list {
				got := written(t, s)
				if p.Name == "A4" {
					golden(t, fmt.Sprintf("%s-template-%d", c.name, i+1), got)
				}
			}
		}
	}
}

// The drain's hole of the cabinet, 110 mm from two edges and 44 mm wide, is that on
// paper, for whoever lays it on: centre to edges, and both bars.
func TestTemplateSizes(t *testing.T) {
	for _, p := range papers {
		s := Templates(remade(t, examples.CorridorCabinet), print4(p))[0]
		var hole *drawing.Circle
		var edges []*drawing.Path
		bars := map[float64]bool{}
		for _, i := range s.Items {
			switch i := i.(type) {
			case *drawing.Circle:
				if i.Pen == drawing.Thick {
					hole = i
				}
			case *drawing.Path:
				if i.Pen == drawing.Heavy {
					edges = append(edges, i)
				}
				if a, b := i.Points[0], i.Points[len(i.Points)-1]; i.Pen == drawing.Medium && a.Y == b.Y {
					bars[math.Round((b.X-a.X)*1e6)/1e6] = true
				}
			}
		}
		if hole == nil || len(edges) != 2 {
			t.Fatalf("a hole %v and %d edges", hole, len(edges))
		}
		if !bars[100] || !bars[101.6] {
			t.Errorf("no bar of 100 mm or 4 in: %v", bars)
		}
		if math.Abs(hole.Radius-22) > 1e-9 {
			t.Errorf("a radius of %g mm", hole.Radius)
		}
		// The back is seen from behind: the file's left edge is on the right.
		upright, level := edges[0].Points[0].X, edges[1].Points[0].Y
		if dx, dy := upright-hole.Centre.X, level-hole.Centre.Y; math.Abs(dx-110) > 1e-9 || math.Abs(dy-110) > 1e-9 {
			t.Errorf("centre %g mm from the right and %g mm from the lower edge, want 110 and 110", dx, dy)
		}
	}
}

// What may not be drilled gets no line that could be laid on glass.
func TestTemplateRefused(t *testing.T) {
	for _, c := range []struct {
		name, from, to, say string
	}{
		{"laminated", "name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm, glass: annealed", "name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm, glass: laminated", "glass shop"},
		{"not checked", "name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm, glass: annealed", "name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm, glass: not checked", "Nobody has said"},
		{"at the edge", "size: 44 mm, up: 110 mm, in: 110 mm", "size: 44 mm, up: 30 mm, in: 110 mm", "im to edge"},
	} {
		list := Templates(remade(t, examples.CorridorCabinet, c.from, c.to), print4(drawing.A4()))
		s := list[0]
		written(t, s)
		all := texts(list[:1])
		if !strings.Contains(all, "No template") || !strings.Contains(all, c.say) {
			t.Errorf("%s: the sheet says %q", c.name, all)
		}
		for _, i := range s.Items {
			if circle, ok := i.(*drawing.Circle); ok && circle.Radius > 2 {
				t.Errorf("%s: a circle of %g mm", c.name, circle.Radius)
			}
		}
		// The other opening of the pane is refused with the pane, not with its
		// neighbour.
		if other := texts(list[1:2]); strings.Contains(other, "No template") != (c.name != "at the edge") {
			t.Errorf("%s: the other opening: %q", c.name, other)
		}
	}
}

// A rule of distance gives way to the builder's dated words, which stand in a box on
// every sheet; what a pane is made of gives way to nothing.
func TestTemplateOverridden(t *testing.T) {
	const hole = "size: 44 mm, up: 110 mm, in: 110 mm, edge: left"
	const near = `size: 44 mm, up: 30 mm, in: 110 mm, edge: left, override: "2026-05-01, A. B.: the shop drills it at its own risk"`
	for _, p := range papers {
		list := Templates(remade(t, examples.CorridorCabinet, hole, near), print4(p))
		for _, s := range list[:1] {
			written(t, s)
			all := texts([]drawing.Sheet{s})
			for _, want := range []string{"RULE BROKEN", "at its own risk", "100 mm", "im to edge"} {
				if !strings.Contains(all, want) {
					t.Errorf("%s: no %q in %q", p.Name, want, all)
				}
			}
		}
	}
	glass := "name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm, glass: "
	list := Templates(remade(t, examples.CorridorCabinet, hole, near, glass+"annealed", glass+"not checked"), print4(drawing.A4()))
	if all := texts(list[:1]); !strings.Contains(all, "No template") {
		t.Errorf("glass that nobody has looked at: %q", all)
	}
}

// Wherever an opening lies, and whatever its shape: nothing off the sheet, no words
// over words, as many tiles as counted.
func TestTemplatesAnywhere(t *testing.T) {
	const way = "size: 26 mm, up: 962 mm, in: 450 mm, edge: left"
	for _, up := range []string{"210 mm", "300 mm", "520 mm", "960 mm"} {
		for _, in := range []string{"150 mm", "300 mm", "450 mm", "95 mm"} {
			for _, what := range []string{"size: 44 mm, ", "width: 60 mm, height: 30 mm, corner: 8 mm, "} {
				for _, edge := range []string{", edge: left", ", edge: right", ""} {
					e := remade(t, examples.CorridorCabinet, way, what+"up: "+up+", in: "+in+edge)
					for _, p := range papers {
						list := Templates(e, print4(p))
						if len(list) > 5 { // one of the drain
							t.Errorf("up %s, in %s: %d sheets", up, in, len(list))
						}
						for _, s := range list {
							written(t, s)
						}
					}
				}
			}
		}
	}
	// A pane of five metres: the far edge is measured by tape.
	big := remade(t, examples.CorridorCabinet, "name: back, at: back, width: 900 mm", "name: back, at: back, width: 5 m", way, "size: 26 mm, up: 520 mm, in: 2.4 m, edge: left")
	list := Templates(big, print4(drawing.A4()))
	if len(list) > 4 || !strings.Contains(texts(list), "from the right edge, seen from behind") && !strings.Contains(texts(list), "from the left edge, seen from behind") {
		t.Errorf("%d sheets: %s", len(list), texts(list))
	}
	for _, s := range list {
		written(t, s)
	}
}
