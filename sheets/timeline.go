package sheets

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/faults"
)

// Size of a whole page upright, mm: A4. Words may reach to the foot, plots to
// the height at which words begin.
const (
	pageWidth, pageHeight = 210.0, 297.0
	timelineTop           = 34.0
	// The lowest strip ends between these heights, as the words leave room.
	leastBottom, mostBottom = 197.0, 220.0
	stripToWords            = 19.0
)

// Timeline draws how a course of events goes on an upright A4 sheet: the depth
// of water in the pool and in each chamber of the sump, the flows worth seeing
// and what is spilled, one over the other against time, with numbered events
// whose words stand below. The plots end soon after the last that happens. The
// error is of a result without a track, or with fewer than two times in it.
func Timeline(e *enclosure.Enclosure, r *faults.Result) (drawing.Sheet, error) {
	if r.Track == nil {
		return drawing.Sheet{}, errors.New("the run kept no record of its course: run it with faults.Options.Record")
	}
	if len(r.Track.Time) < 2 || !(r.Ended > 0) {
		return drawing.Sheet{}, errors.New("the run ended as it began: there is no course to draw")
	}
	t := &timeline{e: e, r: r}
	t.levels()
	t.flows()
	t.spilled()
	return t.draw(), nil
}

type timeline struct {
	e      *enclosure.Enclosure
	r      *faults.Result
	panels []panel
}

// still is the share of a panel's height by which lines may move after the
// time at which the plots end.
const still = 0.03

// shown returns the time to which the plots reach, s: a quarter beyond the last
// event and the time when all lines have settled, or all of the run where that
// is not much less.
func (t *timeline) shown() float64 {
	all := t.r.Ended
	end := 0.0
	for _, ev := range t.r.Events {
		end = math.Max(end, ev.At)
	}
	for i := range t.panels {
		p := &t.panels[i]
		for k := range p.courses {
			end = math.Max(end, p.courses[k].settled(still*p.y.max*p.unit.si))
		}
	}
	if end *= 1.25; end == 0 || end > 0.7*all {
		return all
	}
	return math.Max(end, math.Min(10, all))
}

func (t *timeline) draw() drawing.Sheet {
	end := t.shown()
	u := timeUnit(end)
	x := newTimeAxis(u, end, t.r.Ended)
	var list []strip
	for i := range t.panels {
		list = append(list, t.panels[i].strip)
	}
	title := t.e.Name
	if name := t.r.Scenario.Name; name != "" {
		title += ": " + name
	}
	closing := t.closing(x.max * u.si)
	bottom := pageHeight - margin/2 - stripToWords - endGap - leading*float64(min(len(t.r.Events), mostTold)+lines(closing))
	bottom = min(max(bottom, leastBottom), mostBottom)
	s := newStack(title, pageWidth, pageHeight, timelineTop, bottom, x, list)
	w := &wording{stack: s, y: bottom + stripToWords}
	at := t.tell(w, closing)
	for i := range at {
		at[i] = u.of(at[i])
	}
	for i := range t.panels {
		s.enter(i)
		for k := range t.panels[i].courses {
			t.water(s, &t.panels[i], k, u)
		}
	}
	s.scaffold("time from the beginning, " + u.name)
	s.numbers(at)
	for i := range t.panels {
		s.enter(i)
		for k := range t.panels[i].courses {
			c := &t.panels[i].courses[k]
			for _, part := range offFoot(c.line(s, t.panels[i].unit, u), s.frame.Bottom, c.pen) {
				s.line(part, c.pen)
			}
		}
		s.border()
	}
	s.sheet.Description = fmt.Sprintf("What happens in %s, against time. ", clock(t.r.Ended)) + strings.Join(w.said, " ")
	return s.sheet
}

// water fills a strip from its foot to a course, if that is one of standing
// water: grey where it should be, hatched on the floor. Of several chambers,
// that of the pumps is filled.
func (t *timeline) water(s *stack, p *panel, k int, along unit) {
	if p.fill == dry || k < len(p.courses)-1 {
		return
	}
	line := p.courses[k].line(s, p.unit, along)
	first, last := line[0], line[len(line)-1]
	area := append(line, drawing.Point{X: last.X, Y: s.frame.Bottom}, drawing.Point{X: first.X, Y: s.frame.Bottom})
	if area = drawing.ClipArea(area, s.frame); area == nil {
		return
	}
	if p.fill == onFloor {
		s.sheet.Add(drawing.Hatch(area, 45, 1.6, drawing.Fine)...)
		return
	}
	s.sheet.Add(&drawing.Path{Points: area, Closed: true, Fill: drawing.Pale})
}
