package ics

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Entry is what has to be known of an event to cancel it.
type Entry struct {
	UID, Summary string
	Start        time.Time // as the clock on the wall shows it
	AllDay       bool
}

// Read returns the events of a calendar that Write made for a maker, and the number of
// its issue. The error says what is not of such a calendar, and on which line.
func Read(data []byte, maker string) (entries []Entry, number int, err error) {
	rest := bytes.NewBuffer(data)
	var e Entry
	mine := false
	within := "" // the innermost of the things that have begun
	for n := 1; rest.Len() > 0; n++ {
		text, folds := unfold(rest)
		key, value, ok := strings.Cut(text, ":")
		key, _, _ = strings.Cut(key, ";")
		fault := ""
		switch {
		case !ok:
			fault = "no line of a calendar"
		case key == "BEGIN":
			if within = value; value == "VEVENT" {
				e = Entry{}
			}
		case key == "END":
			if value == "VEVENT" {
				if e.Start.IsZero() || !strings.HasSuffix(e.UID, home) {
					fault = "the end of an event without UID or start"
				}
				entries = append(entries, e)
			}
			within = map[string]string{"VALARM": "VEVENT", "VEVENT": "VCALENDAR"}[value]
		case text == product(maker):
			mine = true
		case within != "VEVENT":
		case key == "UID":
			e.UID = value
		case key == "SUMMARY":
			e.Summary = unescape(value)
		case key == "SEQUENCE":
			k, err := strconv.Atoi(value)
			if err != nil || k < 0 {
				fault = "no number of an issue"
			}
			number = max(number, k)
		case key == "DTSTART":
			e.AllDay = strings.Contains(text, ";VALUE=DATE:")
			if e.Start, err = time.Parse("DTSTART"+format(e.AllDay), text); err != nil {
				fault = "no date"
			}
		}
		if fault != "" {
			return nil, 0, fmt.Errorf("line %d: %.40q is %s", n, text, fault)
		}
		n += folds
	}
	if !mine {
		return nil, 0, errors.New("it has no line " + product(maker))
	}
	return entries, number, nil
}

// unfold takes the next line off, with those on which it goes on.
func unfold(from *bytes.Buffer) (text string, folds int) {
	var b strings.Builder
	for {
		part, err := from.ReadString('\n')
		b.WriteString(strings.TrimRight(part, "\r\n"))
		if next := from.Bytes(); err != nil || len(next) == 0 || next[0] != ' ' {
			return b.String(), folds
		}
		from.Next(1)
		folds++
	}
}

// unescape reads what escape wrote.
func unescape(value string) string {
	return strings.NewReplacer(`\\`, `\`, `\;`, ";", `\,`, ",", `\n`, "\n").Replace(value)
}
