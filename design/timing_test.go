package design

import (
	"reflect"
	"testing"
)

func TestHoursInWords(t *testing.T) {
	evening, day := partsOfDay["evenings"], wholeDay
	for text, want := range map[string][7][]DayHours{
		"Tuesday and Thursday evenings, Saturdays": {1: {evening}, 3: {evening}, 5: {day}},
		"weekends":                          {5: {day}, 6: {day}},
		"weekends 10:00-16:30, Friday 9-12": {5: {{600, 990}}, 6: {{600, 990}}, 4: {{540, 720}}},
	} {
		var w WeekHours
		if err := w.UnmarshalText([]byte(text)); err != nil || !reflect.DeepEqual(w.Days, want) {
			t.Errorf("%q: %v, %v", text, w.Days, err)
		}
	}
}

func TestTimesOfAllSorts(t *testing.T) {
	for text, want := range map[string]Lead{"8 working days for glass": {8, 8, true}, "2 weeks": {14, 14, false}, "1 day": {1, 1, false}, "2 to 3 weeks": {14, 21, false}, "5 to 10 working days": {5, 10, true}} {
		var l Lead
		if err := l.UnmarshalText([]byte(text)); err != nil || l != want {
			t.Errorf("%q: %v, %v", text, l, err)
		}
	}
	for _, text := range []string{"soon", "-1 days", "8", "3 months", "2 working weeks", "5 to working days", "1 to 2000 days", "3 to 2 days"} {
		var l Lead
		if err := l.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q: %v", text, l)
		}
	}
	for text, want := range map[string]Stamp{"2026-01-31": {"2026-01-31", 0, false}, "2026-01-31 16:30": {"2026-01-31", 990, true}, "2026-01-31 9": {"2026-01-31", 540, true}} {
		var s Stamp
		if err := s.UnmarshalText([]byte(text)); err != nil || s != want {
			t.Errorf("%q: %v, %v", text, s, err)
		}
		var back Stamp
		if err := back.UnmarshalText([]byte(s.String())); err != nil || back != s {
			t.Errorf("%q is written %q, which reads as %v, %v", text, s, back, err)
		}
	}
	for _, text := range []string{"2026-01-32", "2026-01-31 24:00", "2026-01-31 4:5", "31.1.2026", "2026-01-31 16:30 h"} {
		var s Stamp
		if err := s.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q: %v", text, s)
		}
	}
}
