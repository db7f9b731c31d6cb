// Package fixes tries changes to an enclosure, runs the study and the answers
// again and keeps what helps: cheapest first, with the effect computed and what
// it breaks elsewhere. Nothing is called a fix unless its answer came out better
// when computed with it.
package fixes

import (
	"cmp"
	"slices"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
)

// most is how many fixes an answer keeps.
const most = 4

// change is a fix before it is tried.
type change struct {
	do    string // what to do, in the builder's words
	edit  string // the field of the design file and its new text
	edits []design.Edit
	// byHand tells why there are no edits: something is the builder's to choose.
	byHand string
	cost   cost
	apply  func(e *enclosure.Enclosure) bool
	// anew says that doubts may act the other way round with it.
	anew bool
	// bends says that panes bend otherwise with it, wets that the water stands or flows
	// otherwise too.
	bends, wets bool
	// stands says that it is about how it stands: nothing else is tried against tipping.
	stands bool
	// after, if given, is said in place of the figure with it.
	after string
}

// Find fills in the fixes of every answer that does not hold. First every
// change is tried on the answers that ask for it alone, then those that help
// most cheaply are tried on all the others. Stop, if not nil, is asked before each
// change is tried, from several goroutines at once; an error of it ends the work
// and is returned, and the fixes found so far are then not all there are.
func Find(s *answers.Survey, cat *catalogue.Catalogue, list []answers.Answer, stop func() error) error {
	f := &finder{s: s, cat: cat, base: map[string]answers.Answer{}, stop: stop}
	for i := range list {
		f.base[list[i].ID] = list[i]
	}
	var tries []*try
	byWhat := map[string]*try{}
	for i := range list {
		a := &list[i]
		if a.Verdict != answers.Tight && a.Verdict != answers.Fails {
			continue
		}
		if err := f.stopped(); err != nil {
			return err // to size a change takes states too
		}
		for _, c := range f.candidates(a) {
			// Several answers may ask for the same change.
			t := byWhat[c.do]
			if t == nil {
				t = &try{change: c}
				byWhat[c.do] = t
				tries = append(tries, t)
			}
			t.effects = append(t.effects, &effect{try: t, answer: i})
		}
	}
	if err := f.each(len(tries), func(k int) { f.alone(tries[k], list) }); err != nil {
		return err
	}
	var kept []*effect
	for i := range list {
		kept = append(kept, best(tries, i, keep(&list[i]))...)
	}
	var needed []*try
	for _, e := range kept {
		if !e.try.needed {
			e.try.needed = true
			needed = append(needed, e.try)
		}
	}
	if err := f.each(len(needed), func(k int) { needed[k].after = needed[k].survey.Water() }); err != nil {
		return err
	}
	for _, e := range kept {
		a := &list[e.answer]
		e.fix.Breaks = f.breaks(e.try.after, a)
		a.Fixes = append(a.Fixes, e.fix)
	}
	if err := f.together(tries, list); err != nil {
		return err
	}
	for i := range list {
		slices.SortStableFunc(list[i].Fixes, inOrder)
		// Where something else helps, what wrecks another answer is no fix.
		if n := slices.IndexFunc(list[i].Fixes, fails); n > 0 {
			list[i].Fixes = list[i].Fixes[:n]
		}
	}
	return nil
}

// stopped tells why the work is to end, nil if it is not.
func (f *finder) stopped() error {
	if f.stop == nil {
		return nil
	}
	return f.stop()
}

// each tries n changes at once, none any more after stop.
func (f *finder) each(n int, try func(k int)) error {
	errs := make([]error, n)
	answers.InParallel(n, func(k int) {
		if errs[k] = f.stopped(); errs[k] == nil {
			try(k)
		}
	})
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

type finder struct {
	s    *answers.Survey
	cat  *catalogue.Catalogue
	base map[string]answers.Answer
	stop func() error // may be nil
	// Finding how far to close a valve takes several states: it is done once.
	throttling     []change
	throttlingDone bool
}

// try is a change and what it did.
type try struct {
	change  change
	effects []*effect // on the answers that ask for it
	survey  *answers.Survey
	needed  bool
	after   []answers.Answer
}

// effect is what a change did to one answer.
type effect struct {
	try    *try
	answer int
	helps  bool
	score  float64 // of the answer with it
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

// alone tries a change on the answers that ask for it.
func (f *finder) alone(t *try, list []answers.Answer) {
	e := f.s.E.Clone()
	if !t.change.apply(e) {
		return
	}
	s, err := f.s.Again(e, t.change.anew)
	if err != nil {
		return
	}
	t.survey = s
	defer func() {
		if s.Err() != nil { // a state that could not be found proves nothing
			for _, x := range t.effects {
				x.helps = false
			}
		}
	}()
	for _, x := range t.effects {
		now, ok := s.One(list[x.answer].ID)
		was, known := f.base[now.ID]
		if !ok || !known {
			continue
		}
		x.helps = now.Verdict < was.Verdict || now.Verdict == was.Verdict && now.Score > was.Score+0.02
		x.score = now.Score
		x.fix = f.fix(&t.change)
		x.fix.Verdict, x.fix.Before, x.fix.After = now.Verdict, headline(&was), headline(&now)
		// What cannot be seen in the figure is no help.
		x.helps = x.helps && x.fix.Before != x.fix.After
	}
}

// breaks lists the answers besides one that come out worse after a change.
func (f *finder) breaks(after []answers.Answer, a *answers.Answer) []answers.Break {
	var out []answers.Break
	for _, b := range after {
		if was, ok := f.base[b.ID]; ok && b.ID != a.ID && b.Verdict > was.Verdict {
			out = append(out, answers.Break{ID: b.ID, Question: b.Question, Verdict: b.Verdict})
		}
	}
	return out
}

// best returns the effects that help an answer, best first, at most n.
func best(tries []*try, answer, n int) []*effect {
	var out []*effect
	for _, t := range tries {
		for _, e := range t.effects {
			if e.answer == answer && e.helps {
				out = append(out, e)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y *effect) int { return inOrder(x.fix, y.fix) })
	return out[:min(n, len(out))]
}

// inOrder puts first what mends the answer wholly and breaks nothing, then what
// helps and breaks nothing, then what makes another answer tight, last what makes
// one fail; among equals the cheapest.
func inOrder(x, y answers.Fix) int {
	return cmp.Or(cmp.Compare(rank(x), rank(y)), byCost(x, y), cmp.Compare(x.Verdict, y.Verdict))
}

func rank(f answers.Fix) int {
	switch {
	case fails(f):
		return 3
	case len(f.Breaks) > 0:
		return 2
	case f.Verdict == answers.Holds:
		return 0
	}
	return 1
}

// fails reports whether a fix makes another answer fail.
func fails(f answers.Fix) bool {
	return slices.ContainsFunc(f.Breaks, func(b answers.Break) bool { return b.Verdict == answers.Fails })
}

// headline is the figure that an answer turns on.
func headline(a *answers.Answer) string {
	if a.Key < len(a.Figures) {
		return a.Figures[a.Key].Text
	}
	return a.Verdict.String()
}
