package answers

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/layout"
)

const in = 0.0254

// holesOf answers what Holes does for a demo with pieces of its text replaced.
func holesOf(tb testing.TB, data []byte, pairs ...string) []Answer {
	tb.Helper()
	return (&Survey{E: changed(tb, data, pairs...)}).Holes()
}

func theAnswer(tb testing.TB, list []Answer, id string) Answer {
	tb.Helper()
	for i := range list {
		if list[i].ID == id {
			return list[i]
		}
	}
	tb.Fatalf("no answer %q", id)
	return Answer{}
}

func theFigure(tb testing.TB, a Answer, name string) Figure {
	tb.Helper()
	for _, f := range a.Figures {
		if f.Name == name {
			return f
		}
	}
	tb.Fatalf("no figure %q in %s: %v", name, a.ID, a.Figures)
	return Figure{}
}

// spareOf returns one distance of a demo's opening.
func spareOf(tb testing.TB, e *enclosure.Enclosure, opening, what string) spare {
	tb.Helper()
	list := openingsOf(e, layout.Of(e))
	for _, o := range list.list {
		if o.name != opening {
			continue
		}
		c, err := list.spares(o, 1)
		if err != nil {
			tb.Fatal(err)
		}
		for i := range c {
			if c[i].name() == what {
				return c[i]
			}
		}
		tb.Fatalf("%s: no %q in %+v", opening, what, c)
	}
	tb.Fatalf("no opening %q", opening)
	return spare{}
}

// By hand, from the demos' own sizes. Metric: the back's left edge lies 6 mm left of
// the inside, so the centre is 104 mm from the side's face; the flange is 2 3/4 in
// wide and the fillet 6 mm. US: the panes' lower edge lies 11/32 in under the inside
// bottom and their rear edge 1/4 in behind the back's face; flange 2 1/4 in, fillet
// 1/4 in, the rim laps 1 in and the stand begins at the lower edge.
func TestRoomByHand(t *testing.T) {
	metric, us := changed(t, examples.CorridorCabinet), changed(t, examples.CounterWall)
	for _, c := range []struct {
		e             *enclosure.Enclosure
		opening, what string
		want          float64
	}{
		{metric, "main drain", "rim to edge, hobby rule", 0.088},
		{metric, "main drain", "rim to corner, glazing, European rule", 0.110*math.Sqrt2 - 0.022},
		{metric, "main drain", "flange to the corner's sealant", 0.104 - 1.375*in - 0.006},
		{metric, "main drain", "rim to rim of the riser hole, hobby rule", math.Hypot(0.340, 0.852) - 0.022 - 0.013},
		{us, "side drain", "rim to edge, hobby rule", 2.25 * in},
		{us, "side drain", "flange to the corner's sealant", (3 - 11./32 - 1.125 - 0.25) * in},
		{us, "side drain", "nut to the tank's rim at the back", (3 - 1 - 1.125) * in},
		{us, "side drain", "nut to the stand", (3 - 1.125) * in},
		{us, "riser hole", "its rim to the tank's rim at the back", (2.5 - 1 - 0.5) * in},
	} {
		if got := spareOf(t, c.e, c.opening, c.what); math.Abs(got.have-c.want) > 1e-9 {
			t.Errorf("%s, %s: %g mm, by hand %g", c.opening, c.what, 1e3*got.have, 1e3*c.want)
		}
	}
	// A shallower pool has its dam nearer: 5 in from the back's face.
	near := changed(t, examples.CounterWall, "  depth: 15 1/2 in\n  displaced", "  depth: 5 in\n  displaced")
	if got := spareOf(t, near, "side drain", "flange to the corner's sealant"); math.Abs(got.have-(5-2.75-1.125-0.25)*in) > 1e-9 {
		t.Errorf("the dam 5 in off: %g in", got.have/in)
	}
}

