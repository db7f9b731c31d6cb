package works

import "rillwright/structure/cure"

// slow lengthens what practice waits for sealant where the joint's own clock is not
// known, each end in the air that makes it.
func (s Season) slow(steps []Step) {
	for i := range steps {
		if u := steps[i].Rule; !u.Cure || steps[i].Thing.Clock != nil {
			continue
		}
		w := &steps[i].Task.Wait
		w.Low = cure.Slowed(*w, s.Best).Low
		w.Likely = cure.Slowed(*w, s.Likely).Likely
		w.High = cure.Slowed(*w, s.Worst).High
	}
}
