package keeping

import (
	"time"

	"rillwright/ics"
)

// Calendar returns the chores as an iCalendar file: one event of a whole day each,
// that comes again as often as the chore does. stamp is when it was made. Chores
// that are late begin on the day of stamp.
func Calendar(name string, due []Due, stamp time.Time) []byte {
	events := make([]ics.Event, len(due))
	for i := range due {
		d := &due[i]
		on := d.Next
		if on.Before(stamp) {
			on = stamp
		}
		events[i] = ics.Event{
			ID: d.ID, Summary: name + ": " + d.What, Tell: d.How,
			Start: on, End: on.AddDate(0, 0, 1), AllDay: true, Every: d.Days,
		}
	}
	return ics.Write("keeping", name, events, stamp)
}
