// Package ics writes calendars as iCalendar files, which phones and desks read.
// What the events are about is the caller's business.
package ics

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// Event is an entry of a calendar.
type Event struct {
	ID            string // tells it from the others; the same one for the same thing makes a calendar read again move it
	Summary, Tell string // a line, and what is to be known; Tell may be empty
	Start, End    time.Time
	// AllDay counts the days of Start and End, End not included, and no times. A
	// moment otherwise stands as the clock on the wall shows it, without zone.
	AllDay bool
	Every  int             // comes again after so many days; 0: never
	Alarms []time.Duration // before Start, whole minutes, not negative
	Busy   bool            // takes up the time
}

// Write returns events as an iCalendar file made at stamp. UIDs are made from
// name and ID; where two come out alike, the later one gets a number. An event
// that ends when it starts, or before, is a moment.
//
// Source: RFC 5545, sections 3.1, 3.3.5, 3.3.11, 3.4, 3.6.1, 3.6.6 and 3.8.5.3 (from
// memory).
func Write(maker, name string, events []Event, stamp time.Time) []byte {
	var b strings.Builder
	line := func(text string) { b.WriteString(fold(text)) }
	line("BEGIN:VCALENDAR")
	line("VERSION:2.0")
	line("PRODID:-//rillwright//" + maker + "//EN")
	line("X-WR-CALNAME:" + escape(name))
	seen := map[string]int{}
	for i := range events {
		e := &events[i]
		id := clean(name) + "." + clean(e.ID)
		for seen[id]++; seen[id] > 1; seen[id]++ {
			id = fmt.Sprintf("%s.%d", id, seen[id])
		}
		line("BEGIN:VEVENT")
		line("UID:" + id + "@rillwright")
		line("DTSTAMP:" + stamp.UTC().Format("20060102T150405Z"))
		format := ":20060102T150405"
		if e.AllDay {
			format = ";VALUE=DATE:20060102"
		}
		line("DTSTART" + e.Start.Format(format))
		if e.End.After(e.Start) {
			line("DTEND" + e.End.Format(format))
		}
		if e.Every > 0 {
			line(fmt.Sprintf("RRULE:FREQ=DAILY;INTERVAL=%d", e.Every))
		}
		line("SUMMARY:" + escape(e.Summary))
		if e.Tell != "" {
			line("DESCRIPTION:" + escape(e.Tell))
		}
		if !e.Busy {
			line("TRANSP:TRANSPARENT")
		}
		for _, before := range e.Alarms {
			line("BEGIN:VALARM")
			line("ACTION:DISPLAY")
			line("DESCRIPTION:" + escape(e.Summary))
			line(fmt.Sprintf("TRIGGER:-PT%dM", int(before.Minutes())))
			line("END:VALARM")
		}
		line("END:VEVENT")
	}
	line("END:VCALENDAR")
	return []byte(b.String())
}

// clean leaves letters that any program takes.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		}
		return '-'
	}, text)
}

// escape writes a text as a value; control characters may not stand in one.
func escape(text string) string {
	text = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(text)
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' || r == 0x7f {
			return -1
		}
		return r
	}, text)
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
