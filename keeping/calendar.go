package keeping

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// Calendar returns the chores as an iCalendar file: one event of a whole day each,
// that comes again as often as the chore does. stamp is when it was made. Chores
// that are late begin on the day of stamp.
//
// Source: RFC 5545, sections 3.1, 3.3.11, 3.4, 3.6.1 and 3.8.5.3 (from memory).
func Calendar(name string, due []Due, stamp time.Time) []byte {
	var b strings.Builder
	line := func(text string) { b.WriteString(fold(text)) }
	line("BEGIN:VCALENDAR")
	line("VERSION:2.0")
	line("PRODID:-//rillwright//keeping//EN")
	line("X-WR-CALNAME:" + escape(name))
	for i := range due {
		d := &due[i]
		on := d.Next
		if on.Before(stamp) {
			on = stamp
		}
		line("BEGIN:VEVENT")
		line("UID:" + uid(name, d.ID))
		line("DTSTAMP:" + stamp.UTC().Format("20060102T150405Z"))
		line("DTSTART;VALUE=DATE:" + on.Format("20060102"))
		line("DTEND;VALUE=DATE:" + on.AddDate(0, 0, 1).Format("20060102"))
		line(fmt.Sprintf("RRULE:FREQ=DAILY;INTERVAL=%d", d.Days))
		line("SUMMARY:" + escape(name+": "+d.What))
		line("DESCRIPTION:" + escape(d.How))
		line("TRANSP:TRANSPARENT")
		line("END:VEVENT")
	}
	line("END:VCALENDAR")
	return []byte(b.String())
}

// uid is the same for the same chore of the same design, so that a calendar read
// again moves events and does not add them.
func uid(name, id string) string {
	clean := func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		}
		return '-'
	}
	return strings.Map(clean, name) + "." + strings.Map(clean, id) + "@rillwright"
}

func escape(text string) string {
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`, "\r", "").Replace(text)
}

// fold ends a line, and breaks it where it is longer than 75 bytes, between
// characters; what goes on begins with a blank.
func fold(text string) string {
	const most = 75
	var b strings.Builder
	room := most
	for _, r := range text {
		if n := utf8.RuneLen(r); n > room {
			b.WriteString("\r\n ")
			room = most - 1
		}
		b.WriteRune(r)
		room -= utf8.RuneLen(r)
	}
	b.WriteString("\r\n")
	return b.String()
}
