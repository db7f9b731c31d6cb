package layout

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/geom"
	"rillwright/internal/trial"
)

const aboveNotches = "    notches:\n      - { for: riser,"

// braced is the cabinet with braces in its wall grid, and a side grid if it is named.
func braced(tb testing.TB, braces ...string) []byte {
	tb.Helper()
	text := "    braces:\n"
	for _, b := range braces {
		text += "      - { " + b + " }\n"
	}
	data := trial.Swap(tb, examples.CorridorCabinet, aboveNotches, text+aboveNotches)
	if strings.Contains(text, "side grid") {
		data = trial.Swap(tb, data, "\nhardscape:", `  - { name: side grid, at: left, across: 24, up: 50, pitch: 15 mm, left: 60 mm, bottom: 190 mm, thickness: 12 mm, stand-off: 10 mm }
  - { name: other side grid, at: right, across: 24, up: 50, pitch: 15 mm, left: 60 mm, bottom: 190 mm, thickness: 12 mm, stand-off: 10 mm }

hardscape:`)
	}
	return data
}

// By hand, mm. The wall grid stands at x 39 to 849, y 40 to 52, z 190 to 940.
//
// To the right side at 45 deg: half the strip with half a wall and what it is clear by
// is (6 + 1.5) / cos 45 = 10.607 along the lean, half the depth adds 6, so that the slot
// takes 2 x 16.607 = 33.2 of three cells' 45, in columns 41 to 43: middle at 39 + 41.5 x 15 = 661.5, 226.5 from the side. The strip is
// 3 x 15 + 2 = 47 wide, in rows 21 to 24: middle 520. It meets the glass from
// y = 46 + 226.5 - 8.485 to 46 + 226.5 + 8.485; its longer side goes 240.985 each way.
//
// Down behind the panel to the back at 30 deg: 7.5 / cos 30 + 6 tan 30 = 12.124, two
// rows, their middle 190 + 31 x 15 = 655; it meets the glass 46 tan 30 = 26.558 lower.
func TestBracesByHand(t *testing.T) {
	l := of(t, braced(t,
		"name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, angle: 45 deg",
		"name: prop, to: back, leans: down, wide: 4, left: 10, bottom: 30, angle: 30 deg"))
	if len(l.GridBraces) != 2 || len(l.Left) != len(of(t, examples.CorridorCabinet).Left) {
		t.Fatalf("%d braces, left out %+v", len(l.GridBraces), l.Left)
	}
	const mm = 0.001
	h, q := 6*math.Sqrt2, 6/math.Cos(math.Pi/6)
	for i, want := range []struct {
		box          geom.Box
		lo, hi       Cell
		length, bond float64
		bevels       [2]float64
	}{
		{box(661.5-6-h, 888, 40, 46+226.5+h, 496.5, 543.5, mm), Cell{40, 20}, Cell{42, 23}, (226.5 + 6 + h) * math.Sqrt2, 12 * math.Sqrt2, [2]float64{45, 45}},
		{box(39+150+37.5-31, 39+150+37.5+31, 0, 52, 655-46*math.Tan(math.Pi/6)-q, 655+6*math.Tan(math.Pi/6)+q, mm), Cell{10, 30}, Cell{14, 31}, 52/math.Cos(math.Pi/6) + 12*math.Tan(math.Pi/6), 12 / math.Cos(math.Pi/6), [2]float64{30, 30}},
	} {
		b := &l.GridBraces[i]
		got := b.Solid.Bounds()
		if got.Min.Dist(want.box.Min) > 1e-9 || got.Max.Dist(want.box.Max) > 1e-9 {
			t.Errorf("%s: %+v, by hand %+v", b.Name, got, want.box)
		}
		s := l.Grids[b.Grid].Slots[i]
		if s.Lo != want.lo || s.Hi != want.hi || s.Brace != i {
			t.Errorf("%s: slot %+v", b.Name, s)
		}
		if math.Abs(b.Length-want.length*mm) > 1e-9 || math.Abs(b.Bond-want.bond*mm) > 1e-9 || b.Misses > 0 {
			t.Errorf("%s: %g long, bond %g, misses by %g", b.Name, b.Length, b.Bond, b.Misses)
		}
		for k, v := range b.Bevels {
			if math.Abs(v*180/math.Pi-want.bevels[k]) > 1e-9 {
				t.Errorf("%s: bevels %v", b.Name, b.Bevels)
			}
		}
	}
}

