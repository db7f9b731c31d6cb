package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure"
)

// passageRoom is what a thing wants all round to be led through by hand, m, with
// the least and most of it: assumed, no source.
const (
	passageRoom  = 0.001
	passageLeast = 0.0005
	passageMost  = 0.002
)

// sizeOff is how far the outside of a part of the catalogue may be off, as a share,
// and what a thing was measured, m: assumed, no source.
const (
	partOff     = 0.05
	measuredOff = 0.0005
)

// passed is one thing on its way through.
type passed struct {
	thing *enclosure.Passing
	spare float64 // left over its widest end, both sides together, m; NaN if not known
	sure  bool    // a lack is certain; else no place was found
}

// passages is what happens as one thing after another is led through.
type passages struct {
	open    structure.Opening
	list    []passed // in the order that does best, the file's if that serves
	file    bool     // it is the file's order
	unknown []*enclosure.Passing
}

func opened(w *enclosure.Way) structure.Opening {
	if w.Round {
		return structure.RoundHole(w.Width)
	}
	return structure.Opening{Width: w.Width, Height: w.Height, Corner: w.Corner}
}

// mostOrders is the number of things up to which every order is looked at.
const mostOrders = 5

// passages leads everything through in the file's order and, if that fails, in the
// others.
func (s *Survey) passages(w *enclosure.Way) passages {
	p := passages{open: opened(w), file: true}
	var things []*enclosure.Passing
	for i := range w.Passes {
		if q := &w.Passes[i]; q.Width > 0 {
			things = append(things, q)
		} else {
			p.unknown = append(p.unknown, q)
		}
	}
	p.list = lead(p.open, things)
	if p.least() >= 0 || len(things) < 2 || len(things) > mostOrders {
		return p
	}
	// A plug goes through with what stays thinner than it: only where something
	// stays does the order matter.
	orders(things, func(other []*enclosure.Passing) bool {
		q := passages{open: p.open, list: lead(p.open, other), unknown: p.unknown}
		if q.least() > p.least()+1e-6 {
			p = q
		}
		return p.least() < 0
	})
	return p
}

// orders calls f with every order of things until it returns false.
func orders(things []*enclosure.Passing, f func([]*enclosure.Passing) bool) {
	var walk func(k int) bool
	list := append([]*enclosure.Passing(nil), things...)
	walk = func(k int) bool {
		if k == len(list) {
			return f(list)
		}
		for i := k; i < len(list); i++ {
			list[k], list[i] = list[i], list[k]
			more := walk(k + 1)
			list[k], list[i] = list[i], list[k]
			if !more {
				return false
			}
		}
		return true
	}
	walk(0)
}

// lead leads things through in order. What stays of each takes room for the rest,
// as a round thing: a box by its diagonal, which is cautious.
func lead(o structure.Opening, things []*enclosure.Passing) []passed {
	var out []passed
	var stay []float64
	for _, q := range things {
		p := passed{thing: q, sure: true}
		if len(stay) == 0 {
			p.spare = o.Spare(q.Width, q.Height)
		} else {
			end := structure.RoundOpening(q.Width, q.Height, 0)
			p.spare = o.LargestGap(stay...) - end
			if p.spare < 0 {
				_, p.sure = o.Takes(append(append([]float64(nil), stay...), end)...)
			}
		}
		out = append(out, p)
		if d := structure.RoundOpening(q.StaysWidth, q.StaysHeight, 0); d > 0 {
			stay = append(stay, d)
		}
	}
	return out
}

// least is the least left over of all, +Inf for nothing.
func (p *passages) least() float64 {
	v := math.Inf(1)
	for i := range p.list {
		v = math.Min(v, p.list[i].spare)
	}
	return v
}

// stays are the round things that stay in the opening.
func (p *passages) stays() (d []float64, area float64) {
	for i := range p.list {
		q := p.list[i].thing
		x := structure.RoundOpening(q.StaysWidth, q.StaysHeight, 0)
		if x == 0 {
			continue
		}
		d = append(d, x)
		if q.StaysHeight > 0 {
			area += q.StaysWidth * q.StaysHeight
		} else {
			area += math.Pi / 4 * x * x
		}
	}
	return d, area
}

func (p *passages) figures(s *Survey, a *Answer) {
	for i := range p.list {
		q := &p.list[i]
		each := q.spare / 2
		size := s.length(q.thing.Width)
		if q.thing.Height > 0 {
			size += " by " + s.length(q.thing.Height)
		}
		text := s.length(each) + " all round"
		if each < 0 {
			text = s.length(-q.spare) + " too wide"
		}
		f := figure(fmt.Sprintf("%s, %s", q.thing.What, size), quantity.Exactly(quantity.Length(each)), s.E.Units)
		f.Text = text
		a.Figures = append(a.Figures, over(f, quantity.Length(passageRoom)))
	}
}

