package sheets

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rillwright/drawing"
	"rillwright/faults"
	"rillwright/quantity"
)

// wording is lines being written down a sheet.
type wording struct {
	*stack
	y    float64 // of the next baseline, mm
	said []string
}

const (
	// Lines of events; those that need more are counted, not told.
	mostTold = 14
	// Of one kind so many are told if there are too many to tell all.
	mostAlike = 3
	endGap    = 1.5 // before what is said about the whole run, mm
	// Columns of the list of events, mm from the margin.
	timeColumn, whatColumn = 8.0, 40.0
)

// say writes a paragraph.
func (w *wording) say(text string) {
	if text == "" {
		return
	}
	w.said = append(w.said, text)
	for _, l := range drawing.Wrap(text, small, w.sheet.Width-2*margin) {
		if w.y > w.sheet.Height-margin/2 { // it is still in the description
			return
		}
		w.word(l, small, drawing.Point{X: margin, Y: w.y}, drawing.Left)
		w.y += leading
	}
}

// lines counts the lines that paragraphs take across a page.
func lines(paragraphs []string) int {
	n := 0
	for _, p := range paragraphs {
		n += len(drawing.Wrap(p, small, pageWidth-2*margin))
	}
	return n
}

// tell writes the events, as many as leave room for what closes the sheet, and
// that, and returns the times of the events it told, s.
func (t *timeline) tell(w *wording, closing []string) []float64 {
	events := t.r.Events
	// The last baseline of the events, with a line below that counts the others.
	foot := w.sheet.Height - margin/2 - endGap - leading*float64(lines(closing))
	room := int((foot-w.y)/leading + 1e-9)
	chosen := choose(events, min(room, mostTold))
	at := make([]float64, 0, len(chosen))
	for i, k := range chosen {
		ev := events[k]
		when := clock(ev.At)
		if i > 0 {
			// Of times that read alike, or nearly, the difference tells more.
			before := at[i-1]
			if d := ev.At - before; d > 0 && (when == clock(before) || ev.At > 2*hour && d < 0.02*ev.At) {
				when = clock(d) + " later"
			}
		}
		at = append(at, ev.At)
		w.said = append(w.said, fmt.Sprintf("%d: %s, %s.", i+1, when, ev.What))
		w.word(strconv.Itoa(i+1), small, drawing.Point{X: margin + 4, Y: w.y}, drawing.Right)
		w.word(when, small, drawing.Point{X: margin + timeColumn, Y: w.y}, drawing.Left)
		for _, l := range eventLines(ev.What) {
			w.word(l, small, drawing.Point{X: margin + whatColumn, Y: w.y}, drawing.Left)
			w.y += leading
		}
	}
	if more := len(events) - len(chosen); more > 0 {
		last := len(events) - 1
		for k := len(chosen) - 1; k >= 0 && chosen[k] == last; k-- {
			last--
		}
		text := fmt.Sprintf("and %d more, the last of them after %s: %s", more, clock(events[last].At), events[last].What)
		w.said = append(w.said, text+".")
		w.word(drawing.Fit(text, small, w.sheet.Width-2*margin-timeColumn), small, drawing.Point{X: margin + timeColumn, Y: w.y}, drawing.Left)
		w.y += leading
	}
	w.y += endGap
	for _, c := range closing {
		w.say(c)
	}
	return at
}

func eventLines(what string) []string {
	return drawing.Wrap(what, small, pageWidth-2*margin-whatColumn)
}

// choose returns the indices, in order of time, of the events that are told in
// some lines. If they are too many, those of a kind come after the first of
// every other kind, so that what happens once is not lost among what happens
// over and over, and none has more than a few.
func choose(events []faults.Event, room int) []int {
	all := 0
	order := make([]int, len(events))
	times := map[string]int{}
	rank := make([]int, len(events))
	for i, ev := range events {
		order[i], rank[i] = i, times[ev.What]
		times[ev.What]++
		all += len(eventLines(ev.What))
	}
	if all <= room {
		return order
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rank[a], rank[b]) })
	var chosen []int
	for _, i := range order {
		if room -= len(eventLines(events[i].What)); room < 0 || rank[i] >= mostAlike {
			break
		}
		chosen = append(chosen, i)
	}
	slices.Sort(chosen)
	return chosen
}

// closing is what stands below the events.
func (t *timeline) closing(shown float64) []string {
	r := t.r
	var out []string
	if !(r.Spilled > leastSpill) {
		out = append(out, "No water reaches the floor.")
	} else {
		var from []string
		spills := merged(r.Spills)
		for _, s := range spills {
			text := s.From
			if len(spills) > 1 {
				text = quantity.Volume(s.Volume).Show(t.e.Units) + " " + text
			}
			if !math.IsNaN(s.First) {
				text += " from " + clock(s.First) + " on"
			}
			from = append(from, text)
		}
		out = append(out, "On the floor in all: "+quantity.Volume(r.Spilled).Show(t.e.Units)+", "+strings.Join(from, ", ")+".")
	}
	if r.Why != "" {
		out = append(out, fmt.Sprintf("Followed for %s and no further: %s.", clock(r.Ended), r.Why))
	}
	if shown < r.Ended*(1-1e-9) {
		out = append(out, fmt.Sprintf("Followed for %s, shown for %s: then no more events, and no line moves by more than %.0f %% of its scale.",
			clock(r.Ended), clock(shown), 100*still))
	}
	return out
}

// merged returns spills with those of one name, as of two chambers' rims, made
// one.
func merged(spills []faults.Spill) []faults.Spill {
	var out []faults.Spill
	for _, s := range spills {
		k := slices.IndexFunc(out, func(o faults.Spill) bool { return o.From == s.From })
		if k < 0 {
			out = append(out, s)
			continue
		}
		out[k].Volume += s.Volume
		if !(out[k].First <= s.First) { // NaN where not known
			out[k].First = s.First
		}
	}
	return out
}