// A place of the other end and the angle that leads to it place the same brace.
func TestBraceEndOrAngle(t *testing.T) {
	const at = "name: ledge, to: side, leans: right, wide: 3, left: 40, bottom: 20, "
	// 226.5 along, 6 + 120.5 out: as far as the side from the middle of the depth.
	a := of(t, braced(t, at+"end: 220.5 mm")).GridBraces
	b := of(t, braced(t, at+"angle: 45 deg")).GridBraces
	if len(a) != 1 || len(b) != 1 || math.Abs(a[0].Angle-b[0].Angle) > 1e-9 || math.Abs(a[0].Length-b[0].Length) > 1e-9 {
		t.Errorf("%+v\n%+v", a, b)
	}
}

// What cannot be placed is asked for, in words that name the key or the matter.
func TestBracesLeft(t *testing.T) {
	for _, c := range []struct{ brace, want string }{
		{"to: side, wide: 3, left: 25, bottom: 20, angle: 45 deg", "grid[wall grid].braces[x].leans"},
		{"to: back, wide: 3, left: 25, bottom: 20, angle: 10 deg", "grid[wall grid].braces[x].leans"},
		{"to: base, wide: 3, left: 25, bottom: 20, angle: 45 deg, leans: up", "does not lie that way"},
		{"to: base, wide: 3, left: 25, bottom: 20, angle: 0 deg", "straight out of the panel it never meets"},
		{"to: side, leans: left, wide: 3, left: 25, bottom: 20, angle: 0.5 deg", "less than 1 deg"},
		{"to: base, wide: 3, left: 25, bottom: 20, end: 20 mm", "75 deg"},
		{"to: side, leans: right, wide: 3, left: 52, bottom: 20, angle: 45 deg", "beyond the panel"},
		{"to: sliding door, wide: 3, left: 25, bottom: 20, angle: 0 deg, leans: up", "opens"},
	} {
		l := of(t, braced(t, "name: x, "+c.brace))
		if len(l.GridBraces) != 0 || !slices.ContainsFunc(l.Left, func(x Left) bool { return x.Name == "x" && x.Line > 0 && strings.Contains(x.Say, c.want) }) {
			t.Errorf("%s: %+v", c.brace, l.Left)
		}
	}
}

// random draws a brace of the wall grid, as the file has it, and what it is when the
// design is mirrored: leans and cells changed over, and the names of the side grids.
func random(t *rapid.T) (brace, mirrored string) {
	wide := rapid.IntRange(1, 6).Draw(t, "wide")
	left, bottom := rapid.IntRange(0, 53).Draw(t, "left"), rapid.IntRange(0, 49).Draw(t, "bottom")
	deg := rapid.Float64Range(0, 74).Draw(t, "angle")
	to := rapid.SampledFrom([]string{"side, leans: left", "side, leans: right", "base", "back, leans: up", "back, leans: left", "dam, leans: down", "dam, leans: right", "side grid", "other side grid"}).Draw(t, "to")
	say := func(to string, left int) string {
		return fmt.Sprintf("name: x, to: %s, wide: %d, left: %d, bottom: %d, angle: %.6f deg", to, wide, left, bottom, deg)
	}
	over := strings.NewReplacer("leans: left", "leans: right", "leans: right", "leans: left", "other side grid", "side grid", "side grid", "other side grid").Replace(to)
	return say(to, left) + ", # side grid", say(over, left) + ", # side grid"
}

