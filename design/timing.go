package design

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"rillwright/finding"
	"rillwright/quantity"
)

// DayHours is a stretch of a day, in minutes from midnight: 0 <= From < To <= 1440.
type DayHours struct{ From, To int }

// WeekHours is when somebody can work, in words: "Tuesday and Thursday evenings,
// Saturdays 9:00-17:00".
type WeekHours struct {
	Days [7][]DayHours // Monday first
	// Assumed tells what was taken for words without times.
	Assumed []string
}

// Lead is how long something takes to come, in days.
type Lead struct {
	Low, High int
	Working   bool // Monday to Friday alone count
}

// Stamp is a day, with the time of day if that is known.
type Stamp struct {
	Day    string // 2026-01-31
	Minute int    // of the day, 0 to 1439
	Timed  bool
}

var weekdays = []string{"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"}

// partsOfDay are parts of a day that have a name. Assumed.
var partsOfDay = map[string]DayHours{
	"mornings":   {8 * 60, 12 * 60},
	"afternoons": {13 * 60, 17 * 60},
	"evenings":   {18*60 + 30, 21*60 + 30},
}

// wholeDay is what a day has that is named without hours. Assumed.
var wholeDay = DayHours{9 * 60, 17 * 60}

// DaysNamed returns the days of the week, 0 for Monday, that a word stands for:
// "Tuesday", "Tuesdays", "weekdays", "weekends", "daily"; none for other words.
func DaysNamed(word string) []int {
	word = strings.ToLower(word)
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

// DayName returns the name of a day of the week, 0 for Monday.
func DayName(day int) string { return strings.ToUpper(weekdays[day][:1]) + weekdays[day][1:] }

// Describe implements document.Describer.
func (*DayHours) Describe() (what string, examples []string) {
	return "times of a day", []string{"18:30-21:30", "9:00-17:00"}
}

// UnmarshalText reads "18:30-21:30" or "9-17".
func (h *DayHours) UnmarshalText(text []byte) error {
	const ask = "write from when to when, as 18:30-21:30"
	bad := func(problem string) error {
		return &quantity.Error{Text: string(text), Problem: problem, Ask: ask}
	}
	from, to, ok := strings.Cut(strings.ReplaceAll(string(text), "–", "-"), "-")
	if !ok {
		return bad("not two times")
	}
	a, ok1 := minuteOf(from)
	b, ok2 := minuteOf(to)
	switch {
	case !ok1 || !ok2:
		return bad("no times of a day")
	case a >= b:
		return bad("does not run from an earlier to a later time of one day")
	}
	h.From, h.To = a, b
	return nil
}

func (h DayHours) String() string { return clock(h.From) + "-" + clock(h.To) }

func clock(m int) string { return fmt.Sprintf("%d:%02d", m/60, m%60) }

// minuteOf reads "18:30" or "9"; 24:00 is the end of the day.
func minuteOf(text string) (minute int, ok bool) {
	hour, rest, has := strings.Cut(strings.TrimSpace(text), ":")
	h, err := strconv.Atoi(hour)
	if err != nil || h < 0 || strings.HasPrefix(hour, "+") {
		return 0, false
	}
	k := 0
	if has {
		if k, err = strconv.Atoi(rest); err != nil || len(rest) != 2 || k < 0 || k > 59 {
			return 0, false
		}
	}
	minute = h*60 + k
	return minute, minute <= 24*60
}

// Describe implements document.Describer.
func (*WeekHours) Describe() (what string, examples []string) {
	return "days and times", []string{"Tuesday and Thursday evenings, Saturdays 9:00-17:00", "weekends"}
}

// UnmarshalText reads days by name, as weekdays, weekends or daily; what follows
// them, mornings, afternoons, evenings or times, holds for all days since the last
// comma. The error names the word that is not known and what may stand there.
func (w *WeekHours) UnmarshalText(text []byte) error {
	bad := func(problem, ask string) error {
		return &quantity.Error{Text: string(text), Problem: problem, Ask: ask}
	}
	for clause := range strings.SplitSeq(strings.ToLower(string(text)), ",") {
		var days []int
		var hours []DayHours
		for _, word := range strings.Fields(strings.ReplaceAll(clause, "–", "-")) {
			if word == "and" || word == "on" {
				continue
			}
			if named := DaysNamed(word); named != nil {
				days = append(days, named...)
				continue
			}
			part := strings.TrimSuffix(word, "s") + "s"
			h, ok := partsOfDay[part]
			if ok {
				w.note(part, h)
			} else if err := h.UnmarshalText([]byte(word)); err != nil {
				if word[0] >= '0' && word[0] <= '9' {
					return bad(fmt.Sprintf("%q is no stretch of a day", word), "write from an earlier to a later time, as 18:30-21:30")
				}
				return bad(fmt.Sprintf("%q is no day and no time", word), dayHelp(word))
			}
			hours = append(hours, h)
		}
		if len(days) == 0 {
			return bad("a day is missing", "name a day first, as Saturdays 9:00-17:00")
		}
		if len(hours) == 0 {
			hours = []DayHours{wholeDay}
			w.note("a whole day", wholeDay)
		}
		for _, d := range days {
			w.Days[d] = append(w.Days[d], hours...)
		}
	}
	return nil
}

func dayHelp(word string) string {
	var names []string
	for d := range weekdays {
		names = append(names, DayName(d))
	}
	if near, ok := finding.Nearest(strings.TrimSuffix(word, "s"), names); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "write a day by its name, weekdays, weekends or daily, then mornings, afternoons, evenings or 18:30-21:30"
}

func (w *WeekHours) note(what string, h DayHours) {
	say := fmt.Sprintf("%s: %s to %s", what, clock(h.From), clock(h.To))
	if !slices.Contains(w.Assumed, say) {
		w.Assumed = append(w.Assumed, say)
	}
}

// Describe implements document.Describer.
func (*Lead) Describe() (what string, examples []string) {
	return "a number of days, working days or weeks, or a range of them", []string{"8 working days", "2 to 3 weeks"}
}

// UnmarshalText reads "8 working days", "5 to 10 days" or "2 weeks". What follows
// the unit is left alone, as in "8 working days for glass".
func (l *Lead) UnmarshalText(text []byte) error {
	bad := &quantity.Error{Text: string(text), Problem: "no number of days", Ask: "write whole days, working days or weeks, as 8 working days or 2 to 3 weeks"}
	f := strings.Fields(strings.ToLower(string(text)))
	if len(f) < 2 {
		return bad
	}
	low, err := strconv.Atoi(f[0])
	high, rest := low, f[1:]
	if err == nil && len(f) >= 4 && f[1] == "to" {
		high, err = strconv.Atoi(f[2])
		rest = f[3:]
	}
	unit := strings.TrimSuffix(rest[0], "s")
	working := unit == "working" && len(rest) > 1
	if working {
		unit = strings.TrimSuffix(rest[1], "s")
	}
	if err != nil || low < 0 || high > 1000 {
		return bad
	}
	if low > high {
		return &quantity.Error{Text: string(text), Problem: "the range falls", Ask: "write the shorter time first"}
	}
	switch {
	case unit == "day":
		*l = Lead{low, high, working}
	case unit == "week" && !working:
		*l = Lead{7 * low, 7 * high, false}
	default:
		return bad
	}
	return nil
}

// Describe implements document.Describer.
func (*Stamp) Describe() (what string, examples []string) {
	return "a day, or a day and a time", []string{"2026-01-31", "2026-01-31 16:30"}
}

// UnmarshalText reads "2026-01-31" or "2026-01-31 16:30".
func (s *Stamp) UnmarshalText(text []byte) error {
	day, at, timed := strings.Cut(strings.TrimSpace(string(text)), " ")
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		what, do := notADay(day)
		return &quantity.Error{Text: string(text), Problem: what, Ask: do}
	}
	minute, ok := 0, true
	if timed {
		minute, ok = minuteOf(at)
	}
	if !ok || minute >= 24*60 {
		return &quantity.Error{Text: string(text), Problem: fmt.Sprintf("%q is no time of day", at), Ask: "write the time as 16:30, or the day alone"}
	}
	*s = Stamp{day, minute, timed}
	return nil
}

func (s Stamp) String() string {
	if !s.Timed {
		return s.Day
	}
	return fmt.Sprintf("%s %02d:%02d", s.Day, s.Minute/60, s.Minute%60)
}
