package layout

import (
	"math"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/geom"
	"rillwright/internal/trial"
)

const inch = 0.0254

func of(tb testing.TB, data []byte, pairs ...string) *Layout {
	tb.Helper()
	return Of(trial.Resolved(tb, trial.Swap(tb, data, pairs...), enclosure.Resolve))
}

func (l *Layout) mustFind(tb testing.TB, kind Kind, name string) geom.Box {
	tb.Helper()
	p, ok := l.Find(kind, name)
	if !ok {
		tb.Fatalf("no %s %q", kind, name)
	}
	return p.Solid.Bounds()
}

func box(x0, x1, y0, y1, z0, z1, unit float64) geom.Box {
	return geom.Box{Min: geom.Vec{X: x0, Y: y0, Z: z0}.Times(unit), Max: geom.Vec{X: x1, Y: y1, Z: z1}.Times(unit)}
}

func (l *Layout) check(t *testing.T, kind Kind, name string, want geom.Box) {
	t.Helper()
	got := l.mustFind(t, kind, name)
	if got.Min.Dist(want.Min) > 1e-12 || got.Max.Dist(want.Max) > 1e-12 {
		t.Errorf("%s %s: %+v, by hand %+v", kind, name, got, want)
	}
}

// The corridor cabinet by hand, mm from the inside back left bottom corner. The
// back pane is 900 wide before an inside of 888, so it begins 6 left of it; the
// dam's dry face lies 30 behind the base's front edge at 444.
func TestCabinetByHand(t *testing.T) {
	l := of(t, examples.CorridorCabinet)
	const mm = 0.001
	if l.Inside != box(0, 888, 0, 438, 0, 1040, mm) {
		t.Errorf("inside %+v", l.Inside)
	}
	if want := box(-6, 894, -6, 444, -8, 1040, mm); l.Outside.Min.Dist(want.Min) > 1e-12 || l.Outside.Max.Dist(want.Max) > 1e-12 {
		t.Errorf("outside %+v", l.Outside)
	}
	for _, c := range []struct {
		kind Kind
		name string
		want geom.Box
	}{
		{KindPane, "base", box(-6, 894, -6, 444, -8, 0, mm)},
		{KindPane, "back", box(-6, 894, -6, 0, 0, 1040, mm)},
		{KindPane, "side", box(-6, 0, 1, 444, 0, 1040, mm)},
		{KindPane, "top strip", box(1, 887, 89, 349, 1034, 1040, mm)},
		{KindPane, "sliding door", box(0, 450, 440, 444, 210, 1030, mm)},
		{KindDam, "dam", box(1, 887, 408, 414, 0, 200, mm)},
		{KindPool, "pool", box(1, 887, 0, 408, 0, 200, mm)},
		{KindGrid, "wall grid", box(39, 849, 40, 52, 190, 940, mm)},
		{KindManifold, "drip bar", box(34, 854, 55, 75, 952, 972, mm)},
		{KindWay, "riser hole", box(431, 457, -6, 0, 949, 975, mm)},
		{KindHole, "main drain", box(82, 126, -6, 0, 88, 132, mm)}, // centre 110 - 6
		{KindSump, "sump", box(144, 744, 19, 419, -758, -438, mm)},
		{KindChamber, "drain side", box(144, 364, 19, 419, -758, -438, mm)},
		{KindStand, "stand", box(-6, 894, -6, 444, -808, -8, mm)},
		{KindHardscape, "branch", box(239, 239, 142, 142, 790, 790, mm)}, // 39 + 200, 52 + 90, 190 + 600
	} {
		l.check(t, c.kind, c.name, c.want)
	}
	lip := l.mustFind(t, KindStandpipe, "main drain")
	if math.Abs(lip.Max.Z-0.150) > 1e-12 || math.Abs(lip.Centre().X-0.104) > 1e-12 {
		t.Errorf("standpipe %+v", lip)
	}
	if n := l.Grids[0].Notches[1]; n.For != "drain window" || n.Box.Min.Dist(geom.Vec{X: 0.054, Y: 0.040, Z: 0.190}) > 1e-12 || n.Box.Max.Dist(geom.Vec{X: 0.144, Y: 0.052, Z: 0.280}) > 1e-12 {
		t.Errorf("notch %+v", n)
	}
	if o := l.All(KindOutlet); len(o) != 27 || math.Abs(o[13].Solid.Bounds().Min.X-0.444) > 1e-12 {
		t.Errorf("%d outlets, the middle one at %+v", len(o), o[13].Solid)
	}
	if want := box(9, 879, 444, 444, 215, 1025, mm); l.Opening.At != "front" || l.Opening.Box.Min.Dist(want.Min) > 1e-12 || l.Opening.Box.Max.Dist(want.Max) > 1e-12 {
		t.Errorf("opening %+v", l.Opening)
	}
	if len(l.Sizes) != 0 || len(l.Left) != 0 {
		t.Errorf("sizes %+v, left %+v", l.Sizes, l.Left)
	}
	if got := l.Pool.To(0.150).Size().Z; got != 0.150 {
		t.Errorf("running pool is %g m deep", got)
	}
	if z := l.Z(0.808); z != 0 {
		t.Errorf("the inside bottom at %g", z)
	}
}

