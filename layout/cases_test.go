package layout

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/geom"
)

const panes = "  panes:\n"

// Sizes that contradict each other are listed with how much, and not mended.
func TestMismatches(t *testing.T) {
	for _, c := range []struct {
		name  string
		data  []byte
		pairs []string
		kind  MismatchKind
		axis  geom.Axis
		by    float64
	}{
		{"inside too wide", examples.CorridorCabinet, []string{"inside: { width: 888 mm", "inside: { width: 890 mm"}, Sum, geom.X, -0.002},
		{"inside too narrow", examples.CorridorCabinet, []string{"inside: { width: 888 mm", "inside: { width: 886 mm"}, DamGap, geom.X, 0},
		{"inside far too narrow", examples.CorridorCabinet, []string{"inside: { width: 888 mm", "inside: { width: 886 mm", "outside: { width: 900 mm", "outside: { width: 904 mm"}, Sum, geom.X, 0.006},
		{"back wider than the outside", examples.CorridorCabinet, []string{"name: back, at: back, width: 900 mm", "name: back, at: back, width: 910 mm"}, StandsOut, geom.X, 0.005},
		{"top strip too long", examples.CorridorCabinet, []string{"name: top strip, at: top, width: 886 mm", "name: top strip, at: top, width: 900 mm", "height: 1048 mm }", "height: 1054 mm }", "height: 1040 mm, thickness: 6 mm, count", "height: 1043 mm, thickness: 6 mm, count"}, PanesMeet, 0, -0.003},
		{"dam too narrow", examples.CorridorCabinet, []string{"dam:\n  width: 886 mm", "dam:\n  width: 880 mm", "dam pane, at: dam, width: 886 mm", "dam pane, at: dam, width: 880 mm"}, DamGap, geom.X, 0.004},
		{"dam too wide", examples.CorridorCabinet, []string{"dam:\n  width: 886 mm", "dam:\n  width: 888 mm", "dam pane, at: dam, width: 886 mm", "dam pane, at: dam, width: 888 mm"}, DamGap, geom.X, 0},
		{"set back elsewhere", examples.CorridorCabinet, []string{"set-back: 30 mm", "set-back: 42 mm"}, DamPlace, geom.Y, -0.012},
		{"another pane", examples.CorridorCabinet, []string{"dam pane, at: dam, width: 886 mm, height: 200 mm", "dam pane, at: dam, width: 886 mm, height: 220 mm"}, DamPane, geom.Z, 0.020},
		{"pool too narrow", examples.CorridorCabinet, []string{"pool:\n  width: 886 mm", "pool:\n  width: 800 mm"}, PoolWide, geom.X, 0.088},
	} {
		l := of(t, c.data, c.pairs...)
		i := slices.IndexFunc(l.Sizes, func(m Mismatch) bool { return m.Kind == c.kind && (m.Axis == c.axis || c.kind == PanesMeet) })
		if i < 0 {
			t.Errorf("%s: %+v", c.name, l.Sizes)
			continue
		}
		if m := l.Sizes[i]; math.Abs(m.By-c.by) > 1e-9 || m.Line == 0 || m.Outer {
			t.Errorf("%s: %+v, by hand %g m", c.name, m, c.by)
		}
	}
}

// What the file leaves open is placed by a rule and named, or listed.
func TestLeftOpen(t *testing.T) {
	l := of(t, examples.CorridorCabinet,
		"name: back, at: back,", "name: back,",
		"{ name: base, at: bottom,", "{ name: sheet one,",
		"    bottom: 190 mm\n", "",
		"  thickness: 6 mm\n  set-back: 30 mm\n", "")
	back, ok := l.Find(KindPane, "back")
	if !ok || !slices.ContainsFunc(back.Assumed, func(s string) bool { return strings.Contains(s, "by its name") }) {
		t.Errorf("back %+v", back)
	}
	for _, name := range []string{"sheet one", "wall grid", "main root"} {
		if !slices.ContainsFunc(l.Left, func(x Left) bool { return x.Name == name && x.Line > 0 && x.Say != "" }) {
			t.Errorf("%s is not listed: %+v", name, l.Left)
		}
	}
	if got := l.Dam.Size().Y; math.Abs(got-0.006) > 1e-12 { // that of the pane listed for it
		t.Errorf("dam %g m thick", got)
	}
}

