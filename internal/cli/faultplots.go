package cli

import (
	"fmt"
	"strings"

	"rillwright"
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
	s, ok, err := sheets.ReserveOf(r.Enclosure, r.Faults)
	if err != nil {
		return err
	}
	if ok {
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
