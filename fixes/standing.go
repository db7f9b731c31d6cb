package fixes

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// Standing fills in the fixes of an answer that it may tip over: each change is
// made and the answer taken again, and the weight's with it.
func Standing(s *answers.Survey, list []answers.Answer) error {
	f := &finder{s: s, base: map[string]answers.Answer{}}
	i := slices.IndexFunc(list, func(a answers.Answer) bool { return a.ID == "standing" })
	for _, a := range list {
		if a.ID == "weight" || a.ID == "standing" {
			f.base[a.ID] = a
		}
	}
	if i < 0 || list[i].Verdict != answers.Tight && list[i].Verdict != answers.Fails {
		return nil
	}
	// The water does not know what the stand is like: one survey serves them all.
	e := s.E.Clone()
	t, err := s.Again(e, false)
	if err != nil {
		return err
	}
	a := &list[i]
	for _, c := range f.standing(t, a) {
		d := *s.E.Design
		e.Design = &d
		if !c.apply(e) {
			continue
		}
		now := t.Standing()
		now.Key = a.Key
		fix := answers.Fix{
			Do: c.do, Change: c.edit, Cost: c.cost.String(), Weight: c.cost.weight(), Price: c.cost.rankable(),
			Verdict: now.Verdict, Before: headline(a), After: headline(&now),
			Breaks: f.breaks([]answers.Answer{t.Weight()}, a),
		}
		if d.Stand.Fixed.Value {
			fix.After = "held by the wall, as far as its fixing holds"
		}
		better := now.Verdict < a.Verdict || now.Verdict == a.Verdict && now.Score > a.Score*1.02
		if better && fix.Before != fix.After {
			a.Fixes = append(a.Fixes, fix)
		}
	}
	slices.SortStableFunc(a.Fixes, inOrder)
	a.Fixes = a.Fixes[:min(len(a.Fixes), most)]
	return nil
}

// standing lists the changes that may keep it from tipping over.
func (f *finder) standing(t *answers.Survey, a *answers.Answer) []change {
	out := []change{{
		do: "fix it to the wall behind it", edit: "stand.fixed: yes", cost: cost{words: "brackets, screws and plugs", amount: 10}, // assumed, no source
		apply: func(e *enclosure.Enclosure) bool {
			f.hasStand(e)
			e.Design.Stand.Fixed.Value = true
			return true
		},
	}}
	if c, ok := f.sumpBelow(); ok {
		out = append(out, c)
	}
	if c, ok := f.wider(t, a); ok {
		out = append(out, c)
	}
	return out
}

// hasStand gives a changed enclosure without a stand one of its own size, which
// weighs nothing: what is taken of it anyway.
func (f *finder) hasStand(e *enclosure.Enclosure) {
	s, box := &e.Design.Stand, e.Design.Enclosure.Outside
	if !box.Given() {
		box = e.Design.Enclosure.Inside
	}
	if !s.Given() {
		*s = design.Stand{Pos: e.Design.Enclosure.Pos, Width: box.Width, Depth: box.Depth}
		s.Mass.Pos = s.Pos
	}
}

// sumpBelow puts a sump that stands apart into the stand, if it goes in.
func (f *finder) sumpBelow() (change, bool) {
	e := f.s.E
	s := &e.Design.Stand
	room := float64(e.Design.Enclosure.Bottom.Value)
	if !s.Given() || s.Sump.Value || e.Sump.Width > float64(s.Width.Value) || e.Sump.Depth > float64(s.Depth.Value) || e.Sump.Bottom < 0 || e.Sump.Bottom+e.Sump.Height > room {
		return change{}, false
	}
	return change{
		do: "stand the sump in the stand, low down", edit: "stand.carries-sump: yes", cost: nothing("nothing"),
		apply: func(e *enclosure.Enclosure) bool {
			e.Design.Stand.Sump.Value = true
			e.Design.Stand.Sump.Pos = e.Design.Stand.Pos
			return true
		},
	}, true
}

// wider sets the feet further apart, step by step where that helps, until it stands
// well enough: at most half as far again, for beyond that it is other furniture.
func (f *finder) wider(t *answers.Survey, a *answers.Answer) (change, bool) {
	step := quantity.Length(0.05)
	if f.s.E.Units == quantity.US {
		step = 2 * 0.0254
	}
	d := *f.s.E.Design
	t.E.Design = &d
	f.hasStand(t.E)
	was := d.Stand
	most := func(v quantity.Length) quantity.Length { return v*3/2 + 1e-9 }
	score, verdict := a.Score, a.Verdict
	for verdict != answers.Holds {
		at := d.Stand
		var best design.Stand
		gain := 0.005
		for _, by := range [...][2]quantity.Length{{0, step}, {step, 0}, {step, step}} {
			d.Stand = at
			spread(&d.Stand, by[0], by[1])
			if d.Stand.Width.Value > most(was.Width.Value) || d.Stand.Depth.Value > most(was.Depth.Value) {
				continue
			}
			if now := t.Standing(); now.Score > score+gain {
				best, gain, verdict = d.Stand, now.Score-score, now.Verdict
			}
		}
		if best.Pos.Line == 0 {
			d.Stand = at
			break
		}
		d.Stand, score = best, score+gain
	}
	width, depth := d.Stand.Width.Value, d.Stand.Depth.Value
	if width == was.Width.Value && depth == was.Depth.Value {
		return change{}, false
	}
	by := [2]quantity.Length{width - was.Width.Value, depth - was.Depth.Value}
	var words, edits []string
	for k, to := range [...]quantity.Length{width, depth} {
		if by[k] > 0 {
			text := to.Show(f.s.E.Units)
			words = append(words, text+[...]string{" left to right", " front to back"}[k])
			edits = append(edits, [...]string{"stand.width: ", "stand.depth: "}[k]+text)
		}
	}
	return change{
		do:   fmt.Sprintf("set its feet further apart, %s, with a larger stand or bars under it", strings.Join(words, " and ")),
		cost: cost{words: "timber or steel for the stand", amount: 30}, // assumed, no source
		edit: strings.Join(edits, ", "),
		apply: func(e *enclosure.Enclosure) bool {
			f.hasStand(e)
			spread(&e.Design.Stand, by[0], by[1])
			return true
		},
	}, true
}

// spread makes a stand wider and deeper, as much on one side as on the other.
func spread(s *design.Stand, wider, deeper quantity.Length) {
	if s.Front.Given() {
		s.Front.Value += deeper / 2
	}
	s.Width.Value += wider
	s.Depth.Value += deeper
}
