package commission

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/quantity"
)

func plan(t *testing.T, follow bool, file []byte, pairs ...string) (Plan, *answers.Survey) {
	t.Helper()
	s, err := answers.NewSurvey(trial.Resolved(t, trial.Swap(t, file, pairs...), enclosure.Resolve))
	if err != nil {
		t.Fatal(err)
	}
	var f *answers.FaultReport
	if follow {
		if f, err = s.Floods(answers.FaultOptions{NoLines: true}); err != nil {
			t.Fatal(err)
		}
	}
	return Of(s, f), s
}

func check(t *testing.T, p Plan, id string) Check {
	t.Helper()
	for _, s := range p.Stages {
		for _, c := range s.Checks {
			if c.ID == id {
				return c
			}
		}
	}
	t.Fatalf("no check %q", id)
	return Check{}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %g, want %g within %g", what, got, want, tol)
	}
}

// By hand from the file: label 1200 L/h and 2.4 m; dam 200 mm over the pool's floor,
// 886 x 408 mm; sump 320 mm high; the lip at 150 mm.
func TestCabinet(t *testing.T) {
	p, s := plan(t, true, examples.CorridorCabinet)
	const litreAnHour = 1e-3 / 3600
	bare := check(t, p, "bare[main pump]")
	near(t, "bare, least", bare.Pass.Low, 960*litreAnHour, 1e-12)
	near(t, "bare, most", bare.Pass.High, 1440*litreAnHour, 1e-12)
	near(t, "shut-off head", check(t, p, "shut-off[main pump]").Pass.Low, 2.16, 1e-12)
	near(t, "manifold", check(t, p, "manifold").Pass.Low, 0.82*400*litreAnHour, 1e-12)
	near(t, "evenness", check(t, p, "even[drip bar]").Pass.Low, 0.8, 1e-12)
	near(t, "drain limit", check(t, p, "drain").Pass.High, 0.185, 1e-12)
	near(t, "power cut", check(t, p, "power-cut").Pass.High, 0.295, 1e-12)
	near(t, "full", p.Leak.Marks[2].Volume, 0.886*0.408*0.200, 1e-9)
	near(t, "hours", p.Leak.Marks[2].Hours, 24, 0)
	points := strings.Join(p.Leak.Points, "; ")
	if !strings.Contains(points, "dam, bottom") || strings.Contains(points, "top strip") {
		t.Errorf("tissue under %s", points)
	}
	// Without its outlets the hose gives more than with them, and less than the
	// pump bare.
	hose, with := check(t, p, "hose"), check(t, p, "manifold")
	if !hose.Computed || hose.Expect[1] <= with.Expect[1] || hose.Expect[1] >= 1200*litreAnHour {
		t.Errorf("hose %v, manifold %v", hose.Expect, with.Expect)
	}
	if got, ok := hose.Passed(s.Likely.Outlets * 0.1); got || !ok {
		t.Error("a tenth of the flow passes")
	}
	if got, ok := hose.Passed(math.NaN()); got || !ok {
		t.Error("no number passes")
	}
	// The file says by hand that a blocked drain spills.
	if c := check(t, p, "blocked-drain"); !strings.Contains(c.Hold, "runs over the dam") {
		t.Errorf("blocked drain: %q", c.Hold)
	}
	if c := check(t, p, "lost-standpipe"); !c.Computed || c.Hold != "" || c.Expect[2] > 0.320 {
		t.Errorf("lost standpipe: %+v", c)
	}
	if c := check(t, p, "breaker"); !strings.Contains(c.Name, "RCD") {
		t.Errorf("%q in a metric design", c.Name)
	}
}

// Every check of both demos says how, what passes, from where and what if not, and
// the likely figure of what was computed lies within its band.
func TestWords(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		p, s := plan(t, true, file)
		seen := map[string]bool{}
		for _, st := range p.Stages {
			for _, c := range st.Checks {
				if seen[c.ID] || c.How == "" || c.IfNot == "" || c.From == "" || c.PassText(s.E.Units) == "" {
					t.Errorf("%s: twice, or not all is said: %+v", c.ID, c)
				}
				seen[c.ID] = true
				if c.Computed && !(c.Expect[0] <= c.Expect[1] && c.Expect[1] <= c.Expect[2]) {
					t.Errorf("%s: %v", c.ID, c.Expect)
				}
				if strings.Contains(c.PassText(s.E.Units)+c.ExpectText(s.E.Units), "NaN") {
					t.Errorf("%s: %s", c.ID, c.PassText(s.E.Units))
				}
			}
		}
		if len(p.Leak.Points) < 5 || p.Leak.Drop < reading {
			t.Errorf("leak test: %+v", p.Leak)
		}
	}
}

func TestPassText(t *testing.T) {
	const inch = 0.0254
	for _, c := range []struct {
		check Check
		sys   quantity.System
		want  string
	}{
		{Check{Unit: Height, Pass: Range{1.125 * inch, 3.125 * inch}}, quantity.US, "1 1/8 to 3 1/8 in"},
		{Check{Unit: Height, Pass: Range{0.005, 0.013}}, quantity.Metric, "5 to 13 mm"},
		{Check{Unit: Share, Pass: AtLeast(0.8)}, quantity.Metric, "at least 80 %"},
		{Check{Unit: Height, Pass: AtMost(0.25)}, quantity.Metric, "at most 250 mm"},
		{Check{Unit: Time, Pass: Range{30, 60}}, quantity.Metric, "30 to 60 s"},
		{Check{Unit: Head, Pass: Range{1, 1.001}}, quantity.Metric, "1.00 m"},
	} {
		if got := c.check.PassText(c.sys); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What is not known is said, not guessed.
func TestLacks(t *testing.T) {
	p, _ := plan(t, false, examples.CorridorCabinet)
	c := check(t, p, "blocked-drain")
	if _, ok := c.Passed(0); ok || !strings.Contains(c.PassText(quantity.Metric), "not known yet") {
		t.Errorf("%+v", c)
	}
	p, _ = plan(t, false, examples.CorridorCabinet, "target: 400 L/h per m", "target: 4000 L/h per m")
	if c := check(t, p, "manifold"); c.Hold == "" {
		t.Errorf("ten times the flow: %+v", c)
	}
	// 30 times the target again, and the pump on a table that ends early.
	p, _ = plan(t, false, examples.CorridorCabinet, "label: { flow: 1200 L/h, head: 2.4 m }", "curve: [ { flow: 100 L/h, head: 2.2 m }, { flow: 600 L/h, head: 1.5 m } ]")
	if check(t, p, "bare[main pump]").Lacks == "" || check(t, p, "shut-off[main pump]").Lacks == "" {
		t.Error("a curve without its ends has both ends")
	}
}
