package answers

import (
	"errors"
	"math"
	"slices"
	"sync"

	"rillwright/design"
	"rillwright/study"
)

// livingFix is a change to try.
type livingFix struct {
	Fix

	helps []string // answers it may help
	// apply makes the change in a design whose lists it may not write into.
	apply func(*design.Design)
}

// triedLiving is what comes of a change.
type triedLiving struct {
	airs  []Answer
	light Answer
	lit   bool // the light was asked for anew
}

// fixes tries changes for the answers that are tight or fail, all of them again: those
// about the air and, where a lamp is changed, about the light.
func (l *living) fixes(base *air, airs []Answer, light *Answer, lightKey string, stop func() error) error {
	wants := func(f *livingFix, list ...Answer) bool {
		return slices.ContainsFunc(list, func(a Answer) bool {
			return (a.Verdict == Tight || a.Verdict == Fails) && slices.Contains(f.helps, a.ID)
		})
	}
	var tries []livingFix
	for _, f := range l.candidates() {
		if wants(&f, airs...) || wants(&f, *light) {
			tries = append(tries, f)
		}
	}
	after, errs := make([]*triedLiving, len(tries)), make([]error, len(tries))
	var once sync.Mutex
	InParallel(len(tries), func(i int) {
		if stop != nil {
			once.Lock()
			errs[i] = stop()
			once.Unlock()
		}
		if errs[i] == nil {
			after[i] = l.try(&tries[i], base, airs, light, lightKey)
		}
	})
	if err := errors.Join(errs...); err != nil {
		return err
	}
	for i := range airs {
		l.helps(&airs[i], i, tries, after, airs, light)
	}
	l.helps(light, -1, tries, after, airs, light)
	return nil
}

// try computes a change; nil where there is no balance with it.
func (l *living) try(f *livingFix, base *air, airs []Answer, light *Answer, lightKey string) *triedLiving {
	e, d := *l.e, *l.e.Design
	f.apply(&d)
	e.Design = &d
	out := &triedLiving{airs: airs, light: *light}
	if study.LightKey(&e) != lightKey {
		out.light, _ = lightAnswer(&e)
		out.lit = true
	}
	// Which end of a doubt is the worse is taken from the design as it is.
	t := newLiving(&e)
	if t.l.AirKey() == l.l.AirKey() {
		same := *base
		same.living, same.tried = t, true
		out.airs = same.all()
		return out
	}
	with, err := t.over(base)
	if err != nil {
		return nil
	}
	with.tried = true
	out.airs = with.all()
	return out
}

// helps adds to an answer the changes that help it, what else they make worse with
// them; i is its place among those about the air, less than 0 for the light.
func (l *living) helps(a *Answer, i int, tries []livingFix, after []*triedLiving, airs []Answer, light *Answer) {
	if a.Verdict != Tight && a.Verdict != Fails {
		return
	}
	for k := range tries {
		if after[k] == nil || !slices.Contains(tries[k].helps, a.ID) {
			continue
		}
		b := &after[k].light
		if i >= 0 {
			b = &after[k].airs[i]
		}
		f := tries[k].Fix
		f.Before, f.After, f.Verdict = a.Figures[a.Key].Text, keyText(a, b), b.Verdict
		if f.After == f.Before || b.Verdict > a.Verdict || b.Verdict == a.Verdict && !(b.Score > a.Score+0.01*math.Abs(a.Score)) {
			continue
		}
		worse := func(was, is *Answer) {
			if was.ID != a.ID && is.Verdict > was.Verdict {
				f.Breaks = append(f.Breaks, Break{ID: was.ID, Question: was.Question, Verdict: is.Verdict})
			}
		}
		for n := range airs {
			worse(&airs[n], &after[k].airs[n])
		}
		worse(light, &after[k].light)
		a.Fixes = append(a.Fixes, f)
	}
	slices.SortStableFunc(a.Fixes, func(x, y Fix) int {
		if x.Verdict != y.Verdict {
			return int(x.Verdict) - int(y.Verdict)
		}
		if n := len(x.Breaks) - len(y.Breaks); n != 0 {
			return n
		}
		return int(math.Copysign(1, x.Weight-y.Weight))
	})
	a.Fixes = a.Fixes[:min(len(a.Fixes), 4)]
}

// keyText is the figure that an answer turns on as it is with a change; where that
// figure is gone, the one that the answer then turns on.
func keyText(was, is *Answer) string {
	if was.Key < len(is.Figures) && is.Figures[was.Key].Name == was.Figures[was.Key].Name {
		return is.Figures[was.Key].Text
	}
	if is.Key < len(is.Figures) {
		f := &is.Figures[is.Key]
		return f.Name + " " + f.Text
	}
	return is.Verdict.String()
}

const priceFromMemory = "from memory"

// candidates are the changes that builders make.
func (l *living) candidates() []livingFix {
	out := slices.Concat(l.ventFixes(), l.heatFixes(), l.waterFixes())
	for i := range l.e.Design.Lights {
		out = append(out, l.lampFixes(i)...)
	}
	return out
}
