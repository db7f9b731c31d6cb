package enclosure

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/catalogue"
	"rillwright/examples"
	"rillwright/finding"
	"rillwright/internal/trial"
)

// resolve resolves a demo with pieces of its text replaced. The design must read
// without errors: what is checked here is what only the parts can tell.
func resolve(tb testing.TB, data []byte, pairs ...string) (*Enclosure, finding.List, string) {
	tb.Helper()
	text := trial.Swap(tb, data, pairs...)
	d, cat := trial.Read(tb, text)
	e, list := Resolve(d, cat, nil)
	return e, list, string(text)
}

func sound(tb testing.TB, data []byte, pairs ...string) *Enclosure {
	tb.Helper()
	return trial.Resolved(tb, trial.Swap(tb, data, pairs...), Resolve)
}

// Parts that are not there or do not serve are errors at their own place, with
// what to do.
func TestPartsRefused(t *testing.T) {
	for _, c := range []struct {
		name, old, text string // what stands in the file in place of what
		at, what, do    string
	}{
		{"misspelt", "{ part: ball valve 16 mm }", "{ part: bal valve 16 mm }", "bal valve 16 mm", "no part is called", "did you mean ball valve barbed 16 mm"},
		{"unknown", "part: rigid pipe 20 mm PN20", "part: zzqx", "zzqx", "no part is called", "parts file"},
		{"emitter in a run", "{ part: ball valve 16 mm }", "{ part: button emitter 2 L/h }", "button emitter", "an emitter cannot stand in a run", "sections of their own"},
		{"pump in a run", "{ part: ball valve 16 mm }", "{ part: pump 1000 L/h 2.0 m }", "pump 1000 L/h 2.0 m", "cannot stand in a run", "sections of their own"},
		{"hose as strainer", "{ part: sponge strainer }", "{ part: vinyl hose 16 mm }", "vinyl hose 16 mm }", "is a hose", "name a strainer here"},
		{"elbow as bulkhead", "part: bulkhead 1 in", "part: elbow 90 solvent 1 in", "elbow 90 solvent 1 in\n    bore", "is an elbow", "name a bulkhead here"},
		{"open elbow", "{ part: elbow 90 barbed 16 mm }", "{ part: elbow 90 barbed 16 mm, open: 50 % }", "50 %", "cannot be part open", "name a valve"},
		{"hose without length", "{ part: vinyl hose 16 mm, length: 50 mm }", "{ part: vinyl hose 16 mm }", "vinyl hose 16 mm }\n\nmanifolds", "has no length", "add its length"},
		{"compensating emitter", "hole: 2.0 mm, hole-error: 0.1 mm", "emitter: compensating emitter 2 L/h", "compensating emitter", "does not have", "not compensating"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, list, text := resolve(t, examples.CorridorCabinet, c.old, c.text)
			if len(list) != 1 {
				t.Fatalf("%d findings: %v", len(list), list)
			}
			f := list[0]
			if f.Severity != finding.Error || !strings.Contains(f.What, c.what) || !strings.Contains(f.Do, c.do) {
				t.Errorf("%s; %s", f.What, f.Do)
			}
			before, _, _ := strings.Cut(text, c.at)
			line := 1 + strings.Count(before, "\n")
			if f.Place.Line != line || f.Place.Column == 0 || f.Field == "" {
				t.Errorf("at line %d column %d, field %q; it stands on line %d", f.Place.Line, f.Place.Column, f.Field, line)
			}
		})
	}
}

// One run too many for the feed points of a manifold.
func TestFeeds(t *testing.T) {
	const more = "manifolds:\n"
	const extra = "  - name: other riser\n    from: main pump\n    to: drip bar\n    pieces:\n      - { part: vinyl hose 16 mm, length: 2 m }\n\n" + more
	_, list, _ := resolve(t, examples.CorridorCabinet, more, extra)
	if len(list) != 1 || !strings.Contains(list[0].What, "1 feed point(s)") || list[0].Field != "runs[other riser]" {
		t.Errorf("%v", list)
	}
	e := sound(t, examples.CorridorCabinet, more, extra, "feed: centre", "feed: both ends")
	if a, b := e.Runs[0].At, e.Runs[1].At; a != 0 || b != 0.82 {
		t.Errorf("fed at %g and %g m", a, b)
	}
	e = sound(t, examples.CorridorCabinet, "    to: drip bar\n", "    to: drip bar\n    at: right\n")
	if e.Runs[0].At != 0.82 {
		t.Errorf("fed at %g m", e.Runs[0].At)
	}
	if e := sound(t, examples.CorridorCabinet); e.Runs[0].At != 0.41 {
		t.Errorf("fed at %g m", e.Runs[0].At)
	}
}