// verdict tells what of all that passes does not.
func (p *passages) verdict(s *Survey, a *Answer) {
	worst := -1
	for i := range p.list {
		if worst < 0 || p.list[i].spare < p.list[worst].spare {
			worst = i
		}
	}
	say := func(v Verdict, text string) {
		a.Verdict = max(a.Verdict, v)
		a.Say = strings.TrimSpace(text + " " + a.Say)
	}
	if len(p.unknown) > 0 {
		names := make([]string, len(p.unknown))
		for i, q := range p.unknown {
			names[i] = fmt.Sprintf("how thick the %s is (measure it and write width: in place of part: on line %d)", q.What, q.Pos.Line)
		}
		say(Unknown, "It is not known "+strings.Join(names, ", nor ")+".")
	}
	switch {
	case worst < 0 && len(p.unknown) == 0:
		say(Holds, "Nothing is said to pass through it.")
		return
	case worst < 0:
		return
	}
	q := &p.list[worst]
	a.Score, a.Limiting, a.LimitingLine = q.spare/2/passageRoom, q.thing.What, q.thing.Pos.Line
	a.Margin = s.length(q.spare/2) + " all round the tightest thing, the " + q.thing.What
	beside := ""
	if worst > 0 {
		beside = ", with what stays in it already"
	}
	switch {
	case q.spare < 0 && !q.sure:
		a.Margin = ""
		say(Tight, fmt.Sprintf("No way was found for the %s%s by arithmetic: try it with offcuts before the glass is drilled.", q.thing.What, beside))
	case q.spare < 0:
		a.Margin = s.length(-q.spare) + " too wide, the " + q.thing.What
		say(Fails, fmt.Sprintf("No: the %s does not go through%s: it is %s too wide.", q.thing.What, beside, s.length(-q.spare)))
	case q.spare/2 < passageRoom:
		say(Tight, fmt.Sprintf("The %s goes through with only %s all round%s.", q.thing.What, s.length(q.spare/2), beside))
	case len(p.list) == 1:
		say(Holds, fmt.Sprintf("The %s goes through with %s all round.", q.thing.What, s.length(q.spare/2)))
	default:
		say(Holds, fmt.Sprintf("Everything goes through, the %s with the least room: %s all round.", q.thing.What, s.length(q.spare/2)))
	}
	if !p.file && q.spare >= 0 {
		names := make([]string, len(p.list))
		for i := range p.list {
			names[i] = p.list[i].thing.What
		}
		a.Verdict = max(a.Verdict, Tight)
		a.Say += " But only in another order than the file's: first the " + strings.Join(names, ", then the ") + "."
	}
}

// matters moves what is not known of the things and of the room they want.
func (p *passages) matters(s *Survey, w *enclosure.Way) []Matter {
	if len(p.list) == 0 {
		return nil
	}
	with := func(off int) float64 {
		things := make([]*enclosure.Passing, len(p.list))
		for i := range p.list {
			q := *p.list[i].thing
			by := measuredOff
			if q.Part.Name != "" {
				by = q.Width * partOff
			}
			grow := func(v *float64) {
				if *v > 0 {
					*v += float64(off) * by
				}
			}
			grow(&q.Width)
			grow(&q.Height)
			grow(&q.StaysWidth)
			grow(&q.StaysHeight)
			things[i] = &q
		}
		r := passages{list: lead(p.open, things)}
		return r.least() / 2
	}
	low, high, likely := with(1), with(-1), p.least()/2
	span := s.fine(measuredOff) + " either way as measured"
	for i := range p.list {
		if p.list[i].thing.Part.Name != "" {
			span += fmt.Sprintf(", %.0f %% for a part of the catalogue", partOff*100)
			break
		}
	}
	return []Matter{{
		What: "true size of what passes", Range: span, Effect: fromTo(s.fine(low), s.fine(high)) + " all round",
		Swing: math.Abs(high-low) / math.Max(math.Abs(likely), 1e-4), Why: "assumed, no source", Settle: "callipers, or a card with a hole of that size", Line: w.Design.Pos.Line,
	}, {
		What: "room wanted for a hand to lead it through", Range: fromTo(s.fine(passageLeast), s.fine(passageMost)),
		Effect: fromTo(s.fine(likely-passageMost), s.fine(likely-passageLeast)) + " over it",
		Swing:  (passageMost - passageLeast) / math.Max(math.Abs(likely), 1e-4), Why: "assumed, no source", Settle: "a card with a hole of that size", Line: w.Design.Pos.Line,
	}}
}
