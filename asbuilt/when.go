package asbuilt

import (
	"time"

	"rillwright/record"
)

// The spans of time that belong together: first readings, and those of one look at
// what is wrong. Chosen, no source.
const (
	firstSpan = 30 * 24 * time.Hour
	lastSpan  = 3 * 24 * time.Hour
)

// First returns the readings of the first month, which tell how it was built.
func First(readings []record.Reading) []record.Reading {
	if len(readings) == 0 {
		return nil
	}
	return span(readings, readings[0].Time, readings[0].Time.Add(firstSpan))
}

// Split parts readings, in order of time, into those of the first month and those
// taken now: since a time, or, if that is zero, within three days of the last. What
// is taken now is left out of the first.
func Split(readings []record.Reading, since time.Time) (before, now []record.Reading) {
	if len(readings) == 0 {
		return nil, nil
	}
	last := readings[len(readings)-1].Time
	if since.IsZero() {
		since = last.Add(-lastSpan)
	}
	begin := readings[0].Time
	end := begin.Add(firstSpan)
	if since.Before(end) {
		end = since.Add(-time.Nanosecond)
	}
	return span(readings, begin, end), span(readings, since, last)
}

// span returns the readings from one time to another, both with them.
func span(readings []record.Reading, from, to time.Time) []record.Reading {
	var out []record.Reading
	for i := range readings {
		if t := readings[i].Time; !t.Before(from) && !t.After(to) {
			out = append(out, readings[i])
		}
	}
	return out
}
