package sheets

import (
	"fmt"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/commission"
	"rillwright/drawing"
	"rillwright/examples"
	"rillwright/internal/trial"
)

// The sheets that are mostly words, of both demos on either paper: nothing off the
// sheet, no words over words.
func TestPapers(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		s := survey(t, c.file)
		f, err := s.Floods(answers.FaultOptions{NoLines: true})
		if err != nil {
			t.Fatal(err)
		}
		list := append(s.All(catalogueOf(t)), f.Answers...)
		answers.Sort(list)
		plan := commission.Of(s, f)
		for _, p := range papers {
			all := Cover(s, list, print4(p))
			if n := len(Cautions(s, print4(p))); n != 1 {
				t.Errorf("cautions on %d sheets of %s", n, p.Name)
			}
			all = append(all, Cautions(s, print4(p))...)
			all = append(all, LeakSheet(s.E, plan.Leak, print4(p))...)
			all = append(all, TrialSheets(s.E, plan.Stages, print4(p))...)
			drawing.Number(all)
			for i := range all {
				got := written(t, all[i])
				if p.Name == "A4" {
					golden(t, fmt.Sprintf("%s-paper-%02d", c.name, i+1), got)
				}
			}
		}
	}
}

func catalogueOf(t *testing.T) *catalogue.Catalogue {
	t.Helper()
	cat, err := catalogue.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return cat
}

// By hand from the file: the first hose of 0.4 m goes over the pump's barb and the
// valve's; the pipe of 690 mm goes 22 mm into the elbow's
// socket; the bar, 962 mm over the datum, which lies 808 mm up, is 1670 mm over the
// pump's inlet, 100 mm up.
func TestPlumbingKey(t *testing.T) {
	all := texts(Plumbing(survey(t, examples.CorridorCabinet), print4(drawing.A4())))
	for _, want := range []string{"400 mm", "each end over all of the", "690 mm", "22.2 mm into", "valve, fully open", "No union is listed here", "main drain: pool to drain side", "1670 rise"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %q", want, all)
		}
	}
}

// A union is where to undo the line, on the sketch and in the key.
func TestUndoHere(t *testing.T) {
	s := survey(t, trial.Swap(t, examples.CorridorCabinet, "      - { part: elbow 90 solvent 1 in }\n", "      - { part: union solvent 1 in }\n      - { part: elbow 90 solvent 1 in }\n"))
	list := Plumbing(s, print4(drawing.A4()))
	for i := range list {
		written(t, list[i])
	}
	for i := range list {
		if !strings.Contains(strings.Join(strings.Fields(texts(list[i:i+1])), " "), "UNDO HERE") {
			t.Errorf("%s does not say it", list[i].Title)
		}
	}
}

// Sixty parts in one line share balloons, and their words keep clear of one another.
func TestLongLine(t *testing.T) {
	more := strings.Repeat("      - { part: vinyl hose 16 mm, length: 50 mm, bend: 180 mm }\n      - { part: ball valve 16 mm }\n", 30)
	s := survey(t, trial.Swap(t, examples.CorridorCabinet, "      - { part: elbow 90 barbed 16 mm }\n", more+"      - { part: elbow 90 barbed 16 mm }\n"))
	list := Plumbing(s, print4(drawing.Letter()))
	for i := range list {
		written(t, list[i])
	}
	if !strings.Contains(texts(list[:1]), "see the key") || len(list) < 3 {
		t.Errorf("%d sheets: %s", len(list), texts(list[:1]))
	}
}

// Two bars behind a tee and a second drain: five lines on three sheets, each line with
// its heights, the tee numbered once, what falls and what stays open said.
func TestSeveralLines(t *testing.T) {
	const legs = `      - { part: vinyl hose 16 mm, length: 50 mm }
  - name: left leg
    from: split
    to: drip bar
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m }
  - name: right leg
    from: split
    to: second bar
    pieces:
      - { part: vinyl hose 16 mm, length: 0.4 m }
`
	const second = `  - { name: second bar, part: rigid pipe 20 mm PN20, bore: 16 mm, pipe-wall: 2 mm, length: 820 mm, height: 900 mm, inlet: barb 16 mm, feed: centre, outlets: [ { count: 27, pitch: 30 mm, hole: 2.0 mm, hole-error: 0.1 mm } ] }

tees:
  - { name: split, part: tee barbed 16 mm, height: 890 mm, branch: right leg }

drains:
  - name: spare drain
    kind: wall opening
    lip: 170 mm
    part: bulkhead 3/4 in
    vented: yes
    hole: { pane: back, size: 38 mm, up: 180 mm, in: 300 mm, edge: left }
    to: sump
    end-height: 160 mm
    pieces:
      - { part: rigid pipe 3/4 in sch 40, length: 200 mm, fall: 10 mm }
      - { part: elbow 90 solvent 3/4 in }
      - { part: rigid pipe 3/4 in sch 40, length: 690 mm }
`
	s := survey(t, trial.Swap(t, examples.CorridorCabinet, "    to: drip bar\n", "    to: split\n",
		"      - { part: vinyl hose 16 mm, length: 50 mm }\n", legs, "drains:\n", second))
	for _, p := range papers {
		list := Plumbing(s, print4(p))
		for i := range list {
			written(t, list[i])
		}
		if len(list) < 4 || list[0].Title != "Plumbing, 1 of 3" {
			t.Fatalf("%d sheets, the first %q", len(list), list[0].Title)
		}
		all := texts(list[3:])
		for _, want := range []string{"tee: split", "10 mm", "far end open", "spare drain: from pool to sump"} {
			if !strings.Contains(all, want) {
				t.Errorf("no %q in the key: %s", want, all)
			}
		}
		if n := strings.Count(all, "tee: split"); n != 1 {
			t.Errorf("the tee is listed %d times", n)
		}
	}
}