// Whatever brace is placed goes from its panel's far face to what it meets; its slots
// lie in their panels and are wider than it by the clearance, and each wall that stays is
// clear of it. A mirrored design has mirrored slots.
func TestBraceProperties(t *testing.T) {
	parts := trial.Parts(t)
	lay := func(t *rapid.T, data []byte) *Layout {
		d, list := design.Read("f", data)
		if list.HasErrors() {
			t.Fatal(list)
		}
		e, list := enclosure.Resolve(d, parts, nil)
		if list.HasErrors() {
			t.Fatal(list)
		}
		return Of(e)
	}
	placed := 0
	rapid.Check(t, func(rt *rapid.T) {
		a, b := random(rt)
		a, b = strings.TrimSuffix(a, ", # side grid"), strings.TrimSuffix(b, ", # side grid")
		base := braced(t, "side grid")
		with := func(brace string) *Layout {
			return lay(rt, []byte(strings.Replace(string(base), "      - { side grid }\n", "      - { "+brace+" }\n", 1)))
		}
		l := with(a)
		if len(l.GridBraces) == 0 {
			return
		}
		placed++
		x := &l.GridBraces[0]
		g := &l.Grids[x.Grid]
		ends := x.Solid.Bounds()
		if d := math.Min(math.Abs(ends.Min.Y-g.Box.Min.Y), math.Abs(ends.Max.Y-g.Box.Max.Y)); d > 1e-9 {
			rt.Fatalf("%s: begins %g off its panel's far face", a, d)
		}
		if gap := geom.Gap(x.Solid, l.Parts[x.To].Solid); x.Misses <= 0 && gap > 1e-9 {
			rt.Fatalf("%s: ends %g before what it meets", a, gap)
		}
		for i := range l.Grids {
			g := &l.Grids[i]
			for k := range g.Slots {
				s := &g.Slots[k]
				if !g.Box.Grown(1e-9).Holds(s.Box) {
					rt.Fatalf("%s: slot %+v beyond %+v", a, s.Box, g.Box)
				}
				// Along the lean: the axis in the panel that the strip's width is not along.
				lean, rows := g.along()
				if lean == x.Solid.Along {
					lean = rows
				}
				if wide := s.Box.Size().On(lean) - SlotWall; wide < x.Thick+2*SlotClear-1e-9 {
					rt.Fatalf("%s: a slot of %g m for a strip %g thick", a, wide, x.Thick)
				}
				if wide := s.Box.Size().On(x.Solid.Along) - SlotWall; wide < x.Width+2*SlotClear-1e-9 {
					rt.Fatalf("%s: a slot of %g m for a strip %g wide", a, wide, x.Width)
				}
			}
			if i != x.Grid && i != x.ToGrid {
				continue
			}
			for c := range g.Across {
				for r := range g.Up {
					if _, ok := g.CellBox(Cell{c, r}).Grown(0.01).Meet(ends); !ok {
						continue
					}
					gap := geom.Gap(g.CellBox(Cell{c, r}), x.Solid)
					if open := g.Open(Cell{c, r}); !open && gap < SlotWall/2+SlotClear-1e-9 {
						rt.Fatalf("%s: %g from cell %d, %d of the %s, which stays", a, gap, c, r, g.Name)
					}
				}
			}
		}
		// Mirrored: cells counted from the other end.
		s := g.Slots[0]
		m := with(strings.Replace(b, fmt.Sprintf("left: %d,", s.Lo.Column), fmt.Sprintf("left: %d,", g.Across-1-s.Hi.Column), 1))
		if len(m.GridBraces) != 1 {
			rt.Fatalf("%s: placed, and not when mirrored: %+v", b, m.Left)
		}
		y := &m.GridBraces[0]
		if n := m.Grids[y.Grid].Slots[0]; n.Lo.Column != g.Across-1-s.Hi.Column || n.Hi.Column != g.Across-1-s.Lo.Column || n.Lo.Row != s.Lo.Row || n.Hi.Row != s.Hi.Row {
			rt.Fatalf("%s: slot %+v, mirrored %+v", a, s, n)
		}
		if near := 1e-9 * math.Max(1, x.Length); math.Abs(x.Length-y.Length) > near || math.Abs(x.Misses-y.Misses) > near {
			rt.Fatalf("%s: %+v, mirrored %+v", a, x, y)
		}
		if x.ToGrid >= 0 {
			p, q := l.Grids[x.ToGrid].Slots, m.Grids[y.ToGrid].Slots
			if len(p) != len(q) || len(p) > 0 && (p[0].Lo != q[0].Lo || p[0].Hi != q[0].Hi) {
				rt.Fatalf("%s: slots %+v, mirrored %+v", a, p, q)
			}
		}
	})
	if placed < 5 {
		t.Errorf("only %d braces were placed", placed)
	}
}
