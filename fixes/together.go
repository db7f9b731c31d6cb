package fixes

import (
	"cmp"
	"slices"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
)

// Where no one change keeps an answer from failing, two are tried at once: those that
// each bring it nearer.

const (
	mostMembers = 5 // changes of which pairs are made
	mostPairs   = 2 // pairs that an answer keeps
)

// together tries pairs on answers that fail whatever one change is made.
func (f *finder) together(tries []*try, list []answers.Answer) error {
	for i := range list {
		a := &list[i]
		if a.Verdict != answers.Fails || a.ID == "pump-size" || slices.ContainsFunc(a.Fixes, func(x answers.Fix) bool { return x.Verdict < answers.Fails && !fails(x) }) {
			continue
		}
		pairs := f.pairs(tries, i)
		if err := f.each(len(pairs), func(k int) {
			f.alone(pairs[k], list)
			if e := pairs[k].effects[0]; e.helps && e.fix.Verdict < answers.Fails {
				pairs[k].after = pairs[k].survey.Water()
			}
		}); err != nil {
			return err
		}
		kept := 0
		for _, e := range best(pairs, i, len(pairs)) {
			if e.fix.Verdict == answers.Fails {
				continue
			}
			if e.fix.Breaks = f.breaks(e.try.after, a); fails(e.fix) {
				continue
			}
			a.Fixes = append(a.Fixes, e.fix)
			if kept++; kept == mostPairs {
				break
			}
		}
	}
	return nil
}

// pairs makes pairs of the changes that help an answer most.
func (f *finder) pairs(tries []*try, answer int) (out []*try) {
	type member struct {
		try   *try
		score float64
	}
	var members []member
	for _, t := range tries {
		for _, e := range t.effects {
			if e.answer == answer && e.helps && t.change.byHand == "" && len(t.change.edits) > 0 {
				members = append(members, member{t, e.score})
			}
		}
	}
	slices.SortStableFunc(members, func(x, y member) int { return cmp.Compare(y.score, x.score) })
	members = members[:min(len(members), mostMembers)]
	for i := range members {
		for k := range i {
			x, y := &members[k].try.change, &members[i].try.change
			if share(x.edits, y.edits) {
				continue
			}
			t := &try{change: both(x, y)}
			t.effects = []*effect{{try: t, answer: answer}}
			out = append(out, t)
		}
	}
	return out
}

// share reports whether two changes write in the same places, or in one where the other
// moves entries of a list.
func share(x, y []design.Edit) bool {
	for i := range x {
		for k := range y {
			a, b := &x[i], &y[k]
			if a.Path == b.Path && (a.Kind != design.EditAppend || b.Kind != design.EditAppend) || a.Kind == design.EditInsert || b.Kind == design.EditInsert {
				return true
			}
		}
	}
	return false
}

// both is one change and then another.
func both(x, y *change) change {
	c := change{
		do: x.do + ", and " + y.do, edits: slices.Concat(x.edits, y.edits), edit: x.edit + ", " + y.edit,
		cost: cost{words: x.cost.String() + ", and " + y.cost.String(), amount: x.cost.weight() + y.cost.weight(), own: x.cost.own},
		anew: x.anew || y.anew, bends: x.bends || y.bends, wets: x.wets || y.wets,
	}
	first, then := x.apply, y.apply
	c.apply = func(e *enclosure.Enclosure) bool { return first(e) && then(e) }
	return c
}
