package fixes

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/enclosure"
)

// Structure fills in the fixes of answers about what carries: each change is put
// into the design and all of them are computed again; those about the water too if
// the change is one to it. Stop is that of Find.
func Structure(s *answers.Survey, list []answers.Answer, stop func() error) error {
	f := &finder{s: s, stop: stop, base: map[string]answers.Answer{}}
	for i := range list {
		f.base[list[i].ID] = list[i]
	}
	var changes []change
	var moves []change // of openings: those have been found with the answers
	for i := range list {
		if a := &list[i]; a.Verdict == answers.Tight || a.Verdict == answers.Fails {
			changes = append(changes, f.carrying(a)...)
			for k := range a.Fixes {
				moves = append(moves, f.moved(&a.Fixes[k]))
			}
		}
	}
	all := slices.Concat(changes, moves)
	if slices.ContainsFunc(all, func(c change) bool { return c.wets }) {
		for _, a := range s.Water() {
			f.base[a.ID] = a
		}
	}
	after := make([][]answers.Answer, len(all))
	err := f.each(len(all), func(i int) {
		e := f.s.E.Clone()
		own(e)
		if !all[i].apply(e) {
			return
		}
		after[i] = f.rebuilt(e, &all[i])
	})
	if err != nil {
		return err
	}
	moved := after[len(changes):]
	for k := range list {
		a := &list[k]
		if a.Verdict != answers.Tight && a.Verdict != answers.Fails {
			continue
		}
		for i := range a.Fixes {
			f.told(a, &a.Fixes[i], moved[i])
		}
		moved = moved[len(a.Fixes):]
		for i := range changes {
			f.carries(a, &changes[i], after[i])
		}
		slices.SortStableFunc(a.Fixes, inOrder)
		a.Fixes = a.Fixes[:min(len(a.Fixes), most)]
	}
	return nil
}

// rebuilt answers for a changed enclosure; nil if that cannot be computed.
func (f *finder) rebuilt(e *enclosure.Enclosure, c *change) []answers.Answer {
	t := f.s.Rebuilt(e, c.bends)
	if c.wets {
		var err error
		if t, err = f.s.Again(e, false); err != nil {
			return nil
		}
	}
	got, err := t.Structure()
	if c.wets {
		got = append(got, t.Water()...)
	}
	if err != nil || t.Err() != nil {
		return nil
	}
	return got
}

// carrying lists the changes that could help an answer about what carries.
func (f *finder) carrying(a *answers.Answer) []change {
	_, of, _ := strings.Cut(a.ID, "[")
	switch family(a) {
	case "dam":
		return f.damGlass()
	case "pane":
		return f.paneGlass(strings.TrimSuffix(of, "]"))
	case "joints":
		return f.joints()
	case "bond":
		return f.bond(strings.TrimSuffix(of, "]"))
	case "standing":
		return f.standing(a)
	}
	return nil
}

// family is the name of an answer without the part that it is about.
func family(a *answers.Answer) string {
	id, _, _ := strings.Cut(a.ID, "[")
	return id
}

// carries adds a change to an answer that comes out better with it.
func (f *finder) carries(a *answers.Answer, c *change, after []answers.Answer) {
	switch family(a) {
	case "dam", "pane", "joints", "bond":
	case "standing", "weight":
		if !c.stands {
			return // heavier glass is no way to keep it from tipping over
		}
	default:
		return
	}
	i := slices.IndexFunc(after, func(b answers.Answer) bool { return b.ID == a.ID })
	if i < 0 {
		return
	}
	now := after[i]
	if a.ID == "standing" {
		now.Key = a.Key
	}
	fix := f.fix(c)
	fix.Verdict, fix.Before, fix.After = now.Verdict, headline(a), headline(&now)
	if c.after != "" {
		fix.After = c.after
	}
	better := now.Verdict < a.Verdict || now.Verdict == a.Verdict && now.Score > a.Score+0.05*math.Abs(a.Score)
	if !better || fix.Before == fix.After || slices.ContainsFunc(a.Fixes, func(x answers.Fix) bool { return x.Do == fix.Do }) {
		return
	}
	fix.Breaks = f.breaks(after, a)
	a.Fixes = append(a.Fixes, fix)
}

// own gives a clone a design of its own, as far as such changes reach.
func own(e *enclosure.Enclosure) {
	d := *e.Design
	d.Grid, d.Hardscape = slices.Clone(d.Grid), slices.Clone(d.Hardscape)
	for i := range d.Grid {
		d.Grid[i].Braces = slices.Clone(d.Grid[i].Braces)
	}
	d.Enclosure.Panes, d.Enclosure.Braces = slices.Clone(d.Enclosure.Panes), slices.Clone(d.Enclosure.Braces)
	d.Stock = slices.Clone(d.Stock)
	d.Drains, d.Enclosure.Ways = slices.Clone(d.Drains), slices.Clone(d.Enclosure.Ways)
	e.Design = &d
}

// guess is a price guessed for ranking: from memory of the trade.
func (f *finder) guess(low, high float64) cost {
	return cost{words: fmt.Sprintf("about %.0f to %.0f %s, from memory", low, high, f.currency()), amount: (low + high) / 2}
}
