package fixes

import (
	"slices"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
)

// moved is the change that a fix of an answer about an opening makes: it was found
// there by distances alone, and what else it does is not known yet.
func (f *finder) moved(x *answers.Fix) change {
	drain := -1 // whose hole comes to another height, and its water with it
	for i := range f.s.E.Drains {
		d := &f.s.E.Drains[i]
		if d.Kind != "floor opening" && d.HoleUpright() && slices.ContainsFunc(x.Edits, func(e design.Edit) bool { return e.Path == "drains["+d.Name+"].hole.up" }) {
			drain = i
		}
	}
	spills := slices.ContainsFunc(x.Edits, func(e design.Edit) bool { return e.Path == "dam.width" })
	c := change{do: x.Do, edits: x.Edits, bends: true, wets: drain >= 0 || spills}
	c.apply = func(e *enclosure.Enclosure) bool {
		if x.Notch != nil {
			return notched(e, x.Notch)
		}
		if len(x.Edits) == 0 || !reads(e, x.Edits) {
			return false
		}
		for i := range e.Ways {
			e.Ways[i].Design = &e.Design.Enclosure.Ways[i]
		}
		for i := range e.Drains {
			e.Drains[i].Hole = e.Design.Drains[i].Hole
		}
		if spills {
			e.Pool.DamWidth = float64(e.Design.Dam.Width.Value)
		}
		if drain >= 0 {
			d := &e.Drains[drain]
			d.BulkheadAt += float64(d.Hole.Up.Value - f.s.E.Drains[drain].Hole.Up.Value)
			d.Lip = e.Pool.Floor + float64(e.Design.Drains[drain].Lip.Value)
		}
		return true
	}
	return c
}

// notched cuts a notch out of a panel of a design of its own.
func notched(e *enclosure.Enclosure, n *answers.Notching) bool {
	for i := range e.Design.Grid {
		if g := &e.Design.Grid[i]; g.Name.Value == n.Panel {
			g.Notches = append(slices.Clone(g.Notches), n.Notch)
			return true
		}
	}
	return false
}

// told completes a fix that was found by distances alone.
func (f *finder) told(a *answers.Answer, x *answers.Fix, after []answers.Answer) {
	if i := slices.IndexFunc(after, func(b answers.Answer) bool { return b.ID == a.ID }); i >= 0 {
		x.Verdict, x.Breaks = after[i].Verdict, f.breaks(after, a)
		if a.ID == "pieces" { // one pane's size may tell how the others are joined
			x.Before, x.After = headline(a), headline(&after[i])
		}
	}
}
