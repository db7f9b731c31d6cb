package seek

import (
	"slices"
	"strings"

	"rillwright/enclosure"
)

// What the pump delivers does not depend on the drains, where every run from it ends above
// the water and the sump's level is given as it is while all runs. Then a pump and a hose
// that are too weak need be found so only once, whatever the drains are.

// drainSide are the words of slots that change nothing but drains.
var drainSide = []string{"drain", "lip", "second"}

// supplied are the answers, without what stands in brackets, that what is delivered
// decides alone.
var supplied = []string{"lift", "too-strong", "even", "outlets"}

// apart reports whether what is delivered in a design does not depend on its drains.
func apart(e *enclosure.Enclosure) bool {
	if !e.Sump.Running {
		return false
	}
	return !slices.ContainsFunc(e.Runs, func(u enclosure.Run) bool {
		return u.To.Kind == enclosure.AtPool || u.To.Kind == enclosure.AtSump
	})
}

// supply numbers what a choice delivers: its choices apart from those of the drains.
func (s *seeker) supply(choice []int) int32 {
	n := 0
	for i, k := range choice {
		if t := &s.r.Slots[i]; !slices.Contains(drainSide, t.Word) {
			n = n*len(t.Choices) + k
		}
	}
	return int32(n)
}

// remember notes that what is delivered fails, for all drains.
func (s *seeker) remember(n int32, d *decision) {
	if !s.apart || d.stage > Corner {
		return
	}
	if word, _, _ := strings.Cut(d.because, "["); slices.Contains(supplied, word) {
		known := *d
		s.known[s.supply(s.choice(n, make([]int, len(s.r.Slots))))] = known
	}
}