// One of the two boxes alone gives the other by the panes.
func TestOneBox(t *testing.T) {
	const outside, inside = "  outside: { width: 900 mm, depth: 450 mm, height: 1048 mm }\n", "  inside: { width: 888 mm, depth: 438 mm, height: 1040 mm }\n"
	for _, gone := range []string{outside, inside} {
		l := of(t, examples.CorridorCabinet, gone, "")
		if len(l.Assumed) != 1 {
			t.Errorf("without %q: %q", gone, l.Assumed)
		}
		in, out := l.Inside.Size(), l.Outside.Size()
		// Two panes across; in depth the back alone, or what the base has; the base,
		// and the top strip where nothing shows it to lie between the sides.
		deep := 0.006
		if gone == outside {
			deep = 0.450 - 0.438
		}
		if math.Abs(out.X-in.X-0.012) > 1e-12 || math.Abs(out.Y-in.Y-deep) > 1e-12 || out.Z-in.Z < 0.008-1e-12 {
			t.Errorf("without %q: inside %+v, outside %+v", gone, in, out)
		}
		if l.Inside.Min != (geom.Vec{}) {
			t.Errorf("inside from %+v", l.Inside.Min)
		}
	}
}

// Braces, slots and a hole in the floor, by hand, mm.
func TestFrames(t *testing.T) {
	const mm = 0.001
	l := of(t, examples.CorridorCabinet, panes,
		"  braces:\n"+
			"    - { name: tie, pane: back, runs: along, width: 50 mm, thickness: 6 mm, of: glass }\n"+
			"    - { name: strip, pane: dam, to: back, runs: across, width: 40 mm, thickness: 5 mm, of: glass, from: 100 mm }\n"+panes,
		"size: 26 mm, up: 962 mm, in: 450 mm, edge: left", "width: 60 mm, height: 30 mm, up: 962 mm, in: 450 mm, edge: right",
		"hole: { pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left }", "hole: { pane: base, size: 44 mm, up: 110 mm, in: 200 mm, edge: right }")
	l.check(t, KindBrace, "tie", box(-6, 894, 0, 50, 1034, 1040, mm))
	l.check(t, KindBrace, "strip", box(101, 141, 0, 408, 195, 200, mm))
	l.check(t, KindWay, "riser hole", box(414, 474, -6, 0, 947, 977, mm))
	l.check(t, KindHole, "main drain", box(672, 716, 312, 356, -8, 0, mm)) // 894 - 200, 444 - 110
	if p := l.mustFind(t, KindStandpipe, "main drain"); math.Abs(p.Max.Z-0.150) > 1e-12 || math.Abs(p.Centre().X-0.694) > 1e-12 || math.Abs(p.Min.Z) > 1e-12 {
		t.Errorf("standpipe %+v", p)
	}
	for _, kind := range []Kind{KindFlange, KindNut} {
		p := l.mustFind(t, kind, "main drain")
		if above := p.Min.Z >= 0; above != (kind == KindFlange) {
			t.Errorf("%s at %+v", kind, p)
		}
	}
	if _, ok := l.Find(KindElbow, "main drain"); ok {
		t.Error("an elbow over a hole in the floor")
	}
}

