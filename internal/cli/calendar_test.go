package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"

	"rillwright/examples"
)

// readByAnother lists the events of a calendar, as github.com/emersion/go-ical reads
// it, by UID.
func readByAnother(t *testing.T, text string) map[string]*ical.Event {
	t.Helper()
	cal, err := ical.NewDecoder(strings.NewReader(text)).Decode()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]*ical.Event{}
	for _, e := range cal.Events() {
		id, err := e.Props.Text(ical.PropUID)
		if err != nil || out[id] != nil {
			t.Fatalf("UID %q: %v", id, err)
		}
		out[id] = &e
	}
	return out
}

// told is an event in one line.
func told(t *testing.T, e *ical.Event) string {
	t.Helper()
	start, err := e.DateTimeStart(time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	end, err := e.DateTimeEnd(time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	say, _ := e.Props.Text(ical.PropSummary)
	what, _ := e.Props.Text(ical.PropDescription)
	var alarms []string
	for _, c := range e.Children {
		alarms = append(alarms, c.Props.Get(ical.PropTrigger).Value)
	}
	kind := e.Props.Get(ical.PropDateTimeStart).ValueType()
	return fmt.Sprint(kind, start.Format(" 2006-01-02 15:04 "), end.Format(" 2006-01-02 15:04 "), say, "|", what, alarms)
}

// Every sitting, every waiting's end and every delivery of both demos' plans, with
// words, alarms and the day after as the end of a whole day, as another library reads
// them.
func TestPlanReadByAnother(t *testing.T) {
	for _, demo := range []string{"demo", "demo-us"} {
		_, out, _ := run("plan", "--format", "json", demo)
		var p planned
		if err := json.Unmarshal([]byte(out), &p); err != nil {
			t.Fatal(err)
		}
		want := map[string]int{}
		for _, s := range p.Steps {
			say := p.Design + ": " + s.Say
			if strings.HasPrefix(s.ID, "delivery") {
				day, err := time.Parse(time.DateOnly, s.Finish[:10])
				if err != nil {
					t.Fatal(err)
				}
				want[fmt.Sprint("DATE", day.Format(" 2006-01-02 15:04 "), day.AddDate(0, 0, 1).Format(" 2006-01-02 15:04 "), say, "|[]")]++
				continue
			}
			if s.Hands > 1 {
				say += " (two people)"
			}
			for k, at := range s.Pieces {
				part := ""
				if len(s.Pieces) > 1 {
					part = fmt.Sprintf(" (%d of %d)", k+1, len(s.Pieces))
				}
				want[fmt.Sprint("DATE-TIME ", at[0], "  ", at[1], " ", say, part, "|", "why: ", s.Why, "[-PT30M]")]++
			}
			if s.Finish != s.End {
				want[fmt.Sprint("DATE-TIME ", s.Finish, "  ", s.Finish, " ", p.Design, ": stood long enough: ", s.Say, "|[-PT0M]")]++
			}
		}
		_, text, _ := run("plan", "--format", "ics", demo)
		for _, e := range readByAnother(t, text) {
			line := told(t, e)
			if why, rest, ok := strings.Cut(line, "\n"); ok { // more is told than why, by lines
				line = why + rest[strings.LastIndex(rest, "["):]
			}
			if want[line]--; want[line] < 0 {
				t.Errorf("%s: not in the plan: %s", demo, line)
			}
		}
		for line, n := range want {
			if n > 0 {
				t.Errorf("%s: missing: %s", demo, line)
			}
		}
	}
}

// A plan made again after a step was done late moves the events of the one before and
// makes no others: each UID is there again, with a higher number, or cancelled.
func TestPlanAgain(t *testing.T) {
	dir := t.TempDir()
	design, old := filepath.Join(dir, "cabinet.yaml"), filepath.Join(dir, "old.ics")
	write := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(design, string(examples.CorridorCabinet))
	_, first, _ := run("plan", "--format", "ics", design)
	write(old, first)
	if status, _, err := run("done", design, "order", "--on", "2026-03-10 19:00", "--at", "2026-03-14"); status != 0 {
		t.Fatal(err)
	}
	_, byHand, _ := run("plan", "--format", "ics", "--at", "2026-03-14", "--issue", "1", design)
	_, second, errs := run("plan", "--format", "ics", "--at", "2026-03-14", "--replaces", old, design)
	was, is := readByAnother(t, first), readByAnother(t, second)
	if len(was) < 40 || len(is) < len(was) {
		t.Fatalf("%d events, then %d: %s", len(was), len(is), errs)
	}
	moved := 0
	for id, e := range is {
		n, err := e.Props.Get(ical.PropSequence).Int()
		status, _ := e.Status()
		switch before := was[id]; {
		case err != nil || n != 1:
			t.Errorf("%s is of issue %d: %v", id, n, err)
		case before == nil && !strings.Contains(id, "-part-"):
			t.Errorf("%s is new", id)
		case before != nil && status != ical.EventCancelled && told(t, e) != told(t, before):
			moved++
		case status == ical.EventCancelled && before == nil:
			t.Errorf("%s was cancelled and never there", id)
		}
	}
	for id := range was {
		if is[id] == nil {
			t.Errorf("%s is left as it was", id)
		}
	}
	if moved < 30 {
		t.Errorf("%d events moved", moved)
	}
	for id, e := range readByAnother(t, byHand) {
		if is[id] == nil || told(t, is[id]) != told(t, e) || is[id].Props.Get(ical.PropSequence).Value != e.Props.Get(ical.PropSequence).Value {
			t.Errorf("%s differs between --issue and --replaces", id)
		}
	}
	if _, again, _ := run("plan", "--format", "ics", "--at", "2026-03-14", "--replaces", old, design); again != second {
		t.Error("not the same bytes again")
	}
}

// The chores of a keep calendar come again when their list says, each on whole days, as
// other libraries read them; written again over the one before they are the next issue.
func TestKeepReadByAnother(t *testing.T) {
	dir := t.TempDir()
	design, file := filepath.Join(dir, "cabinet.yaml"), filepath.Join(dir, "chores.ics")
	if err := os.WriteFile(design, examples.CorridorCabinet, 0o644); err != nil {
		t.Fatal(err)
	}
	var uids map[string]*ical.Event
	for number, at := range []string{"2026-11-26", "2026-12-09"} {
		status, out, errs := run("keep", "--json", "--at", at, "--calendar", file, design)
		var k kept
		if err := json.Unmarshal([]byte(out), &k); status != 0 || err != nil || len(k.Due) == 0 {
			t.Fatalf("status %d, %v: %s", status, err, errs)
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		events := readByAnother(t, string(text))
		if len(events) != len(k.Due) {
			t.Fatalf("%d events of %d chores", len(events), len(k.Due))
		}
		want := map[string]bool{}
		for _, d := range k.Due {
			day := d.Next
			if day.Format(time.DateOnly) < at {
				day, _ = time.Parse(time.DateOnly, at)
			}
			a, b := day.Format(time.DateOnly), day.AddDate(0, 0, 1).Format(time.DateOnly)
			want[fmt.Sprint("DATE ", a, " 00:00  ", b, " 00:00 ", "Clinic corridor cabinet: ", d.What, "|", d.How, "[]", d.Days)] = true
		}
		for id, e := range events {
			rule, err := e.Props.RecurrenceRule()
			if err != nil || rule == nil {
				t.Fatalf("%s does not come again: %v", id, err)
			}
			if line := fmt.Sprint(told(t, e), rule.Interval); !want[line] || rule.Freq.String() != "DAILY" {
				t.Errorf("no chore: %s", line)
			}
			if n, err := e.Props.Get(ical.PropSequence).Int(); err != nil || n != number {
				t.Errorf("issue %d, not %d: %v", n, number, err)
			}
			if number > 0 && uids[id] == nil {
				t.Errorf("%s is new", id)
			}
		}
		uids = events
	}
}
