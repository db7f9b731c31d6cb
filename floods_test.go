package rillwright

import (
	"math"
	"regexp"
	"slices"
	"testing"

	"rillwright/answers"
	"rillwright/examples"
	"rillwright/faults"
	"rillwright/internal/trial"
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

// What a fix for a flood promises is what the builder gets who writes it into
// the file.
func TestFloodFixesAsWritten(t *testing.T) {
	second := map[string]string{"metric": secondMetric, "us": secondUS}
	edits := map[string][][3]string{
		"metric": {
			{`^fill the sump less, to (.+ mm) from`, "level: 130 mm", "level: $1"},
			{`stops it when the sump falls to (.+ mm);`, "    inlet: 50 mm\n", "    inlet: 50 mm\n    float: { off: $1, on: ON }\n"},
			{`^make the dam (.+ mm) high`, "  height: 200 mm\n  thickness", "  height: $1\n  thickness"},
			{`^add a second drain like`, "grid:\n", second["metric"] + "grid:\n"},
		},
		"us": {
			{`^fill the sump less, to (.+ in) from`, "level: 5 in", "level: $1"},
			{`stops it when the sump falls to (.+ in);`, "    inlet: 2 in\n", "    inlet: 2 in\n    float: { off: $1, on: ON }\n"},
			{`^make the dam (.+ in) high`, "  height: 7 in\n  thickness", "  height: $1\n  thickness"},
			{`^add a second drain like`, "grid:\n", second["us"] + "grid:\n"},
		},
	}
	on := regexp.MustCompile(`on: (.*) }$`)
	for demo, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		base, err := Build("demo.yaml", data, Options{Faults: MainFaults})
		if err != nil {
			t.Fatal(err)
		}
		id := blocked(t, base).ID
		a := find(base.Answers, id)
		tried := 0
		for _, f := range a.Fixes {
			for _, e := range edits[demo] {
				re := regexp.MustCompile(e[0])
				at := re.FindStringSubmatchIndex(f.Do)
				if at == nil {
					continue
				}
				tried++
				text := string(re.ExpandString(nil, e[2], f.Do, at))
				if m := on.FindStringSubmatch(f.Change); m != nil {
					text = regexp.MustCompile(`ON`).ReplaceAllString(text, m[1])
				}
				after := followed(t, trial.Swap(t, data, e[1], text), MainFaults)
				now := find(after.Answers, id)
				if now.Figures[0].Text != f.After || now.Verdict != f.Verdict {
					t.Errorf("%s: %q promises %s (%v), the file gives %s (%v)", demo, f.Do, f.After, f.Verdict, now.Figures[0].Text, now.Verdict)
				}
				for _, b := range f.Breaks {
					if find(after.Answers, b.ID).Verdict != b.Verdict {
						t.Errorf("%s: %q is said to make %s %v, the file says %v", demo, f.Do, b.ID, b.Verdict, find(after.Answers, b.ID).Verdict)
					}
				}
			}
		}
		if tried < 2 {
			t.Errorf("%s: only %d of the fixes were tried: %+v", demo, tried, a.Fixes)
		}
	}
}

const secondMetric = `  - name: second drain
    kind: standpipe
    lip: 165 mm
    part: bulkhead 1 in
    bore: 26.6 mm
    standpipe: rigid pipe 1 in sch 40
    lip-bore: 26.6 mm
    strainer: { part: slotted strainer 1 in }
    vented: yes
    hole: { pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: right }
    to: drain side
    end-height: 160 mm
    pieces:
      - { part: rigid pipe 1 in sch 40, length: 60 mm, fall: 0 mm }
      - { part: elbow 90 solvent 1 in }
      - { part: rigid pipe 1 in sch 40, length: 690 mm }

`

const secondUS = `  - name: second drain
    kind: standpipe
    lip: 6 1/8 in
    part: bulkhead 3/4 in
    standpipe: rigid pipe 3/4 in sch 40
    strainer: { part: slotted strainer 3/4 in }
    vented: yes
    hole: { pane: left side, size: 1 1/2 in, up: 3 in, in: 3 in, edge: rear }
    to: sump
    end-height: 6 in
    pieces:
      - { part: rigid pipe 3/4 in sch 40, length: 2 in, fall: 0 in }
      - { part: elbow 90 solvent 3/4 in }
      - { part: rigid pipe 3/4 in sch 40, length: 26 in }

`

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