func TestHoleVerdicts(t *testing.T) {
	const hole = "up: 110 mm, in: 110 mm, edge: left"
	const riser = "up: 962 mm, in: 450 mm, edge: left"
	const glass = "thickness: 6 mm, glass: annealed, edges"
	for _, c := range []struct {
		name  string
		data  []byte
		pairs []string
		id    string
		want  Verdict
		says  string
	}{
		{"as drawn", examples.CorridorCabinet, nil, "hole[main drain]", Holds, "glaziers' distances"},
		{"too near the edge", examples.CorridorCabinet, []string{hole, "up: 110 mm, in: 30 mm, edge: left"}, "hole[main drain]", Fails, "glaziers drill: rim to edge, 8.0 mm, wants 12 mm"},
		// 44/2 + 12.4 is kept at 36 mm; the flange then reaches the side.
		{"the flange in the corner", examples.CorridorCabinet, []string{hole, "up: 110 mm, in: 40 mm, edge: left"}, "hole[main drain]", Fails, "no room: flange to the corner's sealant"},
		{"nearer than the hobby", examples.CorridorCabinet, []string{hole, "up: 110 mm, in: 60 mm, edge: left"}, "hole[main drain]", Tight, "hobby"},
		// 42.4 mm from centre to centre: 7.4 mm of glass between the rims.
		{"two holes together", examples.CorridorCabinet, []string{riser, "up: 140 mm, in: 140 mm, edge: left"}, "hole[main drain]", Fails, "rim to rim of the riser hole, 7.4 mm, wants 12 mm"},
		{"the same from the other", examples.CorridorCabinet, []string{riser, "up: 140 mm, in: 140 mm, edge: left"}, "way[riser hole]", Fails, "rim to rim of the main drain, 7.4 mm, wants 12 mm"},
		{"two holes as near as glaziers have them", examples.CorridorCabinet, []string{riser, "up: 110 mm, in: 160 mm, edge: left"}, "hole[main drain]", Tight, "two diameters apart"},
		// Neither is measured from a named edge: they may lie on one side.
		{"from which edge?", examples.CorridorCabinet, []string{riser, "up: 140 mm, in: 760 mm", hole, "up: 110 mm, in: 110 mm"}, "hole[main drain]", Fails, "rim to rim"},
		// 1 3/4 in are left beside the nut, of which the lap takes all.
		{"a rim that laps far", examples.CounterWall, []string{"at: back, of: plastic, flat: 3/4 in, wall: 3/32 in, over: 1 in", "at: back, of: plastic, flat: 3/4 in, wall: 3/32 in, over: 2 in"}, "hole[side drain]", Fails, "nut to the tank's rim at the back, 1/8 in too near"},
		{"no room for a hand over the stand", examples.CounterWall, []string{"up: 3 in, in: 3 in", "up: 2 in, in: 3 in"}, "hole[side drain]", Tight, ""},
		{"a hole for another fitting", examples.CorridorCabinet, []string{"size: 44 mm", "size: 40 mm"}, "hole[main drain]", Tight, "measure the thread"},
		{"laminated", examples.CorridorCabinet, []string{glass, "thickness: 6 mm, glass: laminated, edges"}, "hole[main drain]", Fails, "glass shop"},
		{"nobody has looked", examples.CorridorCabinet, []string{glass, "thickness: 6 mm, glass: not checked, edges"}, "hole[main drain]", Unknown, "polarised"},
		{"a toughened pane", examples.CounterWall, []string{"name: riser hole, pane: left side", "name: riser hole, pane: back", "in: 2 1/2 in, edge: rear", "in: 2 1/2 in, edge: left"}, "way[riser hole]", Fails, "bursts"},
	} {
		a := theAnswer(t, holesOf(t, c.data, c.pairs...), c.id)
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
	}
}

// What the file leaves open is said, and moved as a doubt.
func TestHoleAssumptions(t *testing.T) {
	a := theAnswer(t, holesOf(t, examples.CorridorCabinet, "\n  fillet: 6 mm", "", "up: 110 mm, in: 110 mm, edge: left", "up: 110 mm, in: 110 mm", "part: bulkhead 1 in", "part: bulkhead 32 mm"), "hole[main drain]")
	all := strings.Join(a.Cautions, "\n")
	for _, want := range []string{"sealant.fillet", "which edge", "parts file"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
	found := map[string]float64{}
	for _, m := range a.Matters {
		found[m.What] = m.Swing
	}
	// The flange of 44 mm times 1.4 to 1.9 moves its rim by 11 mm, the fillet by
	// 9 mm, the drill by 4 mm: of 62.8 mm to spare.
	for what, want := range map[string]float64{
		"width of the fitting's flange and nut": 11, "leg of the sealant in the corners": 9, "where the drill starts": 4,
	} {
		if got := found[what] * (104 - 0.8*44 - 6); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s moves %g mm, by hand %g", what, got, want)
		}
	}
	if a.Matters[0].What != "width of the fitting's flange and nut" {
		t.Errorf("first %q", a.Matters[0].What)
	}
	if b := theAnswer(t, holesOf(t, examples.CounterWall, ", over: 1 in", ""), "hole[side drain]"); !strings.Contains(strings.Join(b.Cautions, "\n"), "rims[1].over") {
		t.Errorf("no word of the rim's lap: %v", b.Cautions)
	}
}

