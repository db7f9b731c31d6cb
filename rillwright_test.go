package rillwright

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/study"
)

func build(t *testing.T, data []byte) *Report {
	t.Helper()
	r, err := Build("demo.yaml", data, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Findings.HasErrors() {
		t.Fatal(r.Findings)
	}
	return r
}

// The flow of each demo between the straight and the parabolic reading of its
// pump's label, all else likely and valves open, against figures worked out by
// hand for the same designs with fewer losses told apart (velocity heads, not
// barbs and bores): 294 to 444 L/h and 70 to 91 US gal/h. The metric one agrees
// within 1 %. The other is 6 to 8 % higher here, and who is right is not settled:
// the hand figures do not list their fittings, and the bore of the valve's barbs
// alone moves the flow by as much.
func TestDemoFlows(t *testing.T) {
	const usGallonPerHour = 3.785411784e-3 / 3600
	for _, c := range []struct {
		name      string
		data      []byte
		low, high float64 // m3/s
		tolerance float64
	}{
		{"metric", examples.CorridorCabinet, 294e-3 / 3600, 444e-3 / 3600, 0.01},
		{"us", examples.CounterWall, 70 * usGallonPerHour, 91 * usGallonPerHour, 0.08},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := build(t, c.data).Enclosure
			for i := range e.Doubts {
				if e.Doubts[i].ID != "pump-curve[main pump]" {
					continue
				}
				for shape, want := range map[float64]float64{1: c.low, 2: c.high} {
					k := e.Likely()
					k[i] = shape
					st, err := study.Run(e, k, study.Setting{OpenValves: true})
					if err != nil {
						t.Fatal(err)
					}
					if math.Abs(st.Outlets/want-1) > c.tolerance {
						t.Errorf("shape %g: %.1f L/h, by hand %.1f", shape, st.Outlets*3.6e6, want*3.6e6)
					}
				}
				return
			}
			t.Fatal("no doubt about the pump's curve")
		})
	}
}

// Water is neither made nor lost: what leaves the outlets reaches the pool, and
// the drains take it away, to 1e-9.
func TestDemoBalance(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		st := build(t, data).Survey.Likely
		sum := 0.0
		for i := range st.Drains {
			sum += st.Drains[i].Flow
		}
		if math.Abs(sum-st.Inflow) > 1e-9*st.Inflow || math.Abs(st.Pumps[0].Flow-st.Outlets) > 1e-9*st.Outlets {
			t.Errorf("%s: pump %g, outlets %g, into the pool %g, drains %g", name, st.Pumps[0].Flow, st.Outlets, st.Inflow, sum)
		}
	}
}

// Common practice, no source: a half-inch bulkhead and pipe throttle a
// flowing-water build, one inch or larger lets it run free.
func TestHalfInchDrainThrottles(t *testing.T) {
	verdict := func(size string) answers.Verdict {
		text := string(examples.CorridorCabinet)
		text = strings.ReplaceAll(text, "    lip-bore: 26.6 mm\n", "")
		text = strings.ReplaceAll(text, "    bore: 26.6 mm\n", "")
		for _, part := range []string{"bulkhead", "rigid pipe", "slotted strainer", "elbow 90 solvent"} {
			text = strings.ReplaceAll(text, part+" 1 in", part+" "+size)
		}
		text = strings.ReplaceAll(text, "size: 44 mm", "size: 30 mm")
		for _, a := range build(t, []byte(text)).Answers {
			if a.ID == "drain" {
				return a.Verdict
			}
		}
		t.Fatal("no answer about the drain")
		return answers.Unknown
	}
	if v := verdict("1/2 in"); v != answers.Fails {
		t.Errorf("a half-inch drain %v", v)
	}
	if v := verdict("1 1/2 in"); v != answers.Holds {
		t.Errorf("a drain of 1 1/2 in %v", v)
	}
}

// A fix is only named if its answer came out better with it.
func TestFixesHelp(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		some := false
		for _, a := range build(t, data).Answers {
			for _, f := range a.Fixes {
				some = true
				if f.Before == f.After || f.Cost == "" || f.Verdict > a.Verdict {
					t.Errorf("%s, %s: %+v", name, a.ID, f)
				}
			}
			for _, f := range a.Figures {
				if !(f.Low <= f.Likely && f.Likely <= f.High) || f.Text == "" {
					t.Errorf("%s, %s: %+v", name, a.ID, f)
				}
			}
		}
		if !some {
			t.Errorf("%s: no fixes at all", name)
		}
	}
}

// Same file in, same report out.
func TestRepeatable(t *testing.T) {
	a, b := build(t, examples.CounterWall), build(t, examples.CounterWall)
	for i := range a.Answers {
		if a.Answers[i].Say != b.Answers[i].Say || len(a.Answers[i].Fixes) != len(b.Answers[i].Fixes) {
			t.Errorf("%s differs between two builds", a.Answers[i].ID)
		}
	}
}
