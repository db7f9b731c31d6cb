package fixes

import (
	"slices"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// stood answers what a demo, changed, weighs and whether it tips over, with fixes.
func stood(t *testing.T, data []byte, pairs ...string) (standing answers.Answer, s *answers.Survey) {
	t.Helper()
	e := trial.Resolved(t, trial.Swap(t, data, pairs...), enclosure.Resolve)
	s, err := answers.NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	list, err := s.Structure()
	if err != nil {
		t.Fatal(err)
	}
	if err := Structure(s, list, nil); err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(list, func(a answers.Answer) bool { return a.ID == "standing" })
	return list[i], s
}

// What is called a fix does what it says when written into the file, and the
// design that was read is left as it was.
func TestStandingFixes(t *testing.T) {
	if testing.Short() {
		t.Skip("tries many designs")
	}
	const stand = "stand: { width: 24 in, depth: 17 in, weight: 35 lb, feet: 4, foot: 2 in, inset: 0 in, carries-sump: yes, fixed: no }"
	a, s := stood(t, examples.CounterWall, "carries-sump: yes", "carries-sump: no")
	apart := strings.Replace(stand, "carries-sump: yes", "carries-sump: no", 1)
	if a.Verdict != answers.Tight || s.E.Design.Stand.Fixed.Value || s.E.Design.Stand.Sump.Value || s.E.Design.Stand.Depth.Text != "17 in" || s.Standing().Score != a.Score {
		t.Fatalf("%v, and the design is now %+v", a.Verdict, s.E.Design.Stand)
	}
	found := map[string]bool{}
	for _, f := range a.Fixes {
		for _, edit := range f.Edits {
			found[strings.TrimPrefix(edit.Path, "stand.")] = true
		}
		data, err := design.Apply([]byte(strings.Replace(string(examples.CounterWall), stand, apart, 1)), f.Edits)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := stood(t, data)
		if again.Verdict != f.Verdict {
			t.Errorf("%s: said to be %v, is %v", f.Do, f.Verdict, again.Verdict)
		}
		if headline(&again) != f.After && !strings.Contains(f.After, "held by the wall") {
			t.Errorf("%s: said to come to %q, comes to %q", f.Do, f.After, headline(&again))
		}
		if again.Verdict == a.Verdict && again.Score <= a.Score {
			t.Errorf("%s: %g, before %g", f.Do, again.Score, a.Score)
		}
	}
	for _, key := range []string{"fixed", "carries-sump", "depth"} {
		if !found[key] {
			t.Errorf("no fix changes stand.%s; there are %d", key, len(a.Fixes))
		}
	}
	if len(a.Fixes) == 0 || a.Fixes[0].Verdict != answers.Holds {
		t.Errorf("the first fix does not mend it: %+v", a.Fixes)
	}
}

// What holds needs no fix; a design without a stand can still be fixed to a wall.
func TestStandingFixesWhere(t *testing.T) {
	if a, _ := stood(t, examples.CorridorCabinet); a.Verdict != answers.Holds || len(a.Fixes) > 0 {
		t.Errorf("fixed to the wall: %v, %d fixes", a.Verdict, len(a.Fixes))
	}
	a, s := stood(t, examples.CorridorCabinet, "stand: { width: 900 mm, depth: 450 mm, weight: 34 kg, feet: 4, foot: 50 mm, inset: 0 mm, carries-sump: yes, fixed: yes }\n", "")
	if len(a.Fixes) == 0 || a.Fixes[0].Verdict != answers.Holds || s.E.Design.Stand.Given() {
		t.Errorf("no stand: %+v", a.Fixes)
	}
	for _, f := range a.Fixes {
		if len(f.Edits) > 0 || !strings.Contains(f.Do, "write it into the file yourself: "+noStand) {
			t.Errorf("a stand that nobody measured is written: %q", f.Do)
		}
	}
}
