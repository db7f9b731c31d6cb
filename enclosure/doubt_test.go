package enclosure

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/internal/trial"
)

func ids(e *Enclosure) []string {
	var out []string
	for i := range e.Doubts {
		out = append(out, e.Doubts[i].ID)
	}
	return out
}

func TestDoubts(t *testing.T) {
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		e := sound(t, data)
		seen := map[string]bool{}
		for i := range e.Doubts {
			d := &e.Doubts[i]
			if seen[d.ID] {
				t.Errorf("%s twice", d.ID)
			}
			seen[d.ID] = true
			if !(d.Low <= d.Likely && d.Likely <= d.High && d.Low < d.High) {
				t.Errorf("%s: %g, %g, %g", d.ID, d.Low, d.Likely, d.High)
			}
			if d.What == "" || d.Why == "" || d.Settle == "" {
				t.Errorf("%s: what %q, why %q, settle %q", d.ID, d.What, d.Why, d.Settle)
			}
		}
		c := e.Likely()
		if i, ok := e.Fittings.Doubt(); !ok || c.Of(e.Fittings) != e.Doubts[i].Likely {
			t.Error("the likely case is not likely")
		}
	}
}

// What the builder measured is no doubt, and a band of his own is his own.
func TestOwnFigures(t *testing.T) {
	const exact = "\nassume:\n  hole-discharge: 65 %\n  fitting-loss: 0.9 to 1.1\n"
	e := sound(t, append(slices.Clone(examples.CorridorCabinet), exact...))
	if g := e.Manifolds[0].Groups[0]; g.Discharge != Known(0.65) {
		t.Errorf("discharge %+v", g.Discharge)
	}
	i, ok := e.Fittings.Doubt()
	if !ok || e.Doubts[i].Low != 0.9 || e.Doubts[i].High != 1.1 || e.Doubts[i].Pos.Line == 0 {
		t.Errorf("fitting loss %+v", e.Doubts[i])
	}
	if slices.Contains(ids(e), "bore[bulkhead 1 in]") {
		t.Error("the bulkhead's bore was measured and is still in doubt")
	}
}

// A shelf pump puts nothing in doubt.
func TestShelf(t *testing.T) {
	e := sound(t, examples.CorridorCabinet)
	if len(e.Shelf) != 2 {
		t.Fatal(len(e.Shelf))
	}
	for _, id := range ids(e) {
		if strings.Contains(id, "smaller") || strings.Contains(id, "larger") {
			t.Error(id)
		}
	}
}

// A change to a clone leaves the original alone, and a new part brings the
// catalogue's doubt with it.
func TestExchange(t *testing.T) {
	e := sound(t, examples.CounterWall)
	before, holes := len(e.Doubts), e.Manifolds[0].Groups[0]
	cat := trial.Parts(t)
	hose, ok := cat.Find("vinyl hose 5/8 in")
	if !ok {
		t.Fatal("no such hose")
	}
	c := e.Clone()
	c.Runs[0].Pieces[0].Bore = c.PartBore(hose)
	i, ok := c.Runs[0].Pieces[0].Bore.Doubt()
	if !ok || c.Doubts[i].Low != float64(hose.Bore.Low) || c.Doubts[i].High != float64(hose.Bore.High) {
		t.Errorf("bore %+v", c.Runs[0].Pieces[0].Bore)
	}
	if again := c.PartBore(hose); again != c.Runs[0].Pieces[0].Bore {
		t.Error("one reel of hose in two doubts")
	}
	// 7/64 in of wall behind a 1/8 in hole is 0.875 of it: on the way from 0.5
	// (0.61) to 2 (0.80) that is a quarter. By hand 0.61 + 0.25 x 0.19.
	c.Redrill(0, 0.125*0.0254)
	g := c.Manifolds[0].Groups[0]
	if math.Abs(g.Discharge.Value-0.6575) > 1e-9 || math.Abs(g.Hole.Value-0.125*0.0254) > 1e-15 {
		t.Errorf("hole %g m, discharge %g", g.Hole.Value, g.Discharge.Value)
	}
	if want := holes.Cv * (3.0 / 32) / (1.0 / 8); math.Abs(g.Cv-want) > 1e-12 {
		t.Errorf("holes vary by %g, by hand %g", g.Cv, want)
	}
	pipe, ok := cat.Find("rigid pipe 3/4 in sch 40")
	if !ok {
		t.Fatal("no such pipe")
	}
	c.Repipe(0, pipe)
	if c.Manifolds[0].Bore.Value != float64(pipe.Bore.Likely) || c.Manifolds[0].Part != pipe.Name {
		t.Errorf("manifold %+v", c.Manifolds[0].Bore)
	}
	if len(e.Doubts) != before || e.Manifolds[0].Groups[0] != holes || e.Manifolds[0].Part == pipe.Name {
		t.Error("the original changed with its clone")
	}
}
