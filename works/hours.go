package works

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/schedule"
)

// hours makes the calendars of builder, helper and shop of a budget. Dates that
// cannot be read are left out, since reading the file has said so.
func (w *Work) hours(b *design.Budget) []schedule.Resource {
	var mine schedule.Calendar
	switch {
	case len(b.Week) > 0:
		for i := range b.Week {
			addHours(&mine, b.Week[i].Day.Value, b.Week[i].Hours.Value)
		}
	case b.Hours.Given():
		for d, list := range b.Hours.Value.Days {
			for _, h := range list {
				mine.Week[d] = append(mine.Week[d], schedule.Hours(h))
			}
		}
		w.Assumed = append(w.Assumed, b.Hours.Value.Assumed...)
	default:
		for _, d := range []int{5, 6} {
			mine.Week[d] = []schedule.Hours{{From: 9 * 60, To: 17 * 60}}
		}
		w.take("you work at weekends, 9:00 to 17:00: budget.week does not say")
	}
	shop := schedule.Always()
	shop.Week[5], shop.Week[6] = nil, nil
	off := map[schedule.Day][]schedule.Hours{}
	for i := range b.Off {
		from, to, ok := daysOff(&b.Off[i])
		for d := from; ok && d <= to; d++ {
			off[d] = nil
		}
	}
	mine.Days, shop.Days = off, off
	return []schedule.Resource{
		{Name: Builder, Hours: mine, Count: 1}, {Name: Helper, Hours: w.help(b, mine, off), Count: 1}, {Name: Shop, Hours: shop},
	}
}

// help is when a helper comes.
func (w *Work) help(b *design.Budget, mine schedule.Calendar, off map[schedule.Day][]schedule.Hours) schedule.Calendar {
	if len(b.Helper) == 0 {
		w.take("a helper comes when two are wanted: budget.helper does not say")
		return mine
	}
	help := schedule.Calendar{Days: map[schedule.Day][]schedule.Hours{}}
	for i := range b.Helper {
		if h := &b.Helper[i]; h.Day.Given() {
			addHours(&help, h.Day.Value, h.Hours.Value)
		}
	}
	for d := range off {
		help.Days[d] = nil
	}
	for i := range b.Helper {
		h := &b.Helper[i]
		d, err := schedule.ParseDay(strings.TrimSpace(h.On.Value))
		if !h.On.Given() || err != nil {
			continue
		}
		if _, is := help.Days[d]; !is {
			help.Days[d] = slices.Clone(help.Week[d.Weekday()])
		}
		help.Days[d] = append(help.Days[d], schedule.Hours(h.Hours.Value))
	}
	return help
}

func addHours(c *schedule.Calendar, day string, h design.DayHours) {
	for _, d := range design.DaysNamed(day) {
		c.Week[d] = append(c.Week[d], schedule.Hours(h))
	}
}

func daysOff(o *design.DaysOff) (from, to schedule.Day, ok bool) {
	from, err := schedule.ParseDay(strings.TrimSpace(o.From.Value))
	if err != nil {
		return 0, 0, false
	}
	if !o.To.Given() {
		return from, from, true
	}
	to, err = schedule.ParseDay(strings.TrimSpace(o.To.Value))
	return from, to, err == nil
}

// take notes what was taken where the file says nothing, once.
func (w *Work) take(say string, args ...any) {
	say = fmt.Sprintf(say, args...)
	if !slices.Contains(w.Assumed, say) {
		w.Assumed = append(w.Assumed, say)
	}
}