// A panel at the right looks to the left, its notches count from the rear end.
func TestSideGrid(t *testing.T) {
	const mm = 0.001
	l := of(t, examples.CorridorCabinet, "across: 54\n    up: 50\n    pitch: 15.0 mm\n    at: back", "across: 20\n    up: 50\n    pitch: 15.0 mm\n    at: right",
		"left: 25, bottom: 46", "left: 5, bottom: 46", "{ name: branch, on: wall grid, weight: 0.8 kg, out: 90 mm, up: 600 mm, left: 200 mm }", "{ name: branch, on: wall grid, weight: 0.8 kg, out: 90 mm, up: 600 mm, left: 100 mm }")
	l.check(t, KindGrid, "wall grid", box(836, 848, 69, 369, 190, 940, mm))
	l.check(t, KindHardscape, "branch", box(746, 746, 169, 169, 790, 790, mm))
	n := l.Grids[0].Notches[0].Box
	if want := box(836, 848, 144, 189, 880, 940, mm); n.Min.Dist(want.Min) > 1e-12 || n.Max.Dist(want.Max) > 1e-12 {
		t.Errorf("notch %+v", n)
	}
}

// The bars and the notches are the panel, once.
func TestBars(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		l := of(t, data)
		for i := range l.Grids {
			g := &l.Grids[i]
			sum := 0.0
			bars := g.Bars()
			for k, b := range bars {
				sum += b.Volume()
				if !g.Box.Grown(1e-12).Holds(b) {
					t.Errorf("%s: %+v is not in the panel", g.Name, b)
				}
				for _, c := range bars[k+1:] {
					if m, ok := b.Meet(c); ok && m.Volume() > 1e-18 {
						t.Errorf("%s: bars share %+v", g.Name, m)
					}
				}
				for _, n := range g.Notches {
					if m, ok := b.Meet(n.Box); ok && m.Volume() > 1e-18 {
						t.Errorf("%s: a bar in the notch for the %s", g.Name, n.For)
					}
				}
			}
			for _, n := range g.Notches { // those of the demos do not overlap
				sum += n.Box.Volume()
			}
			if math.Abs(sum-g.Box.Volume()) > 1e-12 {
				t.Errorf("%s: %g m3 of %g", g.Name, sum, g.Box.Volume())
			}
		}
	}
}

// A tank with a front pane opens at the top; a hinged door swings out by its width.
func TestOpenings(t *testing.T) {
	const door = "{ name: sliding door, at: door, up: 210 mm, opens: slides, width: 450 mm, height: 820 mm, thickness: 4 mm, count: 2, glass: annealed }"
	top := of(t, examples.CorridorCabinet, door, "{ name: front, at: front, width: 888 mm, height: 1000 mm, thickness: 6 mm, glass: annealed }",
		"  opening: { width: 870 mm, height: 810 mm }\n", "  opening: { width: 600 mm, height: 400 mm }\n")
	if o := top.Opening; o.At != "top" || math.Abs(o.Box.Min.X-0.144) > 1e-12 || math.Abs(o.Box.Max.Y-o.Box.Min.Y-0.4) > 1e-12 || o.Box.Min.Z != o.Box.Max.Z {
		t.Errorf("%+v", o)
	}
	hinged := of(t, examples.CorridorCabinet, door, "{ name: door, at: door, up: 210 mm, opens: hinged left, width: 880 mm, height: 820 mm, thickness: 4 mm, glass: annealed }")
	space := hinged.mustFind(t, KindDoorSpace, "door")
	leaf := hinged.mustFind(t, KindPane, "door")
	if math.Abs(space.Max.Y-leaf.Min.Y-0.88) > 1e-12 || space.Min != leaf.Min {
		t.Errorf("door %+v swings through %+v", leaf, space)
	}
}

func TestFeet(t *testing.T) {
	for n, want := range map[int]int{0: 0, 2: 0, 3: 3, 4: 4, 5: 5, 6: 6} {
		list := feet(n, box(0, 900, 0, 450, -800, 0, 0.001), 0.02, 0.05)
		if len(list) != want {
			t.Errorf("%d feet: %d", n, len(list))
		}
		for i, f := range list {
			if !(f.Min.X >= 0.02-1e-12 && f.Max.X <= 0.88+1e-12 && f.Min.Y >= 0.02-1e-12 && f.Max.Y <= 0.43+1e-12) {
				t.Errorf("%d feet: %+v", n, f)
			}
			for _, g := range list[i+1:] {
				if geom.Gap(f, g) <= 0 {
					t.Errorf("%d feet: two in one place", n)
				}
			}
		}
	}
}
