package fixes

import (
	"fmt"
	"strings"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// noStand tells why a stand that the file does not have cannot be changed in it.
const noStand = "it has no stand yet, and how wide and deep that is you have to measure"

// standing lists the changes that may keep it from tipping over.
func (f *finder) standing(a *answers.Answer) []change {
	fixed := putting(change{
		do: "fix it to the wall behind it", cost: cost{words: "brackets, screws and plugs", amount: 10}, // assumed, no source
		after: "held by the wall, as far as its fixing holds",
	}, put("stand.fixed", "yes"))
	if !f.s.E.Design.Stand.Given() {
		fixed.byHand = noStand
		fixed.apply = func(e *enclosure.Enclosure) bool {
			f.hasStand(e)
			return reads(e, fixed.edits)
		}
	}
	out := append([]change{fixed}, f.sumpBelow()...)
	out = append(out, f.outward()...)
	out = append(out, f.wider(a)...)
	for i := range out {
		out[i].stands = true
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
func (f *finder) sumpBelow() []change {
	e := f.s.E
	s := &e.Design.Stand
	room := float64(e.Design.Enclosure.Bottom.Value)
	if !s.Given() || s.Sump.Value || e.Sump.Width > float64(s.Width.Value) || e.Sump.Depth > float64(s.Depth.Value) || e.Sump.Bottom < 0 || e.Sump.Bottom+e.Sump.Height > room {
		return nil
	}
	c := putting(change{do: "stand the sump in the stand, low down", cost: nothing("nothing")}, put("stand.carries-sump", "yes"))
	// Where it stood apart is not where it stands now.
	if at := &e.Design.Sump; at.Left.Given() || at.Front.Given() {
		c.edits = append(c.edits, cut("sump.left"), cut("sump.front"))
		c.apply = func(e *enclosure.Enclosure) bool {
			e.Design.Sump.Left, e.Design.Sump.Front = design.Field[quantity.Length]{}, design.Field[quantity.Length]{}
			return reads(e, c.edits)
		}
	}
	return []change{c}
}

// outward sets feet that stand in from the stand's edges out to them.
func (f *finder) outward() []change {
	if s := &f.s.E.Design.Stand; s.Feet.Value == 0 || s.Inset.Value <= 0 {
		return nil
	}
	none := "0 mm"
	if f.s.E.Units == quantity.US {
		none = "0 in"
	}
	return []change{putting(change{
		do: "set its feet out to the edges of the stand", cost: cost{words: "feet screwed on anew", amount: 5}, // assumed, no source
	}, put("stand.inset", none))}
}

// wider sets the feet further apart, step by step where that helps, until it stands
// well enough: at most half as far again, for beyond that it is other furniture.
func (f *finder) wider(a *answers.Answer) []change {
	step := quantity.Length(0.05)
	if f.s.E.Units == quantity.US {
		step = 2 * inch
	}
	e := f.s.E.Clone()
	own(e)
	f.hasStand(e)
	t := f.s.Rebuilt(e, false)
	d := e.Design
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
	var words []string
	var edits []design.Edit
	to := &d.Stand
	for _, x := range [...]struct {
		key, way string
		was, to  quantity.Length
	}{{"stand.width", " left to right", was.Width.Value, to.Width.Value}, {"stand.depth", " front to back", was.Depth.Value, to.Depth.Value}, {"stand.front", "", was.Front.Value, to.Front.Value}} {
		if x.to <= x.was {
			continue
		}
		text := lengthText(float64(x.to), f.s.E.Units)
		edits = append(edits, put(x.key, text))
		if x.way != "" {
			words = append(words, text+x.way)
		}
	}
	if len(words) == 0 {
		return nil
	}
	c := putting(change{
		do:   fmt.Sprintf("set its feet further apart, %s, with a larger stand or bars under it", strings.Join(words, " and ")),
		cost: cost{words: "timber or steel for the stand", amount: 30}, // assumed, no source
	}, edits...)
	if !f.s.E.Design.Stand.Given() {
		c.byHand = noStand
		c.apply = func(e *enclosure.Enclosure) bool {
			f.hasStand(e)
			return reads(e, c.edits)
		}
	}
	return []change{c}
}

// spread makes a stand wider and deeper, as much on one side as on the other.
func spread(s *design.Stand, wider, deeper quantity.Length) {
	if s.Front.Given() {
		s.Front.Value += deeper / 2
	}
	s.Width.Value += wider
	s.Depth.Value += deeper
}
