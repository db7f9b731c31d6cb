package design

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// budget checks dates and hours.
func (c *checker) budget() {
	b := &c.d.Budget
	start, ok1 := c.date(b.Start, "budget.start")
	end, ok2 := c.date(b.Deadline, "budget.deadline")
	if ok1 && ok2 && end.Before(start) {
		c.report(b.Deadline.Pos, "budget.deadline", fmt.Sprintf("the deadline %s lies before the start %s", b.Deadline.Text, b.Start.Text), "write the later day as the deadline")
	}
	for i, a := range c.d.AsBuilt {
		c.date(a.On, fmt.Sprintf("as-built[%d].on", i+1))
	}
	if b.Hours.Given() && len(b.Week) > 0 {
		c.report(b.Hours.Pos, "budget.hours", fmt.Sprintf("hours stands beside week on line %d, and both say when you work", b.Week[0].Pos.Line), "keep one of the two")
	}
	c.testBead()
	off := c.off()
	c.helper(off)
	c.deliveries(end, ok2)
	c.done()
}

// testBead checks that a test bead has both its figures, and that they may be.
func (c *checker) testBead() {
	w := &c.d.Budget.Workshop
	skin, after := w.Skin, w.After
	switch {
	case skin.Given() && !after.Given():
		c.report(skin.Pos, "budget.workshop.skin", "it is not said after what time the test bead had cured so deep", "write the time as after: 24 h")
	case after.Given() && !skin.Given():
		c.report(after.Pos, "budget.workshop.after", "it is not said how deep the test bead had cured by then", "cut it through and write the depth as skin: 3 mm")
	case skin.Given() && !(skin.Value >= 0.001 && skin.Value <= 0.05):
		c.report(skin.Pos, "budget.workshop.skin", fmt.Sprintf("a cured skin of %s cannot be read off, or is no bead's", skin.Text), "cut the bead when it has cured 1 mm deep or more, up to 50 mm")
	}
}

// span is some days in a row.
type span struct{ from, to time.Time }

func (s span) has(t time.Time) bool { return !t.Before(s.from) && !t.After(s.to) }

// off checks days off and returns those that can be read.
func (c *checker) off() []span {
	var out []span
	for i := range c.d.Budget.Off {
		o := &c.d.Budget.Off[i]
		path := fmt.Sprintf("budget.off[%d]", i+1)
		from, ok := c.date(o.From, path+".from")
		s := span{from, from}
		if o.To.Given() {
			to, okTo := c.date(o.To, path+".to")
			if ok && okTo && to.Before(from) {
				c.report(o.To.Pos, path+".to", fmt.Sprintf("the last day off, %s, lies before the first, %s", o.To.Text, o.From.Text), "write the earlier day as from")
				okTo = false
			}
			if ok && okTo && to.Sub(from) > 366*24*time.Hour {
				c.report(o.To.Pos, path+".to", fmt.Sprintf("the days off from %s to %s are more than a year", o.From.Text, o.To.Text), "begin after them: write a later start")
				okTo = false
			}
			s.to, ok = to, ok && okTo
		}
		if ok {
			out = append(out, s)
		}
	}
	return out
}

// helper checks when a helper comes.
func (c *checker) helper(off []span) {
	b := &c.d.Budget
	for i := range b.Helper {
		h := &b.Helper[i]
		path := fmt.Sprintf("budget.helper[%d]", i+1)
		if !c.oneOf(path, h.Pos, "day", h.Day.Given() || !lacks(c, h.Day, path+".day"), "on", h.On.Given() || !lacks(c, h.On, path+".on")) {
			continue
		}
		at, ok := c.date(h.On, path+".on")
		for _, s := range off {
			if ok && s.has(at) {
				c.warn(h.On.Pos, path+".on", fmt.Sprintf("the helper comes on %s, which is a day off", h.On.Text), "move one of the two")
				ok = false
			}
		}
		if !reads(c, h.Hours) {
			continue
		}
		days := DaysNamed(h.Day.Value)
		if ok {
			days = []int{(int(at.Weekday()) + 6) % 7}
		}
		if mine, known := c.hoursOn(days); known && len(days) > 0 && !overlaps(mine, h.Hours.Value) {
			c.warn(h.Pos, path, fmt.Sprintf("the helper comes on %s from %s, when you do not work", either(dayNames(days)), h.Hours.Text), "give hours at which both of you are there")
		}
	}
}

