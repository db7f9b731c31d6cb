package enclosure

import (
	"math"
	"strings"
	"testing"

	"rillwright/examples"
)

// upsets is the cabinet with one of everything that matters when something goes
// wrong, and some of it measured after it was built.
var upsets = append(plain(examples.CorridorCabinet), `
top-up: { flow: 2 L/min, level: 140 mm, into: pump side, from: reservoir, holds: 10 L }
bridges:
  - { name: power cord, kind: cord, from: pump side, to: floor, foot: 100 mm, crest: -300 mm, section: 1 cm2, length: 2 m }
  - { name: filling hose, kind: hose, from: pool, to: drain side, foot: 20 mm, crest: 250 mm, end: 200 mm, bore: 12 mm, length: 2 m }
scenarios:
  - name: everything
    lasts: 2 h
    steps:
      - { at: 0 s, what: drain blocks, which: main drain, share: 80 %, over: 10 min }
      - { at: 1 min, what: power off }
      - { at: 2 min, what: pump stops, which: main pump }
      - { at: 3 min, what: hose off, which: riser, height: -400 mm }
      - { at: 4 min, what: hose off, which: riser }
      - { at: 5 min, what: valve opens, which: riser, share: 50 % }
      - { at: 6 min, what: strainer clogs, which: main pump }
      - { at: 7 min, what: strainer clogs, which: main drain }
      - { at: 8 min, what: top-up sticks, share: 0 % }
      - { at: 9 min, what: leak starts, which: pool, size: 3 mm, height: 10 mm }
      - { at: 10 min, what: leak starts, which: sump, size: 3 mm, height: 20 mm }
      - { at: 11 min, what: water added, which: pump side, volume: 10 L, over: 5 min }
      - { at: 12 min, what: water taken, which: pool, flow: 6 L/min }
as-built:
  - { of: "pool.zones[gravel].to", is: 55 mm }
  - { of: "bridges[filling hose].crest", is: 260 mm }
  - { of: top-up.level, is: 145 mm }
  - { of: "pumps[main pump].float.on", is: 95 mm }
  - { of: "scenarios[everything].steps[11].height", is: 25 mm }
`...)

// plain returns a demo without the bridges and scenarios of its own.
func plain(demo []byte) []byte {
	text := string(demo)
	from := strings.Index(text, "\nbridges:")
	to := from + strings.Index(text[from:], "\nstock:")
	if k := strings.Index(text[from:], "\nlights:"); k >= 0 {
		to = from + k
	}
	return []byte(text[:from] + text[to:])
}

func withUpsets(t *testing.T, pairs ...string) *Enclosure {
	t.Helper()
	return sound(t, upsets, append([]string{
		"  look: trickle\n", "  look: trickle\n  soaks: [{ name: moss, holds: 1.5 L, catches: 20 %, drains-in: 2 h }]\n",
		"  depth: 408 mm\n", "  depth: 408 mm\n  zones: [{ name: stones, from: 60 mm, to: 100 mm, displaced: 30 % }, { name: gravel, from: 0 mm, to: 60 mm, displaced: 40 to 50 % }]\n" +
			"  hidden: [{ name: behind the grid, width: 820 mm, depth: 30 mm, floor: 5 mm, gap-width: 200 mm, gap-height: 15 mm, displaced: 10 % }]\n",
		"    inlet: 50 mm\n", "    inlet: 50 mm\n    float: { off: 60 mm, on: 90 mm }\n    timer: { on: 15 min, off: 45 min }\n",
		"    to: drip bar\n", "    to: drip bar\n    crest: 1 m\n",
	}, pairs...)...)
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(1, math.Abs(b)) }

