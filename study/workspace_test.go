package study

import (
	"reflect"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
)

// A workspace that has served other circuits gives to the bit what a new one
// gives, and what was found before in it stays as it was.
func TestWorkspace(t *testing.T) {
	shared := &Workspace{}
	var kept, fresh []*State
	for _, data := range [][]byte{examples.CorridorCabinet, examples.CounterWall, examples.CorridorCabinet} {
		e := changed(t, data)
		for i := range e.Doubts {
			for _, v := range []float64{e.Doubts[i].Low, e.Doubts[i].High} {
				c := e.Likely()
				c[i] = v
				kept = append(kept, mustRun(t, e, c, Setting{OpenValves: i%2 == 0, Pieces: i%3 == 0, Workspace: shared}))
				fresh = append(fresh, mustRun(t, e, c, Setting{OpenValves: i%2 == 0, Pieces: i%3 == 0}))
			}
		}
	}
	for i := range kept {
		if !reflect.DeepEqual(kept[i], fresh[i]) {
			t.Fatalf("run %d: %+v\nwith a new workspace %+v", i, kept[i], fresh[i])
		}
	}
}

func mustRun(t *testing.T, e *enclosure.Enclosure, c enclosure.Case, s Setting) *State {
	t.Helper()
	st, err := Run(e, c, s)
	if err != nil {
		t.Fatal(err)
	}
	return st
}
