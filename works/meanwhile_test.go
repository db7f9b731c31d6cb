package works

import (
	"slices"
	"testing"

	"rillwright/examples"
)

// While the glass is on its way, which sets the end, what waits for no glass is done; what
// is told to be done meanwhile does not wait for what stands, directly or not.
func TestMeanwhile(t *testing.T) {
	for _, text := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		w := demo(t, text)
		_, lines, err := Planned(w)
		if err != nil {
			t.Fatal(err)
		}
		told := 0
		for i := range lines {
			l := &lines[i]
			for _, id := range l.Meanwhile {
				told++
				k := slices.IndexFunc(lines, func(x Line) bool { return x.ID == id })
				if o := &lines[k]; o.Start < l.Start || o.Start >= l.Finish {
					t.Errorf("%s is begun at %s, while %s stands until %s", id, o.Start, l.ID, l.Finish)
				}
				after := w.Project.Tasks[slices.IndexFunc(w.Steps, func(s Step) bool { return s.Task.ID == id })].After
				for _, c := range after {
					if c.Task == l.ID && !c.Work {
						t.Errorf("%s waits for %s and is told to be done meanwhile", id, l.ID)
					}
				}
			}
			if l.Comes && l.Sets && !slices.Contains(l.Meanwhile, "cut-grid") && w.Things["glass"] != nil {
				t.Errorf("%s: %v", l.ID, l.Meanwhile)
			}
		}
		if told == 0 {
			t.Errorf("%s: nothing is done meanwhile", w.Things["build"][0].Name)
		}
	}
}
