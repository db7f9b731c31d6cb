package schedule

import (
	"testing"
	"time"
)

// The standard library's calendar judges every day of 800 years.
func TestDays(t *testing.T) {
	at := time.Date(1700, 1, 1, 0, 0, 0, 0, time.UTC)
	for range 800 * 366 {
		y, m, d := at.Date()
		day, ok := DayOf(y, int(m), d)
		if want := Day(floorDiv(int(at.Unix()), 86400)); !ok || day != want {
			t.Fatalf("%s is day %d, %v, not %d", at, day, ok, want)
		}
		if y2, m2, d2 := day.Date(); y2 != y || m2 != int(m) || d2 != d {
			t.Fatalf("%s comes back as %d-%d-%d", at, y2, m2, d2)
		}
		if at.Format("Mon 2006-01-02 15:04") != day.Named()+" "+day.At(0).Clock() {
			t.Fatalf("%s is named %s", at, day.Named())
		}
		if w := (int(at.Weekday()) + 6) % 7; day.Weekday() != w {
			t.Fatalf("%s: weekday %d, not %d", at, day.Weekday(), w)
		}
		at = at.AddDate(0, 0, 1)
	}
}

func TestParseDay(t *testing.T) {
	d, err := ParseDay("2026-03-02")
	if err != nil || d.Weekday() != 0 || d.At(18*60+30).String() != "2026-03-02 18:30" {
		t.Error(d, err, d.At(18*60+30))
	}
	for _, bad := range []string{"", "2026-2-3", "2026-02-29", "2026-13-01", "02.03.2026", "2026-03-0x", "0000-01-01", "2026--1-01", "2026-+1-01"} {
		if d, err := ParseDay(bad); err == nil {
			t.Errorf("%q is read as %s", bad, d)
		}
	}
}
