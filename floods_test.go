package rillwright

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/faults"
)

func followed(t *testing.T, data []byte, depth FaultDepth) *Report {
	t.Helper()
	r, err := Build("demo.yaml", data, Options{Faults: depth, NoFixes: true})
	if err != nil || r.Findings.HasErrors() {
		t.Fatal(err, r.Findings)
	}
	return r
}

// The hand calculation of both demos, made before the program: what stands over
// the pump's inlet, and what the freeboard from lip to dam holds. By hand the
// difference spills, 7 L and 2.4 US gal. The program spills more, by what can be
// reckoned by hand as well: the running level takes part of that freeboard, and
// the film runs off the wall after the pump has drawn air.
func TestBlockedDrainByHand(t *testing.T) {
	const litre, gallon = 1e-3, 3.785411784e-3
	for _, c := range []struct {
		name          string
		data          []byte
		unit          float64
		over, holds   float64 // by hand
		spilled, more float64 // by hand, and by the program at least and at most
	}{
		{"metric", examples.CorridorCabinet, litre, 19, 12, 7, 4.5},
		{"us", examples.CounterWall, gallon, 3.6, 1.2, 2.4, 0.6},
	} {
		r := followed(t, c.data, MainFaults)
		rig, e := r.Faults.Survey.Likely(), r.Enclosure
		dry, _ := rig.InletVolume()
		over := (rig.SumpVolume(rig.Start.SumpLevel) - dry) / c.unit
		holds := (rig.PoolVolume(e.Pool.DamTop) - rig.PoolVolume(rig.Start.RestLevel)) / c.unit
		if !within(over, c.over, 0.05) || !within(holds, c.holds, 0.05) {
			t.Errorf("%s: %.2f over the inlet and %.2f of freeboard, by hand %g and %g", c.name, over, holds, c.over, c.holds)
		}
		x := blocked(t, r)
		res, err := rig.Run(&x.Scenario, faults.Options{})
		if err != nil {
			t.Fatal(err)
		}
		got := res.Spilled / c.unit
		taken := (rig.PoolVolume(rig.Start.PoolLevel) - rig.PoolVolume(rig.Start.RestLevel)) / c.unit
		film := res.Begin[slices.Index(res.Stores, "film on the wall")] / c.unit
		if want := over - holds + taken + film; !within(got, want, 0.03) {
			t.Errorf("%s: %.2f spilled, reckoned %.2f", c.name, got, want)
		}
		if got < c.spilled || got > c.spilled+c.more {
			t.Errorf("%s: %.2f spilled, by hand %g", c.name, got, c.spilled)
		}
	}
}

func within(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

func blocked(t *testing.T, r *Report) *faults.Fault {
	t.Helper()
	list := r.Faults.Survey.Faults
	for i := range list {
		if list[i].Kind == faults.Blocked {
			return &list[i]
		}
	}
	t.Fatal("no blocked drain")
	return nil
}

// Both demos pass the usual checks and fail where nobody computes: the drain
// blocks. A power cut, which everybody fears, does no harm.
func TestDemosFailWhereNobodyLooks(t *testing.T) {
	for name, data := range map[string][]byte{"main drain": examples.CorridorCabinet, "side drain": examples.CounterWall} {
		r := followed(t, data, MainFaults)
		for id, want := range map[string]answers.Verdict{"blocked[" + name + "]": answers.Fails, "power-cut": answers.Holds} {
			if a := find(r.Answers, id); a.Verdict != want {
				t.Errorf("%s is %v: %s", id, a.Verdict, a.Say)
			}
		}
		for _, a := range r.Answers {
			if a.Verdict == answers.Fails && a.ID != "blocked["+name+"]" {
				t.Errorf("%s fails: %s", a.ID, a.Say)
			}
		}
	}
}

// What a fix for a flood promises is what its edits give when they are made.
func TestFloodFixesAsWritten(t *testing.T) {
	for demo, c := range map[string]struct {
		data []byte
		each int // fixes, at least
	}{
		"metric": {examples.CorridorCabinet, 7},
		"us":     {examples.CounterWall, 2},
	} {
		base, err := Build("demo.yaml", c.data, Options{Faults: MainFaults})
		if err != nil {
			t.Fatal(err)
		}
		tried := 0
		for _, a := range base.Faults.Answers {
			for _, f := range a.Fixes {
				tried++
				after := followed(t, written(t, c.data, &f), MainFaults)
				now := find(after.Answers, a.ID)
				if text := now.Figures[now.Key].Text; !asTold(a.ID, f.After, text) || now.Verdict != f.Verdict {
					t.Errorf("%s, %s: %q promises %s (%v), the file gives %s (%v)", demo, a.ID, f.Do, f.After, f.Verdict, text, now.Verdict)
				}
				have := breaks(base, after, a.ID, a.ID)
				for _, b := range after.Faults.Answers {
					if was := find(base.Answers, b.ID); was.ID != "" && b.ID != a.ID && b.Verdict > was.Verdict {
						have = append(have, answers.Break{ID: b.ID, Question: b.Question, Verdict: b.Verdict})
					}
				}
				if !slices.Equal(have, f.Breaks) {
					t.Errorf("%s: %q breaks %q, says %q", demo, f.Do, have, f.Breaks)
				}
			}
		}
		t.Logf("%s: %d", demo, tried)
		if tried < c.each {
			t.Errorf("%s: only %d fixes were tried", demo, tried)
		}
	}
}

// asTold reports whether a figure is the one promised. How long the water lasts is
// shown with its good end too, which is run with the senses found before the change:
// there one in a hundred is let pass, against 0.4 % seen.
func asTold(id, promised, got string) bool {
	a, b := regexp.MustCompile(`[0-9.]+|[^0-9.]+`).FindAllString(promised, -1), regexp.MustCompile(`[0-9.]+|[^0-9.]+`).FindAllString(got, -1)
	if id != "away" || len(a) != len(b) {
		return promised == got
	}
	for i := range a {
		x, err := strconv.ParseFloat(a[i], 64)
		if y, _ := strconv.ParseFloat(b[i], 64); a[i] != b[i] && (err != nil || !within(x, y, 0.01)) {
			return false
		}
	}
	return true
}

// The marks are where they say: at the highest no drain that blocks spills, a
// little over it one does, and at the lowest the pump stays covered.
func TestFillLines(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		r := followed(t, data, EveryFault)
		l, e := r.Faults.Line, r.Enclosure
		if !(l.Highest > e.Sump.Bottom && l.Lowest > e.Sump.Bottom && l.Highest <= l.ByRim) {
			t.Fatalf("%s: %+v", name, l)
		}
		for _, c := range []struct {
			level float64
			spill bool
		}{{l.Highest, false}, {l.Highest + 0.003, true}} {
			n := e.Clone()
			n.Sump.Level, n.Sump.Running = c.level, false
			x := blocked(t, r)
			rig, err := faults.NewRig(n, r.Faults.Survey.Bad(x.ID).Case)
			if err != nil {
				t.Fatal(err)
			}
			res, err := rig.Run(&x.Scenario, faults.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if (res.Spilled > 20e-6) != c.spill {
				t.Errorf("%s: filled to %.4f m, %.3g L spill", name, c.level, 1000*res.Spilled)
			}
		}
		// More water means more days and more on the floor.
		for i := 1; i < len(l.Points); i++ {
			a, b := l.Points[i-1], l.Points[i]
			if b.Days < a.Days || b.Spill < a.Spill-1e-6 || b.Free > a.Free+1e-6 || b.Volume <= a.Volume {
				t.Errorf("%s: from %+v to %+v", name, a, b)
			}
		}
	}
}
