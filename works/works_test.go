package works

import (
	"slices"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

func steps(t testing.TB, file []byte, air cure.Air) []Step {
	t.Helper()
	rules, err := Read(Usual())
	if err != nil {
		t.Fatal(err)
	}
	e := trial.Resolved(t, file, enclosure.Resolve)
	things, err := Find(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), Steady(air))
	if err != nil {
		t.Fatal(err)
	}
	return Steps(rules, things)
}

// What is there makes steps, what is not makes none, and order goes through it.
func TestStepsFollowTheDesign(t *testing.T) {
	list := steps(t, examples.CorridorCabinet, cure.Usual())
	count := map[string]int{}
	after := map[string][]schedule.Cause{}
	for _, s := range list {
		count[s.Rule.ID]++
		after[s.Task.ID] = s.Task.After
		if strings.Contains(s.Say, "%") || s.Rule.Mark == "" {
			t.Errorf("%s: %q, %q", s.Task.ID, s.Say, s.Rule.Mark)
		}
	}
	for id, want := range map[string]int{"drill": 2, "temper": 2, "arris": 1, "bond": 1, "dam": 1, "foam": 2, "coat": 1, "cut-grid": 1, "animals": 0, "order": 1, "leak-test": 1, "quarantine": 2} {
		if count[id] != want {
			t.Errorf("%s: %d steps, not %d", id, count[id], want)
		}
	}
	rules, _ := Read(Usual())
	bare := Steps(rules, Things{"build": {{Name: "bare"}}, "hole": {{Name: "one"}}})
	for _, s := range bare {
		if s.Task.ID == "leak-test" && (len(s.Task.After) != 1 || s.Task.After[0].Task != "drill") {
			t.Errorf("without joints the leak test comes after %v", s.Task.After)
		}
		if s.Task.ID == "wet-run" && (len(s.Task.After) != 1 || s.Task.After[0].Task != "leak-test") {
			t.Errorf("without a grid the wet run comes after %v", s.Task.After)
		}
	}
}

func TestRulesThatCannotBe(t *testing.T) {
	head := strings.Join(columns, ",") + "\n"
	for name, c := range map[string][2]string{
		"other columns": {"id,each\n", "fields"},
		"other names":   {strings.Replace(head, "say", "said", 1), "first line"},
		"no kind":       {head + "a,roof,Do,,,,,1,no,1,0,no,assumed,no,\n", "line 2: each"},
		"three hands":   {head + "a,build,Do,,,,,3,no,1,0,no,assumed,no,\n", "hands"},
		"falling":       {head + "a,build,Do,,,,,1,no,3 2 1,0,no,assumed,no,\n", "work"},
		"two figures":   {head + "a,build,Do,,,,,1,no,1,1 2,no,assumed,no,\n", "wait"},
		"not below":     {head + "a,build,Do,b,,,,1,no,1,0,no,assumed,no,\nb,build,Do,,,,,1,no,1,0,no,assumed,no,\n", "does not stand above"},
		"twice":         {head + "a,build,Do,,,,,1,no,1,0,no,assumed,no,\na,build,Do,,,,,1,no,1,0,no,assumed,no,\n", "twice"},
		"maybe":         {head + "a,build,Do,,,,,1,maybe,1,0,no,assumed,no,\n", "whole"},
		"no cause":      {head + "a,build,Do,,,,,1,no,1,0,no,assumed,no,\nb,build,Do,a,it must; c: it helps,,,1,no,1,0,no,assumed,no,\n", "line 3: why \"c: it helps\""},
		"two names":     {head + "a,build,%s %s,,,,,1,no,1,0,no,assumed,no,\n", "say"},
	} {
		if _, err := Read(c[0]); err == nil || !strings.Contains(err.Error(), c[1]) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Each cause of each step has a reason of its own. What a design has not hands its
// causes on without its reasons, which were about it.
func TestEveryCauseHasItsReason(t *testing.T) {
	rules, err := Read(Usual())
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range rules {
		seen := map[string]bool{u.Why: true}
		for _, b := range u.After {
			if b.Why == "" || seen[b.Why] {
				t.Errorf("%s after %s: %q", u.ID, b.Rule, b.Why)
			}
			seen[b.Why] = true
		}
	}
	w := demo(t, examples.CorridorCabinet)
	_, lines, err := Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	for i := range lines {
		causes := 0
		for _, r := range lines[i].After {
			if causes += len(r.Steps); r.Why == "" {
				t.Errorf("%s after %v: no reason", lines[i].ID, r.Steps)
			}
		}
		if s := w.Steps[slices.IndexFunc(w.Steps, func(s Step) bool { return s.Task.ID == lines[i].ID })]; causes != len(s.Task.After) {
			t.Errorf("%s: %d of %d causes", s.Task.ID, causes, len(s.Task.After))
		}
		if l := &lines[i]; l.ID == "drill: riser hole" && l.Since() != "arris: bare edges of thin glass chip beside a drill; temper: a toughened pane bursts; fittings: a hole follows the thread of its fitting" {
			t.Error(l.Since())
		}
	}
	bare := Steps(rules, Things{"build": {{Name: "bare"}}, "hole": {{Name: "one"}}})
	for _, s := range bare {
		if s.Task.ID == "wet-run" && strings.Join(s.Because, "; ") != "a leak is not found on a wet wall" {
			t.Errorf("the wet run comes after %v: %v", s.Task.After, s.Because)
		}
	}
}