func dayNames(days []int) []string {
	var out []string
	for _, d := range days {
		out = append(out, DayName(d))
	}
	return out
}

// hoursOn returns when the builder works on some days of the week; known is false
// if the file does not say it or it could not be read.
func (c *checker) hoursOn(days []int) (out []DayHours, known bool) {
	b := &c.d.Budget
	switch {
	case len(b.Week) > 0:
		for i := range b.Week {
			w := &b.Week[i]
			if !reads(c, w.Day) || !reads(c, w.Hours) {
				return nil, false
			}
			for _, d := range DaysNamed(w.Day.Value) {
				if slices.Contains(days, d) {
					out = append(out, w.Hours.Value)
				}
			}
		}
		return out, true
	case reads(c, b.Hours):
		for _, d := range days {
			out = append(out, b.Hours.Value.Days[d]...)
		}
		return out, true
	}
	return nil, false
}

func overlaps(list []DayHours, h DayHours) bool {
	return slices.ContainsFunc(list, func(o DayHours) bool { return o.From < h.To && h.From < o.To })
}

// oneOf checks that one of two keys is given, and not both.
func (c *checker) oneOf(path string, at Pos, a string, hasA bool, b string, hasB bool) bool {
	switch {
	case hasA && hasB:
		c.report(at, path+"."+b, fmt.Sprintf("%s stands beside %s, and one of them is enough", b, a), "keep one of the two")
	case !hasA && !hasB:
		c.report(at, path+"."+a, "it does not say when", fmt.Sprintf(`write "%s:", or "%s:" with a date`, a, b))
	default:
		return true
	}
	return false
}

// deliveries checks what has to come.
func (c *checker) deliveries(end time.Time, hasEnd bool) {
	b := &c.d.Budget
	first := map[string]int{}
	if b.Delivery.Given() {
		first["glass"] = b.Delivery.Pos.Line
	}
	for i := range b.Comes {
		d := &b.Comes[i]
		path := fmt.Sprintf("budget.deliveries[%d]", i+1)
		if reads(c, d.What) {
			if line, twice := first[d.What.Value]; twice {
				c.report(d.What.Pos, path+".what", fmt.Sprintf("line %d says already when the %s comes", line, d.What.Value), "keep the one that comes last")
			} else {
				first[d.What.Value] = d.What.Pos.Line
			}
		}
		if !c.oneOf(path, d.Pos, "takes", d.Takes.Given() || !lacks(c, d.Takes, path+".takes"), "on", d.On.Given() || !lacks(c, d.On, path+".on")) {
			continue
		}
		if on, ok := c.date(d.On, path+".on"); ok && hasEnd && on.After(end) {
			c.warn(d.On.Pos, path+".on", fmt.Sprintf("it comes on %s, after the deadline, %s", d.On.Text, b.Deadline.Text), "order it for an earlier day, or move the deadline")
		}
	}
}

// done checks the marks of steps; which steps there are the plan knows.
func (c *checker) done() {
	first := map[string]int{}
	for i := range c.d.Done {
		s := &c.d.Done[i]
		path := fmt.Sprintf("done[%d]", i+1)
		if reads(c, s.Step) {
			key := strings.ToLower(strings.TrimSpace(s.Step.Value))
			if line, twice := first[key]; twice {
				c.report(s.Step.Pos, path+".step", fmt.Sprintf("%q is marked on line %d already", s.Step.Value, line), "keep one of the two marks")
			} else {
				first[key] = s.Step.Pos.Line
			}
		}
		if lacks(c, s.On, path+".on") && lacks(c, s.Begun, path+".begun") {
			c.report(s.Pos, path+".on", "it does not say when the step was done", `write "on:" with the day, as 2026-01-31, or "begun:" if it is under way`)
		}
		if reads(c, s.On) && reads(c, s.Begun) {
			a, b := s.Begun.Value, s.On.Value
			if a.Day > b.Day || a.Day == b.Day && a.Timed && b.Timed && a.Minute > b.Minute {
				c.report(s.On.Pos, path+".on", fmt.Sprintf("it was done on %s, before it was begun on %s", s.On.Text, s.Begun.Text), "write the earlier one as begun")
			}
		}
	}
}
