// Package fixes tries changes to an enclosure, runs the study and the answers
// again and keeps what helps: cheapest first, with the effect computed and what
// it breaks elsewhere. Nothing is called a fix unless its answer came out better
// when computed with it.
package fixes

import (
	"cmp"
	"fmt"
	"slices"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// most is how many fixes an answer keeps.
const most = 4

// change is a fix before it is tried.
type change struct {
	do     string  // what to do, in the builder's words
	edit   string  // the field of the design file and its new text
	cost   string  // what it costs, in words
	weight float64 // rank: money as a number, 0 for nothing
	apply  func(e *enclosure.Enclosure) bool
	// anew says that doubts may act the other way round with it.
	anew bool
}

// Find fills in the fixes of every answer that does not hold. First every
// change is tried on its own answer alone, then those that help most cheaply
// are tried on all the others.
func Find(s *answers.Survey, cat *catalogue.Catalogue, list []answers.Answer) {
	f := &finder{s: s, cat: cat, base: map[string]answers.Answer{}}
	for i := range list {
		f.base[list[i].ID] = list[i]
	}
	var trials []*trial
	for i := range list {
		a := &list[i]
		if a.Verdict != answers.Tight && a.Verdict != answers.Fails {
			continue
		}
		for _, c := range f.candidates(a) {
			trials = append(trials, &trial{change: c, answer: i})
		}
	}
	answers.InParallel(len(trials), func(k int) { f.alone(trials[k], &list[trials[k].answer]) })
	var kept []*trial
	for i := range list {
		kept = append(kept, best(trials, i, keep(&list[i]))...)
	}
	answers.InParallel(len(kept), func(k int) { f.others(kept[k], &list[kept[k].answer]) })
	for _, t := range kept {
		a := &list[t.answer]
		a.Fixes = append(a.Fixes, t.fix)
	}
	for i := range list {
		slices.SortStableFunc(list[i].Fixes, inOrder)
	}
}

type finder struct {
	s    *answers.Survey
	cat  *catalogue.Catalogue
	base map[string]answers.Answer
}

// trial is a change tried for one answer.
type trial struct {
	change change
	answer int
	survey *answers.Survey
	helps  bool
	fix    answers.Fix
}

// keep is how many fixes an answer keeps: the pump's size shows the first only,
// the others stand with the flow.
func keep(a *answers.Answer) int {
	if a.ID == "pump-size" {
		return 1
	}
	return most
}

// alone tries a change on the answer that asks for it.
func (f *finder) alone(t *trial, a *answers.Answer) {
	e := f.s.E.Clone()
	if !t.change.apply(e) {
		return
	}
	s, err := f.s.Again(e, t.change.anew)
	if err != nil {
		return
	}
	now, ok := s.One(a.ID)
	was, known := f.base[now.ID]
	if !ok || !known {
		return
	}
	t.survey = s
	t.helps = now.Verdict < was.Verdict || now.Verdict == was.Verdict && now.Score > was.Score+0.02
	t.fix = answers.Fix{
		Do: t.change.do, Change: t.change.edit, Cost: t.change.cost, Weight: t.change.weight,
		Verdict: now.Verdict, Before: headline(&was), After: headline(&now),
	}
}

// others finds what a change breaks elsewhere.
func (f *finder) others(t *trial, a *answers.Answer) {
	for _, b := range t.survey.Water() {
		if was, ok := f.base[b.ID]; ok && b.ID != a.ID && b.Verdict > was.Verdict {
			t.fix.Breaks = append(t.fix.Breaks, fmt.Sprintf("%s %s", b.Question, b.Verdict))
		}
	}
	t.survey = nil
}

// best returns the trials that help an answer, best first, at most n.
func best(trials []*trial, answer, n int) []*trial {
	var out []*trial
	for _, t := range trials {
		if t.answer == answer && t.helps {
			out = append(out, t)
		}
	}
	slices.SortStableFunc(out, func(x, y *trial) int { return inOrder(x.fix, y.fix) })
	return out[:min(n, len(out))]
}

// inOrder puts first what breaks nothing, then what mends the answer wholly,
// then the cheapest.
func inOrder(x, y answers.Fix) int {
	return cmp.Or(
		cmp.Compare(broken(x), broken(y)),
		cmp.Compare(x.Verdict, y.Verdict),
		cmp.Compare(x.Weight, y.Weight))
}

func broken(f answers.Fix) int { return min(len(f.Breaks), 1) }

// headline is the figure that an answer turns on.
func headline(a *answers.Answer) string {
	if a.Key < len(a.Figures) {
		return a.Figures[a.Key].Text
	}
	return a.Verdict.String()
}

// price says what a part costs, length metres of it if it is sold by length.
func price(p *catalogue.Part, length float64) (string, float64) {
	if !p.Price.Given() {
		return "price not known", 20
	}
	n := 1.0
	switch p.Price.Per {
	case "m":
		n = length
	case "ft":
		n = length / 0.3048
	}
	low, high := p.Price.Low*n, p.Price.High*n
	return fmt.Sprintf("about %.0f to %.0f %s", low, high, p.Price.Currency), (low + high) / 2
}

func money(m quantity.Money) (string, float64) {
	if m.Currency == "" {
		return "price not given", 30
	}
	return m.Show(quantity.Metric), m.Amount
}
