package ics

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"pgregory.net/rapid"
)

// kept is a text as a calendar can hold it: without control characters but tabs and
// ends of lines.
func kept(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' && r != '\t' && r != '\n' || r == 0x7f {
			return -1
		}
		return r
	}, text)
}

func drawEvents(t *rapid.T) []Event {
	var events []Event
	for range rapid.IntRange(1, 5).Draw(t, "events") {
		start := time.Unix(60*rapid.Int64Range(0, 1e8).Draw(t, "start"), 0).UTC()
		e := Event{
			ID: rapid.StringMatching(`[a-zäß: ]{0,9}`).Draw(t, "id"), Summary: rapid.String().Draw(t, "summary"), Tell: rapid.String().Draw(t, "tell"),
			Start: start, End: start.Add(time.Duration(rapid.IntRange(0, 5000).Draw(t, "minutes")) * time.Minute),
			AllDay: rapid.Bool().Draw(t, "all day"), Every: rapid.IntRange(0, 9).Draw(t, "every"), Busy: rapid.Bool().Draw(t, "busy"),
		}
		for range rapid.IntRange(0, 2).Draw(t, "alarms") {
			e.Alarms = append(e.Alarms, time.Duration(rapid.IntRange(0, 3000).Draw(t, "before"))*time.Minute)
		}
		events = append(events, e)
	}
	return events
}

// Another library reads what went in: github.com/emersion/go-ical, and for what comes
// again the one that it uses, github.com/teambition/rrule-go. The end of a day is the
// next midnight (RFC 5545, 3.6.1: DTEND is not included; where there is none, the
// event is of one day or, with a time, of no length).
func TestReadByAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t)
		stamp := time.Unix(rapid.Int64Range(0, 4e9).Draw(t, "stamp"), 0).UTC()
		number := rapid.IntRange(0, 99).Draw(t, "issue")
		cal, err := ical.NewDecoder(bytes.NewReader(Write("test", rapid.String().Draw(t, "name"), events, Issue{Number: number, Stamp: stamp}))).Decode()
		if err != nil {
			t.Fatal(err)
		}
		got := cal.Events()
		if len(got) != len(events) {
			t.Fatalf("%d of %d events", len(got), len(events))
		}
		for i := range events {
			sameEvent(t, &got[i], &events[i], stamp, number)
		}
	})
}

