package pieces_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/layout"
	"rillwright/pieces"
)

func build(t testing.TB, text string) *pieces.List {
	t.Helper()
	d, list := design.Read("test.yaml", []byte(text))
	if list.HasErrors() {
		t.Fatalf("%v", list)
	}
	cat, err := catalogue.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	e, found := enclosure.Resolve(d, cat, nil)
	if found.HasErrors() {
		t.Fatalf("%v", found)
	}
	return pieces.Build(e, layout.Of(e))
}

func piece(t testing.TB, l *pieces.List, name string) *pieces.Piece {
	t.Helper()
	for i := range l.Pieces {
		if l.Pieces[i].Name == name {
			return &l.Pieces[i]
		}
	}
	t.Fatalf("no piece %s", name)
	return nil
}

func changed(t testing.TB, pairs ...string) string {
	t.Helper()
	s := string(examples.CorridorCabinet)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(s, pairs[i]) {
			t.Fatalf("%q is not in the example", pairs[i])
		}
		s = strings.Replace(s, pairs[i], pairs[i+1], 1)
	}
	return s
}

// The demo by hand: 900 x 450 over all, glass of 6 on a base of 8, gaps of 1. The
// back covers the sides' rear edges: sides 450 - 6 - 1 = 443. Dam and top strip go
// between the sides: 900 - 2 x 6 - 2 x 1 = 886.
func TestDemoByHand(t *testing.T) {
	l := build(t, string(examples.CorridorCabinet))
	for _, c := range []struct {
		name          string
		width, height float64
		captive       bool
	}{
		{"base", 0.9, 0.45, false},
		{"back", 0.9, 1.04, false},
		{"side", 0.443, 1.04, false},
		{"dam pane", 0.886, 0.2, true},
		{"top strip", 0.886, 0.26, true},
	} {
		p := piece(t, l, c.name)
		if math.Abs(p.Width.Cut-c.width) > 1e-9 || math.Abs(p.Height.Cut-c.height) > 1e-9 {
			t.Errorf("%s: %g x %g", c.name, p.Width.Cut, p.Height.Cut)
		}
		if p.Width.Captive != c.captive {
			t.Errorf("%s between two others: %v", c.name, p.Width.Captive)
		}
		if p.Width.Fit != pieces.Agrees {
			t.Errorf("%s: %v", c.name, p.Width.Fit)
		}
	}
}

// Sizes that are off are told, by how much, and what to cut.
func TestOff(t *testing.T) {
	for _, c := range []struct {
		from, to, name string
		fit            pieces.Fit
		by, cut        float64 // mm
	}{
		{"name: dam pane, at: dam, width: 886 mm", "name: dam pane, at: dam, width: 889 mm", "dam pane", pieces.TooLong, 2.6, 886},
		{"name: dam pane, at: dam, width: 886 mm", "name: dam pane, at: dam, width: 887 mm", "dam pane", pieces.Thin, 0.6, 886},
		{"name: dam pane, at: dam, width: 886 mm", "name: dam pane, at: dam, width: 880 mm", "dam pane", pieces.Short, -5.6, 886},
		{"name: side, at: sides, width: 443 mm", "name: side, at: sides, width: 446 mm", "side", pieces.Proud, 2, 443},
		{"name: side, at: sides, width: 443 mm", "name: side, at: sides, width: 440 mm", "side", pieces.Short, -2.8, 443},
		{"name: sliding door, at: door, up: 210 mm, opens: slides, width: 450 mm", "name: sliding door, at: door, up: 210 mm, opens: slides, width: 430 mm", "sliding door", pieces.Short, -5, 435},
	} {
		p := piece(t, build(t, changed(t, c.from, c.to)), c.name)
		w := p.Width
		if w.Fit != c.fit || math.Abs(w.By*1000-c.by) > 0.01 || math.Abs(w.Cut*1000-c.cut) > 0.01 {
			t.Errorf("%s: %v by %.2f mm, to cut %.2f mm (%s)", c.to, w.Fit, w.By*1000, w.Cut*1000, w.Rule)
		}
	}
}

// Which pane covers which edge is read off the sizes: with sides of the whole depth
// the back goes between them.
func TestBackBetweenSides(t *testing.T) {
	l := build(t, changed(t,
		"name: back, at: back, width: 900 mm", "name: back, at: back, width: 886 mm",
		"name: side, at: sides, width: 443 mm", "name: side, at: sides, width: 450 mm"))
	if p := piece(t, l, "back"); p.Width.Fit != pieces.Agrees || !p.Width.Captive {
		t.Errorf("back: %v, %s", p.Width.Fit, p.Width.Rule)
	}
	if p := piece(t, l, "side"); p.Width.Fit != pieces.Agrees {
		t.Errorf("side: %v, %s", p.Width.Fit, p.Width.Rule)
	}
}