// Everything in SI units above the room floor, worked out by hand from the file:
// the enclosure's bottom and the pool's floor are at 0.808 m, the sump's bottom
// at 0.050 m.
func TestUpsets(t *testing.T) {
	e := withUpsets(t)
	z, h, s := e.Pool.Zones, e.Pool.Hidden[0], e.Wall.Soaks[0]
	p, cord, hose := &e.Pumps[0], &e.Bridges[0], &e.Bridges[1]
	for what, pair := range map[string][2]float64{
		"gravel from":   {z[0].From, 0.808},
		"gravel to":     {z[0].To, 0.808 + 0.055}, // as built
		"gravel takes":  {z[0].Displaced.Value, 0.45},
		"stones from":   {z[1].From, 0.808 + 0.060},
		"hidden floor":  {h.Floor, 0.808 + 0.005},
		"hidden area":   {h.Area, 0.82 * 0.03 * 0.9},
		"hidden gap":    {h.Gap, 0.2 * 0.015},
		"moss holds":    {s.Holds, 1.5e-3},
		"moss catches":  {s.Catches, 0.2},
		"moss drains":   {s.DrainsIn, 7200},
		"float off":     {p.Float.Off, 0.050 + 0.060},
		"float on":      {p.Float.On, 0.050 + 0.095}, // as built
		"timer on":      {p.Timer.On, 900},
		"timer off":     {p.Timer.Off, 2700},
		"crest":         {e.Runs[0].Crest, 0.808 + 1},
		"top-up flow":   {e.TopUp.Flow, 2e-3 / 60},
		"top-up level":  {e.TopUp.Level, 0.050 + 0.145}, // as built
		"top-up holds":  {e.TopUp.Holds, 0.010},
		"cord foot":     {cord.Foot, 0.050 + 0.100},
		"cord crest":    {cord.Crest, 0.808 - 0.300},
		"cord end":      {cord.End, 0},
		"cord section":  {cord.Section, 1e-4},
		"hose foot":     {hose.Foot, 0.808 + 0.020},
		"hose crest":    {hose.Crest, 0.808 + 0.260}, // as built
		"hose end":      {hose.End, 0.050 + 0.200},
		"hose bore":     {hose.Bore, 0.012},
		"hose length":   {hose.Length, 2},
		"evaporation":   {e.Evaporation.Value, 0.004 / 86400},
		"no break hole": {e.Runs[0].BreakHole.Size, 0},
	} {
		if !near(pair[0], pair[1]) {
			t.Errorf("%s: %g, by hand %g", what, pair[0], pair[1])
		}
	}
	if !p.Float.Given || !p.Timer.Given || !e.TopUp.Given || e.TopUp.Chamber != 1 {
		t.Errorf("%+v %+v %+v", p.Float, p.Timer, e.TopUp)
	}
	if i, ok := z[0].Displaced.Doubt(); !ok || e.Doubts[i].Low != 0.4 || e.Doubts[i].High != 0.5 || z[1].Displaced != Known(0.3) {
		t.Errorf("gravel takes %+v, stones %+v", z[0].Displaced, z[1].Displaced)
	}
	if cord.From != (Place{AtSump, 1, "pump side"}) || cord.To != (Place{AtFloor, 0, "floor"}) || hose.From != (Place{AtPool, 0, "pool"}) || hose.To != (Place{AtSump, 0, "drain side"}) {
		t.Errorf("%+v, %+v", cord, hose)
	}
}

// Steps find what they befall, and take what the file leaves out.
func TestSteps(t *testing.T) {
	e := withUpsets(t)
	none := math.NaN()
	pump, other := Place{AtPump, 0, "main pump"}, func(name string) Place { return Place{AtPool, -1, name} }
	want := []Step{
		{What: "drain blocks", Place: other("main drain"), Index: 0, Share: 0.8, Over: 600, Height: none},
		{What: "power off", Place: other(""), Index: -1, Share: 1, Height: none},
		{What: "pump stops", Place: pump, Index: 0, Share: 1, Height: none},
		{What: "hose off", Place: other("riser"), Index: 0, Share: 1, Height: 0.408},
		{What: "hose off", Place: other("riser"), Index: 0, Share: 1, Height: none},
		{What: "valve opens", Place: other("riser"), Index: 0, Share: 0.5, Height: none},
		{What: "strainer clogs", Place: pump, Index: 0, Share: 1, Height: none},
		{What: "strainer clogs", Place: other("main drain"), Index: 0, Share: 1, Height: none},
		{What: "top-up sticks", Place: other(""), Index: -1, Share: 0, Height: none},
		{What: "leak starts", Place: Place{AtPool, 0, "pool"}, Index: -1, Share: 1, Size: 0.003, Height: 0.818},
		{What: "leak starts", Place: Place{AtSump, 0, "sump"}, Index: -1, Share: 1, Size: 0.003, Height: 0.075}, // as built
		{What: "water added", Place: Place{AtSump, 1, "pump side"}, Index: -1, Share: 1, Over: 300, Volume: 0.010, Height: none},
		{What: "water taken", Place: Place{AtPool, 0, "pool"}, Index: -1, Share: 1, Flow: 0.006 / 60, Height: none},
	}
	s := e.Scenarios[0]
	if s.Name != "everything" || s.Lasts != 7200 || len(s.Steps) != len(want) {
		t.Fatalf("%+v", s)
	}
	for i, w := range want {
		g := s.Steps[i]
		if g.What != w.What || g.Place != w.Place || g.Index != w.Index || g.At != float64(60*i) || g.Which != w.Place.Name ||
			!near(g.Share, w.Share) || !near(g.Over, w.Over) || !near(g.Flow, w.Flow) || !near(g.Size, w.Size) || !near(g.Volume, w.Volume) ||
			math.IsNaN(g.Height) != math.IsNaN(w.Height) || !math.IsNaN(w.Height) && !near(g.Height, w.Height) || g.Pos.Line == 0 {
			t.Errorf("step %d: %+v, want %+v", i+1, g, w)
		}
	}
}

