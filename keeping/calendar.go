package keeping

import "rillwright/ics"

// Maker is what calendars of chores say they are made by.
const Maker = "keeping"

// Calendar returns the chores as an iCalendar file: one event of a whole day each,
// that comes again as often as the chore does. Chores that are late begin on the day on
// which it is made.
func Calendar(name string, due []Due, is ics.Issue) []byte {
	events := make([]ics.Event, len(due))
	for i := range due {
		d := &due[i]
		on := d.Next
		if on.Before(is.Stamp) {
			on = is.Stamp
		}
		events[i] = ics.Event{
			ID: d.ID, Summary: name + ": " + d.What, Tell: d.How,
			Start: on, End: on.AddDate(0, 0, 1), AllDay: true, Every: d.Days,
		}
	}
	return ics.Write(Maker, name, events, is)
}
