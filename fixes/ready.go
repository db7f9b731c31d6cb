package fixes

import (
	"cmp"
	"fmt"
	"slices"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
)

// Ready adds to the answer about the plan what buys days: each change is put into
// the design and it is planned again. Plan is that of the answer; nil adds nothing.
func Ready(s *answers.Survey, a *answers.Answer, plan *answers.Plan) {
	if plan == nil || a.Verdict != answers.Fails && a.Verdict != answers.Tight {
		return
	}
	f := &finder{s: s}
	type try struct {
		change change
		e      *enclosure.Enclosure
		plan   *answers.Plan
	}
	var tries []try
	for _, c := range slices.Concat(f.moreHours(), f.soonerGoods(plan), f.warmer(), f.moreHelp(), f.earlier(plan)) {
		e := s.E.Clone()
		d := *e.Design
		d.Budget.Week, d.Budget.Comes, d.Budget.Helper = slices.Clone(d.Budget.Week), slices.Clone(d.Budget.Comes), slices.Clone(d.Budget.Helper)
		e.Design = &d
		if !c.apply(e) {
			continue
		}
		p, err := answers.PlanOf(e, plan.Joints, plan.Today)
		if err != nil || p.Likely.Finish >= plan.Likely.Finish {
			continue
		}
		tries = append(tries, try{c, e, p})
	}
	slices.SortStableFunc(tries, func(x, y try) int { return cmp.Compare(x.plan.Likely.Finish, y.plan.Likely.Finish) })
	for _, t := range tries[:min(len(tries), most-1)] {
		now := t.plan.Answer(t.e)
		fix := f.fix(&t.change)
		fix.Verdict, fix.Before, fix.After = now.Verdict, headline(a), headline(&now)
		a.Fixes = append(a.Fixes, fix)
	}
	slices.SortStableFunc(a.Fixes, func(x, y answers.Fix) int {
		return cmp.Or(cmp.Compare(x.Verdict, y.Verdict), cmp.Compare(x.Weight, y.Weight))
	})
	if late, ok := f.later(a, plan); ok {
		a.Fixes = append(a.Fixes, late)
	}
}

const dayOfWork = "a day of yours in each week"

// moreHours works on one more day of the week, with the hours of a day like it.
func (f *finder) moreHours() []change {
	b := &f.s.E.Design.Budget
	var out []change
	for day := range 7 {
		if len(hoursOn(b, day)) > 0 {
			continue
		}
		hours := "18:30-21:30" // an evening, or a day; assumed
		from, to := 0, 5
		if day >= 5 {
			hours, from, to = "9:00-17:00", 5, 7
		}
		for like := from; like < to; like++ {
			if h := hoursOn(b, like); len(h) > 0 {
				hours = h[0].String()
				break
			}
		}
		name := design.DayName(day)
		c := change{do: fmt.Sprintf("work on %ss as well, %s", name, hours), cost: nothing(dayOfWork)}
		switch {
		case b.Hours.Given():
			text := b.Hours.Text + ", " + name + " " + hours
			out = append(out, putting(c, put("budget.hours", text)))
			continue
		case len(b.Week) == 0:
			continue // nobody has said when; that comes first
		}
		c.edits = []design.Edit{add("budget.week", fmt.Sprintf("{ day: %s, hours: %s }", name, hours))}
		c.edit = "budget.week: " + name + " " + hours
		c.apply = func(e *enclosure.Enclosure) bool {
			var w design.WorkHours
			newText(&w.Day, name)
			newText(&w.Hours, hours)
			e.Design.Budget.Week = append(e.Design.Budget.Week, w)
			return true
		}
		out = append(out, c)
	}
	return out
}

func hoursOn(b *design.Budget, day int) []design.DayHours {
	out := slices.Clone(b.Hours.Value.Days[day])
	for i := range b.Week {
		if slices.Contains(design.DaysNamed(b.Week[i].Day.Value), day) {
			out = append(out, b.Week[i].Hours.Value)
		}
	}
	return out
}

