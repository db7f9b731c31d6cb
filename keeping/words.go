package keeping

import (
	"fmt"
	"time"

	"rillwright/quantity"
)

// CountDays is a number of days in words.
func CountDays(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// Words says what a year came to: the first line, and what is told under it.
func (y *Year) Words(sys quantity.System) (first string, rest []string) {
	notes := fmt.Sprintf("%d notes", y.Readings)
	if y.Readings == 1 {
		notes = "1 note"
	}
	first = "The last year: " + notes + " on " + CountDays(y.Days)
	if y.WaterDays > 0 {
		rest = append(rest, fmt.Sprintf("topped up %s in %.0f days, %s a day", quantity.Volume(y.Water).Show(sys), y.WaterDays, quantity.Volume(y.Water/y.WaterDays).Show(sys)))
	}
	for _, d := range y.Done {
		rest = append(rest, fmt.Sprintf("%s %s, last %s", d.What, times(d.Times), d.Last.Format(time.DateOnly)))
	}
	for _, d := range y.Failed {
		rest = append(rest, fmt.Sprintf("%s was not well %s, last %s", d.What, times(d.Times), d.Last.Format(time.DateOnly)))
	}
	return first, rest
}

// Words says where a trend stands: what it is now, and what is to be made of it as of a
// time.
func (t *Trend) Words(sys quantity.System, now time.Time) (first, then string) {
	last := t.Points[len(t.Points)-1]
	first = fmt.Sprintf("%s: %s, %.0f %% of the first %s", t.ID, quantity.Flow(last.Value).Show(sys), 100*last.Share, quantity.Flow(t.First).Show(sys))
	known := t.Month == t.Month // a number
	if known {
		first += fmt.Sprintf("; %+.1f ± %.1f %% a month since %s", 100*t.Month, 100*t.Doubt, t.Since.Format(time.DateOnly))
	}
	switch {
	case last.Share < Fallen:
		then = fmt.Sprintf("below %.0f %%: find what holds it back: rillwright diagnose", 100*Fallen)
	case !known:
		then = "too few readings for a trend: time it once a month"
	case !t.Falls:
		then = "not falling beyond what readings scatter"
	case t.Crosses[1].Before(now):
		then = fmt.Sprintf("by the line it has fallen to %.0f %% by now: measure it", 100*Fallen)
	default:
		then = fmt.Sprintf("falls to %.0f %% about %s, between %s and %s", 100*Fallen, t.Crosses[1].Format(time.DateOnly), t.Crosses[0].Format(time.DateOnly), t.Crosses[2].Format(time.DateOnly))
	}
	return first, then
}
