package rillwright

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/examples"
	"rillwright/fixes"
	"rillwright/internal/trial"
	"rillwright/seek"
)

// weakPump is the first demo with a pump that is too weak, so that the drawn design is
// not the answer.
func weakPump(t testing.TB) []byte {
	return trial.Swap(t, examples.CorridorCabinet, "label: { flow: 1200 L/h, head: 2.4 m }", "label: { flow: 700 L/h, head: 1.9 m }")
}

func sought(t *testing.T, data []byte, open []string, o seek.Options) (*seek.Result, *Report) {
	t.Helper()
	res, r, err := Seek(context.Background(), "wall.yaml", data, nil, 0, open, o)
	if err != nil || r.Findings.HasErrors() {
		t.Fatalf("%v, %v", err, r.Findings)
	}
	return res, r
}

// Every design of a small space, written into the file and answered by the whole chain:
// none that costs less than the one that was found holds, and that one does.
func TestSeekAgainstAll(t *testing.T) {
	if testing.Short() {
		t.Skip("computes several designs whole")
	}
	data := weakPump(t)
	open := []string{"pump", "sump.water.level=125 mm"}
	for _, goal := range []seek.Goal{seek.Cheapest, seek.FewestBuys} {
		res, r := sought(t, data, open, seek.Options{Goal: goal, Leave: []string{"even[drip bar]"}})
		if res.Best == nil || !res.Proven {
			t.Fatalf("goal %d: %+v", goal, res)
		}
		drawn := map[string]answers.Verdict{}
		for _, a := range r.Answers {
			drawn[a.ID] = a.Verdict
		}
		water := map[string]bool{}
		for _, a := range r.Survey.Water() {
			water[a.ID] = true
		}
		// may is what the documentation of package seek says of each level, said anew.
		may := func(id string) answers.Verdict {
			switch {
			case id == "even[drip bar]":
				return answers.Fails
			case water[id] && res.Let == seek.Strict:
				return answers.Holds
			case water[id] && res.Let == seek.AllTight:
				return answers.Tight
			case water[id]:
				return min(drawn[id], answers.Tight)
			case res.Let == seek.Strict:
				return drawn[id]
			}
			return max(drawn[id], answers.Tight)
		}
		type one struct{ first, cost float64 }
		best, bestHolds := one{math.Inf(1), math.Inf(1)}, false
		var of one
		for i := range res.Slots[0].Choices {
			for k := range res.Slots[1].Choices {
				f := seek.Found{Choice: []int{i, k}}
				edits, _ := r.Design.Replanned(res.Edits(&f))
				text, err := design.Apply(data, edits)
				if err != nil {
					t.Fatal(err)
				}
				rep, err := Build("wall.yaml", text, Options{NoFixes: true, Structure: true, Faults: MainFaults})
				if err != nil {
					t.Fatal(err)
				}
				holds := !rep.Findings.HasErrors()
				for _, a := range rep.Answers {
					holds = holds && (a.ID == "pump-size" && a.Verdict <= max(drawn[a.ID], answers.Tight) || a.Verdict <= may(a.ID))
				}
				c, d := &res.Slots[0].Choices[i], &res.Slots[1].Choices[k]
				this := one{0, c.Cost + d.Cost}
				if goal == seek.FewestBuys && c.Trip {
					this.first = 1
				}
				if slices.Equal(res.Best.Choice, f.Choice) {
					of, bestHolds = this, holds
				}
				if holds && (this.first < best.first || this.first == best.first && this.cost < best.cost) {
					best = this
				}
			}
		}
		if !bestHolds || of != best {
			t.Errorf("goal %d: found %v (holds: %t) of %v, the best of all is %v", goal, of, bestHolds, res.Best.Choice, best)
		}
		if res.Best.Choice[0] == 0 {
			t.Errorf("goal %d: the weak pump is kept", goal)
		}
	}
}

// However many work side by side, the same is found, by the same count.
func TestSeekWorkers(t *testing.T) {
	if testing.Short() {
		t.Skip("computes several designs whole")
	}
	for _, o := range []seek.Options{{}, {Front: true}} {
		one, _ := sought(t, weakPump(t), []string{"pump", "holes"}, o)
		o.Workers = 3
		three, _ := sought(t, weakPump(t), []string{"pump", "holes"}, o)
		if diff := cmp.Diff(one, three, cmpopts.IgnoreFields(seek.Result{}, "Took", "Slots"), cmpopts.IgnoreUnexported(seek.Found{}), cmpopts.EquateNaNs(), cmp.Comparer(func(a, b answers.Answer) bool { return a.ID == b.ID && a.Verdict == b.Verdict })); diff != "" {
			t.Error(diff)
		}
		if o.Front {
			front := one.Front
			for i := 1; i < len(front); i++ {
				if front[i].Cost < front[i-1].Cost || front[i].Margin <= front[i-1].Margin {
					t.Errorf("the front goes from %g, %g to %g, %g", front[i-1].Cost, front[i-1].Margin, front[i].Cost, front[i].Margin)
				}
			}
			if len(front) == 0 || one.Decided > one.Space {
				t.Errorf("%d designs on the front, %d of %d decided", len(front), one.Decided, one.Space)
			}
		}
	}
}

