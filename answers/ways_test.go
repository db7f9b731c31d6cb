package answers

import (
	"math"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

const (
	metricWay = "size: 26 mm, up: 962 mm, in: 450 mm, edge: left, closed: grommet, passes: [ { what: riser hose, width: 21 mm } ]"
	usWay     = "closed: grommet, passes: [ { what: riser hose, part: vinyl hose 1/2 in } ]"
)

func TestWayVerdicts(t *testing.T) {
	const frogs = "kind: tree frogs"
	m := func(text string) []string { return []string{metricWay, text} }
	for _, c := range []struct {
		name  string
		data  []byte
		pairs []string
		want  Verdict
		says  string
	}{
		{"as drawn", examples.CorridorCabinet, nil, Holds, "2.5 mm all round"},
		{"a tight hose", examples.CorridorCabinet, []string{"what: riser hose, width: 21 mm", "what: riser hose, width: 25 mm"}, Tight, "only 0.5 mm"},
		{"too thick a hose", examples.CorridorCabinet, []string{"what: riser hose, width: 21 mm", "what: riser hose, width: 27 mm"}, Fails, "1.0 mm too wide"},
		// 30 by 20 mm has a diagonal of 36.1 mm; then 32 mm are left beside the cord.
		{"a plug before a hose", examples.CorridorCabinet, m("size: 40 mm, up: 962 mm, in: 450 mm, edge: left, closed: foam plug, passes: [ { what: plug, width: 30 mm, height: 20 mm, stays: 8 mm }, { what: hose, width: 21 mm } ]"), Holds, "the plug with the least room: 2.0 mm"},
		{"a plug after a hose", examples.CorridorCabinet, m("size: 40 mm, up: 962 mm, in: 450 mm, edge: left, closed: foam plug, passes: [ { what: hose, width: 21 mm }, { what: plug, width: 30 mm, height: 20 mm, stays: 8 mm } ]"), Tight, "another order than the file's: first the plug, then the hose"},
		{"no order helps", examples.CorridorCabinet, m("size: 40 mm, up: 962 mm, in: 450 mm, edge: left, closed: foam plug, passes: [ { what: hose, width: 21 mm }, { what: pipe, width: 20 mm } ]"), Fails, "1.0 mm too wide"},
		{"what leaves takes no room", examples.CorridorCabinet, m("size: 40 mm, up: 962 mm, in: 450 mm, edge: left, closed: foam plug, passes: [ { what: float, width: 21 mm, leaves: yes }, { what: pipe, width: 20 mm } ]"), Holds, "Everything"},
		{"a part without an outside", examples.CorridorCabinet, []string{"what: riser hose, width: 21 mm", "what: riser hose, part: vinyl hose 8 mm"}, Unknown, "how thick"},
		{"nothing passes", examples.CorridorCabinet, m("size: 26 mm, up: 962 mm, in: 450 mm, edge: left, closed: cover plate"), Holds, "Nothing is said"},
		{"left open with plants alone", examples.CorridorCabinet, []string{"closed: grommet", "closed: left open"}, Holds, "no harm"},
		{"left open with frogs", examples.CounterWall, []string{"closed: grommet", "closed: left open"}, Fails, "lets the tree frogs out"},
		{"not said, with frogs", examples.CounterWall, []string{"closed: grommet, ", ""}, Unknown, "ways[riser hole].closed"},
		{"mesh with frogs", examples.CounterWall, []string{"closed: grommet", "closed: mesh"}, Holds, "Mesh"},
		{"left open with what nobody measured", examples.CounterWall, []string{frogs, "kind: crickets", "closed: grommet", "closed: left open"}, Unknown, "measure the smallest of the crickets"},
		{"too narrow for frogs", examples.CounterWall, []string{usWay, "closed: left open, passes: [ { what: hose, width: 15/16 in } ]"}, Tight, "too narrow for the tree frogs"},
		{"under the brim", examples.CorridorCabinet, []string{"up: 962 mm, in: 450 mm", "up: 170 mm, in: 450 mm"}, Fails, "Water runs out of it: it reaches 43 mm"},
		{"just under the brim", examples.CorridorCabinet, []string{"up: 962 mm, in: 450 mm", "up: 212 mm, in: 450 mm"}, Fails, "Water runs out"},
		{"just over the brim", examples.CorridorCabinet, []string{"up: 962 mm, in: 450 mm", "up: 214 mm, in: 450 mm"}, Holds, ""},
		{"under the brim, sealed", examples.CorridorCabinet, []string{"up: 962 mm, in: 450 mm", "up: 170 mm, in: 450 mm", "closed: grommet", "closed: sealant"}, Tight, "bulkhead"},
		{"a slot with sharp corners", examples.CorridorCabinet, m("width: 60 mm, height: 30 mm, up: 900 mm, in: 450 mm, edge: left, closed: mesh, passes: [ { what: hose, width: 21 mm } ]"), Fails, "radius of its corners"},
		{"a slot with small corners", examples.CorridorCabinet, m("width: 60 mm, height: 30 mm, corner: 7 mm, up: 900 mm, in: 450 mm, edge: left, closed: mesh, passes: [ { what: hose, width: 21 mm } ]"), Tight, "Some glaziers"},
		{"a slot with round ends", examples.CorridorCabinet, m("width: 60 mm, height: 30 mm, corner: 15 mm, up: 900 mm, in: 450 mm, edge: left, closed: mesh, passes: [ { what: hose, width: 21 mm } ]"), Holds, "4.5 mm all round"},
		{"a notch at the top", examples.CorridorCabinet, m("width: 60 mm, height: 30 mm, corner: 13 mm, up: 1025 mm, in: 450 mm, edge: left, closed: mesh, passes: [ { what: hose, width: 21 mm } ]"), Holds, ""},
	} {
		list := holesOf(t, c.data, c.pairs...)
		a := theAnswer(t, list, "way[riser hole]")
		if a.Verdict != c.want || !strings.Contains(a.Say, c.says) {
			t.Errorf("%s: %v: %s", c.name, a.Verdict, a.Say)
		}
		if c.name == "left open with frogs" && a.Margin != "" {
			t.Errorf("%s, with a margin of %s", c.name, a.Margin)
		}
	}
}

// What is left of an opening, by hand: pi/4 (26^2 - 21^2) mm2, and 5 mm beside it.
func TestWayFigures(t *testing.T) {
	a := theAnswer(t, holesOf(t, examples.CorridorCabinet), "way[riser hole]")
	for name, want := range map[string]float64{
		"left open round what stays in it":                 math.Pi / 4 * (26*26 - 21*21),
		"widest gap in that, with what stays pushed aside": 5,
		"riser hose, 21 mm":                                2.5,
		"its lowest point above the brim of the pool":      962 - 13 - 200,
	} {
		if f := theFigure(t, a, name); math.Abs(f.Likely-want) > 1e-5*want {
			t.Errorf("%s: %g, by hand %g", name, f.Likely, want)
		}
	}
	// The hose 0.5 mm thicker or thinner: 0.25 mm all round, of 2.5 mm, either way.
	for _, m := range a.Matters {
		if m.What == "true size of what passes" && math.Abs(m.Swing-0.2) > 1e-6 {
			t.Errorf("%s: %g", m.What, m.Swing)
		}
	}
}

// A part's outside comes from the catalogue: vinyl hose of 1/2 in is 5/8 in outside.
func TestWayParts(t *testing.T) {
	e := changed(t, examples.CounterWall)
	if w := e.Ways[0]; len(w.Passes) != 1 || math.Abs(w.Passes[0].Width-0.625*in) > 1e-9 || math.Abs(w.Passes[0].StaysWidth-0.625*in) > 1e-9 {
		t.Errorf("%+v", e.Ways[0])
	}
	d, cat := trial.Read(t, trial.Swap(t, examples.CounterWall, "what: riser hose, part: vinyl hose 1/2 in", "what: riser hose, part: vynil hose 1/2 in"))
	if _, list := enclosure.Resolve(d, cat, nil); !list.HasErrors() || !strings.Contains(list[0].Field, "ways[riser hole].passes[1].part") {
		t.Errorf("a part that is not there: %v", list)
	}
	d, cat = trial.Read(t, trial.Swap(t, examples.CounterWall, "what: riser hose, part: vinyl hose 1/2 in", "what: riser hose, part: ball valve 1/2 in"))
	if _, list := enclosure.Resolve(d, cat, nil); !list.HasErrors() {
		t.Error("a valve passes for a hose")
	}
}

// A wider opening lets no less through; what stays makes no room.
func TestWayMonotone(t *testing.T) {
	q := []*enclosure.Passing{{Width: 0.03, Height: 0.02, StaysWidth: 0.008}, {Width: 0.021, StaysWidth: 0.021}, {Width: 0.012, StaysWidth: 0.012}}
	last := math.Inf(-1)
	for d := 0.03; d < 0.08; d += 0.001 {
		w := enclosure.Way{Round: true, Width: d, Height: d}
		for _, x := range q {
			w.Passes = append(w.Passes, *x)
		}
		p := (&Survey{}).passages(&w)
		v := p.least()
		if v < last-1e-6 {
			t.Fatalf("at %g m %g is left, less than %g", d, v, last)
		}
		last = v
	}
}
