package sheets

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/faults"
)

// resolved reads a design.
func resolved(t testing.TB, file []byte) *enclosure.Enclosure {
	t.Helper()
	d, list := design.Read("test.yaml", file)
	if list.HasErrors() {
		t.Fatal(list)
	}
	cat, err := catalogue.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	e, list := enclosure.Resolve(d, cat, nil)
	if list.HasErrors() {
		t.Fatal(list)
	}
	return e
}

// ran follows a design through a course of events.
func ran(t testing.TB, e *enclosure.Enclosure, sc *enclosure.Scenario) *faults.Result {
	t.Helper()
	rig, err := faults.NewRig(e, e.Likely())
	if err != nil {
		t.Fatal(err)
	}
	r, err := rig.Run(sc, faults.Options{Record: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func blockedDrain() *enclosure.Scenario {
	return &enclosure.Scenario{Name: "the drain blocks", Lasts: 2 * hour, Steps: []enclosure.Step{{What: "drain blocks", Share: 1}}}
}

func powerCut() *enclosure.Scenario {
	return &enclosure.Scenario{Name: "the power fails and comes back", Lasts: 2 * hour, Steps: []enclosure.Step{
		{At: minute, What: "power off", Index: -1},
		{At: 30 * minute, What: "power on", Index: -1},
	}}
}

func untended() *enclosure.Scenario {
	return &enclosure.Scenario{Name: "nobody tops up", Lasts: 365 * day}
}

func TestTimelineGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		e := resolved(t, c.file)
		for _, k := range []struct {
			name     string
			scenario *enclosure.Scenario
		}{{"blocked-drain", blockedDrain()}, {"power-cut", powerCut()}, {"untended", untended()}} {
			s, err := Timeline(e, ran(t, e, k.scenario))
			if err != nil {
				t.Fatal(err)
			}
			golden(t, c.name+"-"+k.name, written(t, s))
			// A second run of the whole chain gives the same bytes.
			again, err := Timeline(e, ran(t, e, k.scenario))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(written(t, again), written(t, s)) {
				t.Errorf("%s, %s: two runs differ", c.name, k.name)
			}
		}
	}
}

func TestTimelineRefuses(t *testing.T) {
	e := resolved(t, examples.CounterWall)
	r := ran(t, e, powerCut())
	r.Track = nil
	if _, err := Timeline(e, r); err == nil {
		t.Error("a sheet without a track")
	}
	if _, err := Timeline(e, ran(t, e, &enclosure.Scenario{})); err == nil {
		t.Error("a sheet of no time at all")
	}
}

// texts of a sheet must hold what matters, whatever the course of events: the
// volume on the floor, each event told, how many are not.
func TestTimelineTells(t *testing.T) {
	e := resolved(t, examples.CorridorCabinet)
	timer := resolved(t, examples.CorridorCabinet)
	timer.Pumps[0].Timer = enclosure.Timer{Given: true, On: 15 * minute, Off: 45 * minute}
	none := math.NaN()
	for _, c := range []struct {
		name string
		e    *enclosure.Enclosure
		sc   *enclosure.Scenario
		has  []string
		not  []string
	}{
		{
			"timer", timer,
			&enclosure.Scenario{Name: "a timer for three days", Lasts: 3 * day},
			[]string{"time from the beginning, days"},
			[]string{"Followed for"},
		},
		{
			"leak", e,
			&enclosure.Scenario{Name: "a leak", Lasts: 10 * day, Steps: []enclosure.Step{{At: hour, What: "leak starts", Which: "pool", Place: enclosure.Place{Kind: enclosure.AtPool, Index: -1}, Index: -1, Size: 0.002, Height: none}}},
			[]string{"the pool leaks", "leak in the pool", "Water on the floor, L"},
			[]string{"No water reaches the floor"},
		},
		{
			"overfull", e,
			&enclosure.Scenario{Name: "a hose left running", Lasts: hour, Steps: []enclosure.Step{{At: minute, What: "water added", Which: "sump", Place: enclosure.Place{Kind: enclosure.AtSump}, Index: -1, Flow: 2e-4}}},
			[]string{"runs over its rim", "over the rim of the drain side from"},
			nil,
		},
	} {
		r := ran(t, c.e, c.sc)
		s, err := Timeline(c.e, r)
		if err != nil {
			t.Fatal(err)
		}
		b := string(written(t, s))
		all := texts([]drawing.Sheet{s})
		for _, want := range c.has {
			if !strings.Contains(all, want) {
				t.Errorf("%s: %q is missing in\n%s", c.name, want, all)
			}
		}
		for _, not := range c.not {
			if strings.Contains(all, not) {
				t.Errorf("%s: %q is in\n%s", c.name, not, all)
			}
		}
		if len(b) > 250_000 {
			t.Errorf("%s: %d bytes from %d steps", c.name, len(b), r.Steps)
		}
	}
}

// However many events there are, and however long their words, they stay on the
// sheet, and those not told are counted.
func TestTimelineManyEvents(t *testing.T) {
	e := resolved(t, examples.CounterWall)
	for n := 1; n < 400; n += 1 + n/2 {
		r := ran(t, e, blockedDrain())
		r.Events = nil
		for k := range n {
			r.Events = append(r.Events, faults.Event{At: r.Ended * float64(k) / float64(n), What: "again " + strings.Repeat("something with a long name ", k%7)})
		}
		r.Events[n/2].What = "once: the pool runs over the dam"
		s, err := Timeline(e, r)
		if err != nil {
			t.Fatal(err)
		}
		written(t, s)
		all := texts([]drawing.Sheet{s})
		told := strings.Count(strings.SplitN(all, "more, the last of them", 2)[0], "again ")
		if !strings.Contains(all, "once:") {
			t.Errorf("what happens once of %d is not told:\n%s", n, all)
		}
		told++
		if told == n {
			continue
		}
		if told < min(n, 3) || !strings.Contains(all, fmt.Sprintf("and %d more", n-told)) {
			t.Errorf("%d of %d events told:\n%s", told, n, all)
		}
	}
}

// A course of many steps is drawn within a hair of where it is, with every peak.
func TestCourseLine(t *testing.T) {
	x := newTimeAxis(timeUnit(1000), 1000, 1000)
	s := newStack("x", pageWidth, pageHeight, 30, 130, x, []strip{{y: newAxis(0, 1, 4, false)}})
	s.enter(0)
	u := timeUnit(1000)
	c := course{pen: drawing.Thick}
	for k := range 100_001 {
		v := 0.5
		if k%9973 == 4000 {
			v = 1 // one step of 10 ms
		}
		c.time, c.figure = append(c.time, float64(k)/100), append(c.figure, v)
	}
	line := c.line(s, unit{"", 1}, u)
	if n := len(line); n > 1000 {
		t.Errorf("%d points", n)
	}
	peaks := 0
	for i, p := range line {
		if i > 0 && p.X < line[i-1].X {
			t.Fatal("the line runs backwards")
		}
		switch {
		case math.Abs(p.Y-s.at(0, 1).Y) < 0.01:
			peaks++
		case math.Abs(p.Y-s.at(0, 0.5).Y) > 0.01:
			t.Errorf("a point at %g", p.Y)
		}
	}
	if peaks != 10 {
		t.Errorf("%d peaks of 10", peaks)
	}
}

// A flow that stops at an event stops there and not before.
func TestCourseJump(t *testing.T) {
	c := course{time: []float64{0, 10, 20, 30}, figure: []float64{1, 1, 0.8, 0.8}}
	c.jump([]faults.Event{{At: 5}, {At: 20}})
	if !slices.Equal(c.time, []float64{0, 10, 20, 20, 30}) || !slices.Equal(c.figure, []float64{1, 1, 1, 0.8, 0.8}) {
		t.Error(c.time, c.figure)
	}
	slow := course{time: []float64{0, 10, 20}, figure: []float64{1, 0.8, 0.6}}
	slow.jump([]faults.Event{{At: 5}})
	if len(slow.time) != 3 {
		t.Error(slow.time)
	}
}
