package works

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/schedule"
	"rillwright/structure/cure"
)

// Builder and Helper are the resources that steps need: the builder for all, the
// helper for steps of two people.
const (
	Builder = "builder"
	Helper  = "helper"
)

// Thing is something that is built: a hole, a pane, a layer of foam.
type Thing struct {
	Name  string
	Clock *cure.Clock // of its slowest sealant, if it has any
	By    string      // which joint that is
	Spot  [2]float64  // width and height of the spots by which a grid is bonded, m; 0 if they are not known
}

// Things are the things of a design by kind, see Kinds.
type Things map[string][]Thing

// Step is one step of a design.
type Step struct {
	Task  schedule.Task
	Rule  *Rule
	Say   string
	Thing Thing
	// Because says why it comes after each of its causes, by Task.After.
	Because []string
	// ByCure says that the sealant's way to the air, not practice, sets the wait.
	ByCure bool
}

// waits says whether nobody does a step: it stands until what went before it bears.
func (s *Step) waits() bool { return s.Task.Work.High == 0 && s.Rule.ID != delivered }

// Steps makes a step of every rule for every thing that it is about. Between rules
// about the same kind each thing waits for its own step alone: a hole for the look at
// its own pane. A rule that a design has no thing for hands its causes on to what
// comes after it.
func Steps(rules []Rule, things Things) []Step {
	var out []Step
	made := map[string][]because{} // by rule: its steps, or those of its causes
	each := map[string]string{}
	for i := range rules {
		u := &rules[i]
		each[u.ID] = u.Each
		own := func(b Before) bool { return each[b.Rule] == u.Each && len(things[u.Each]) > 1 }
		var after []because
		for _, b := range u.After {
			if own(b) {
				continue
			}
			for _, c := range made[b.Rule] {
				if c.Work = b.Work || c.Work; len(things[each[b.Rule]]) > 0 {
					c.why = b.Why
				}
				after = join(after, c)
			}
		}
		if len(things[u.Each]) == 0 {
			for k := range after {
				after[k].why = ""
			}
			made[u.ID] = after
			continue
		}
		used := map[string]int{}
		for k, thing := range things[u.Each] {
			s := Step{Rule: u, Thing: thing, Say: u.Say}
			if strings.Contains(u.Say, "%s") {
				s.Say = fmt.Sprintf(u.Say, thing.Name)
			}
			id := u.ID
			if len(things[u.Each]) > 1 {
				id += ": " + thing.Name
				if used[id]++; used[id] > 1 {
					id += fmt.Sprintf(" (%d)", used[id])
				}
			}
			s.Task = schedule.Task{ID: id, Work: u.Work, Wait: u.Wait, Whole: u.Whole}
			causes := slices.Clone(after)
			for _, b := range u.After {
				if own(b) {
					causes = join(causes, because{schedule.Cause{Task: made[b.Rule][k].Task, Work: b.Work}, b.Why})
				}
			}
			// Layers of one body lie on each other.
			if u.Each == "layer" && k > 0 {
				causes = join(causes, because{schedule.Cause{Task: out[len(out)-1].Task.ID}, "layers of one body lie on each other"})
			}
			for _, c := range causes {
				s.Task.After, s.Because = append(s.Task.After, c.Cause), append(s.Because, c.why)
			}
			if u.Work.High > 0 {
				s.Task.Needs = []schedule.Need{{Resource: Builder}}
				if u.Hands > 1 {
					s.Task.Needs = append(s.Task.Needs, schedule.Need{Resource: Helper})
				}
			}
			if c := thing.Clock; u.Cure && c != nil {
				s.ByCure = c.Water.Likely > u.Wait.Likely
				w := &s.Task.Wait
				w.Low, w.Likely, w.High = max(w.Low, c.Water.Low), max(w.Likely, c.Water.Likely), max(w.High, c.Water.High)
			}
			made[u.ID] = append(made[u.ID], because{Cause: schedule.Cause{Task: id}})
			out = append(out, s)
		}
	}
	return out
}

// because is a cause with the reason for it. One that a rule without things hands on
// has none: it was about those things.
type because struct {
	schedule.Cause
	why string
}

// join adds a cause; where one stands twice the stricter is kept.
func join(list []because, c because) []because {
	for i := range list {
		if list[i].Task == c.Task {
			if list[i].Work = list[i].Work && c.Work; list[i].why == "" {
				list[i].why = c.why
			}
			return list
		}
	}
	return append(list, c)
}
