package ics

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// value is TEXT of RFC 5545, section 3.3.11: no bare comma, semicolon, backslash
// or control character.
const value = `(?:[^\x00-\x08\x0a-\x1f\x7f\\;,]|\\[\\;,nN])*`

var lineForms = regexp.MustCompile(`^(?:(?:BEGIN|END):(?:VCALENDAR|VEVENT|VALARM)|VERSION:2\.0|PRODID:` + value + `|X-WR-CALNAME:` + value +
	`|UID:[a-z0-9.-]+@rillwright|DTSTAMP:\d{8}T\d{6}Z|DT(?:START|END)(?:;VALUE=DATE:\d{8}|:\d{8}T\d{6})|RRULE:FREQ=DAILY;INTERVAL=[1-9]\d*|SUMMARY:` + value + `|SEQUENCE:\d+|STATUS:CANCELLED` +
	`|DESCRIPTION:` + value + `|TRANSP:TRANSPARENT|ACTION:DISPLAY|TRIGGER:-PT\d+M)$`)

// unfolded checks lines and their ends, and returns them whole.
func unfolded(t interface{ Fatalf(string, ...any) }, text string) []string {
	body, ok := strings.CutSuffix(text, "\r\n")
	if !ok || strings.ContainsAny(strings.ReplaceAll(text, "\r\n", ""), "\r\n") {
		t.Fatalf("a line does not end with CRLF")
	}
	for l := range strings.SplitSeq(body, "\r\n") {
		if len(l) > 75 {
			t.Fatalf("a line of %d bytes", len(l))
		}
	}
	return strings.Split(strings.ReplaceAll(body, "\r\n ", ""), "\r\n")
}

// Whatever the words, a calendar is one by the letter, and its summaries read back
// are what went in.
func TestWrite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var events []Event
		for range rapid.IntRange(0, 5).Draw(t, "events") {
			start := time.Unix(60*rapid.Int64Range(0, 1e8).Draw(t, "start"), 0).UTC()
			e := Event{
				ID: rapid.String().Draw(t, "id"), Summary: rapid.String().Draw(t, "summary"), Tell: rapid.String().Draw(t, "tell"),
				Start: start, End: start.Add(time.Duration(rapid.IntRange(0, 500).Draw(t, "minutes")) * time.Minute),
				AllDay: rapid.Bool().Draw(t, "all day"), Every: rapid.IntRange(0, 9).Draw(t, "every"),
			}
			for range rapid.IntRange(0, 2).Draw(t, "alarms") {
				e.Alarms = append(e.Alarms, time.Hour)
			}
			events = append(events, e)
		}
		name := rapid.String().Draw(t, "name")
		uids := map[string]bool{}
		var open, summaries []string
		for _, l := range unfolded(t, string(Write("test", name, events, Issue{Stamp: time.Unix(0, 0)}))) {
			if !lineForms.MatchString(l) {
				t.Fatalf("%q is no line of a calendar", l)
			}
			key, rest, _ := strings.Cut(l, ":")
			switch key {
			case "BEGIN":
				open = append(open, rest)
			case "END":
				if len(open) == 0 || open[len(open)-1] != rest {
					t.Fatalf("%s ends within %v", rest, open)
				}
				open = open[:len(open)-1]
			case "UID":
				if uids[rest] {
					t.Fatalf("UID %s twice", rest)
				}
				uids[rest] = true
			case "SUMMARY":
				summaries = append(summaries, strings.NewReplacer(`\\`, `\`, `\;`, ";", `\,`, ",", `\n`, "\n").Replace(rest))
			}
		}
		if len(open) > 0 || len(uids) != len(events) || len(summaries) != len(events) {
			t.Fatalf("%d UIDs, %d summaries of %d events, open %v", len(uids), len(summaries), len(events), open)
		}
		for i, s := range summaries {
			want := strings.Map(func(r rune) rune {
				if r < ' ' && r != '\t' && r != '\n' || r == 0x7f {
					return -1
				}
				return r
			}, events[i].Summary)
			if s != want {
				t.Fatalf("%q came back as %q", want, s)
			}
		}
	})
}

// Folded lines unfold to what they were, and no character is broken.
func TestFold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.NewReplacer("\r", "", "\n", "").Replace(rapid.String().Draw(t, "text"))
		if got := unfolded(t, fold(text)); len(got) != 1 || got[0] != text {
			t.Fatalf("%q unfolds to %q", text, got)
		}
	})
}
