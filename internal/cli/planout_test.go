package cli

import (
	"encoding/json"
	"strings"
	"testing"
	"time"
)

// The calendar of a plan has an event for each sitting and each waiting's end, at
// the times that the JSON gives, and is the same whenever it is made.
func TestPlanCalendar(t *testing.T) {
	_, out, _ := run("plan", "--format", "json", "demo")
	var p planned
	if err := json.Unmarshal([]byte(out), &p); err != nil || len(p.Steps) == 0 {
		t.Fatalf("%d steps: %v", len(p.Steps), err)
	}
	want := map[string]int{} // starts
	local := func(text string) string {
		at, err := time.Parse("2006-01-02 15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		return at.Format(":20060102T150405")
	}
	for _, s := range p.Steps {
		if strings.HasPrefix(s.ID, "delivery") {
			want[";VALUE=DATE:"+strings.ReplaceAll(s.Finish[:10], "-", "")]++
			continue
		}
		for _, piece := range s.Pieces {
			want[local(piece[0])]++
		}
		if s.Finish != s.End {
			want[local(s.Finish)]++
		}
	}
	_, cal, _ := run("plan", "--format", "ics", "demo")
	if _, again, _ := run("plan", "--format", "ics", "--at", "2026-01-05", "demo"); again != cal {
		t.Error("the day on which it is made changes the calendar of a design with its own start")
	}
	uids := map[string]bool{}
	for l := range strings.SplitSeq(strings.ReplaceAll(cal, "\r\n ", ""), "\r\n") {
		if at, ok := strings.CutPrefix(l, "DTSTART"); ok {
			want[at]--
		}
		if id, ok := strings.CutPrefix(l, "UID:"); ok {
			if uids[id] {
				t.Errorf("%s twice", id)
			}
			uids[id] = true
		}
		if at, ok := strings.CutPrefix(l, "DTSTAMP:"); ok && at != "20260302T000000Z" {
			t.Errorf("stamped %s", at)
		}
	}
	for at, n := range want {
		if n != 0 {
			t.Errorf("DTSTART%s: %d too few", at, n)
		}
	}
	if n := strings.Count(cal, "BEGIN:VALARM"); n == 0 || n != strings.Count(cal, "TRIGGER:-PT") {
		t.Errorf("%d alarms", n)
	}
}

// The card for the bench is one sheet of the paper asked for, in either format, and
// so is the chart as SVG.
func TestPlanCard(t *testing.T) {
	_, svg, _ := run("plan", "--next", "--format", "svg", "--paper", "letter", "demo")
	if !strings.Contains(svg, `width="215.9mm"`) || !strings.Contains(svg, "Next at the bench") {
		t.Errorf("no card: %.200s", svg)
	}
	_, pdf, _ := run("plan", "--next", "--format", "pdf", "demo")
	if !strings.HasPrefix(pdf, "%PDF-") || strings.Count(pdf, "/Type /Page\n") != 1 {
		t.Errorf("no card: %.20q", pdf)
	}
	_, chart, _ := run("plan", "--format", "svg", "demo")
	if n := strings.Count(chart, "Chart of the plan"); n == 0 || strings.Contains(chart, "the plan, 1") || !strings.Contains(chart, "The glass comes") {
		t.Errorf("no chart: %.200s", chart)
	}
	_, out, _ := run("plan", "--next", "--from", "2026-03-28", "--format", "json", "demo")
	var p planned
	if err := json.Unmarshal([]byte(out), &p); err != nil || len(p.Steps) != 3 {
		t.Errorf("%d steps are next: %v", len(p.Steps), err)
	}
}