// Heights stand on one datum, the room floor; worked out by hand from the file.
func TestHeights(t *testing.T) {
	e := sound(t, examples.CorridorCabinet)
	for what, pair := range map[string][2]float64{
		"pool floor": {e.Pool.Floor, 0.808},
		"dam top":    {e.Pool.DamTop, 0.808 + 0.200},
		"sump level": {e.Sump.Level, 0.050 + 0.130},
		"inlet":      {e.Pumps[0].Inlet, 0.050 + 0.050},
		"outlets":    {e.Manifolds[0].Height, 0.808 + 0.962},
		"lip":        {e.Drains[0].Lip, 0.808 + 0.150},
		"bulkhead":   {e.Drains[0].BulkheadAt, 0.808 + 0.110},
		"drain end":  {e.Drains[0].End, 0.050 + 0.160},
		"first hole": {e.Manifolds[0].Outlets[0].At, (0.82 - 26*0.03) / 2},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-12 {
			t.Errorf("%s at %.4f m, by hand %.4f", what, pair[0], pair[1])
		}
	}
}

// What was measured overrides the plan.
func TestAsBuilt(t *testing.T) {
	const built = "\nas-built:\n  - { of: \"drains[main drain].lip\", is: 152 mm, on: 2026-03-20 }\n  - { of: \"manifolds[drip bar].height\", is: 958 mm }\n"
	e := sound(t, append(slices.Clone(examples.CorridorCabinet), built...))
	if lip := e.Drains[0].Lip; math.Abs(lip-(0.808+0.152)) > 1e-12 {
		t.Errorf("lip at %g m", lip)
	}
	if h := e.Manifolds[0].Height; math.Abs(h-(0.808+0.958)) > 1e-12 {
		t.Errorf("outlets at %g m", h)
	}
}

// Ends that do not meet are told with the reason and with what would join them:
// a hose on a barb of another size, and a hose on a pipe.
func TestJoints(t *testing.T) {
	for _, j := range sound(t, examples.CorridorCabinet).Joints {
		if !j.OK || !j.Known {
			t.Errorf("%s: %s", j.Where, j.Why)
		}
	}
	for _, c := range [][]string{
		{"{ part: ball valve 16 mm }", "{ part: ball valve 19 mm }"},
		{"{ part: ball valve 16 mm }", "{ part: ball valve NPT 1/2 in }"},
		{"inlet: barb 16 mm", "inlet: thread G 1/2 male"},
	} {
		e := sound(t, examples.CorridorCabinet, c...)
		bad := 0
		for _, j := range e.Joints {
			if j.Known && !j.OK {
				bad++
				if j.Why == "" || !strings.HasPrefix(j.Where, "riser: ") || j.Pos.Line == 0 {
					t.Errorf("%q: %+v", c[1], j)
				}
				if strings.Contains(c[1], "thread") && len(j.Help) == 0 {
					t.Errorf("%q: nothing would join %s and %s", c[1], j.A, j.B)
				}
				for _, h := range j.Help {
					if !joins(t, h, j) {
						t.Errorf("%s does not join %s and %s", h, j.A, j.B)
					}
				}
			}
		}
		if bad == 0 {
			t.Errorf("%q: all joints fit", c[1])
		}
	}
}

// joins reports whether a part fits between the two ends of a joint.
func joins(t *testing.T, name string, j Joint) bool {
	t.Helper()
	p, ok := trial.Parts(t).Find(name)
	if !ok || len(p.Ends) != 2 {
		return false
	}
	for _, way := range [][2]int{{0, 1}, {1, 0}} {
		a, _ := catalogue.Mates(j.A, p.Ends[way[0]])
		b, _ := catalogue.Mates(j.B, p.Ends[way[1]])
		if a && b {
			return true
		}
	}
	return false
}
