package asbuilt

import (
	"cmp"
	"math"
	"slices"
)

// Pair is two faults at once.
type Pair struct {
	Faults [2]Fault
	// Probability is of this pair among the single suspects and the pairs that were
	// computed whole.
	Probability float64
	// Chance is how often readings as far as these from what the pair foretells come
	// about if it is right, 0 to 1.
	Chance float64
	// Flow is what both leave of the outlets' flow, a share.
	Flow float64
}

const (
	// Unexplained is the Chance below which a suspect does not explain the readings.
	Unexplained = 0.01
	// twoAtOnce is how probable two faults at once are against either alone, before
	// anything is read. Assumed, no source.
	twoAtOnce = 0.05
	// wholePairs is how many pairs are computed in the whole circuit.
	wholePairs = 3
)

// pairs looks for two faults that together explain what no single one does. Every
// pair is first taken as if each fault left the same share of a flow, and added as
// much to a height, as it does alone; the best few are then computed whole.
func (j *judge) pairs(list []hypothesis, d []datum) []Pair {
	var all []hypothesis
	for a := range list {
		for b := range a {
			if list[a].ID == "nothing" || list[b].ID == "nothing" || opposed(list[a].ID, list[b].ID) {
				continue
			}
			all = append(all, hypothesis{parts: j.joined(&list[a], &list[b], 2), of: [2]*hypothesis{&list[b], &list[a]}})
		}
	}
	j.weigh(all, d)
	byLike := func(a, b hypothesis) int { return cmp.Compare(b.like, a.like) }
	slices.SortStableFunc(all, byLike)
	all = all[:min(wholePairs, len(all))]
	for i := range all {
		all[i].parts = j.whole(all[i].of)
	}
	all = slices.DeleteFunc(all, func(h hypothesis) bool { return len(h.parts) == 0 })
	j.weigh(all, d)
	slices.SortStableFunc(all, byLike)

	most := list[0].like
	for i := range all {
		all[i].like += math.Log(twoAtOnce)
		most = math.Max(most, all[i].like)
	}
	total := 0.0
	for i := range list {
		total += math.Exp(list[i].like - most)
	}
	for i := range all {
		total += math.Exp(all[i].like - most)
	}
	alone := j.chance(&list[0], d)
	var out []Pair
	for i := range all {
		h := &all[i]
		if c := j.chance(h, d); c > alone {
			out = append(out, Pair{[2]Fault{h.of[0].Fault, h.of[1].Fault}, math.Exp(h.like-most) / total, c, h.flow})
		}
	}
	return out
}

// opposed reports whether two faults are the two ends of one.
func opposed(a, b string) bool {
	a, b = min(a, b), max(a, b)
	return word(a) == "left-high" && word(b) == "right-high" && a[len("left-high"):] == b[len("right-high"):]
}

// joined puts the degrees of two faults together, every so manyth of each, without
// computing a circuit.
func (j *judge) joined(a, b *hypothesis, every int) []part {
	out := make([]part, 0, len(a.parts)*len(b.parts)/every)
	some := func(n int) (first, step int) {
		if n < 2*every {
			return 0, 1
		}
		return every / 2, every
	}
	firstA, stepA := some(len(a.parts))
	firstB, stepB := some(len(b.parts))
	for k := firstA; k < len(a.parts); k += stepA {
		for l := firstB; l < len(b.parts); l += stepB {
			pa, pb := &a.parts[k], &b.parts[l]
			p := part{y: make([]float64, len(j.y)), slope: make([]float64, len(j.y)), second: make([]float64, len(j.y)), weight: 1}
			for s := range p.y {
				base := j.y[s] * j.ratio[s]
				if j.sites[s].Flow && base > 0 {
					p.y[s] = pa.y[s] * pb.y[s] / base
					p.slope[s] = float64(stepA) * pa.slope[s] * pb.y[s] / base
					p.second[s] = float64(stepB) * pb.slope[s] * pa.y[s] / base
					continue
				}
				p.y[s] = pa.y[s] + pb.y[s] - base
				p.slope[s], p.second[s] = float64(stepA)*pa.slope[s], float64(stepB)*pb.slope[s]
			}
			out = append(out, p)
		}
	}
	for i := range out {
		out[i].weight = 1 / float64(len(out))
	}
	return out
}

// whole computes two faults together in the whole circuit. Slopes are those of the two alone, joined.
func (j *judge) whole(of [2]*hypothesis) []part {
	parts := j.joined(of[0], of[1], 1)
	n := len(of[1].parts)
	var out []part
	for i := range parts {
		p := &parts[i]
		a, b := &of[0].parts[i/n], &of[1].parts[i%n]
		first := j.m.with(&of[0].Fault, a.bad)
		if err := first.with(&of[1].Fault, b.bad).foretell(j.f.u, p.y); err != nil {
			continue // so bad that it could not run like that
		}
		for s := range p.y {
			p.y[s] *= j.ratio[s]
		}
		out = append(out, *p)
	}
	return out
}
