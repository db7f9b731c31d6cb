package workbench

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"

	"rillwright"
	"rillwright/examples"
)

// leaving is the context of a caller who goes after a number of looks at it.
type leaving struct {
	context.Context
	looks atomic.Int64
	stays int64
}

func (l *leaving) Err() error {
	if l.looks.Add(1) > l.stays {
		return context.Canceled
	}
	return nil
}

// The search for fixes ends when the page that asked for it has gone on. What
// carries and what floods are searched side by side, so that which is ahead is
// chance: each is left in a run of its own.
func TestGoneWhileFixing(t *testing.T) {
	for name, o := range map[string]rillwright.Options{
		"what floods":  {Faults: rillwright.MainFaults},
		"what carries": {Structure: true},
	} {
		t.Run(name, func(t *testing.T) {
			b, _ := bench(t)
			all := &leaving{Context: t.Context(), stays: 1 << 40}
			if _, err := b.build(all, "demo", string(examples.CorridorCabinet), o); err != nil {
				t.Fatal(err)
			}
			soon := &leaving{Context: t.Context(), stays: all.looks.Load() - 5}
			rep, err := b.build(soon, "demo", string(examples.CorridorCabinet), o)
			if !errors.Is(err, context.Canceled) {
				t.Errorf("%v", err)
			}
			if rep != nil && rep.Faults != nil {
				t.Error("it went on")
			}
			if len(b.slow) > 0 || len(b.work) > 0 {
				t.Error("the room is still taken")
			}
		})
	}
}