// A fix written into the file gives the verdict that it promised.
func TestMoveFix(t *testing.T) {
	for _, c := range []struct {
		data     []byte
		old, put string
		id, at   string
	}{
		{examples.CorridorCabinet, "up: 110 mm, in: 110 mm", "up: 110 mm, in: 30 mm", "hole[main drain]", "up: 110 mm, in: %"},
		{examples.CorridorCabinet, "up: 110 mm, in: 110 mm", "up: 110 mm, in: 60 mm", "hole[main drain]", "up: 110 mm, in: %"},
		{examples.CounterWall, "up: 3 in, in: 3 in", "up: 3 in, in: 1 in", "hole[side drain]", "up: 3 in, in: %"},
		{examples.CounterWall, "up: 33 1/4 in, in: 2 1/2 in", "up: 33 1/4 in, in: 1 in", "way[riser hole]", "up: 33 1/4 in, in: %"},
	} {
		bad := theAnswer(t, holesOf(t, c.data, c.old, c.put), c.id)
		if len(bad.Fixes) != 1 {
			t.Errorf("%s: fixes %v of %v: %s", c.put, bad.Fixes, bad.Verdict, bad.Say)
			continue
		}
		f := bad.Fixes[0]
		_, text, _ := strings.Cut(f.Change, ".in: ")
		good := theAnswer(t, holesOf(t, c.data, c.old, strings.Replace(c.at, "%", text, 1)), c.id)
		if good.Verdict != f.Verdict || good.Verdict >= bad.Verdict {
			t.Errorf("%s: %s promises %v and gives %v: %s", c.put, f.Change, f.Verdict, good.Verdict, good.Say)
		}
	}
	// Beside another hole the nearest place that serves, and the one that holds.
	both := theAnswer(t, holesOf(t, examples.CorridorCabinet, "up: 110 mm, in: 110 mm", "up: 110 mm, in: 40 mm", "up: 962 mm, in: 450 mm", "up: 140 mm, in: 140 mm"), "hole[main drain]").Fixes
	if len(both) != 2 || both[0].Verdict != Tight || both[1].Verdict != Holds {
		t.Errorf("beside another hole: %v", both)
	}
	// Where only going up helps, that is said.
	low := theAnswer(t, holesOf(t, examples.CorridorCabinet, "up: 110 mm, in: 110 mm", "up: 30 mm, in: 110 mm"), "hole[main drain]")
	if len(low.Fixes) != 1 || !strings.Contains(low.Fixes[0].Do, "another height") {
		t.Errorf("too low: %v", low.Fixes)
	}
}

// A hole moved away from the nearest edge is never worse; mirrored it is the same.
func TestHolePlaces(t *testing.T) {
	e := changed(t, examples.CorridorCabinet)
	all := openingsOf(e, layout.Of(e))
	o := all.list[0]
	all.list = all.list[:1]
	r := rand.New(rand.NewPCG(11, 12))
	w, h := float64(o.pane.Width.Value), float64(o.pane.Height.Value)
	for range 300 {
		a := o.moved(r.Float64()*w/2-o.x, r.Float64()*h/2-o.y)
		b := a.moved(r.Float64()*(w/2-a.x), 0)
		c := a.moved(w-2*a.x, 0)
		sa, errA := all.spares(a, 1)
		sb, errB := all.spares(b, 1)
		sc, errC := all.spares(c, 1)
		if errA != nil || errB != nil || errC != nil {
			t.Fatal(errA, errB, errC)
		}
		ta, _ := tightest(sa)
		tb, _ := tightest(sb)
		if spareVerdict(sb) > spareVerdict(sa) || tb.left() < ta.left()-1e-12 {
			t.Fatalf("at %g, %g: %v with %g; further in at %g: %v with %g", a.x, a.y, spareVerdict(sa), ta.left(), b.x, spareVerdict(sb), tb.left())
		}
		if len(sa) != len(sc) {
			t.Fatalf("mirrored: %d distances, not %d", len(sc), len(sa))
		}
		for i := range sa {
			if math.Abs(sa[i].left()-sc[i].left()) > 1e-12 {
				t.Fatalf("mirrored: %+v and %+v", sa[i], sc[i])
			}
		}
	}
}