func sameEvent(t *rapid.T, got *ical.Event, e *Event, stamp time.Time, number int) {
	text := func(key string) string {
		s, err := got.Props.Text(key)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	at := func(when time.Time, err error) time.Time {
		if err != nil {
			t.Fatal(err)
		}
		return when
	}
	if s := text(ical.PropSummary); s != kept(e.Summary) {
		t.Errorf("%q came back as %q", e.Summary, s)
	}
	if s := text(ical.PropDescription); s != kept(e.Tell) {
		t.Errorf("%q came back as %q", e.Tell, s)
	}
	start, end := e.Start.Truncate(time.Second), e.End.Truncate(time.Second)
	if e.AllDay {
		start, end = start.Truncate(24*time.Hour), end.Truncate(24*time.Hour)
		if !end.After(start) {
			end = start.AddDate(0, 0, 1)
		}
	}
	if s := at(got.DateTimeStart(time.UTC)); !s.Equal(start) {
		t.Errorf("starts %s, not %s", s, start)
	}
	if s := at(got.DateTimeEnd(time.UTC)); !s.Equal(end) {
		t.Errorf("ends %s, not %s", s, end)
	}
	if s := at(got.Props.DateTime(ical.PropDateTimeStamp, nil)); !s.Equal(stamp) {
		t.Errorf("stamped %s, not %s", s, stamp)
	}
	if n, err := got.Props.Get(ical.PropSequence).Int(); err != nil || n != number {
		t.Errorf("issue %d, not %d: %v", n, number, err)
	}
	if free := text(ical.PropTransparency) == "TRANSPARENT"; free == e.Busy {
		t.Errorf("free is %t", free)
	}
	set, err := got.RecurrenceSet(time.UTC)
	switch {
	case err != nil:
		t.Fatal(err)
	case (set != nil) != (e.Every > 0):
		t.Errorf("every %d days: comes again is %t", e.Every, set != nil)
	case set != nil:
		next := set.Iterator()
		for k := range 3 {
			if when, ok := next(); !ok || !when.Equal(start.AddDate(0, 0, k*e.Every)) {
				t.Errorf("comes again for the %d. time %s", k, when)
			}
		}
	}
	var alarms []time.Duration
	for _, c := range got.Children {
		before, err := c.Props.Get(ical.PropTrigger).Duration()
		if action, _ := c.Props.Text(ical.PropAction); c.Name != ical.CompAlarm || err != nil || action != "DISPLAY" {
			t.Fatalf("%s %s: %v", c.Name, action, err)
		}
		alarms = append(alarms, -before)
	}
	if !slices.Equal(alarms, e.Alarms) {
		t.Errorf("alarms %v, not %v", alarms, e.Alarms)
	}
}

// The UID of an event is its own whatever stands beside it and in which order; what
// an issue has no more is cancelled in it, under the UID and with a higher number, and
// what Read tells of a calendar is what another library reads.
func TestIssues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t)
		for i := range events {
			events[i].ID += strings.Repeat("+", i) // none twice, and all alike once cleaned but for their length
		}
		name := rapid.String().Draw(t, "name")
		first := Write("test", name, events, Issue{Number: 3})
		before, number, err := Read(first, "test")
		if err != nil || number != 3 || len(before) != len(events) {
			t.Fatalf("issue %d of %d events: %v", number, len(before), err)
		}
		uid := map[string]string{} // by ID
		for i, e := range events {
			uid[e.ID] = before[i].UID
		}
		if len(uid) != len(events) {
			t.Fatal("two have one UID")
		}
		later := rapid.Permutation(events).Draw(t, "order")
		keep := rapid.IntRange(1, len(later)).Draw(t, "kept")
		cal, err := ical.NewDecoder(bytes.NewReader(Write("test", name, later[:keep], Issue{Number: number + 1, Before: before}))).Decode()
		if err != nil {
			t.Fatal(err)
		}
		got := cal.Events()
		if len(got) != len(events) {
			t.Fatalf("%d of %d events", len(got), len(events))
		}
		for i := range got {
			id, _ := got[i].Props.Text(ical.PropUID)
			status, _ := got[i].Status()
			n, err := got[i].Props.Get(ical.PropSequence).Int()
			if err != nil || n != 4 {
				t.Errorf("issue %d: %v", n, err)
			}
			switch k := slices.IndexFunc(before, func(e Entry) bool { return e.UID == id }); {
			case i < keep && (id != uid[later[i].ID] || status != ""):
				t.Errorf("%q has become %s, %s", later[i].ID, id, status)
			case i >= keep && (k < 0 || status != ical.EventCancelled):
				t.Errorf("%s is %q", id, status)
			case i >= keep:
				if start, err := got[i].DateTimeStart(time.UTC); err != nil || !start.Equal(before[k].Start) {
					t.Errorf("%s starts %s, not %s: %v", id, start, before[k].Start, err)
				}
				if s, _ := got[i].Props.Text(ical.PropSummary); s != before[k].Summary {
					t.Errorf("%q came back as %q", before[k].Summary, s)
				}
			}
		}
	})
}

func TestReadRefuses(t *testing.T) {
	good := string(Write("test", "n", []Event{{ID: "a", Start: time.Unix(0, 0).UTC()}}, Issue{}))
	for _, c := range []struct{ text, want string }{
		{"", "PRODID"},
		{"not a calendar", "line 1"},
		{strings.Replace(good, "//test//", "//else//", 1), "PRODID"},
		{strings.Replace(good, "SEQUENCE:0", "SEQUENCE:-1", 1), "line 8"},
		{strings.Replace(good, "DTSTART:1970", "DTSTART:abcd", 1), "line 9"},
		{strings.Replace(good, "UID:", "XID:", 1), "without UID"},
	} {
		if _, _, err := Read([]byte(c.text), "test"); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: %v, want %s", c.text, err, c.want)
		}
	}
	if _, _, err := Read([]byte(good), "test"); err != nil {
		t.Error(err)
	}
}
