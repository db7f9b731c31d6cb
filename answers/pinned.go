package answers

import (
	"strings"

	"rillwright/enclosure"
	"rillwright/study"
)

// Pinned returns a survey in which nothing is in doubt: st is the running state with
// the valves as set, open that with all of them open, and every band is one number.
// The doubts of e should stand at the values that the states were run with.
func Pinned(e *enclosure.Enclosure, st, open *study.State) *Survey {
	level := strings.Repeat("1", len(e.Doubts)) // the corner where no doubt is moved
	return &Survey{
		E: e, Likely: st, open: open, quick: true, signs: map[string][]int8{},
		corner: map[string]*study.State{level: st, level + "o": open},
	}
}

// Throttled reports whether any valve is part closed, so that the state with all of
// them open is another one.
func Throttled(e *enclosure.Enclosure) bool { return throttled(e) }
