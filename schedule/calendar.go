package schedule

import "sort"

// Span is a stretch of civil time, From included, To not.
type Span struct{ From, To Moment }

// Hours is a stretch of a day, in minutes from midnight: 0 <= From < To <= 1440.
type Hours struct{ From, To int }

// Calendar says when somebody or something is there.
type Calendar struct {
	Week [7][]Hours      // Monday first; a day without hours is off
	Days map[Day][]Hours // days that differ from their weekday: holidays have none
	Only bool            // the days in Days alone count, as of a helper who comes twice
}

// Always returns the calendar that is never off.
func Always() Calendar {
	var c Calendar
	for i := range c.Week {
		c.Week[i] = []Hours{{0, DayMinutes}}
	}
	return c
}

// On returns the hours of a day.
func (c Calendar) On(d Day) []Hours {
	if h, ok := c.Days[d]; ok {
		return h
	}
	if c.Only {
		return nil
	}
	return c.Week[d.Weekday()]
}

// track is the open time of a calendar, or of several at once, from a first day on.
type track struct {
	spans  []Span
	before []Moment // minutes open before each span
}

// tracked lays out a calendar over a number of days. Hours of a day may overlap
// and stand in any order.
func tracked(c Calendar, from Day, days int) []Span {
	var out []Span
	for d := from; d < from+Day(days); d++ {
		hours := c.On(d)
		if !sort.SliceIsSorted(hours, func(i, j int) bool { return hours[i].From < hours[j].From }) {
			hours = append([]Hours(nil), hours...)
			sort.Slice(hours, func(i, j int) bool { return hours[i].From < hours[j].From })
		}
		for _, h := range hours {
			s := Span{d.At(h.From), d.At(h.To)}
			if n := len(out); n > 0 && out[n-1].To >= s.From {
				out[n-1].To = max(out[n-1].To, s.To)
				continue
			}
			out = append(out, s)
		}
	}
	return out
}

// both returns the time that lies in two lists of spans.
func both(a, b []Span) []Span {
	var out []Span
	for i, j := 0, 0; i < len(a) && j < len(b); {
		s := Span{max(a[i].From, b[j].From), min(a[i].To, b[j].To)}
		if s.From < s.To {
			out = append(out, s)
		}
		if a[i].To < b[j].To {
			i++
		} else {
			j++
		}
	}
	return out
}

func newTrack(spans []Span) *track {
	t := &track{spans: spans, before: make([]Moment, len(spans))}
	var sum Moment
	for i, s := range spans {
		t.before[i] = sum
		sum += s.To - s.From
	}
	return t
}

// at returns the first span that ends after a moment.
func (t *track) at(m Moment) int {
	return sort.Search(len(t.spans), func(i int) bool { return t.spans[i].To > m })
}

// fit returns the earliest work of some minutes that begins at or after a moment:
// across closed times, or whole in one span.
func (t *track) fit(from Moment, work Moment, whole bool) (s Span, ok bool) {
	if work == 0 {
		return Span{from, from}, true
	}
	i := t.at(from)
	if whole {
		for ; i < len(t.spans); i++ {
			if begin := max(from, t.spans[i].From); begin+work <= t.spans[i].To {
				return Span{begin, begin + work}, true
			}
		}
		return Span{}, false
	}
	if i == len(t.spans) {
		return Span{}, false
	}
	begin := max(from, t.spans[i].From)
	done := t.before[i] + (begin - t.spans[i].From) + work
	// The span in which so many minutes have been open.
	j := i + sort.Search(len(t.spans)-i, func(k int) bool { return t.before[i+k] >= done }) - 1
	end := t.spans[j].From + (done - t.before[j])
	return Span{begin, end}, end <= t.spans[j].To
}

// late returns the latest moment at which work of some minutes may begin so that
// it ends at or before a moment, which ok says whether there is.
func (t *track) late(by Moment, work Moment, whole bool) (begin Moment, ok bool) {
	if work == 0 {
		return by, true
	}
	i := sort.Search(len(t.spans), func(i int) bool { return t.spans[i].From >= by }) - 1
	if whole {
		for ; i >= 0; i-- {
			if begin = min(by, t.spans[i].To) - work; begin >= t.spans[i].From {
				return begin, true
			}
		}
		return 0, false
	}
	if i < 0 {
		return 0, false
	}
	left := t.before[i] + (min(by, t.spans[i].To) - t.spans[i].From) - work
	if left < 0 {
		return 0, false
	}
	j := sort.Search(len(t.spans), func(k int) bool { return t.before[k] > left }) - 1
	return t.spans[j].From + (left - t.before[j]), true
}

// longest returns the longest span, in minutes.
func (t *track) longest() Moment {
	var most Moment
	for _, s := range t.spans {
		most = max(most, s.To-s.From)
	}
	return most
}

// pieces cuts a stretch of work at closed times.
func (t *track) pieces(s Span) []Span {
	var out []Span
	for i := t.at(s.From); i < len(t.spans) && t.spans[i].From < s.To; i++ {
		out = append(out, Span{max(s.From, t.spans[i].From), min(s.To, t.spans[i].To)})
	}
	return out
}
