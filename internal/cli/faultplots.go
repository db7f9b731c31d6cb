package cli

import (
	"fmt"
	"math"
	"strings"

	"rillwright"
	"rillwright/answers"
	"rillwright/sheets"
)

// faultPlots writes the course of each fault shown, what a reserve costs in
// floods, and the emergency card.
func faultPlots(std *Streams, r *rillwright.Report, courses []course, folder string) error {
	write, err := svgWriter(std, folder)
	if err != nil {
		return err
	}
	for i := range courses {
		s, err := sheets.Timeline(r.Enclosure, courses[i].result)
		if err != nil {
			return err
		}
		if err := write("course-"+fileName(courses[i].fault.ID)+".svg", &s); err != nil {
			return err
		}
	}
	if reserve(r.Faults.Line) {
		s, err := sheets.Reserve(r.Enclosure.Units, r.Name+": how full the sump may be", r.Faults.Line.Points, marks(r)...)
		if err != nil {
			return err
		}
		if err := write("reserve.svg", &s); err != nil {
			return err
		}
	}
	cards := sheets.EmergencyCard(r.Enclosure, r.Faults.Emergency())
	for i := range cards {
		name := "emergency-card.svg"
		if i > 0 {
			name = fmt.Sprintf("emergency-card-%d.svg", i+1)
		}
		if err := write(name, &cards[i]); err != nil {
			return err
		}
	}
	return nil
}

// reserve reports whether there is a curve to draw: with a top-up from the mains
// the water never ends.
func reserve(l *answers.FillLine) bool {
	for _, p := range l.Points {
		if math.IsInf(p.Days, 0) {
			return false
		}
	}
	return len(l.Points) > 1
}

// marks are the fill lines, and how full the design has the sump.
func marks(r *rillwright.Report) []sheets.ReserveMark {
	bottom := r.Enclosure.Sump.Bottom
	out := []sheets.ReserveMark{{Name: "as planned", Level: r.Faults.Survey.Likely().Start.StopLevel - bottom}}
	if l := r.Faults.Line; l.Highest >= l.Lowest {
		out = append(out, sheets.ReserveMark{Name: "highest mark", Level: l.Highest - bottom}, sheets.ReserveMark{Name: "lowest mark", Level: l.Lowest - bottom})
	}
	return out
}

// fileName makes a plain file name of the name of a fault.
func fileName(id string) string {
	keep := func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '-'
	}
	parts := strings.FieldsFunc(strings.Map(keep, id), func(c rune) bool { return c == '-' })
	return strings.Join(parts, "-")
}
