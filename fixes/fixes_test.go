package fixes

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// surveyed answers everything about a demo, with pieces of its text replaced,
// before any fix is looked for.
func surveyed(tb testing.TB, data []byte, pairs ...string) (*finder, []answers.Answer) {
	tb.Helper()
	d, cat := trial.Read(tb, trial.Swap(tb, data, pairs...))
	e, list := enclosure.Resolve(d, cat, nil)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	survey, err := answers.NewSurvey(e)
	if err != nil {
		tb.Fatal(err)
	}
	all := survey.All(cat)
	f := &finder{s: survey, cat: cat, base: map[string]answers.Answer{}}
	for i := range all {
		f.base[all[i].ID] = all[i]
	}
	return f, all
}

func designs() map[string][]string {
	const metric, us = "metric", "us"
	return map[string][]string{
		"metric":       {metric},
		"us":           {us},
		"weak pump":    {metric, "flow: 1200 L/h, head: 2.4 m", "flow: 800 L/h, head: 1.8 m"},
		"shut valve":   {us, "open: 60 %", "open: 0 %"},
		"end-fed":      {metric, "feed: centre", "feed: left", "hole: 2.0 mm", "hole: 3.5 mm"},
		"not vented":   {us, "vented: yes", "vented: no"},
		"strong pump":  {us, "350 US gal/h, head: 8 ft", "1200 US gal/h, head: 14 ft", "open: 60 %", "open: 100 %"},
		"narrow drain": {us, "bulkhead 3/4 in", "bulkhead 1/2 in", "pipe 3/4 in sch", "pipe 1/2 in sch", "solvent 3/4 in", "solvent 1/2 in", "strainer 3/4 in", "strainer 1/2 in"},
	}
}

func demo(name string) []byte {
	if name == "us" {
		return examples.CounterWall
	}
	return examples.CorridorCabinet
}

// A change is tried with the senses found before it. Surveyed anew, every change
// that could be tried gives its answer the same verdict and, within 2 % of the band's
// larger end, the same figure. The widest gap is 1.1 %: with a pump that barely
// lifts, warmer water gives more where before it gave less, and a doubt near the
// point where it turns round moves little either way.
func TestTriedAsSurveyed(t *testing.T) {
	for name, pairs := range designs() {
		f, list := surveyed(t, demo(pairs[0]), pairs[1:]...)
		tried := 0
		for i := range list {
			id := list[i].ID
			for _, c := range f.candidates(&list[i]) {
				e := f.s.E.Clone()
				if !c.apply(e) {
					continue
				}
				quick, err := f.s.Again(e, c.anew)
				if err != nil {
					t.Errorf("%s: %q: %v", name, c.do, err)
					continue
				}
				full, err := answers.NewSurvey(e)
				if err != nil {
					t.Fatal(err)
				}
				have, ok := quick.One(id)
				want, _ := full.One(id)
				if !ok {
					continue
				}
				tried++
				if have.Verdict != want.Verdict {
					t.Errorf("%s, %s: %q: tried %v, surveyed %v", name, id, c.do, have.Verdict, want.Verdict)
				}
				h, w := have.Figures[have.Key], want.Figures[want.Key]
				for k, d := range []float64{h.Low - w.Low, h.Likely - w.Likely, h.High - w.High} {
					if math.Abs(d) > 0.02*max(math.Abs(w.Low), math.Abs(w.High)) {
						t.Errorf("%s, %s: %q: end %d: tried %s, surveyed %s", name, id, c.do, k, h.Text, w.Text)
					}
				}
			}
		}
		if tried == 0 {
			t.Errorf("%s: nothing was tried", name)
		}
	}
}

// What Find reports makes its answer better, is told with its cost, and says
// what it breaks; an answer that holds gets none.
func TestFind(t *testing.T) {
	for name, pairs := range designs() {
		f, list := surveyed(t, demo(pairs[0]), pairs[1:]...)
		if err := Find(f.s, f.cat, list, nil); err != nil {
			t.Fatal(err)
		}
		for _, a := range list {
			if a.Verdict == answers.Holds && len(a.Fixes) > 0 || len(a.Fixes) > most {
				t.Errorf("%s, %s %v: %d fixes", name, a.ID, a.Verdict, len(a.Fixes))
			}
			for _, x := range a.Fixes {
				// A larger pump is judged by the flow it gives.
				if was := f.base[a.ID].Verdict; a.ID != "pump-size" && x.Verdict > was {
					t.Errorf("%s, %s: %q turns %v into %v", name, a.ID, x.Do, was, x.Verdict)
				}
				if x.Do == "" || x.Change == "" || x.Cost == "" || x.Before == "" || x.After == "" {
					t.Errorf("%s, %s: %+v", name, a.ID, x)
				}
			}
		}
	}
}

// A drain one size up is one size all the way, known no better than the
// catalogue knows it: hardly any pipe has the bore on its label.
func TestGrownDrain(t *testing.T) {
	f, _ := surveyed(t, examples.CorridorCabinet)
	e := f.s.E.Clone()
	next, ok := f.cat.NextBore(e.Drains[0].Part, true)
	if !ok || next.Size.Text != "1 1/2 in" {
		t.Fatal(next.Name)
	}
	f.grow(e, &e.Drains[0], next)
	for _, p := range e.Drains[0].Pieces {
		if !strings.Contains(p.Name, "1 1/2 in") {
			t.Errorf("a %s on a bulkhead of 1 1/2 in", p.Name)
		}
		if _, ok := p.Bore.Doubt(); !ok {
			t.Errorf("the bore of the %s is not in doubt", p.Name)
		}
	}
	if e.Drains[0].Standpipe.Size.Text != "1 1/2 in" {
		t.Errorf("standpipe %s", e.Drains[0].Standpipe.Name)
	}
	if _, ok := e.Drains[0].Bulkhead.Doubt(); !ok {
		t.Error("a bulkhead nobody measured is not in doubt")
	}
	if f.s.E.Drains[0].Part.Name != "bulkhead 1 in" {
		t.Error("the original changed")
	}
}

// Closing a valve aims at the flow wanted: within what a step of 2 % of the
// valve gives.
func TestThrottleMeetsTarget(t *testing.T) {
	f, _ := surveyed(t, examples.CounterWall, "open: 60 %", "open: 100 %")
	list := f.throttle()
	if len(list) != 1 {
		t.Fatalf("%d ways to throttle", len(list))
	}
	e := f.s.E.Clone()
	list[0].apply(e)
	q, err := f.s.LikelyFlow(e)
	if err != nil {
		t.Fatal(err)
	}
	if target := f.s.Target(); q < target*0.98 || q > target*1.1 {
		t.Errorf("%q gives %g, wanted %g m3/s", list[0].do, q, target)
	}
}
