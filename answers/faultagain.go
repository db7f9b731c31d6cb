package answers

import (
	"rillwright/faults"
)

// Again follows the same faults in a changed enclosure, with the senses found
// before: the likely case and the bad end of each, and the good end where it shows.
// Faults of parts that are new take the senses of the first fault of their kind.
// Stop, if not nil, is asked before each is followed; an error of it is returned.
func (f *FaultSurvey) Again(s *Survey, stop func() error) (*FaultSurvey, error) {
	n := &FaultSurvey{S: s, stop: stop, signs: map[string][]int8{}}
	asked := map[faults.Kind]bool{}
	model := map[faults.Kind][]int8{}
	for i := range f.Faults {
		k := f.Faults[i].Kind
		asked[k] = true
		if model[k] == nil {
			model[k] = f.signs[f.Faults[i].ID]
		}
	}
	for _, x := range faults.Usual(s.E) {
		if asked[x.Kind] {
			n.Faults = append(n.Faults, x)
		}
	}
	n.findGroups()
	if err := n.makeLikely(); err != nil {
		return nil, err
	}
	old := map[string]int{}
	for g := range f.groups {
		old[f.groups[g].name] = g
	}
	n.ends = make([][]*faults.Result, len(n.Faults))
	for i := range n.Faults {
		signs, ok := f.signs[n.Faults[i].ID]
		if !ok {
			signs = model[n.Faults[i].Kind]
		}
		mine := make([]int8, len(n.groups))
		for g := range n.groups {
			if k, ok := old[n.groups[g].name]; ok {
				mine[g] = signs[k]
			}
		}
		n.signs[n.Faults[i].ID] = mine
		r, err := n.follow(n.rigs[0], &n.Faults[i])
		n.ends[i] = []*faults.Result{r}
		n.failed = append(n.failed, err)
	}
	n.again = true
	if err := n.corners([]int{1, -1}, nil); err != nil {
		return nil, err
	}
	return n, nil
}

// needs reports whether a fault is to be run at its bad (1) or good (-1) end. In a
// changed enclosure the good end is run only where it is in the answer's figure:
// what likely spills nothing spills nothing there.
func (f *FaultSurvey) needs(i, side int) bool {
	return side > 0 || !f.again || f.Faults[i].Kind == faults.Away || f.ends[i][0] != nil && f.ends[i][0].Spilled > 0
}

func (f *FaultSurvey) makeLikely() error {
	r, err := faults.NewRig(f.S.E, f.S.E.Likely())
	f.rigs = []*faults.Rig{r}
	return err
}
