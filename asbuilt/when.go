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

// running returns when the first and the last reading were taken that are not of the
// sealant: beads are cut weeks before there is water, and tell nothing of it.
func running(readings []record.Reading) (first, last time.Time, ok bool) {
	for i := range readings {
		if r := &readings[i]; r.Kind != record.Skin {
			if !ok {
				first, ok = r.Time, true
			}
			last = r.Time
		}
	}
	return first, last, ok
}

// First returns the readings of the first month, which tell how it was built.
func First(readings []record.Reading) []record.Reading {
	first, _, ok := running(readings)
	if !ok {
		return nil
	}
	return span(readings, first, first.Add(firstSpan))
}

// Split parts readings, in order of time, into those of the first month and those
// taken now: since a time, or, if that is zero, within three days of the last. What
// is taken now is left out of the first.
func Split(readings []record.Reading, since time.Time) (before, now []record.Reading) {
	begin, last, ok := running(readings)
	if !ok {
		return nil, nil
	}
	if since.IsZero() {
		since = last.Add(-lastSpan)
	}
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
