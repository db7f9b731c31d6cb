package study

import (
	"math"
	"slices"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/quantity"
	"rillwright/structure/joint"
	"rillwright/structure/plate"
)

func sealed(tb testing.TB, text []byte, pairs ...string) (Joints, []GlassPane) {
	tb.Helper()
	e := changed(tb, text, pairs...)
	panes := Glass(e, e.Likely(), e.Pool.Floor+0.15)
	return SealedJoints(e, panes), panes
}

func named(tb testing.TB, list Joints, name string) Joint {
	tb.Helper()
	for _, j := range list.List {
		if j.Name == name {
			return j
		}
	}
	tb.Fatalf("no joint %q in %+v", name, list.List)
	return Joint{}
}

// The reference dam, by a plate solution elsewhere: 600 by 350 mm, in 300 mm of
// water of 1000 kg/m3, it takes 265 N, 221 N/m in the mean and 376 N/m at its
// peak, which on a bite of 10 mm is 38 kPa. What its edges take, less what its
// corners hold down, is the force of the water.
func TestReferenceDam(t *testing.T) {
	pane := plate.Pane{Width: 0.6, Height: 0.35, Thickness: 0.010, Young: 70e9, Poisson: 0.23, Edges: [4]plate.Support{plate.Held, plate.Held, plate.Free, plate.Held}}
	r, err := plate.Solve(&pane, plate.Load{Inner: 0.3, Weight: 9806.65}, plate.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	s := PaneState{Edges: r.Edges, Corners: r.Corners}
	p := GlassPane{Name: "dam", Width: pane.Width, Height: pane.Height, Thickness: quantity.Exactly(pane.Thickness)}
	p.Running, p.Brim = s, [3]PaneState{s, s, s}
	sum := s.Edges[plate.Bottom].Total + s.Edges[plate.Left].Total + s.Edges[plate.Right].Total
	for _, c := range s.Corners {
		sum += c
	}
	if force := (joint.Dam{Width: 0.6, Depth: 0.3}).Force(1000); math.Abs(sum-force) > 1e-9*force || math.Abs(force-265) > 0.5 {
		t.Errorf("edges take %.9g N of %.9g", sum, force)
	}
	e := &enclosure.Enclosure{Design: &design.Design{}}
	e.Design.Dam.Pos.Line = 1
	low := named(t, SealedJoints(e, []GlassPane{p}), "dam, bottom")
	stress := joint.Butt{Bite: low.Bite.Likely}.Stress(low.Brim[1])
	if math.Abs(low.Brim[1]-376.4) > 0.005*376.4 || math.Abs(stress-37.6e3) > 0.005*37.6e3 || low.Pull != Sheared {
		t.Errorf("peak %g N/m, %g Pa, %s", low.Brim[1], stress, low.Pull)
	}
}

// The metric example by hand: the back covers the ends of the sides, all stand on
// the base; 0.9 and 2 x 0.443 m below, 2 x 1.04 m upright, 0.886 and 2 x 0.2 m of
// dam, 0.886 and 2 x 0.26 m of top strip. The doors have none.
func TestJointsByHand(t *testing.T) {
	list, panes := sealed(t, examples.CorridorCabinet)
	length := 0.0
	for _, j := range list.List {
		length += float64(j.Count) * j.Length
		if j.Old || j.Leans || j.Unsure {
			t.Errorf("%+v", j)
		}
	}
	if want := 0.9 + 2*0.443 + 2*1.04 + 0.886 + 2*0.2 + 0.886 + 2*0.26; math.Abs(length-want) > 1e-9 {
		t.Errorf("%g m, by hand %g", length, want)
	}
	corner := named(t, list, "back and side")
	var back, side, dam *GlassPane
	for i := range panes {
		switch panes[i].Name {
		case "back":
			back = &panes[i]
		case "side":
			side = &panes[i]
		case "dam":
			dam = &panes[i]
		}
	}
	// Two pulls at right angles in one bed.
	if want := math.Hypot(back.Brim[1].Edges[plate.Right].Peak, side.Brim[1].Edges[plate.Left].Peak); corner.Pull != Both || corner.Of != "side" || math.Abs(corner.Brim[1]-want) > 1e-9*want {
		t.Errorf("corner %+v, want %g N/m", corner, want)
	}
	// The sides end behind the dam, which ties them.
	if ends := named(t, list, "dam, ends"); ends.Pull != Both || ends.Brim[1] <= dam.Brim[1].Edges[plate.Left].Peak || ends.Count != 2 || ends.Slope[0] <= ends.Slope[2] {
		t.Errorf("ends %+v", ends)
	}
	if top := named(t, list, "top strip, its edges"); top.Loaded {
		t.Errorf("%+v bears water", top)
	}
}

// Whose edge is bonded follows from the sizes, and with it whether the water
// shears or pulls.
func TestWhoseEdge(t *testing.T) {
	const base, back, side = "width: 900 mm, height: 450 mm, thickness: 8 mm", "name: back, at: back, width: 900 mm", "name: side, at: sides, width: 443 mm"
	for _, c := range []struct {
		name   string
		pairs  []string
		joint  string
		of     string
		pull   Pull
		unsure bool
	}{
		{"the sides cover the back", []string{back, "name: back, at: back, width: 886 mm", side, "name: side, at: sides, width: 450 mm"}, "back and side", "back", Both, false},
		{"both to the outside", []string{side, "name: side, at: sides, width: 450 mm"}, "back and side", "side", Both, true},
		{"on the base", nil, "back, bottom", "back", Sheared, false},
		{"round the base", []string{base, "width: 886 mm, height: 438 mm, thickness: 8 mm"}, "back, bottom", "base", Pulled, false},
		{"round the base", []string{base, "width: 886 mm, height: 438 mm, thickness: 8 mm"}, "side, bottom", "base", Pulled, false},
		{"no base", []string{"    - { name: base, at: bottom, " + base + ", glass: annealed }\n", ""}, "back, bottom", "back", Sheared, false},
	} {
		list, _ := sealed(t, examples.CorridorCabinet, c.pairs...)
		j := named(t, list, c.joint)
		if j.Of != c.of || j.Pull != c.pull || j.Unsure != c.unsure {
			t.Errorf("%s: edge of %s, %s, unsure %v", c.name, j.Of, j.Pull, j.Unsure)
		}
	}
}

// What the file says of edges, stops and places counts: an edge that is free has no
// joint, a dam on stops leans, a front pane takes the sides' front edges.
func TestJointsAsTold(t *testing.T) {
	list, _ := sealed(t, examples.CorridorCabinet, "  set-back: 30 mm", "  set-back: 30 mm\n  stops: sides")
	if !named(t, list, "dam, ends").Leans || named(t, list, "dam, bottom").Leans {
		t.Error("stops at the sides")
	}
	list, _ = sealed(t, examples.CorridorCabinet, "name: side, at: sides", "name: side, edges: { left: free }, at: sides")
	if slices.ContainsFunc(list.List, func(j Joint) bool { return j.Name == "back and side" }) {
		t.Error("a free edge is sealed")
	}
	list, _ = sealed(t, examples.CorridorCabinet, "    - { name: sliding door", "    - { name: low front, at: front, width: 900 mm, height: 200 mm, thickness: 6 mm, glass: annealed }\n    - { name: sliding door")
	if j := named(t, list, "dam, ends"); j.Pull != Sheared {
		t.Errorf("%+v, beside a front pane", j)
	}
	if j := named(t, list, "low front and side"); math.Abs(j.Length-0.2) > 1e-12 {
		t.Errorf("%+v is as long as the lower of both", j)
	}
	list, _ = sealed(t, examples.CorridorCabinet, "name: back, at: back", "name: back", "name: side, at: sides", "name: large one")
	if !slices.Equal(list.Placed, []string{"back"}) || !slices.Equal(list.Lost, []string{"large one"}) {
		t.Errorf("placed %q, lost %q", list.Placed, list.Lost)
	}
}

// A shop tank has its joints: new are only those of its dam. Left and right are
// alike.
func TestTankJoints(t *testing.T) {
	list, _ := sealed(t, examples.CounterWall)
	for _, j := range list.List {
		if want := j.Name != "dam, bottom" && j.Name != "dam, ends"; j.Old != want {
			t.Errorf("%s: old %v", j.Name, j.Old)
		}
	}
	l, r := named(t, list, "back and left side"), named(t, list, "back and right side")
	if math.Abs(l.Brim[0]-r.Brim[0]) > 1e-9*l.Brim[0] || l.Bite != r.Bite {
		t.Errorf("left %+v, right %+v", l, r)
	}
}

// A tie across bears at both ends over its width, a strip along the edge over its
// length, on the bond that the file gives.
func TestBraceJoints(t *testing.T) {
	const before = "  ways:  "
	e := changed(t, examples.CorridorCabinet, before, "  braces:\n    - { name: tie, pane: back, to: base, runs: across, width: 60 mm, thickness: 6 mm, of: glass, bond: 12 mm }\n    - { name: strip, pane: back, runs: along, length: 500 mm, width: 40 mm, thickness: 6 mm, of: glass }\n"+before)
	s := PaneState{Braces: []plate.Reaction{{Peak: 100}, {Peak: -40}}}
	panes := []GlassPane{{Name: "back", Width: 0.9, Height: 1.04, Thickness: quantity.Exactly(0.006), Running: s, Brim: [3]PaneState{s, s, s}}}
	list := SealedJoints(e, panes)
	tie, strip := named(t, list, "brace tie"), named(t, list, "brace strip")
	if tie.Count != 2 || tie.Length != 0.06 || tie.Bite.Likely != 0.012 || tie.Brim[0] != 100 {
		t.Errorf("tie %+v", tie)
	}
	if strip.Count != 1 || strip.Length != 0.5 || math.Abs(strip.Bite.Likely-0.006) > 2e-4 || strip.Running != 40 {
		t.Errorf("strip %+v", strip)
	}
}

// BenchmarkJoints is what joints and grid bonds of a demo cost beside its panes.
func BenchmarkJoints(b *testing.B) {
	e := changed(b, examples.CorridorCabinet)
	panes := Glass(e, e.Likely(), e.Pool.Floor+0.15)
	b.ReportAllocs()
	for b.Loop() {
		SealedJoints(e, panes)
		g, err := GridBond(e, &e.Design.Grid[0])
		if err != nil {
			b.Fatal(err)
		}
		if _, err := g.Worst(1); err != nil {
			b.Fatal(err)
		}
	}
}
