package study

import (
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics/network"
)

// isDrainRun reports whether a run carries drains that join to the sump.
func (b *supply) isDrainRun(i int) bool {
	u := &b.e.Runs[i]
	return u.From.Kind == enclosure.AtTee && drainTee(b.e, u.From.Index)
}

// drainTee reports whether drains run into a tee.
func drainTee(e *enclosure.Enclosure, tee int) bool {
	for k := range e.Drains {
		if e.Drains[k].To.Kind == enclosure.AtTee && e.Drains[k].To.Index == tee {
			return true
		}
	}
	for k := range e.Runs {
		u := &e.Runs[k]
		if u.To.Kind == enclosure.AtTee && u.To.Index == tee && u.From.Kind == enclosure.AtTee && u.From.Index != tee && drainTee(e, u.From.Index) {
			return true
		}
	}
	return false
}

// feedCoupling makes a tee of a feed point that lies within a manifold.
func (b *supply) feedCoupling(i int, at float64, run int) {
	m := &b.e.Manifolds[i]
	k, _ := slices.BinarySearch(b.along[i], at)
	if k == 0 || k >= len(b.chains[i]) {
		return
	}
	b.couple(network.Tee{
		Runs:   [2]network.TeeLeg{{Link: b.chains[i][k-1], Into: 1}, {Link: b.chains[i][k], Into: -1}},
		Branch: network.TeeLeg{Link: run, Into: 1}, Bore: b.c.Of(m.Bore), Factor: b.c.Of(b.e.TeeLoss),
	})
}

func (b *supply) couple(t network.Tee) {
	kept := b.memory.tees.take(1)
	kept[0] = t
	b.p.Couplings = append(b.p.Couplings, &kept[0])
}

// teeCouplings gives each tee of three legs its losses.
func (b *supply) teeCouplings() {
	for t := range b.e.Tees {
		runs := make([]network.TeeLeg, 0, 4)
		var branch network.TeeLeg
		found := false
		for i := range b.e.Runs {
			if b.runLink[i] < 0 {
				continue
			}
			u := &b.e.Runs[i]
			leg := network.TeeLeg{Link: b.runLink[i]}
			switch {
			case u.To.Kind == enclosure.AtTee && u.To.Index == t:
				leg.Into = 1
			case u.From.Kind == enclosure.AtTee && u.From.Index == t:
				leg.Into = -1
			default:
				continue
			}
			if u.Name == b.e.Tees[t].Branch {
				branch, found = leg, true
			} else {
				runs = append(runs, leg)
			}
		}
		if found && len(runs) == 2 {
			b.couple(network.Tee{
				Runs: [2]network.TeeLeg{runs[0], runs[1]}, Branch: branch, Bore: b.e.Tees[t].Bore, Factor: b.c.Of(b.e.TeeLoss),
			})
		}
	}
}