// A file that says nothing of all this has none of it, and one doubt more.
func TestNoUpsets(t *testing.T) {
	e := sound(t, plain(examples.CounterWall))
	if e.TopUp.Given || e.Pumps[0].Float.Given || e.Pumps[0].Timer.Given || len(e.Bridges)+len(e.Scenarios)+len(e.Pool.Zones)+len(e.Pool.Hidden)+len(e.Wall.Soaks) > 0 {
		t.Errorf("%+v %+v", e.TopUp, e.Bridges)
	}
	if !math.IsNaN(e.Runs[0].Crest) || e.Runs[0].BreakHole.Size != 0 {
		t.Errorf("%+v", e.Runs[0])
	}
	i, ok := e.Evaporation.Doubt()
	if !ok || !near(e.Doubts[i].Low*86400, 0.002) || !near(e.Doubts[i].High*86400, 0.006) {
		t.Errorf("%+v", e.Evaporation)
	}
	if got := e.Doubts[i].Show(e.Doubts[i].Likely, e.Units); got != "0.16 in/day" {
		t.Errorf("4 mm/day shown as %q", got)
	}
}

// A hole that ends a siphon stands above the same floor; what only the parts
// can tell is refused: a hole as wide as the hose, and a valve that is not there.
func TestUpsetsRefused(t *testing.T) {
	const riser = "    to: drip bar\n"
	const pieces = "    pieces:\n      - { part: vinyl hose 16 mm, length: 0.4 m }\n      - { part: ball valve 16 mm }\n"
	back := "    to: drip bar\n" + pieces + "  - name: return\n    from: main pump\n    to: pool\n    end-height: 120 mm\n    break-hole: { height: 160 mm, size: 4 mm }\n    pieces: [{ part: vinyl hose 16 mm, length: 2 m }]\n  - name: riser 2\n    from: main pump\n    to: drip bar\n    at: left\n"
	e, list, _ := resolve(t, examples.CorridorCabinet, riser, back)
	if list.HasErrors() || !near(e.Runs[1].BreakHole.Height, 0.808+0.160) || e.Runs[1].BreakHole.Size != 0.004 {
		t.Errorf("%+v: %v", e.Runs[1].BreakHole, list)
	}
	_, list, _ = resolve(t, examples.CorridorCabinet, riser, strings.Replace(back, "size: 4 mm", "size: 16 mm", 1))
	if len(list) != 1 || list[0].Field != "runs[return].break-hole.size" || !strings.Contains(list[0].What, "whose bore is") {
		t.Errorf("%v", list)
	}
	_, list, _ = resolve(t, append(plain(examples.CorridorCabinet), "\nscenarios: [{ name: s, lasts: 1 h, steps: [{ at: 0 s, what: valve opens, which: return }] }]\n"...), riser, back)
	if len(list) != 1 || list[0].Field != "scenarios[s].steps[1].which" || !strings.Contains(list[0].What, "has no valve") {
		t.Errorf("%v", list)
	}
}

// A change to a clone leaves the original alone.
func TestCloneUpsets(t *testing.T) {
	e := withUpsets(t)
	c := e.Clone()
	c.Pool.Zones[0].To, c.Pool.Hidden[0].Gap, c.Wall.Soaks[0].Holds = 9, 9, 9
	c.Bridges[0].Crest, c.Scenarios[0].Lasts, c.Scenarios[0].Steps[0].Share = 9, 9, 9
	for _, v := range []float64{e.Pool.Zones[0].To, e.Pool.Hidden[0].Gap, e.Wall.Soaks[0].Holds, e.Bridges[0].Crest, e.Scenarios[0].Lasts, e.Scenarios[0].Steps[0].Share} {
		if v == 9 {
			t.Error("the original changed with its clone")
		}
	}
}
