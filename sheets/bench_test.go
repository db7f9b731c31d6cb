package sheets

import (
	"slices"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
	"rillwright/works"

	"pgregory.net/rapid"
)

// planned returns a design and its steps in time.
func planned(t testing.TB, file []byte) (*enclosure.Enclosure, *works.Work, []works.Line) {
	t.Helper()
	e := trial.Resolved(t, file, enclosure.Resolve)
	w, err := works.Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), 0)
	if err != nil {
		t.Fatal(err)
	}
	_, lines, err := works.Planned(w)
	if err != nil {
		t.Fatal(err)
	}
	return e, w, lines
}

// Any three steps of a demo stand on one sheet of either paper with all that is to
// be known of them.
func TestBenchCards(t *testing.T) {
	for _, c := range []struct {
		name, first, paper string // which card is kept
		file               []byte
	}{{"corridor-cabinet", "dry-fit", "A4", examples.CorridorCabinet}, {"counter-wall", "dam", "Letter", examples.CounterWall}} {
		name := c.name
		e, _, lines := planned(t, c.file)
		for from := range lines {
			next := works.Next(lines[from:], 3)
			for _, p := range papers {
				list := BenchCards(e, next, print4(p))
				if len(list) != 1 {
					t.Fatalf("%s from %s: %d sheets of %s", name, next[0].ID, len(list), p.Name)
				}
				got := written(t, list[0])
				all := texts(list)
				for i := range next {
					l := &next[i]
					for _, words := range []string{l.Say, l.Why, l.Tools, l.Closes, l.CleanUp, l.Skins()} {
						for word := range strings.FieldsSeq(words) {
							if !strings.Contains(all, word) {
								t.Errorf("%s: no %q of %s on the card", name, word, l.ID)
							}
						}
					}
				}
				if p.Name == c.paper && next[0].ID == c.first {
					golden(t, name+"-bench", got)
				}
			}
		}
		if all := texts(BenchCards(e, nil, print4(papers[0]))); !strings.Contains(all, "Nothing is left") {
			t.Errorf("an empty card says %s", all)
		}
	}
}

// Whatever the words, none lies over another or off the sheet, and each step begins
// on a sheet.
func TestBenchCardsOfAnyWords(t *testing.T) {
	e, _, lines := planned(t, examples.CounterWall)
	words := func(t *rapid.T, name string, most int) string {
		return strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z]{1,30}`), 0, most).Draw(t, name), " ")
	}
	rapid.Check(t, func(rt *rapid.T) {
		next := slices.Clone(lines[:rapid.IntRange(0, 5).Draw(rt, "steps")])
		for i := range next {
			l := &next[i]
			l.Say, l.Why, l.Tools = words(rt, "say", 20), words(rt, "why", 60), words(rt, "tools", 60)
			l.Closes, l.CleanUp = words(rt, "closes", 60), words(rt, "clean up", 60)
		}
		list := BenchCards(e, next, print4(papers[rapid.IntRange(0, 1).Draw(rt, "paper")]))
		for i := range list {
			written(t, list[i])
		}
		if n := strings.Count(texts(list), "takes "); n != len(next) {
			rt.Fatalf("%d steps of %d", n, len(next))
		}
	})
}
