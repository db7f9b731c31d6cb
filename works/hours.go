package works

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillwright/schedule"
)

var weekdays = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}

// parts of a day that have a name, in minutes. Assumed.
var parts = map[string]schedule.Hours{
	"mornings":   {From: 8 * 60, To: 12 * 60},
	"afternoons": {From: 13 * 60, To: 17 * 60},
	"evenings":   {From: 18*60 + 30, To: 21*60 + 30},
}

// wholeDay is what a day has that is named without hours. Assumed.
var wholeDay = schedule.Hours{From: 9 * 60, To: 17 * 60}

// Hours reads when somebody can work: "Tuesday and Thursday evenings, Saturdays",
// "weekends 10:00-16:00". Days are named by name, as weekdays, weekends or daily;
// what follows them, mornings, afternoons, evenings or times, holds for all days
// since the last comma. assumed tells what was taken for words without times. The
// error names the word that is not known and what may stand there.
func Hours(text string) (week schedule.Calendar, assumed []string, err error) {
	if strings.TrimSpace(text) == "" {
		return week, nil, fmt.Errorf("no hours: write when you can work, as Tuesday evenings, Saturdays 9:00-17:00")
	}
	for clause := range strings.SplitSeq(strings.ToLower(text), ",") {
		var days []int
		var hours []schedule.Hours
		for _, word := range strings.Fields(strings.ReplaceAll(clause, "–", "-")) {
			if word == "and" || word == "on" {
				continue
			}
			if named := daysOf(word); named != nil {
				days = append(days, named...)
				continue
			}
			if h, ok := parts[strings.TrimSuffix(word, "s")+"s"]; ok {
				hours = append(hours, h)
				assumed = note(assumed, strings.TrimSuffix(word, "s")+"s", h)
				continue
			}
			h, err := times(word)
			if err != nil {
				return week, nil, err
			}
			hours = append(hours, h)
		}
		if len(days) == 0 {
			return week, nil, fmt.Errorf("hours %q: name a day first, such as Saturdays %s", strings.TrimSpace(clause), strings.TrimSpace(clause))
		}
		if len(hours) == 0 {
			hours = []schedule.Hours{wholeDay}
			assumed = note(assumed, "a whole day", wholeDay)
		}
		for _, d := range days {
			week.Week[d] = append(week.Week[d], hours...)
		}
	}
	return week, assumed, nil
}

func note(list []string, what string, h schedule.Hours) []string {
	say := fmt.Sprintf("%s: %s to %s", what, clock(h.From), clock(h.To))
	if slices.Contains(list, say) {
		return list
	}
	return append(list, say)
}

func clock(m int) string { return fmt.Sprintf("%d:%02d", m/60, m%60) }

func daysOf(word string) []int {
	switch word {
	case "weekdays":
		return []int{0, 1, 2, 3, 4}
	case "weekend", "weekends":
		return []int{5, 6}
	case "daily":
		return []int{0, 1, 2, 3, 4, 5, 6}
	}
	if d := slices.Index(weekdays, strings.TrimSuffix(word, "s")); d >= 0 {
		return []int{d}
	}
	return nil
}

// times reads "18:30-21:30" or "9-17".
func times(word string) (schedule.Hours, error) {
	bad := fmt.Errorf("hours: %q is no day and no time: write a weekday by its name, weekdays, weekends or daily, then mornings, afternoons, evenings or 18:30-21:30", word)
	from, to, ok := strings.Cut(word, "-")
	if !ok {
		return schedule.Hours{}, bad
	}
	var m [2]int
	for i, t := range []string{from, to} {
		hour, minute, has := strings.Cut(t, ":")
		h, err := strconv.Atoi(hour)
		if err != nil || h < 0 || h > 24 {
			return schedule.Hours{}, bad
		}
		m[i] = h * 60
		if has {
			k, err := strconv.Atoi(minute)
			if err != nil || k < 0 || k > 59 {
				return schedule.Hours{}, bad
			}
			m[i] += k
		}
	}
	if m[0] >= m[1] || m[1] > schedule.DayMinutes {
		return schedule.Hours{}, fmt.Errorf("hours: %q does not run from an earlier to a later time of one day: write 18:30-21:30", word)
	}
	return schedule.Hours{From: m[0], To: m[1]}, nil
}

// Delivery reads how long something takes to come: "8 working days for glass",
// "2 weeks". What follows the unit is left alone. The error says what to write.
func Delivery(text string) (days int, working bool, err error) {
	f := strings.Fields(strings.ToLower(text))
	if len(f) >= 2 {
		n, err := strconv.Atoi(f[0])
		unit := strings.TrimSuffix(f[1], "s")
		if unit == "working" && len(f) > 2 {
			unit, working = strings.TrimSuffix(f[2], "s"), true
		}
		if err == nil && n >= 0 && n <= 1000 {
			switch {
			case unit == "day":
				return n, working, nil
			case unit == "week" && !working:
				return 7 * n, false, nil
			}
		}
	}
	return 0, false, fmt.Errorf("delivery %q: write a whole number of days, working days or weeks, as 8 working days for glass", text)
}
