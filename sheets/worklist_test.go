package sheets

import (
	"strings"
	"testing"

	"rillwright/drawing"
	"rillwright/examples"
)

// The list by day of both demos on either paper: each day once, each step under its
// day with its time and all that is to be known of it.
func TestPlanList(t *testing.T) {
	for name, file := range map[string][]byte{"corridor-cabinet": examples.CorridorCabinet, "counter-wall": examples.CounterWall} {
		e, w, lines := planned(t, file)
		lines[0].Done = true
		for _, p := range papers {
			list := PlanList(e, w, lines, print4(p))
			drawing.Number(list)
			for i := range list {
				got := written(t, list[i])
				if p.Name == "A4" && i == 0 {
					golden(t, name+"-list", got)
				}
			}
			rest := texts(list)
			next := func(what string) {
				_, after, ok := strings.Cut(rest, what)
				if !ok {
					t.Fatalf("%s, %s: no %q after what stands before it", name, p.Name, what)
				}
				rest = after
			}
			for i := range lines {
				l := &lines[i]
				if i == 0 || lines[i-1].At().Day() != l.At().Day() {
					next(l.At().Day().Named())
				}
				if !l.Comes {
					next(l.Start.Clock())
				}
				for word := range strings.FieldsSeq(l.Say) {
					next(word)
				}
				for _, words := range []string{l.CleanUp, l.Closes} { // in this order on the sheet
					for word := range strings.FieldsSeq(words) {
						next(word)
					}
				}
			}
			for _, a := range w.Assumed {
				next(strings.Fields(a)[1])
			}
		}
	}
}