// For any box, panes of the sizes that its rules give agree with them, and what is
// cut for a captive place goes in: with both gaps it never takes more than there is.
func TestRulesAgreeWithThemselves(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mm := func(name string, lo, hi int) int { return rapid.IntRange(lo, hi).Draw(r, name) }
		w, d, thick := mm("width", 910, 1500), mm("depth", 450, 700), rapid.SampledFrom([]int{4, 5, 6, 8}).Draw(r, "thick")
		over := rapid.Bool().Draw(r, "back covers the sides")
		back, side := w, d-thick-1
		if !over {
			back, side = w-2*thick-2, d
		}
		dam := w - 2*thick - 2
		text := changed(t,
			"outside: { width: 900 mm, depth: 450 mm,", fmt.Sprintf("outside: { width: %d mm, depth: %d mm,", w, d),
			"inside: { width: 888 mm, depth: 438 mm,", fmt.Sprintf("inside: { width: %d mm, depth: %d mm,", w-2*thick, d-2*thick),
			"name: base, at: bottom, width: 900 mm, height: 450 mm", fmt.Sprintf("name: base, at: bottom, width: %d mm, height: %d mm", w, d),
			"name: back, at: back, width: 900 mm, height: 1040 mm, thickness: 6 mm", fmt.Sprintf("name: back, at: back, width: %d mm, height: 1040 mm, thickness: %d mm", back, thick),
			"name: side, at: sides, width: 443 mm, height: 1040 mm, thickness: 6 mm", fmt.Sprintf("name: side, at: sides, width: %d mm, height: 1040 mm, thickness: %d mm", side, thick),
			"name: dam pane, at: dam, width: 886 mm", fmt.Sprintf("name: dam pane, at: dam, width: %d mm", dam))
		l := build(t, text)
		for _, name := range []string{"base", "back", "side", "dam pane"} {
			p := piece(t, l, name)
			if p.Width.Fit != pieces.Agrees {
				r.Fatalf("%s: %v by %g, %s", name, p.Width.Fit, p.Width.By, p.Width.Rule)
			}
			if s := p.Width; s.Captive && s.Cut+2*l.Bond[0] > float64(w-2*thick)/1000+1e-9 {
				r.Fatalf("%s of %g does not go in", name, s.Cut)
			}
		}
	})
}

// Everything that is to be cut has a place, on nothing that is smaller than it.
func TestAllLaidOut(t *testing.T) {
	for name, text := range map[string]string{"metric": string(examples.CorridorCabinet), "us": string(examples.CounterWall)} {
		l := build(t, text)
		placed := 0
		for _, g := range l.Layouts.Glass {
			if g.Err != "" || len(g.Plan.Missing) > 0 {
				t.Errorf("%s: %s: %s %v", name, g.What, g.Err, g.Plan.Missing)
			}
			for _, s := range g.Plan.Sheets {
				placed += len(s.Pieces)
			}
		}
		want := 0
		for i := range l.Pieces {
			if !l.Pieces[i].Had {
				want += l.Pieces[i].Count
			}
		}
		if placed != want-len(l.Layouts.Ordered) {
			t.Errorf("%s: %d panes placed of %d", name, placed, want)
		}
		for _, g := range l.Layouts.Bars {
			sum := 0.0
			for _, b := range g.Plan.Bars {
				for _, c := range b.Cuts {
					sum += c.To - c.From
				}
				if n := len(b.Cuts); n > 0 && b.Cuts[n-1].To > g.Job.Stock[b.Stock].Length+1e-9 {
					t.Errorf("%s: %s is cut beyond its end", name, g.Part)
				}
			}
			if math.Abs(sum-g.Need) > 1e-9 {
				t.Errorf("%s: of %g m of %s %g m are cut", name, g.Need, g.Part, sum)
			}
		}
		for _, g := range l.Layouts.Grids {
			if g.Err != "" || len(g.Plan.Missing) > 0 {
				t.Errorf("%s: grid: %s %v", name, g.Err, g.Plan.Missing)
			}
		}
	}
}

// A panel in parts has all its cells once, and no part is larger than a sheet.
func TestPanelParts(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		across, up := rapid.IntRange(30, 160).Draw(r, "across"), rapid.IntRange(52, 160).Draw(r, "up")
		l := build(t, changed(t, "  - name: wall grid\n    across: 54\n    up: 50\n", fmt.Sprintf("  - name: wall grid\n    across: %d\n    up: %d\n", across, up)))
		seen := map[[2]int]int{}
		for _, p := range l.Panels {
			for c := range p.Cols {
				for k := range p.Rows {
					seen[[2]int{p.FirstCol + c, p.FirstRow + k}]++
				}
			}
			if !(p.Cols <= 40 && p.Rows <= 80 || p.Cols <= 80 && p.Rows <= 40) && p.Parts > 1 {
				r.Fatalf("part of %d x %d cells", p.Cols, p.Rows)
			}
		}
		if len(seen) != across*up {
			r.Fatalf("%d cells of %d", len(seen), across*up)
		}
		for c, n := range seen {
			if n != 1 {
				r.Fatalf("cell %v is there %d times", c, n)
			}
		}
	})
}

func BenchmarkBuild(b *testing.B) {
	d, _ := design.Read("test.yaml", examples.CorridorCabinet)
	cat, err := catalogue.Builtin()
	if err != nil {
		b.Fatal(err)
	}
	e, _ := enclosure.Resolve(d, cat, nil)
	l := layout.Of(e)
	for b.Loop() {
		pieces.Build(e, l)
	}
}