// A search that is stopped, or that may look at few designs only, says so and promises
// nothing.
func TestSeekStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	res, _, err := Seek(ctx, "wall.yaml", weakPump(t), nil, 0, []string{"pump", "holes", "outlets"}, seek.Options{Progress: func(int, int) { stop() }})
	if err != nil || res.Proven || res.Decided >= res.Space || res.Decided == 0 {
		t.Errorf("stopped: %v, %+v", err, res)
	}
	few, _ := sought(t, weakPump(t), []string{"pump", "holes", "outlets"}, seek.Options{Most: 20})
	if few.Proven || few.Decided != 20 || few.Best != nil || few.Least <= 0 {
		t.Errorf("of 20: %+v", few)
	}
	for _, f := range few.Slots[0].Choices {
		if f.Do == "" || !(f.Cost >= 0) {
			t.Errorf("%+v", f)
		}
	}
}

// Every choice that is offered can be written, and reads without an error.
func TestInsteadReads(t *testing.T) {
	for name, data := range map[string][]byte{"demo": examples.CorridorCabinet, "demo-us": examples.CounterWall} {
		r, err := Build(name, data, Options{NoFixes: true})
		if err != nil {
			t.Fatal(err)
		}
		offered := 0
		for _, word := range fixes.InsteadWords() {
			list, ok := fixes.InsteadOf(r.Enclosure, r.Enclosure.Parts, word)
			if !ok || len(list) == 0 || len(list[0].Edits) != 0 {
				t.Errorf("%s: %s is not known, or does not begin with what is drawn", name, word)
			}
			if len(list) > 1 {
				offered++
			}
			for _, c := range list {
				edits, ok := r.Design.Replanned(c.Edits)
				text, err := design.Apply(data, edits)
				if err != nil || !ok {
					t.Errorf("%s: %s: %v", name, c.Do, err)
					continue
				}
				if _, found := design.Read(name, text); found.HasErrors() {
					t.Errorf("%s: %s: %v", name, c.Do, found)
				}
			}
		}
		if offered < 7 {
			t.Errorf("%s: only %d things can be left open", name, offered)
		}
	}
}

// Hose on hand costs nothing, its fittings apart; of too short a piece it does.
func TestSeekStockOnHand(t *testing.T) {
	cost := func(stock string) (drawn, thinner float64, do string) {
		t.Helper()
		data := trial.Swap(t, examples.CorridorCabinet, "  - { what: vinyl hose 16 mm, count: 1, size: 3 m }", stock)
		r, err := Build("wall.yaml", data, Options{NoFixes: true})
		if err != nil {
			t.Fatal(err)
		}
		list, _ := fixes.InsteadOf(r.Enclosure, r.Enclosure.Parts, "hose")
		for _, c := range list {
			if strings.HasPrefix(c.Do, "vinyl hose 12 mm") {
				return list[0].Cost, c.Cost, c.Do
			}
		}
		t.Fatal("no hose of 12 mm")
		return 0, 0, ""
	}
	none, bought, _ := cost("  - { what: string, count: 1 }")
	if drawn, thinner, do := cost("  - { what: vinyl hose 16 mm, count: 1, size: 3 m }\n  - { what: vinyl hose 12 mm, count: 2, size: 2 m }"); drawn != 0 || none == 0 || thinner >= bought || !strings.Contains(do, "on hand") {
		t.Errorf("drawn %g of %g, thinner %g of %g: %s", drawn, none, thinner, bought, do)
	}
	if drawn, thinner, _ := cost("  - { what: vinyl hose 16 mm, count: 1, size: 2 m }"); drawn != none || thinner != bought {
		t.Errorf("too short: drawn %g of %g, thinner %g of %g", drawn, none, thinner, bought)
	}
}

// A space like the one that is asked for: pumps, hoses, drains and plans of outlets.
func BenchmarkSeek(b *testing.B) {
	for b.Loop() {
		res, r, err := Seek(context.Background(), "wall.yaml", weakPump(b), nil, 0, []string{"pump", "hose", "drain", "outlets", "holes"}, seek.Options{Workers: 2})
		if err != nil || r.Findings.HasErrors() {
			b.Fatal(err)
		}
		b.ReportMetric(float64(res.Space), "designs")
		b.ReportMetric(float64(res.Decided), "decided")
	}
}
