package works

import (
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

func demo(t testing.TB, file []byte) *Work {
	t.Helper()
	e := trial.Resolved(t, file, enclosure.Resolve)
	w, err := Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), 0)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Lines have every step once, in order; each says what its rule says, the fresh
// sealant what the air allows.
func TestLines(t *testing.T) {
	w := demo(t, examples.CorridorCabinet)
	plan, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]*Line{}
	sets := 0
	for i := range lines {
		l := &lines[i]
		if i > 0 && l.At() < lines[i-1].At() {
			t.Errorf("%s at %s after %s", l.ID, l.At(), lines[i-1].ID)
		}
		if l.Sets {
			sets++
		}
		seen[l.ID] = l
	}
	if len(seen) != len(w.Steps) || sets != len(plan.Chain()) {
		t.Fatalf("%d lines of %d steps, %d of %v", len(seen), len(w.Steps), sets, plan.Chain())
	}
	for i := range w.Steps {
		s := &w.Steps[i]
		l := seen[s.Task.ID]
		if l == nil || l.Say != s.Say || (l.Skins() != "") != s.Rule.Wet {
			t.Errorf("%s: %+v", s.Task.ID, l)
		}
	}
	about := map[string]string{}
	for _, tell := range seen["bond"].Tells() {
		about[tell.About] = tell.Say
	}
	// 10 to 30 min at 18 C: cold air does not shorten it.
	if !strings.HasPrefix(about["wet sealant"], "skins 10 to 30 min") || about["hands"] != "2 people" || about["takes"] != "2.5 h (2 to 3), in one sitting" || about["clean up"] == "" || about["closes off"] == "" {
		t.Errorf("bond: %v", about)
	}
	if d := seen["delivery"]; !d.Comes || d.Tools+d.Closes+d.Why != "" {
		t.Errorf("what comes is told as the order: %+v", d)
	}
	w.Air = cure.Air{Celsius: 35, Humidity: 0.8}
	if warm := Lines(w, plan); warm[0].Open.High != 0 {
		t.Errorf("%s has fresh sealant", warm[0].ID)
	} else {
		for i := range warm {
			if l := &warm[i]; l.ID == "bond" && !(l.Open.Low < seen["bond"].Open.Low) {
				t.Errorf("warm and damp: %s", l.Skins())
			}
		}
	}
}

// What comes next leaves out what is done, puts what is under way first and does not
// count what is delivered or only stands.
func TestNext(t *testing.T) {
	work := schedule.Lasting{Low: 600, Likely: 1200, High: 1800}
	lines := []Line{{ID: "a", Done: true, Work: work}, {ID: "b", Work: work}, {ID: "glass", Comes: true, Work: work}, {ID: "stand"}, {ID: "c", Under: true, Work: work}, {ID: "d", Work: work}, {ID: "e", Work: work}}
	ids := func(l []Line) (out string) {
		for i := range l {
			out += l[i].ID + " "
		}
		return out
	}
	for most, want := range map[int]string{0: "", 1: "c ", 2: "c b ", 3: "c b glass stand d ", 9: "c b glass stand d e "} {
		if got := ids(Next(lines, most)); got != want {
			t.Errorf("%d: %q, not %q", most, got, want)
		}
	}
	if got := Next([]Line{{ID: "a", Done: true}}, 3); len(got) != 0 {
		t.Errorf("all is done, and there is %v", got)
	}
	l := Line{Work: work}
	if got := l.Lasts(); got != "20 min (10 to 30)" {
		t.Error(got)
	}
}

// When props come off and when sealant has cured through are those of the clock of the
// slowest joint, from the end of its work; a coat has no props.
func TestLinesCure(t *testing.T) {
	w := demo(t, examples.CorridorCabinet)
	_, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]*cure.Clock{"bond": w.Things["joints"][0].Clock, "dam": w.Things["dam"][0].Clock, "coat": w.Things["coat"][0].Clock}
	for i := range lines {
		l := &lines[i]
		c := want[l.ID]
		if c == nil {
			if l.Cures() != "" {
				t.Errorf("%s: %s", l.ID, l.Cures())
			}
			continue
		}
		delete(want, l.ID)
		full, off := float64(l.Full-l.End)*60, float64(l.Off-l.End)*60
		if d := full - float64(c.Full.Likely); d < 0 || d >= 60 {
			t.Errorf("%s cured through after %g s, not %g", l.ID, full, float64(c.Full.Likely))
		}
		if d := off - float64(c.Off.Likely); l.ID != "coat" && (d < 0 || d >= 60) || (l.Off == 0) != (l.ID == "coat") {
			t.Errorf("%s: props off after %g s, not %g", l.ID, off, float64(c.Off.Likely))
		}
		if l.Full > l.Finish {
			t.Errorf("%s is loaded at %s, before it has cured at %s", l.ID, l.Finish, l.Full)
		}
	}
	if len(want) > 0 {
		t.Errorf("no line for %v", want)
	}
}
