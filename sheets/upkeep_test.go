package sheets

import (
	"strings"
	"testing"
	"time"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/keeping"
	"rillwright/record"
)

// Every chore stands on the sheet with its how, and every spare; with a log also when
// each is due, where flows are going and what the year came to. Without one there is no
// date on it.
func TestUpkeep(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve)
	begin := time.Date(2025, 3, 1, 10, 0, 0, 0, time.UTC)
	var log []record.Reading
	for i, line := range []string{"manifold 5 L in 60 s", "manifold 5 L in 63 s", "cleaned strainer", "manifold 5 L in 66 s", "manifold 5 L in 69 s", "top-up 2 L in 8 days"} {
		r, err := record.Typed(line, record.Names{Pumps: []string{"main pump"}, Manifolds: []string{"drip bar"}})
		if err != nil {
			t.Fatal(err)
		}
		r.Time = begin.AddDate(0, i, 0)
		log = append(log, r)
	}
	chores := append(keeping.Chores(e), keeping.ChangeWater(0.25, 20, "a figure of one's own"))
	for _, p := range papers {
		for _, readings := range [][]record.Reading{nil, log} {
			list := Upkeep(e, chores, readings, "When is not told.", print4(p))
			drawing.Number(list)
			for i := range list {
				got := written(t, list[i])
				if p.Name == "A4" && i == 0 && readings != nil {
					golden(t, "corridor-cabinet-upkeep", got)
				}
			}
			all := strings.Join(strings.Fields(texts(list)), " ")
			has := func(text string) bool {
				for word := range strings.FieldsSeq(text) {
					if !strings.Contains(all, word) {
						return false
					}
				}
				return true
			}
			for i := range chores {
				if c := &chores[i]; !has(c.What) || !has(c.How) {
					t.Errorf("%s: no %q", p.Name, c.What)
				}
			}
			for _, s := range keeping.Spares(e) {
				if !has(s.What) || !has(s.Why) {
					t.Errorf("%s: no %q", p.Name, s.What)
				}
			}
			dated := 0
			for _, d := range keeping.DueAt(chores, log, log[5].Time) {
				if strings.Contains(all, d.Next.Format(time.DateOnly)) {
					dated++
				}
			}
			if want := len(chores); readings != nil && dated != want || readings == nil && strings.Contains(all, "2025") {
				t.Errorf("%s, %d readings: %d of %d chores have their next day", p.Name, len(readings), dated, want)
			}
			if readings != nil && !(has("manifold: 87 % a month since 2025-03-01; by the line fallen measure it.") && has("Topped up 250 ml a day. strainer once")) {
				t.Errorf("%s: trend and year are not told in %s", p.Name, all)
			}
			if !has("When is not told.") || !has("every 3 months") || !has("20 days") {
				t.Errorf("%s: how often is not told", p.Name)
			}
		}
	}
}