// soonerGoods has what sets the end come in half the time.
func (f *finder) soonerGoods(plan *answers.Plan) []change {
	b := &f.s.E.Design.Budget
	chain := plan.Likely.Chain()
	half := func(l design.Lead) string {
		unit := "days"
		if l.Working {
			unit = "working days"
		}
		return fmt.Sprintf("%d %s", (l.Low+1)/2, unit)
	}
	var out []change
	for i := range b.Comes {
		c := &b.Comes[i]
		id := "delivery: " + c.What.Value
		if c.What.Value == "glass" {
			id = "delivery"
		}
		if c.Takes.Given() && c.Takes.Value.Low > 1 && slices.Contains(chain, id) {
			text := half(c.Takes.Value)
			out = append(out, putting(change{do: fmt.Sprintf("have the %s in %s: ask at another counter", c.What.Value, text), cost: nothing("what they ask for the hurry")},
				put(fmt.Sprintf("budget.deliveries[%d].takes", i+1), text)))
		}
	}
	if d := b.Delivery; d.Given() && d.Value.Low > 1 && slices.Contains(chain, "delivery") {
		text := half(d.Value)
		out = append(out, putting(change{do: fmt.Sprintf("have the glass in %s: ask at another counter", text), cost: nothing("what they ask for the hurry")}, put("budget.delivery", text)))
	}
	return out
}

// warmer lets joints cure in a warm room.
func (f *finder) warmer() []change {
	d := f.s.E.Design
	air := d.Budget.Workshop.Air
	if !air.Given() {
		air = d.Place.Air
	}
	if !air.Given() || air.Value.Low >= 20 {
		return nil
	}
	text := "20 to 24 C"
	if d.Units.Value == "us" {
		text = "68 to 75 F"
	}
	return []change{putting(change{do: "bond and let it cure in a room of " + text, cost: nothing("the heating, or carrying it")}, put("budget.workshop.air", text))}
}

// moreHelp has the helper come on a day on which the builder works.
func (f *finder) moreHelp() []change {
	b := &f.s.E.Design.Budget
	if len(b.Helper) == 0 {
		return nil
	}
	var out []change
	for day := range 7 {
		mine := hoursOn(b, day)
		if len(mine) == 0 {
			continue
		}
		name, hours := design.DayName(day), mine[0].String()
		out = append(out, change{
			do: fmt.Sprintf("find a second pair of hands for %ss, %s", name, hours), cost: nothing("a favour"),
			edit: "budget.helper: " + name + " " + hours, edits: []design.Edit{add("budget.helper", fmt.Sprintf("{ day: %s, hours: %s }", name, hours))},
			apply: func(e *enclosure.Enclosure) bool {
				var h design.HelperHours
				newText(&h.Day, name)
				newText(&h.Hours, hours)
				e.Design.Budget.Helper = append(e.Design.Budget.Helper, h)
				return true
			},
		})
	}
	return out
}

// earlier begins by whole weeks sooner, as many as are missing, unless something is
// done already.
func (f *finder) earlier(plan *answers.Plan) []change {
	b := &f.s.E.Design.Budget
	if !b.Start.Given() || len(plan.Work.Project.Done) > 0 || plan.Likely.Late == 0 {
		return nil
	}
	weeks := (plan.Likely.Late.Day() + 7) / 7
	text := (plan.Work.Project.Start.Day() - 7*weeks).String()
	return []change{putting(change{do: "begin on " + text + " already", cost: nothing("nothing, if that day is still to come")}, put("budget.start", text))}
}

// later moves the deadline to where nine ends in ten lie.
func (f *finder) later(a *answers.Answer, plan *answers.Plan) (answers.Fix, bool) {
	end, ok := plan.Chances.Quantile(0.9)
	if !ok {
		return answers.Fix{}, false
	}
	day := max(end, plan.Likely.Finish).Day() + 1
	c := putting(change{do: "move the deadline to " + day.Named(), cost: nothing("the days")}, put("budget.deadline", day.String()))
	fix := f.fix(&c)
	e := f.s.E.Clone()
	d := *e.Design
	e.Design = &d
	if !c.apply(e) {
		return fix, false
	}
	p, err := answers.PlanOf(e, plan.Joints, plan.Today)
	if err != nil {
		return fix, false
	}
	now := p.Answer(e)
	fix.Verdict, fix.Before, fix.After = now.Verdict, headline(a), headline(&now)
	return fix, now.Verdict < a.Verdict
}
