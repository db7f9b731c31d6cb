package weigh

import (
	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/num/chance"
)

// Measure is a doubt worth settling before any other.
type Measure struct {
	What   string `json:"what"`
	Settle string `json:"settle"` // how
	// Share is how much of what is open would be settled, as a mean, if it were known
	// exactly: of the variance of all open verdicts together, between 0 and 1.
	Share float64 `json:"share"`
	// Answers are those of which it settles a twentieth or more.
	Answers []string `json:"answers"`
}

// Draws are sorted into this many bins of each doubt, with at least fewest in each.
const (
	bins   = 20
	fewest = 10
)

// first returns the measurement that settles most of the verdicts that are open, and
// which are. A verdict is taken as two figures, whether it holds and whether it fails,
// each 0 or 1: their variance is what is open.
func first(e *enclosure.Enclosure, o *Options, net *chance.Net, headings []heading, all []outcome) (*Measure, []string) {
	open, names := verdicts(headings, all[:o.Draws*len(headings)])
	list := []string{}
	for i, id := range names {
		if i == 0 || names[i-1] != id {
			list = append(list, id)
		}
	}
	if len(open) == 0 || o.Draws < bins*fewest {
		return nil, list
	}
	total, part := 0.0, make([]float64, len(open))
	for i := range open {
		part[i] = chance.Sum(open[i]).Variance
		total += part[i]
	}
	var best *Measure
	u := make([]float64, o.Draws)
	for d := range e.Doubts {
		x := &e.Doubts[d]
		if x.Settle == "" {
			continue
		}
		for i := range u {
			u[i] = net.Coordinate(uint32(i), d)
		}
		m := &Measure{What: x.What, Settle: x.Settle}
		for i, y := range open {
			known := chance.Known(u, y, bins)
			m.Share += known * part[i] / total
			if n := len(m.Answers); known >= 0.05 && (n == 0 || m.Answers[n-1] != names[i]) {
				m.Answers = append(m.Answers, names[i])
			}
		}
		if len(m.Answers) > 0 && (best == nil || m.Share > best.Share) {
			best = m
		}
	}
	return best, list
}

// verdicts returns, for each question that is open, whether it holds and whether it
// fails in each draw, as far as that varies, and the names of the questions.
func verdicts(headings []heading, drawn []outcome) (open [][]float64, names []string) {
	for a, h := range headings {
		for _, v := range [...]answers.Verdict{answers.Holds, answers.Fails} {
			y, hits := make([]float64, 0, len(drawn)/len(headings)), 0
			for i := a; i < len(drawn); i += len(headings) {
				hit := 0.0
				if answers.Verdict(drawn[i].verdict) == v {
					hit = 1
					hits++
				}
				y = append(y, hit)
			}
			if hits > 0 && hits < len(y) {
				open, names = append(open, y), append(names, h.id)
			}
		}
	}
	return open, names
}
