// Package ics writes calendars as iCalendar files, which phones and desks read.
// What the events are about is the caller's business.
package ics

import (
	"fmt"
	"hash/fnv"
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

// Issue tells one state of a calendar from those before it.
type Issue struct {
	Number int       // SEQUENCE: of two with one UID a program keeps that with the higher one
	Stamp  time.Time // when it was made
	Before []Entry   // of the issue before; those that are not in this one are cancelled
}

// Write returns events as an iCalendar file, at least one. The UID of an event is
// made from maker, name and ID alone, whatever else the file holds, so that a later
// issue moves it; only where two have the same, the later one gets a number. An event
// that ends when it starts, or before, or on the same day if it counts days, is a
// moment, or that day.
//
// Source: RFC 5545, sections 3.1, 3.3.5, 3.3.11, 3.4, 3.6.1, 3.6.6, 3.8.1.11, 3.8.5.3
// and 3.8.7 (from memory).
func Write(maker, name string, events []Event, is Issue) []byte {
	var b strings.Builder
	line := func(text string) { b.WriteString(fold(text)) }
	head := func(uid string) {
		line("BEGIN:VEVENT")
		line("UID:" + uid)
		line("DTSTAMP:" + is.Stamp.UTC().Format("20060102T150405Z"))
		line(fmt.Sprintf("SEQUENCE:%d", is.Number))
	}
	line("BEGIN:VCALENDAR")
	line("VERSION:2.0")
	line(product(maker))
	line("X-WR-CALNAME:" + escape(name))
	seen := map[string]bool{}
	for i := range events {
		e := &events[i]
		uid := identity(maker, name, e.ID, seen)
		seen[uid] = true
		head(uid)
		form := format(e.AllDay)
		start, end := e.Start.Format(form), e.End.Format(form)
		line("DTSTART" + start)
		if e.End.After(e.Start) && end != start {
			line("DTEND" + end)
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
	for _, gone := range is.Before {
		if seen[gone.UID] {
			continue
		}
		head(gone.UID)
		line("DTSTART" + gone.Start.Format(format(gone.AllDay)))
		line("SUMMARY:" + escape(gone.Summary))
		line("STATUS:CANCELLED")
		line("TRANSP:TRANSPARENT")
		line("END:VEVENT")
	}
	line("END:VCALENDAR")
	return []byte(b.String())
}

func product(maker string) string { return "PRODID:-//rillwright//" + maker + "//EN" }

// format is that of a date, or of a moment without zone, with what leads up to it.
func format(allDay bool) string {
	if allDay {
		return ";VALUE=DATE:20060102"
	}
	return ":20060102T150405"
}

// identity makes a UID. Names that look alike when cleaned differ in their sums.
func identity(maker, name, id string, seen map[string]bool) string {
	sum := fnv.New32a()
	fmt.Fprintf(sum, "%s\x00%s", name, id)
	base := fmt.Sprintf("%s.%s.%s.%08x", clean(name), clean(maker), clean(id), sum.Sum32())
	uid := base + home
	for k := 2; seen[uid]; k++ {
		uid = fmt.Sprintf("%s.%d%s", base, k, home)
	}
	return uid
}

// home ends all UIDs.
const home = "@rillwright"

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