// The counter wall by hand, inches. 36 3/16 outside less 35 1/2 and two panes of
// 1/4 leaves 3/16, the walls of two rims of 3/32.
func TestCounterByHand(t *testing.T) {
	l := of(t, examples.CounterWall)
	low := -(0.25 + 3.0/32)
	for _, c := range []struct {
		kind Kind
		name string
		want geom.Box
	}{
		{KindPane, "back", box(-0.25, 18, -0.25, 0, low, low+36.1875, inch)},
		{KindPane, "left side", box(-0.25, 0, -0.25, 16.6875, low, low+36.1875, inch)},
		{KindPane, "right side", box(17.75, 18, -0.25, 16.6875, low, low+36.1875, inch)},
		{KindPane, "floor pane", box(-0.25, 18, -0.25, 16.6875, -0.25, 0, inch)},
		{KindPane, "top pane", box(-0.25, 18, -0.25, 16.6875, 35.5, 35.75, inch)},
		{KindDam, "dam", box(0.125, 17.625, 15.5, 15.75, 0, 7, inch)},
		{KindHole, "side drain", box(-0.25, 0, 2, 3.5, low+2.25, low+3.75, inch)}, // 3 in from the rear edge at -1/4
		{KindGrid, "false bottom", box(0.375, 17.375, 2, 14, 5.75, 6.125, inch)},
		{KindStand, "stand", box(-3.125, 20.875, -0.28125, 16.71875, -30.375, low, inch)},
	} {
		l.check(t, c.kind, c.name, c.want)
	}
	if rims := l.All(KindRim); len(rims) != 8 {
		t.Errorf("%d strips of rims", len(rims))
	}
	outer := 0
	for _, m := range l.Sizes {
		switch {
		case m.Kind == PanesMeet && m.Outer:
			outer++
		case m.Kind == DamGap:
			if math.Abs(m.By-inch/8) > 1e-12 {
				t.Errorf("dam gap %g m", m.By)
			}
		default:
			t.Errorf("%+v", m)
		}
	}
	if outer != 8 { // the back with four, the floor and the top with two sides each
		t.Errorf("%d corners shared", outer)
	}
}

// World and Local are each other's opposite, the corners of a pane's own
// coordinates are those of its box, and u runs to the right of somebody outside.
func TestPaneCoordinates(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		l := of(t, data)
		for i := range l.Panes {
			p := &l.Panes[i]
			if got := geom.BoxOf(p.World(0, 0, 0), p.World(p.Width, p.Height, p.Thick)); got.Min.Dist(p.Box.Min) > 1e-12 || got.Max.Dist(p.Box.Max) > 1e-12 {
				t.Errorf("%s: %+v, box %+v", p.Name, got, p.Box)
			}
			u, v, w := p.Local(p.World(0.1, 0.2, 0.003))
			if math.Abs(u-0.1) > 1e-12 || math.Abs(v-0.2) > 1e-12 || math.Abs(w-0.003) > 1e-12 {
				t.Errorf("%s: %g %g %g", p.Name, u, v, w)
			}
			if p.U.Dot(p.V) != 0 || p.U.Dot(p.Normal) != 0 || p.V.Dot(p.Normal) != 0 {
				t.Errorf("%s: axes not square", p.Name)
			}
			design := l.e.Design.Enclosure.Panes[p.Index]
			if p.At != "dam" && (math.Abs(p.Width-float64(design.Width.Value)) > 1e-12 || math.Abs(p.Height-float64(design.Height.Value)) > 1e-12) {
				t.Errorf("%s: %g by %g m", p.Name, p.Width, p.Height)
			}
		}
	}
	l := of(t, examples.CorridorCabinet)
	for name, right := range map[string]geom.Vec{"back": {X: -1}, "base": {X: 1}, "sliding door": {X: 1}} {
		for i := range l.Panes {
			if l.Panes[i].Name == name && l.Panes[i].U != right {
				t.Errorf("%s: u along %+v", name, l.Panes[i].U)
			}
		}
	}
	// Somebody left of it looks right and has the front at his right hand; right
	// of it, the back.
	for i := range l.Panes {
		if p := &l.Panes[i]; p.Name == "side" && p.U != (geom.Vec{Y: -p.Normal.X}) {
			t.Errorf("side looking %+v: u along %+v", p.Normal, p.U)
		}
	}
}
