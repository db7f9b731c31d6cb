package schedule

import (
	"fmt"
	"strconv"
	"strings"
)

// Day is a civil date: days since 1970-01-01 in the Gregorian calendar. It has no
// time zone.
type Day int

// Moment is a minute of civil time: 1440 times its Day plus the minute of that day.
// A day on which the clocks change counts as 24 hours like any other.
type Moment int64

// DayMinutes is how many minutes a day has.
const DayMinutes = 1440

// DayOf returns the day of a date of the years 1 to 9999; ok is false if there is
// no such date.
func DayOf(year, month, day int) (d Day, ok bool) {
	if year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 {
		return 0, false
	}
	// Counted in years that begin in March, so that the leap day is the last one;
	// months from March have (153 m + 2)/5 days before them.
	y, m := year, month-3
	if m < 0 {
		y, m = y-1, m+12
	}
	d = Day(365*y+y/4-y/100+y/400+(153*m+2)/5+day-1) - 719468
	_, _, back := d.Date()
	return d, back == day
}

// ParseDay reads a date written as 2026-01-31.
func ParseDay(text string) (Day, error) {
	part := strings.Split(text, "-")
	if len(text) == len("2026-01-31") && len(part) == 3 && !strings.Contains(text, "+") {
		y, err1 := strconv.Atoi(part[0])
		m, err2 := strconv.Atoi(part[1])
		d, err3 := strconv.Atoi(part[2])
		if day, ok := DayOf(y, m, d); ok && err1 == nil && err2 == nil && err3 == nil {
			return day, nil
		}
	}
	return 0, fmt.Errorf("%q is no date: write year, month and day as 2026-01-31", text)
}

// Date returns year, month (1 to 12) and day of the month.
func (d Day) Date() (year, month, day int) {
	n := int(d) + 719468
	era := floorDiv(n, 146097)
	e := n - era*146097
	y := (e - e/1460 + e/36524 - e/146096) / 365
	e -= 365*y + y/4 - y/100
	m := (5*e + 2) / 153
	day = e - (153*m+2)/5 + 1
	month = m + 3
	if month > 12 {
		month, y = month-12, y+1
	}
	return y + era*400, month, day
}

func (d Day) String() string {
	y, m, n := d.Date()
	return fmt.Sprintf("%04d-%02d-%02d", y, m, n)
}

// Named returns a day with its weekday: Sat 2026-01-31.
func (d Day) Named() string {
	return [...]string{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}[d.Weekday()] + " " + d.String()
}

// Weekday returns 0 for Monday to 6 for Sunday.
func (d Day) Weekday() int {
	w := (int(d) + 3) % 7 // 1970-01-01 was a Thursday
	if w < 0 {
		w += 7
	}
	return w
}

// At returns a minute of the day, 0 to 1440.
func (d Day) At(minute int) Moment { return Moment(d)*DayMinutes + Moment(minute) }

// Day returns the day a moment lies in; midnight begins one.
func (m Moment) Day() Day { return Day(floorDiv(int(m), DayMinutes)) }

// Minute returns the minute of the day, 0 to 1439.
func (m Moment) Minute() int { return int(m - m.Day().At(0)) }

func (m Moment) String() string { return m.Day().String() + " " + m.Clock() }

// Clock returns the time of day: 18:30.
func (m Moment) Clock() string { return fmt.Sprintf("%02d:%02d", m.Minute()/60, m.Minute()%60) }

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
