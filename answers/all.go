package answers

import (
	"sort"

	"rillwright/catalogue"
)

// All answers every question about the water, worst first.
func (s *Survey) All(cat *catalogue.Catalogue) []Answer {
	s.prepare(s.measures())
	out := append(s.Water(), s.pumpSize(cat))
	Sort(out)
	return out
}

// Sort puts answers in order, worst first; those of one verdict stay as they are.
func Sort(list []Answer) {
	sort.SliceStable(list, func(i, k int) bool { return list[i].Verdict > list[k].Verdict })
}

// Water answers the questions that need the running states and the joints alone.
func (s *Survey) Water() []Answer {
	out := []Answer{s.lift(), s.strong()}
	for i := range s.E.Manifolds {
		out = append(out, s.even(i), s.outlets(i))
	}
	return append(out, s.drain(), s.quiet(), s.levels(), s.joints())
}

// One answers a single question about the water, or what stands and tips over, by
// the ID of its answer; ok is false for an ID of another kind.
func (s *Survey) One(id string) (a Answer, ok bool) {
	switch id {
	case "lift", "pump-size": // what a larger pump is for
		return s.lift(), true
	case "too-strong":
		return s.strong(), true
	case "drain":
		return s.drain(), true
	case "quiet":
		return s.quiet(), true
	case "levels":
		return s.levels(), true
	case "fits":
		return s.joints(), true
	case "weight":
		return s.Weight(), true
	case "standing":
		return s.Standing(), true
	}
	for i := range s.E.Manifolds {
		switch id {
		case "even[" + s.E.Manifolds[i].Name + "]":
			return s.even(i), true
		case "outlets[" + s.E.Manifolds[i].Name + "]":
			return s.outlets(i), true
		}
	}
	return a, false
}

// Worst returns the worst verdict of a list of answers.
func Worst(list []Answer) Verdict {
	v := Holds
	for i := range list {
		v = max(v, list[i].Verdict)
	}
	return v
}
