package study

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/plate"
)

const waterWeight0 = 9806.65 // N/m3

// trough is a dam of glass 6.1 mm thick, measured.
func trough() *GlassPane {
	return &GlassPane{
		Name: "dam", At: "dam", Kind: structure.Annealed, Width: 0.886, Height: 0.2, Thickness: quantity.Exactly(0.0061),
		Holds: [4]Hold{plate.Top: Loose}, Depth: [2]float64{0.15, 0.2}, weight: waterWeight0, refine: 2,
	}
}

func state(tb testing.TB, p *GlassPane, a Ask) PaneState {
	tb.Helper()
	st, err := p.State(a)
	if err != nil {
		tb.Fatal(err)
	}
	return st
}

func glassOf(tb testing.TB, data []byte, pairs ...string) ([]GlassPane, *enclosure.Enclosure) {
	tb.Helper()
	e := changed(tb, data, pairs...)
	list := Glass(e, e.Likely(), e.Pool.Floor+0.15)
	return list, e
}

func paneNamed(tb testing.TB, list []GlassPane, name string) *GlassPane {
	tb.Helper()
	for i := range list {
		if list[i].Name == name {
			return &list[i]
		}
	}
	tb.Fatalf("no pane is called %q", name)
	return nil
}

func within(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// Which panes stand in the pool: not doors, not lids, not what begins above it, not
// the front behind which a dam keeps the water.
func TestPanesInThePool(t *testing.T) {
	const strip = "    - { name: top strip, at: top,"
	for _, c := range []struct {
		pane string
		wet  bool
	}{
		{"name: x, at: front", false},
		{"name: x, at: door", false},
		{"name: x, at: back, up: 199 mm", true},
		{"name: x, at: back, up: 200 mm", false},
		{"name: x, at: inside", true},
		{"name: rear wall", true},
		{"name: front lid", false},
		{"name: x", true},
	} {
		list, _ := glassOf(t, examples.CorridorCabinet, strip, "    - { "+c.pane+", width: 400 mm, height: 300 mm, thickness: 6 mm, glass: annealed }\n"+strip)
		got := slices.ContainsFunc(list, func(p GlassPane) bool { return p.Width == 0.4 })
		if got != c.wet {
			t.Errorf("%s: in the pool %v", c.pane, got)
		}
	}
	// Without a dam the front holds the pool.
	list, _ := glassOf(t, examples.CorridorCabinet,
		"dam:\n  width: 886 mm\n  height: 200 mm\n  thickness: 6 mm\n  set-back: 30 mm\n", "",
		"name: top strip, at: top", "name: window, at: front")
	if p := paneNamed(t, list, "window"); p.Depth[1] != 1.040 || p.Holds[plate.Top] != Loose {
		t.Errorf("the front stands in %v m of water", p.Depth)
	}
}

// What the file leaves open is told.
func TestPanesAssumed(t *testing.T) {
	says := func(p *GlassPane, what string) {
		if !slices.ContainsFunc(p.Assumed, func(s string) bool { return strings.Contains(s, what) }) {
			t.Errorf("%s: %q is not among %q", p.Name, what, p.Assumed)
		}
	}
	list, _ := glassOf(t, examples.CorridorCabinet, "name: back, at: back", "name: back", "rests: on a full board", "rests: on pads")
	says(paneNamed(t, list, "back"), "place that its name says")
	says(paneNamed(t, list, "side"), "names no edges")
	says(paneNamed(t, list, "side"), "all of its width")
	says(paneNamed(t, list, "base"), "four pads")
	says(paneNamed(t, list, "base"), "at its full weight")
	us, _ := glassOf(t, examples.CounterWall)
	says(paneNamed(t, us, "left side"), "half sine")
	says(paneNamed(t, us, "left side"), "0.5 to 2 GPa")
	none, _ := glassOf(t, examples.CorridorCabinet, "  thickness: 6 mm\n  set-back", "  set-back", "    - { name: dam pane, at: dam, width: 886 mm, height: 200 mm, thickness: 6 mm, glass: annealed }\n", "")
	if p := paneNamed(t, none, "dam"); p.Lacks != "dam.thickness" {
		t.Errorf("the dam lacks %q", p.Lacks)
	}
}

// A rim as soft as air is no rim, one as stiff as can be is a bond; between them a
// stiffer one never lets the edge bow more, and a thicker pane never does.
func TestRimBetweenFreeAndBonded(t *testing.T) {
	rim := func(k float64) *GlassPane {
		p := trough()
		p.Holds[plate.Top] = Rimmed
		p.Strips = []Strip{{Name: "rim", Rim: true, Side: plate.Top, To: p.Width, Stiffness: quantity.Exactly(k)}}
		return p
	}
	free := state(t, trough(), Ask{})
	held := state(t, rim(1), Ask{Firm: true})
	if soft := state(t, rim(1), Ask{}); !within(soft.Bow, free.Bow, 1e-3) || soft.Bow > free.Bow {
		t.Errorf("a soft rim: bow %g, free %g", soft.Bow, free.Bow)
	}
	if hard := state(t, rim(1e9), Ask{}); !within(hard.Bow, held.Bow, 0.01) || hard.Bow < held.Bow {
		t.Errorf("a hard rim: bow %g, held %g", hard.Bow, held.Bow)
	}
	if u := state(t, rim(1e6), Ask{Unheld: true}); !within(u.Bow, free.Bow, 1e-9) {
		t.Errorf("a rim left out: bow %g, free %g", u.Bow, free.Bow)
	}
	last := math.Inf(1)
	for _, k := range []float64{1e2, 1e3, 1e4, 1e5, 1e6, 1e7} {
		now := state(t, rim(k), Ask{}).Bow
		if now > last {
			t.Errorf("a rim of %g Pa: bow %g after %g", k, now, last)
		}
		last = now
	}
	for _, k := range []float64{3e3, 3e5} {
		last = math.Inf(1)
		for _, mm := range []float64{3, 4, 5, 6, 8, 10, 12, 15} {
			p := rim(k)
			p.Strips = append(p.Strips, Strip{Name: "brace", Side: plate.Top, From: 0.41, To: 0.47, Stiffness: quantity.Exactly(1e6)})
			now := state(t, p, Ask{Thickness: mm / 1000}).Bow
			if now > last {
				t.Errorf("%g mm with a rim and a brace: bow %g after %g", mm, now, last)
			}
			last = now
		}
	}
}

// What edges, corners, rims and braces take is the water's force and the push.
func TestPaneReactions(t *testing.T) {
	p := trough()
	p.Holds[plate.Top] = Rimmed
	p.Strips = []Strip{
		{Name: "brace", Side: plate.Top, From: 0.4, To: 0.5, Stiffness: quantity.Exactly(1e6)},
		{Name: "rim", Rim: true, Side: plate.Top, To: p.Width, Stiffness: quantity.Band[float64]{Low: 2e4, Likely: 5e4, High: 9e4}},
	}
	for _, a := range []Ask{{}, {Side: -1}, {Side: 1}, {Running: true}, {Knocked: true}, {Strip: -1}, {Firm: true}, {Unheld: true}, {Coarse: true}} {
		depth, push := p.Depth[1], 0.0
		if a.Running {
			depth = p.Depth[0]
		}
		if a.Knocked {
			push = KnockForce
		}
		want := waterWeight0*depth*depth/2*p.Width + push
		st := state(t, p, a)
		got := 0.0
		for i := range st.Edges {
			got += st.Edges[i].Total + st.Corners[i]
		}
		for _, b := range st.Braces {
			got += b.Total
		}
		if !within(got, want, 1e-9) {
			t.Errorf("%+v: %.12g N, want %.12g", a, got, want)
		}
	}
	// Water on the other side takes its own back.
	p.Strips, p.Holds[plate.Top], p.Outer = nil, Loose, 0.1
	if st, dry := state(t, p, Ask{}), state(t, trough(), Ask{}); st.Bow >= dry.Bow || st.Stress >= dry.Stress {
		t.Errorf("with water outside: %g m, %g Pa", st.Bow, st.Stress)
	}
}

// The left side and the right are each other's image, rims, holes and all.
func TestSidesAreImages(t *testing.T) {
	list, _ := glassOf(t, examples.CounterWall,
		"hole: { pane: left side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }", "hole: { pane: right side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }",
		"    - { name: riser hole, pane: left side, size: 1 in, up: 33 1/4 in, in: 2 1/2 in, edge: rear,", "    - { name: twin, pane: left side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }\n    - { name: riser hole, pane: back, size: 1 in, up: 33 1/4 in, in: 2 1/2 in, edge: left,")
	l, r := paneNamed(t, list, "left side"), paneNamed(t, list, "right side")
	if l.Openings[0].X != 3*0.0254 || !within(r.Openings[0].X, r.Width-3*0.0254, 1e-12) {
		t.Errorf("holes %g and %g m from the left", l.Openings[0].X, r.Openings[0].X)
	}
	for _, p := range [][2]PaneState{{l.Running, r.Running}, {l.Brim[0], r.Brim[0]}, {l.Knock, r.Knock}} {
		if !within(p[0].Stress, p[1].Stress, 1e-6) || !within(p[0].Bow, p[1].Bow, 1e-6) || !within(p[0].Openings[0], p[1].Openings[0], 1e-4) ||
			!within(p[0].Edges[plate.Right].Total, p[1].Edges[plate.Left].Total, 1e-6) && p[0].Edges[plate.Right].Total != 0 {
			t.Errorf("left %+v, right %+v", p[0], p[1])
		}
	}
	// Of a pane at the back left is the enclosure's, and it is seen from behind.
	b := paneNamed(t, list, "back")
	if !within(b.Openings[0].X, b.Width-2.5*0.0254, 1e-12) {
		t.Errorf("hole %g m from the left, seen from behind", b.Openings[0].X)
	}
}

// By hand: two sheets that slide on each other bear half of the water each.
func TestLaminated(t *testing.T) {
	one := trough()
	one.Kind, one.Plies, one.Ply = structure.Laminated, 1, quantity.Exactly(0.004)
	two := trough()
	two.Kind, two.Plies, two.Ply = structure.Laminated, 2, quantity.Exactly(0.004)
	a, b := state(t, one, Ask{}), state(t, two, Ask{})
	if !within(b.Bow, a.Bow/2, 1e-9) || !within(b.Stress, a.Stress/2, 1e-9) || !within(b.EdgeStress, a.EdgeStress/2, 1e-9) {
		t.Errorf("one sheet %g m, %g Pa; two %g m, %g Pa", a.Bow, a.Stress, b.Bow, b.Stress)
	}
	list, _ := glassOf(t, examples.CorridorCabinet, "height: 200 mm, thickness: 6 mm, glass: annealed", "height: 200 mm, thickness: 8.8 mm, ply: 4 mm, glass: laminated", "  thickness: 6 mm\n  set-back", "  thickness: 8.8 mm\n  set-back")
	if p := paneNamed(t, list, "dam"); p.Plies != 2 || p.Ply.Likely != 0.004 || p.Ply.Low != 0.0038 {
		t.Errorf("%d plies of %v", p.Plies, p.Ply)
	}
}

// Plastics creep: the bow goes with the modulus after years, a push with that of
// seconds.
func TestPlastics(t *testing.T) {
	p := trough()
	p.Kind, p.Thickness = structure.Acrylic, quantity.Exactly(0.012)
	m, _ := structure.MaterialOf(structure.Acrylic)
	soft, stiff := state(t, p, Ask{Modulus: -1}), state(t, p, Ask{Modulus: 1})
	if got, want := soft.Bow/stiff.Bow, m.Creep.High/m.Creep.Low; !within(got, want, 0.02) {
		t.Errorf("bows %g times as much, moduli %g", got, want)
	}
	if p.young(Ask{Knocked: true}) != m.Young.Likely || p.young(Ask{Side: -1}) != m.Creep.Low {
		t.Error("another modulus")
	}
}

// By hand, a small hole at the middle of a dam's free edge lies in bending one way:
// the stress there times its factor, times that of the edge.
func TestBesideHole(t *testing.T) {
	p := trough()
	p.Openings = []Opening{{Name: "hole", X: 0.443, Y: 0.17, Diameter: 0.01}}
	r, err := p.solve(Ask{})
	if err != nil {
		t.Fatal(err)
	}
	st := p.read(r, Ask{})
	worst := 0.0
	for _, y := range []float64{0.165, 0.17, 0.175} {
		q := r.At(0.443, y)
		s := q.Mx*6/(0.0061*0.0061) + q.Nx/0.0061
		worst = max(worst, structure.HoleStress(s, q.My*6/(0.0061*0.0061)+q.Ny/0.0061, 0.23, 0.01, 0.0061))
	}
	want := worst * structure.EdgeFactor(0.01, 0.03)
	if !within(st.Openings[0], want, 0.01) {
		t.Errorf("%g Pa, by hand %g", st.Openings[0], want)
	}
	// A second hole beside it makes it worse, a far one does not.
	p.Openings = append(p.Openings, Opening{Name: "far", X: 0.8, Y: 0.1, Diameter: 0.01})
	if far := state(t, p, Ask{}).Openings[0]; !within(far, st.Openings[0], 1e-9) {
		t.Errorf("a far hole makes %g of %g", far, st.Openings[0])
	}
	p.Openings[1].X, p.Openings[1].Y = 0.455, 0.17
	if near := state(t, p, Ask{}).Openings[0]; near <= st.Openings[0]*1.2 {
		t.Errorf("a hole 2 mm beside it makes %g of %g", near, st.Openings[0])
	}
	// A slot: rounder corners are better, sharp ones have no figure. A notch at the
	// edge is as deep as it is.
	last := math.Inf(1)
	for _, radius := range []float64{0, 0.002, 0.006, 0.01} {
		p.Openings = []Opening{{Name: "slot", X: 0.443, Y: 0.1, Width: 0.06, Height: 0.02, Corner: radius}}
		now := state(t, p, Ask{}).Openings[0]
		if math.IsInf(now, 1) != p.Openings[0].Sharp() || now > last {
			t.Errorf("corners of %g m: %g after %g", radius, now, last)
		}
		last = now
	}
	p.Openings = []Opening{{Name: "notch", X: 0.443, Y: 0.19, Width: 0.06, Height: 0.02, Corner: 0.01}}
	if depth, ok := p.cuts(&p.Openings[0]); !ok || depth != 0.02 {
		t.Errorf("a notch %g m deep, %v", depth, ok)
	}
	if v := state(t, p, Ask{}).Openings[0]; math.IsInf(v, 0) || v <= 0 {
		t.Errorf("%g Pa beside a notch", v)
	}
}

// A brace across is a tie; where it and a rim lie over each other they share what
// the spring takes, and a brace on a bonded edge takes nothing.
func TestBracesOfTheDesign(t *testing.T) {
	brace := func(more string) *GlassPane {
		list, _ := glassOf(t, examples.CorridorCabinet, "  ways:", "  braces:\n    - { name: tie, pane: dam pane, to: back, runs: across, width: 50 mm, thickness: 6 mm, of: glass"+more+" }\n  ways:")
		return paneNamed(t, list, "dam")
	}
	p := brace("")
	if len(p.Strips) != 1 || !within(p.Strips[0].From, 0.418, 1e-9) || !within(p.Strips[0].To, 0.468, 1e-9) {
		t.Fatalf("%+v", p.Strips)
	}
	// By hand: the bond, 50 x 6 mm and 1 mm thick (0.8 to 1.2 in the file), at a third
	// of 1 MPa is 1e5 N/m, over 50 mm 2 MPa; the strip itself hardly gives.
	if k := p.Strips[0].Stiffness.Likely; !within(k, 2e6, 0.01) || k > 2e6 {
		t.Errorf("the tie is %g Pa", k)
	}
	without, _ := glassOf(t, examples.CorridorCabinet)
	if free := paneNamed(t, without, "dam"); p.Brim[0].Bow > 0.7*free.Brim[0].Bow || p.Brim[0].Braces[0].Total <= 0 {
		t.Errorf("braced: bow %g, free %g, the tie takes %g N", p.Brim[0].Bow, free.Brim[0].Bow, p.Brim[0].Braces[0].Total)
	}
	low := brace(", edge: bottom")
	if low.Brim[0].Braces[0].Total != 0 {
		t.Errorf("a brace on a bonded edge takes %g N", low.Brim[0].Braces[0].Total)
	}
}

// A floor pane on its rim is held on four sides: by the published coefficient for
// uniform load (0.272 q b^2/t^2 for a square at nu 0.23), and one on a board is
// not bent.
func TestFloorPane(t *testing.T) {
	p := GlassPane{
		At: "bottom", Lying: true, Kind: structure.Annealed, Width: 0.6, Height: 0.6, Thickness: quantity.Exactly(0.010),
		Depth: [2]float64{0.1, 0.2}, Stands: 500, weight: waterWeight0, refine: 2,
	}
	q := waterWeight0*0.2 + 500
	if st := state(t, &p, Ask{}); !within(st.Stress, 0.27185*q*0.36/1e-4, 0.005) {
		t.Errorf("stress %g", st.Stress)
	}
	list, e := glassOf(t, examples.CorridorCabinet)
	if b := paneNamed(t, list, "base"); !b.Flat || b.Brim[0].Stress != 0 || !within(b.Pressure(9800), 9800*(e.Pool.DamTop-0.808)+9*9.80665/(0.9*0.45), 1e-9) {
		t.Errorf("%+v", b)
	}
	pads, _ := glassOf(t, examples.CorridorCabinet, "rests: on a full board", "rests: on pads")
	b := paneNamed(t, pads, "base")
	taken := 0.0
	for _, r := range b.Brim[1].Beds {
		taken += r.Total
	}
	if want := b.Pressure(b.weight) * 0.9 * 0.45; !within(taken, want, 1e-9) {
		t.Errorf("the pads take %g N of %g", taken, want)
	}
	if rim, _ := glassOf(t, examples.CorridorCabinet, "rests: on a full board", "rests: on its rim"); paneNamed(t, rim, "base").Brim[0].Bow >= b.Brim[0].Bow {
		t.Error("four pads are better than a rim")
	}
}

// Behind a dam nothing holds the front edges of the sides above it, unless the file
// says so or a pane stands at the front.
func TestOpenFront(t *testing.T) {
	const side, back = "name: side, at: sides", "name: back, at: back"
	right := func(pairs ...string) Hold {
		list, _ := glassOf(t, examples.CorridorCabinet, pairs...)
		return paneNamed(t, list, "side").Holds[plate.Right]
	}
	if right() != Loose {
		t.Error("an open front holds the sides")
	}
	if right(side, "name: side, edges: { right: bonded }, at: sides") != Bonded {
		t.Error("a front edge that the file has bonded is free")
	}
	if right(back, "name: pane before it, at: front, width: 900 mm, height: 300 mm, thickness: 6 mm, glass: annealed }\n    - { "+back) != Bonded {
		t.Error("a front pane holds nothing")
	}
	list, _ := glassOf(t, examples.CorridorCabinet, side+", width: 443 mm, height: 1040 mm, thickness: 6 mm, count: 2", "name: right side, at: right, width: 443 mm, height: 1040 mm, thickness: 6 mm")
	if p := paneNamed(t, list, "right side"); p.Holds[plate.Left] != Loose || p.Holds[plate.Right] != Bonded {
		t.Errorf("the right side is held %v", p.Holds)
	}
}

// Of several free edges the push is where the pane bears least.
func TestWorstKnock(t *testing.T) {
	list, _ := glassOf(t, examples.CorridorCabinet)
	p := paneNamed(t, list, "side")
	top, front := state(t, p, Ask{Side: -1, Knocked: true}), state(t, p, Ask{Side: -1, Knocked: true, Push: 1})
	if p.Knock.Stress != max(top.Stress, front.Stress) || top.Stress == front.Stress {
		t.Errorf("pushed at the top %g, at the front %g, told %g Pa", top.Stress, front.Stress, p.Knock.Stress)
	}
}
