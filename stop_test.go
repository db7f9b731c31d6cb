package rillwright

import (
	"errors"
	"sync/atomic"
	"testing"

	"rillwright/examples"
)

// Whenever the caller has gone, the work ends with its error and no answers that
// look whole: at every stage, that of the fixes among them.
func TestStop(t *testing.T) {
	gone := errors.New("nobody waits")
	// after is a Stop that lets some questions pass, and counts all of them.
	after := func(n int64) (func() error, *atomic.Int64) {
		asked := &atomic.Int64{}
		return func() error {
			if asked.Add(1) > n {
				return gone
			}
			return nil
		}, asked
	}
	for _, o := range []struct {
		name string
		Options
	}{
		{"water", Options{}},
		{"glass", Options{Structure: true}},
		{"faults", Options{Faults: MainFaults}},
	} {
		const never = 1 << 40
		stop, asked := after(never)
		o.Stop = stop
		if _, err := Build("x", examples.CorridorCabinet, o.Options); err != nil {
			t.Fatal(err)
		}
		whole := asked.Load()
		bare, askedBare := after(never)
		without := o.Options
		without.Stop, without.NoFixes = bare, true
		if _, err := Build("x", examples.CorridorCabinet, without); err != nil {
			t.Fatal(err)
		}
		fixes := whole - askedBare.Load()
		if fixes < 10 {
			t.Errorf("%s: asked %d times while fixes were sought", o.name, fixes)
		}
		for _, n := range []int64{0, 1, 2, whole - fixes/2, whole - 1} {
			o.Stop, asked = after(n)
			r, err := Build("x", examples.CorridorCabinet, o.Options)
			if !errors.Is(err, gone) {
				t.Errorf("%s, stopped at %d of %d: %v", o.name, n, whole, err)
			}
			if r != nil && r.Faults != nil {
				t.Errorf("%s, stopped at %d of %d: faults all the same", o.name, n, whole)
			}
			// Nothing more is begun: what is left is asked for and not tried.
			if asked.Load() > whole {
				t.Errorf("%s: asked %d times after %d", o.name, asked.Load(), n)
			}
		}
	}
}