// The other edge and other units change no verdict and no distance.
func TestHoleWords(t *testing.T) {
	plain := theAnswer(t, holesOf(t, examples.CorridorCabinet), "hole[main drain]")
	for name, pairs := range map[string][]string{
		"mirrored":      {"in: 110 mm, edge: left", "in: 110 mm, edge: right"},
		"in centimetre": {"size: 44 mm, up: 110 mm, in: 110 mm", "size: 4.4 cm, up: 0.11 m, in: 11 cm"},
		"units: us":     {"units: metric", "units: us"},
	} {
		a := theAnswer(t, holesOf(t, examples.CorridorCabinet, pairs...), "hole[main drain]")
		if a.Verdict != plain.Verdict || math.Abs(a.Score-plain.Score) > 1e-12 || len(a.Figures) != len(plain.Figures) {
			t.Errorf("%s: %v with %g, not %v with %g", name, a.Verdict, a.Score, plain.Verdict, plain.Score)
		}
	}
}

func TestMayDrill(t *testing.T) {
	for _, c := range []struct {
		name    string
		data    []byte
		pairs   []string
		pane    string
		refused string // "" for none
		caution string
	}{
		{"as drawn", examples.CorridorCabinet, nil, "back", "", ""},
		{"no such pane", examples.CorridorCabinet, nil, "no pane", "No pane", ""},
		{"a pair", examples.CorridorCabinet, nil, "side", "2 panes", ""},
		{"the old bottom, toughened", examples.CounterWall, nil, "back", "toughened", ""},
		{"the old bottom, nobody has looked", examples.CounterWall, []string{"glass: toughened, was: bottom", "glass: not checked, was: bottom"}, "back", "most often toughened", ""},
		{"the old bottom, said to be annealed", examples.CounterWall, []string{"glass: toughened, was: bottom", "glass: annealed, was: bottom"}, "back", "", "crossed polarisers"},
		{"the old bottom by its place", examples.CounterWall, []string{"glass: toughened, was: bottom", "glass: annealed"}, "back", "", "by where it stands"},
		{"the old bottom by its place, whatever the file calls it", examples.CounterWall, []string{"glass: toughened, was: bottom", "glass: annealed, was: end"}, "back", "", "by where it stands"},
		{"a rule broken", examples.CounterWall, []string{"up: 33 1/4 in, in: 2 1/2 in", "up: 33 1/4 in, in: 3/4 in"}, "left side", "Rim to edge", ""},
		{"a rule broken in writing", examples.CounterWall, []string{"up: 33 1/4 in, in: 2 1/2 in", "up: 33 1/4 in, in: 3/4 in, override: \"2026-05-01: the shop bears the risk\""}, "left side", "", ""},
		{"laminated", examples.CorridorCabinet, []string{"thickness: 6 mm, glass: annealed, edges", "thickness: 6 mm, glass: laminated, edges"}, "back", "glass shop", ""},
		{"plastic", examples.CorridorCabinet, []string{"thickness: 6 mm, glass: annealed, edges", "thickness: 6 mm, glass: acrylic, edges"}, "back", "", "plastics"},
	} {
		p := MayDrill(changed(t, c.data, c.pairs...), c.pane)
		var why []string
		for _, r := range p.Refused {
			why = append(why, r.Why)
		}
		if got := strings.Join(why, " "); p.OK() != (c.refused == "") || !strings.Contains(got, c.refused) {
			t.Errorf("%s: %q", c.name, got)
		}
		if got := strings.Join(p.Cautions, " "); !strings.Contains(got, c.caution) || c.caution == "" && got != "" {
			t.Errorf("%s: cautions %q", c.name, got)
		}
	}
}

func BenchmarkHoles(b *testing.B) {
	s := &Survey{E: trial.Resolved(b, examples.CounterWall, enclosure.Resolve)}
	for b.Loop() {
		if len(s.Holes()) != 3 {
			b.Fatal("answers are missing")
		}
	}
}
